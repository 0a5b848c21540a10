package slingseal.handheld.screens

import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.Shell
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.doOn
import slingseal.handheld.sense.Beat

/**
 * Does a request on a walk and feels its answer; then goes on with the walk as it is. What the walk refuses
 * is told on the page, made anew.
 */
internal fun Shell.answer(walk: WalkRef, request: WalkRequest, beat: Beat, then: Shell.(WalkView) -> Unit) =
    ask({ doOn(walk, request) }) { view ->
        val refused = view.refused
        feel(if (refused == null) beat else Beat.REFUSED)
        if (refused == null) return@ask then(view)
        notice = refused.message
        redraw()
    }
