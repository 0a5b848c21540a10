package slingseal.handheld

import java.time.Instant
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.core.ReportRequest
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.screens.ReportScreen
import slingseal.handheld.screens.Zulu
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/**
 * What a report says besides: its time, its aircraft and place, who signed it; how it travels, and where it
 * is read.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ReportTest : OnAPhone() {
    private fun only(load: String = "KM-015"): MovementView = core.movements(load).single()

    @Test
    fun aMissedReportIsGivenLaterAndSaysSo() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Now")
        screen.press("30 minutes ago")
        screen.press("Lifted")
        val report = only()
        assertTrue(report.later)
        assertEquals(1800.0, (report.written.unix - report.at.unix).toDouble(), 60.0)
        assertTrue(screen.words(), screen.words().contains("reported ${report.written.dtg}"))

        // and by its time
        screen.press("Done")
        screen.press("Equipment, more")
        screen.press("Now")
        screen.press("Give the time")
        for (digit in "2575") screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("No clock shows this"))
        repeat(4) { screen.press(screen.key("Erase"), settleFirst = false) }
        val at = Instant.now().minusSeconds(7 * 60)
        val digits =
            "%tH%<tM"
                .format(
                    java.util.Locale.ENGLISH,
                    java.util.Date.from(at).toInstant().atOffset(java.time.ZoneOffset.UTC),
                )
        for (digit in digits) screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Take it")
        screen.press("Lost or jettisoned")
        val lost = core.movements("KM-015").single { it.event == MovementKind.LOST }
        assertEquals(at.epochSecond / 60, lost.at.unix / 60)
        assertTrue(lost.later)
    }

    @Test
    fun aircraftAndPlaceGoAlongWhereSomebodyGivesThem() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        fun say(row: String, words: String) {
            screen.press(row)
            screen.write(words)
            screen.press("Take it")
        }
        say("Aircraft", "Heron 2")
        say("Place", "by the bridge")
        screen.press("Lost or jettisoned")
        assertEquals("no grid is told, and nothing given", 0, core.movements("KM-015").size)
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        say("Place", "33T WN 30740 61215")
        screen.press("Lost or jettisoned")
        assertEquals(
            listOf(MovementKind.LOST, "Heron 2", "33T WN 30740 61215"),
            only().let { listOf(it.event, it.aircraft, it.place) },
        )
        assertTrue(
            screen.words(),
            screen.words().contains("aircraft Heron 2") && screen.words().contains("at 33T WN 30740 61215"),
        )
    }

    @Test
    fun theLastTimeThatAClockShowed() {
        val now = Instant.parse("2026-11-26T00:10:00Z")
        assertEquals(Instant.parse("2026-11-26T00:05:00Z").epochSecond, Zulu.last("0005", now))
        assertEquals("yesterday", Instant.parse("2026-11-25T23:50:00Z").epochSecond, Zulu.last("2350", now))
        for (none in listOf("2400", "1260", "12", "")) assertEquals(none, null, Zulu.last(none, now))
        val report =
            core
                .report(
                    ReportRequest(
                        "KM-099",
                        MovementKind.SET_DOWN,
                        null,
                        null,
                        null,
                        null,
                        emptyList(),
                        emptyList(),
                        null,
                    ),
                    null,
                )
                .report
        assertEquals("as the core writes it", report.at.dtg, Zulu.dtg(report.at.unix))
    }

    @Test
    fun aReportIsSignedWhereSomebodyWantsTo() {
        zone.inspector()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Sign with your PIN")
        screen.press("Set down")
        assertEquals("nothing before the PIN", 0, core.movements("KM-015").size)
        screen.type(Zone.PIN)
        screen.press("Sign it")
        assertEquals("Lantern 1", only().by)
        assertTrue(screen.hand.front is ReportScreen)
    }

    @Test
    fun aReportGoesByCodeByMovingCodeAndByBundleAndTheStoryIsTold() {
        val tag = zone.tag()
        val hook = zone.core("hook").also(zone::meet)
        hook.readTag(tag.text)
        fun report(event: MovementKind) =
            hook.report(
                ReportRequest("KM-015", event, null, null, null, null, emptyList(), emptyList(), null),
                null,
            )
        val lifted = report(MovementKind.LIFTED)
        val screen = Screen(Zone.launch().get())
        // where moving codes are taken in, a report by itself is welcome
        screen.hand.go(Place.Scan(Purpose.Moving))
        screen.settle()
        screen.hand.see(Zone.camera(lifted.code))
        assertEquals(listOf(MovementKind.LIFTED), core.movements("KM-015").map { it.event })
        assertTrue(screen.words(), screen.words().contains("Load KM-015: lifted"))
        // and at the receiving side it leads to its load
        val down = report(MovementKind.SET_DOWN)
        screen.hand.go(Place.Scan(Purpose.Arrival))
        screen.settle()
        screen.hand.see(Zone.camera(down.code))
        assertEquals(Place.Arrival::class, screen.hand.front!!.place::class)
        assertTrue(screen.words(), screen.keys().count { it.contentDescription.contains("unsigned") } >= 2)

        report(MovementKind.DERIGGED)
        screen.hand.go(Place.Scan(Purpose.Moving))
        screen.settle()
        hook.movingBegin(null)
        var frame = 0u
        while (screen.hand.front!!.place::class != Place.Moved::class) {
            check(frame < 200u) { screen.words() }
            screen.hand.see(Zone.camera(hook.movingFrame(frame)))
            frame += 1u
        }
        assertTrue(screen.words(), screen.words().contains("Reports: 1 new"))
        assertEquals(3, core.movements("KM-015").size)
    }

    @Test
    fun theStoryStandsWhereALoadIsLookedAt() {
        zone.inspector()
        val seal = Zone.sealed(core, zone.tag("KM-012"))
        core.report(
            ReportRequest(
                "KM-012",
                MovementKind.LOST,
                null,
                null,
                null,
                null,
                emptyList(),
                emptyList(),
                "over the ridge",
            ),
            null,
        )
        val screen = Screen(Zone.launch().get())
        for (place in
            listOf(Place.Record(seal.record), Place.Tag(zone.tag("KM-012").text), Place.Arrival("KM-012"))) {
            screen.hand.go(place)
            screen.settle()
            val row = screen.keys().firstOrNull { it.label == "Lost or jettisoned" }
            assertTrue(
                "$place: ${screen.words()}",
                row != null && row.contentDescription.contains("over the ridge"),
            )
        }
        screen.press("Lost or jettisoned")
        assertTrue(screen.hand.front is ReportScreen)
    }
}
