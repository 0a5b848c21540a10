package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.Handheld
import slingseal.core.Subject
import slingseal.core.WalkRequest
import slingseal.core.WalkView

/** Which walk a page is of: the same pages walk an inspection and the run of an examination. */
sealed interface WalkRef : Serializable {
    data class Inspection(val walk: String) : WalkRef

    data class Run(val run: String) : WalkRef
}

/** The inspection that this is the walk of. */
internal val WalkView.ref
    get() = WalkRef.Inspection(walk)

/** The walk itself; of a run no page is given more. */
internal fun Handheld.walkOf(on: WalkRef): WalkView =
    when (on) {
        is WalkRef.Inspection -> walk(on.walk)
        is WalkRef.Run -> examRun(on.run).walk
    }

internal fun Handheld.doOn(on: WalkRef, request: WalkRequest): WalkView =
    when (on) {
        is WalkRef.Inspection -> doWalk(on.walk, request)
        is WalkRef.Run -> examDo(on.run, request).walk
    }

/**
 * Whether a walk is of a load, by its tag, and not of a piece, an aircraft's hooks, a zone or what is done
 * with a load.
 */
internal val WalkView.ofLoad: Boolean
    get() = subject == Subject.LOAD
