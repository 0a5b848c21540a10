package slingseal.handheld.support

import org.junit.Assert.assertEquals
import slingseal.core.WalkView
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef

/** The ways to a walk that several tests go. */
abstract class AtTheLoad : OnAPhone() {
    /** The tag of the load that was walked to its decision. */
    protected lateinit var tag: slingseal.core.CodeView

    protected fun onlyWalk() = core.walk(core.start().inHand.single().walk)

    /** A phone at the first page of the recap, everything answered good. */
    protected fun atTheDecision(load: String = "KM-015"): Screen {
        zone.inspector()
        tag = zone.tag(load)
        var walk = core.beginWalk(tag.text)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        return open(walk.walk)
    }

    protected fun open(walk: String): Screen {
        val screen = Screen(Zone.launch().get())
        screen.hand.backTo(Place.Start::class)
        screen.hand.go(Place.Walk(WalkRef.Inspection(walk)))
        screen.settle()
        return screen
    }

    protected fun Screen.recap() {
        while (hasKey("Next")) press("Next")
    }

    /** A walk at the first card that has a point which `is` what is wanted. */
    protected fun walkTo(
        tag: slingseal.core.CodeView,
        wanted: (slingseal.core.PointView) -> Boolean,
    ): WalkView {
        var walk = core.beginWalk(tag.text)
        while (walk.card!!.points.none(wanted)) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        return walk
    }
}
