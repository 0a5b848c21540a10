package slingseal.handheld

import android.view.View
import android.view.ViewGroup
import android.widget.EditText
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.look.Key
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.WalkRef
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** What a screen reader stops at, page by page. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ReaderOrderTest : AtTheLoad() {
    /**
     * What a screen reader stops at, one after the other: the platform's own order by place, and what a view
     * asks to come after.
     */
    private fun stops(screen: Screen): List<View> {
        val out = mutableListOf<View>()
        fun visit(view: View) {
            if (
                !view.isShown ||
                    view.importantForAccessibility == View.IMPORTANT_FOR_ACCESSIBILITY_NO_HIDE_DESCENDANTS
            )
                return
            val speaks =
                !view.contentDescription.isNullOrBlank() || view is TextView && !view.text.isNullOrBlank()
            val stops =
                view.importantForAccessibility != View.IMPORTANT_FOR_ACCESSIBILITY_NO &&
                    (view.isClickable || view is EditText || speaks)
            if (stops) out += view
            // a group that is said in one breath is one stop
            if (stops && view is ViewGroup && !view.contentDescription.isNullOrBlank()) return
            if (view is ViewGroup) {
                val children = ArrayList<View>().also(view::addChildrenForAccessibility)
                children.forEach(::visit)
            }
        }
        visit(screen.root)
        // then what was asked to come after something: with all that lies in it
        val groups = screen.all().filter { it.accessibilityTraversalAfter != View.NO_ID }.toList()
        fun inside(view: View, of: View): Boolean =
            generateSequence(view as View?) { it.parent as? View }.any { it === of }
        repeat(groups.size) {
            for (group in groups) {
                val before = screen.root.findViewById<View>(group.accessibilityTraversalAfter) ?: continue
                val moved = out.filter { inside(it, group) }
                val last = out.indexOfLast { inside(it, before) }
                if (moved.isEmpty() || last < 0 || out.indexOf(moved.first()) > last) continue
                out.removeAll(moved)
                out.addAll(out.indexOfLast { inside(it, before) } + 1, moved)
            }
        }
        return out
    }

    private fun said(view: View): String =
        (view.contentDescription ?: (view as? TextView)?.text ?: "").toString()

    /** What changes without a press is said without one: nobody lands on it to hear that it is another. */
    @Test
    fun whatChangesByItselfIsSaidByItself() {
        Zone.camera()
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        fun upwards(view: View) = generateSequence(view as View?) { it.parent as? View }
        fun said(live: Int) =
            screen
                .shown()
                .filterIsInstance<TextView>()
                .filter { words -> upwards(words).any { it.accessibilityLiveRegion == live } }
                .map { it.text.toString() }
                .filter { it.isNotBlank() }
                .toList()
        for (place in listOf(Place.Scan(Purpose.Inspect), Place.Hook())) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
            assertTrue(
                "$place: what is to be shown next",
                said(View.ACCESSIBILITY_LIVE_REGION_POLITE).isNotEmpty(),
            )
            assertEquals(
                "$place: nothing was refused",
                emptyList<String>(),
                said(View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE),
            )
            screen.hand.notice = "not one of ours"
            screen.hand.redraw()
            screen.settle()
            assertEquals(
                "$place: a refusal",
                listOf("not one of ours"),
                said(View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE),
            )
        }
    }

    @Test
    fun aScreenReaderGoesThroughEveryPageFromItsWordsToItsKeys() {
        Zone.camera()
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val card = walk.card!!
        val point = card.points.first { it.deficiencies.isNotEmpty() }
        val screen = Screen(Zone.launch().get())
        val places =
            listOf(
                Place.Start,
                Place.Else,
                Place.SetUp,
                Place.Settings(),
                Place.Records(),
                Place.Move,
                Place.Files,
                Place.Scan(Purpose.Inspect),
                Place.Type(Purpose.Inspect),
                Place.Hook(),
                Place.Walk(WalkRef.Inspection(walk.walk)),
                Place.More(WalkRef.Inspection(walk.walk)),
                Place.Cards(WalkRef.Inspection(walk.walk)),
                Place.Pick(WalkRef.Inspection(walk.walk)),
                Place.Deficiency(
                    DeficiencyDraft(
                        WalkRef.Inspection(walk.walk),
                        1,
                        point.id,
                        point.deficiencies.first().name,
                    )
                ),
                Place.Arrival(zone.tag("KM-028").text),
                Place.What(Draft("KM-028")),
                Place.Gear(Draft("KM-028")),
                Place.Refuse(Draft("KM-028", slingseal.core.MovementKind.REFUSED)),
                Place.When(Draft("KM-028")),
                Place.NotFit(WalkRef.Inspection(walk.walk)),
                Place.NewPin("Thistle 7"),
                Place.Tag(zone.vehicleTag().text),
            )
        for (place in places) {
            screen.hand.backTo(Place.Start::class)
            if (place::class != Place.Start::class) screen.hand.go(place)
            screen.settle()
            // slow work, a camera or a voice that fails draw a page again as it stands
            screen.hand.redrawSame()
            screen.settle()
            val stops = stops(screen)
            val where = "$place: ${stops.map(::said)}"
            assertEquals("$where: each once", stops.size, stops.toSet().size)
            assertTrue("$where: nothing is silent", stops.all { said(it).isNotBlank() })
            val keys = screen.all().filterIsInstance<Key>().filter { it.isShown }.toList()
            assertTrue("$where: every key is reached", stops.containsAll(keys))
            val words =
                screen.all().filterIsInstance<TextView>().filter {
                    it.isShown &&
                        it.text.isNotBlank() &&
                        it.importantForAccessibility != View.IMPORTANT_FOR_ACCESSIBILITY_NO
                }
            assertTrue(
                "$where: every word is reached",
                words.all { text ->
                    stops.any {
                        it === text || generateSequence(text.parent) { p -> p.parent }.any { p -> p === it }
                    }
                },
            )
            // what answers comes after what is asked
            val answers =
                stops.indexOfFirst {
                    it is Key && said(it).startsWith("All good") ||
                        it is Key && said(it).startsWith("Correct it now") ||
                        it is Key && said(it).startsWith("Take it")
                }
            val heading = stops.indexOfFirst { it.isAccessibilityHeading }
            if (answers >= 0 && heading >= 0)
                assertTrue("$where: the words before the answer", heading < answers)
        }
        assertNotEquals(0, places.size)
    }
}
