package slingseal.handheld

import android.graphics.Rect
import android.view.View
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.PointKind
import slingseal.core.WalkRequest
import slingseal.handheld.look.Glove
import slingseal.handheld.look.Key
import slingseal.handheld.look.Palette
import slingseal.handheld.look.VerdictView
import slingseal.handheld.screens.Purpose
import slingseal.handheld.screens.Why
import slingseal.handheld.support.Contrast
import slingseal.handheld.support.Gloves
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/**
 * Every page in every light, both ways up, and with text at twice its size: drawn, written as a picture, and measured:
 * nothing cut off, every word at 7:1 (WCAG 2.2, 1.4.6), keys of the glove pages 120 dp large and 82 dp apart (MIL-STD-1472E).
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PicturesTest {
    private lateinit var zone: Zone
    private lateinit var core: Handheld
    private lateinit var pages: Map<String, Place>
    private val faults = mutableListOf<String>()

    @Before
    fun aPhoneInTheMiddleOfItsDay() {
        Zone.newPhone()
        zone = Zone()
        zone.inspector()
        core = Core.of(RuntimeEnvironment.getApplication())
        pages = scenes()
    }

    private fun scenes(): Map<String, Place> {
        val sealedTag = zone.tag("KM-012")
        val seal = Zone.sealed(core, sealedTag)
        val tag = zone.tag()
        val vehicle = zone.vehicleTag()

        // a walk in its middle, with one deficiency open on the card before
        var walk = core.beginWalk(tag.text)
        val id = walk.walk
        repeat(5) { walk = core.doWalk(id, answer(walk)) }
        val bad = walk.card!!
        val point = bad.points.first { it.deficiencies.isNotEmpty() }
        val name = point.deficiencies.first().name
        walk = core.doWalk(id, WalkRequest.Deficiency(bad.number, point.id, name, null, emptyList()))
        val open = walk.findings.single().number.toString()
        while (walk.card!!.number.toInt() < 12) walk = core.doWalk(id, answer(walk))

        // one that asks for a count, and one that cannot be answered as a whole: a choice, a serial number
        var counted = core.beginWalk(zone.tag("KM-018").text)
        while (counted.card!!.points.none { it.kind is PointKind.Count }) counted = core.doWalk(counted.walk, answer(counted))
        val count = counted.card!!.points.first { it.kind is PointKind.Count }
        var asked = core.beginWalk(zone.tag("KM-021", procedure = "longline").text)
        while (asked.card!!.goodEnabled) asked = core.doWalk(asked.walk, answer(asked))
        val choice = asked.card!!.points.first { it.needsValue }

        // one to be decided, and one decided
        val deciding = walkedThrough(zone.tag("KM-019").text)
        val decided = walkedThrough(zone.tag("KM-020").text)
        core.doWalk(decided, WalkRequest.Decide(true, null))

        val card = core.walk(id).card!!
        val known = card.points.first { it.deficiencies.isNotEmpty() }
        val authority = zone.desk.authority()
        return linkedMapOf(
            "start" to Place(PageKind.START),
            "scan" to Place(PageKind.SCAN, Purpose.INSPECT.name),
            "type" to Place(PageKind.TYPE, Purpose.INSPECT.name),
            "tag" to Place(PageKind.TAG, vehicle.text),
            "card" to Place(PageKind.WALK, id),
            "card-value" to Place(PageKind.WALK, asked.walk),
            "choice" to Place(PageKind.VALUE, asked.walk, asked.card!!.number.toString(), choice.id, ""),
            "count" to Place(PageKind.VALUE, counted.walk, counted.card!!.number.toString(), count.id, ""),
            "more" to Place(PageKind.MORE, id),
            "cards" to Place(PageKind.CARDS, id),
            "pick" to Place(PageKind.PICK, id, card.number.toString()),
            "deficiency" to Place(PageKind.DEFICIENCY, id, card.number.toString(), known.id, known.deficiencies.first().name, "", ""),
            "note" to Place(PageKind.WRITE, id, Why.NOTE.name, card.number.toString(), known.id, known.deficiencies.first().name, "", ""),
            "findings" to Place(PageKind.FINDINGS, id),
            "finding" to Place(PageKind.FINDING, id, open),
            "decide" to Place(PageKind.WALK, deciding),
            "pin" to Place(PageKind.WALK, decided),
            "seal" to Place(PageKind.SEAL, seal.record),
            "hook" to Place(PageKind.HOOK),
            "go" to Place(PageKind.VERDICT, seal.code.text, sealedTag.text),
            "hold" to Place(PageKind.VERDICT, seal.code.text, ""),
            "no-go" to Place(PageKind.VERDICT, seal.code.text, tag.text),
            "records" to Place(PageKind.RECORDS),
            "record" to Place(PageKind.RECORD, seal.record),
            "set-up" to Place(PageKind.SET_UP),
            "trust" to Place(PageKind.TRUST, authority.card.text, authority.name, authority.fingerprint),
            "request" to Place(PageKind.REQUEST),
            "name" to Place(PageKind.NAME),
            "new-pin" to Place(PageKind.NEW_PIN, "Thistle 7", ""),
            "settings" to Place(PageKind.SETTINGS),
        )
    }

    private fun answer(walk: slingseal.core.WalkView): WalkRequest {
        val card = walk.card!!
        val asking = card.points.firstOrNull { it.needsValue && it.state == slingseal.core.PointState.UNANSWERED }
        if (card.goodEnabled || asking == null) return WalkRequest.CardGood(card.number)
        val value = when (val kind = asking.kind) {
            is PointKind.Count -> (kind.expected ?: 3u).toString()
            is PointKind.Choice -> kind.options.first().name
            else -> "seen"
        }
        return WalkRequest.Answer(card.number, asking.id, value)
    }

    private fun walkedThrough(tag: String): String {
        var walk = core.beginWalk(tag)
        while (walk.card != null) walk = core.doWalk(walk.walk, answer(walk))
        return walk.walk
    }

    private fun draw(group: String, qualifiers: String, scale: Float, palettes: List<Palette>, only: Set<String>? = null) {
        RuntimeEnvironment.setQualifiers(qualifiers)
        RuntimeEnvironment.setFontScale(scale)
        val controller = Zone.launch()
        val activity = controller.get()
        for (palette in palettes) {
            activity.changePalette(palette)
            for ((name, place) in pages) {
                if (only != null && name !in only) continue
                activity.backTo(PageKind.START)
                if (place.page != PageKind.START) activity.go(place)
                val screen = Screen(activity)
                screen.settle()
                val where = "$group-${palette.name.lowercase()}/$name"
                val picture = screen.picture(where)
                wordsAreWhole(screen, where)
                contrast(screen, picture, where)
                if (name in GLOVE_PAGES) gloves(screen, where)
            }
        }
        controller.pause().stop().destroy()
    }

    private fun wordsAreWhole(screen: Screen, where: String) {
        for (view in screen.shown()) {
            when (view) {
                is Key -> if (!view.fits) faults += "$where: the label \"${view.label}\" does not fit its key of ${view.width} x ${view.height}"
                is TextView -> {
                    val layout = view.layout ?: continue
                    val room = view.height - view.totalPaddingTop - view.totalPaddingBottom
                    if (layout.height > room && !inScroll(view)) faults += "$where: \"${view.text}\" is cut off"
                    for (line in 0 until layout.lineCount) if (layout.getLineMax(line) > layout.width + 1) faults += "$where: a word of \"${view.text}\" is wider than its line"
                }
            }
        }
    }

    private fun inScroll(view: View): Boolean = generateSequence(view.parent) { it.parent }.any { it is android.widget.ScrollView }

    private fun contrast(screen: Screen, picture: android.graphics.Bitmap, where: String) {
        for (view in screen.shown()) {
            if (view !is TextView && view !is Key && view !is VerdictView) continue
            if (view is TextView && view.text.isNullOrBlank()) continue
            val seen = Rect()
            if (!view.getGlobalVisibleRect(seen)) continue
            if (view is Key) seen.inset(seen.width() / 8, seen.height() / 8)
            if (seen.width() < 12 || seen.height() < 24) continue
            val drawn = Contrast.drawn(picture, seen)
            if (drawn == null) {
                faults += "$where: nothing can be seen where \"${(view as? TextView)?.text ?: view.contentDescription}\" is"
                continue
            }
            val (under, on) = drawn
            val ratio = Contrast.ratio(under, on)
            if (ratio < 7.0) faults += "$where: \"${(view as? TextView)?.text ?: view.contentDescription}\" has %.1f:1".format(ratio)
        }
    }

    private fun gloves(screen: Screen, where: String) {
        val density = screen.activity.resources.displayMetrics.density
        val keys = screen.keys().associate { it.label.toString() to screen.box(it) }
        for ((name, box) in keys) {
            if (box.width() < Glove.KEY * density || box.height() < Glove.KEY * density) {
                faults += "$where: \"$name\" is ${box.width() / density} x ${box.height() / density} dp"
            }
        }
        for ((pair, gap) in Gloves.gaps(keys)) if (gap < Glove.GAP * density) faults += "$where: $pair are ${gap / density} dp apart"
        measured += keys.size
    }

    private var measured = 0

    private fun judge() {
        assertTrue(faults.joinToString("\n", "\n"), faults.isEmpty())
        assertTrue("no key of a glove page was measured", measured > 0)
    }

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
        draw("spanish", "es-rMX-w411dp-h891dp-port-xhdpi", 1f, listOf(Palette.DAY), setOf("start", "card", "deficiency", "go", "settings"))
        judge()
    }

    @Test
    fun everyStringIsInBothLanguages() {
        fun strings(folder: String) = Regex("name=\"(\\w+)\">([^<]*)<").findAll(java.io.File("src/main/res/$folder/strings.xml").readText())
            .associate { it.groupValues[1] to it.groupValues[2] }
        val english = strings("values")
        val spanish = strings("values-es")
        assertEquals(english.keys, spanish.keys)
        val places = Regex("%\\d\\$[sd]")
        for ((name, words) in english) assertEquals(name, places.findAll(words).map { it.value }.toSet(), places.findAll(spanish.getValue(name)).map { it.value }.toSet())
        assertTrue(english.size > 100)
    }

    private companion object {
        val GLOVE_PAGES = setOf("card", "card-value", "deficiency", "finding", "hook")
    }
}
