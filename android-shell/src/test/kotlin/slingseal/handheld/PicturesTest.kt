package slingseal.handheld

import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.ExamRunState
import slingseal.core.Handheld
import slingseal.core.Role
import slingseal.handheld.look.Palette
import slingseal.handheld.places.Place
import slingseal.handheld.support.DayScenes
import slingseal.handheld.support.ExamScenes
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Zone

/**
 * Every page in every light, both ways up, and with text at twice its size: drawn, written as a picture, and
 * measured: nothing cut off, every word at 7:1 (WCAG 2.2, 1.4.6), keys of the glove pages 120 dp large and 82
 * dp apart (MIL-STD-1472E).
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PicturesTest {
    private lateinit var zone: Zone
    private lateinit var core: Handheld
    private lateinit var pages: Map<String, Place>

    @Before
    fun aPhoneInTheMiddleOfItsDay() {
        Zone.newPhone()
        Zone.camera()
        Zone.nfc()
        zone = Zone()
        zone.inspector(Role.INSPECTOR, Role.INSTRUCTOR)
        core = Core.of(RuntimeEnvironment.getApplication())
        pages = DayScenes(zone, core).places() + ExamScenes(zone, core).places()
    }

    private val judge by lazy { PageJudge(pages) }

    private fun draw(
        group: String,
        qualifiers: String,
        scale: Float,
        palettes: List<Palette>,
        only: Set<String>? = null,
    ) = judge.draw(group, qualifiers, scale, palettes, only)

    private fun judge() = judge.judge()

    @Test
    fun upright() {
        draw("upright", "w360dp-h640dp-port-xhdpi", 1f, Palette.entries)
        judge()
    }

    @Test
    fun onItsSide() {
        draw("side", "w640dp-h360dp-land-xhdpi", 1f, Palette.entries)
        judge()
    }

    @Test
    fun uprightWithLargeText() {
        draw("upright-200", "w360dp-h640dp-port-xhdpi", 2f, listOf(Palette.DAY))
        judge()
    }

    @Test
    fun onItsSideWithLargeText() {
        draw("side-200", "w640dp-h360dp-land-xhdpi", 2f, listOf(Palette.DAY))
        judge()
    }

    /** The words of the program and of the procedure in Spanish; and a phone of today's usual size. */
    @Test
    fun inSpanishOnATallPhone() {
        // the core words a walk when it opens it: this phone speaks Spanish from the start
        Core.close()
        draw(
            "spanish",
            "es-rMX-w411dp-h891dp-port-xhdpi",
            1f,
            listOf(Palette.DAY),
            setOf(
                "start",
                "card",
                "deficiency",
                "go",
                "no-go",
                "settings",
                "set-up",
                "decide",
                "decide-last",
                "not-fit",
                "pin",
                "count",
                "void",
                "sticker",
                "files",
                "trust",
                "trust-digits",
                "trust-beside",
                "not-applicable",
                "finding-reject",
                "reject",
                "wait",
                "go-seal",
                "arrival",
                "arrival-story",
                "what",
                "when",
                "when-time",
                "gear-marked",
                "refuse",
                "report",
                "report-against",
                "report-pin",
                "exam-card",
                "exam-result",
                "exam-key",
                "exam-plan",
                "exam-standard",
            ),
        )
        judge()
    }

    /** The doors to examinations, which are shut while a run goes on. */
    @Test
    fun examinationsWhileNoRunGoesOn() {
        for (run in core.examRuns().filter { it.state == ExamRunState.OPEN }) core.examEnd(run.run)
        val doors = setOf("exams", "card")
        draw("doors", "w360dp-h640dp-port-xhdpi", 1f, Palette.entries, doors)
        draw("doors-side-200", "w640dp-h360dp-land-xhdpi", 2f, listOf(Palette.DAY), doors)
        judge()
    }
}
