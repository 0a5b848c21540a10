package slingseal.handheld.support

import android.graphics.Rect
import android.view.View
import android.widget.EditText
import android.widget.TextView
import org.junit.Assert.assertTrue
import org.robolectric.RuntimeEnvironment
import slingseal.handheld.Core
import slingseal.handheld.look.Glove
import slingseal.handheld.look.Key
import slingseal.handheld.look.Palette
import slingseal.handheld.look.VerdictView
import slingseal.handheld.places.Place

/**
 * Draws pages, writes them as pictures and measures them: nothing cut off, every word at 7:1 (WCAG 2.2,
 * 1.4.6), keys of the glove pages 120 dp large and 82 dp apart (MIL-STD-1472E).
 */
class PageJudge(private val pages: Map<String, Place>) {
    val faults = mutableListOf<String>()

    fun draw(
        group: String,
        qualifiers: String,
        scale: Float,
        palettes: List<Palette>,
        only: Set<String>? = null,
    ) {
        RuntimeEnvironment.setQualifiers(qualifiers)
        RuntimeEnvironment.setFontScale(scale)
        val controller = Zone.launch()
        val activity = controller.get()
        for (palette in palettes) {
            activity.changePalette(palette)
            for ((name, place) in pages) {
                if (only != null && name !in only || chosen != null && name !in chosen) continue
                activity.backTo(Place.Start::class)
                if (place::class != Place.Start::class) activity.go(place)
                val screen = Screen(activity)
                screen.settle()
                // slow work, a camera or a voice that fails draw a page again as it stands
                if (palette == Palette.SUN) activity.redrawSame().also { screen.settle() }
                val where = "$group-${palette.name.lowercase()}/$name"
                wordsAreWhole(screen, where)
                everyWordCanBeReadByScrolling(screen, where, further = palette == Palette.DAY)
                labels(screen, where)
                if (name in GLOVE_PAGES) gloves(screen, where)
                if (name in PAD_PAGES) pads(screen, where)
            }
        }
        controller.pause().stop().destroy()
    }

    fun wordsAreWhole(screen: Screen, where: String) {
        for (view in screen.shown()) {
            when (view) {
                is Key ->
                    if (!view.fits)
                        faults +=
                            "$where: the label \"${view.label}\" does not fit its key of ${view.width} x ${view.height}"
                is TextView -> {
                    val layout = view.layout ?: continue
                    val room = view.height - view.totalPaddingTop - view.totalPaddingBottom
                    if (layout.height > room && view !is EditText)
                        faults += "$where: \"${view.text}\" is cut off"
                    for (line in 0 until layout.lineCount) if (layout.getLineMax(line) > layout.width + 1)
                        faults += "$where: a word of \"${view.text}\" is wider than its line"
                }
            }
        }
    }

    /**
     * Measures each word where the whole of it can be seen, scrolling as a person does; a picture is written
     * at the first stop, and at every one by day. What no scrolling brings into sight is a fault, and so is
     * what is in sight and cannot be told from its ground.
     */
    fun everyWordCanBeReadByScrolling(screen: Screen, where: String, further: Boolean = true) {
        val waiting = screen.shown().filter(::isWritten).toMutableList()
        var stop = 0
        while (true) {
            val picture =
                if (stop == 0) screen.picture(where)
                else if (further) screen.picture("$where+$stop") else screen.pixels()
            stop += 1
            val inSight =
                waiting.filter {
                    screen.isWhole(it) || stop > 1 && it === waiting.first() && fillsItsScroll(screen, it)
                }
            for (view in inSight) contrast(screen, picture, view, where)
            waiting.removeAll(inSight.toSet())
            if (stop > 1 && inSight.isEmpty())
                faults += "$where: \"${said(waiting.removeAt(0))}\" cannot be brought into sight"
            screen.scrollTo(waiting.firstOrNull() ?: return)
        }
    }

    private fun isWritten(view: View) =
        when (view) {
            is TextView -> view.text.isNotBlank()
            else -> view is Key || view is VerdictView
        }

    /** Whether a view that is taller than the room it scrolls in takes all of that room. */
    private fun fillsItsScroll(screen: Screen, view: View): Boolean {
        val scroll = screen.scrollOf(view) ?: return false
        return view.height > scroll.height && screen.visible(view)?.height() == scroll.height
    }

    private fun said(view: View) = (view as? TextView)?.text ?: view.contentDescription

    private fun contrast(screen: Screen, picture: android.graphics.Bitmap, view: View, where: String) {
        val seen = screen.visible(view) ?: Rect()
        if (view is Key) seen.inset(seen.width() / 8, seen.height() / 8)
        val drawn = Contrast.drawn(picture, seen)
        if (drawn == null) {
            faults += "$where: nothing can be seen where \"${said(view)}\" is"
            return
        }
        val ratio = Contrast.ratio(drawn.first, drawn.second)
        if (ratio < 7.0) faults += "$where: \"${said(view)}\" has %.1f:1".format(ratio)
        read += 1
    }

    /** `-Dpages=go,arrival`: some pages alone, for whoever works on them. */
    private val chosen = System.getProperty("pages")?.split(',')?.toSet()
    private var read = 0

    /**
     * A screen reader has a word for everything that can be pressed, typed into or looked at, and a title to
     * land on.
     */
    private fun labels(screen: Screen, where: String) {
        for (view in screen.shown()) {
            val pictured = view is slingseal.handheld.look.CodeView || view is VerdictView
            if ((view.isClickable || pictured) && view.contentDescription.isNullOrBlank())
                faults += "$where: ${view.javaClass.simpleName} has no label"
        }
        if (
            screen.shown().none {
                it.isAccessibilityHeading ||
                    it.accessibilityLiveRegion == View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE ||
                    it is slingseal.handheld.look.CodeView
            }
        ) {
            faults += "$where: there is no title to land on"
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
        for ((pair, gap) in Gloves.gaps(keys)) if (gap < Glove.GAP * density)
            faults += "$where: $pair are ${gap / density} dp apart"
        measured += keys.size
    }

    /** The keys of a pad are of glove size; they touch each other, for an error there is erased. */
    private fun pads(screen: Screen, where: String) {
        val density = screen.activity.resources.displayMetrics.density
        val keys =
            screen.shown().filterIsInstance<slingseal.handheld.look.KeyGrid>().single().let { grid ->
                screen.all(grid).filterIsInstance<Key>()
            }
        for (key in keys) if (key.width < Glove.KEY * density || key.height < Glove.KEY * density) {
            faults += "$where: \"${key.label}\" is ${key.width / density} x ${key.height / density} dp"
        }
        measured += keys.count()
    }

    private var measured = 0

    fun judge() {
        assertTrue(faults.joinToString("\n", "\n"), faults.isEmpty())
        assertTrue(
            "no key of a glove page was measured",
            measured > 0 || pages.keys.none { it in GLOVE_PAGES || it in PAD_PAGES },
        )
        assertTrue("only $read words were measured", read > 20)
    }

    private companion object {
        val PAD_PAGES =
            setOf(
                "pin",
                "count",
                "when-time",
                "report-pin",
                "report-sign",
                "void-pin",
                "new-pin",
                "trust",
                "trust-digits",
                "weigh-number",
            )
        val GLOVE_PAGES =
            setOf(
                "card",
                "card-value",
                "deficiency",
                "finding",
                "finding-reject",
                "decide",
                "decide-last",
                "exam-card",
                "exam-value",
                "exam-call",
            )
    }

    /** Every page upright and on its side, in every light, and by day in letters of twice the size. */
    fun inEveryLight(name: String) {
        draw(name, "w360dp-h640dp-port-xhdpi", 1f, Palette.entries)
        draw("$name-side", "w640dp-h360dp-land-xhdpi", 1f, Palette.entries)
        draw("$name-200", "w360dp-h640dp-port-xhdpi", 2f, listOf(Palette.DAY))
        draw("$name-side-200", "w640dp-h360dp-land-xhdpi", 2f, listOf(Palette.DAY))
        judge()
    }

    /** Every page in Spanish, whose words are longer: the core is opened anew, in that language. */
    fun inSpanish(name: String) {
        Core.close()
        draw("$name-spanish", "es-rMX-w411dp-h891dp-port-xhdpi", 1f, listOf(Palette.DAY))
        draw("$name-spanish-side", "es-rMX-w640dp-h360dp-land-xhdpi", 1f, listOf(Palette.DAY))
        judge()
    }
}
