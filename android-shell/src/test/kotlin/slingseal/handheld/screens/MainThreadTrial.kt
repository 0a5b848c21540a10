package slingseal.handheld.screens

import slingseal.core.Handheld

/** A page that does what none may: for the trial of the watch. */
object MainThreadTrial {
    fun movingBegin(core: Handheld) = core.movingBegin(null)

    fun setUp(core: Handheld) = core.setUp()
}
