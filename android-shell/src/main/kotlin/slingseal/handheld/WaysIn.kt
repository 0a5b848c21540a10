package slingseal.handheld

import android.content.Intent
import slingseal.core.Handheld
import slingseal.core.WalkLineState
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.WalkRef
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.openRuns

/** What the program's shortcuts ask for. */
object Shortcut {
    const val INSPECT = "slingseal.handheld.INSPECT"
    const val HOOK = "slingseal.handheld.HOOK"
    const val ARRIVAL = "slingseal.handheld.ARRIVAL"
}

/**
 * The start; over it the run whose clock goes on, or the walk that was in the middle of being walked, if
 * there is one.
 */
internal fun Shell.beginning(core: Handheld): List<Place> {
    val start = Place.Start
    val runs = attempt { core.openRuns() }.orEmpty()
    if (runs.size == 1) return listOf(start, Place.Exams, Place.Walk(WalkRef.Run(runs.first().run)))
    val walking = attempt { core.start() }?.inHand?.filter { it.state == WalkLineState.WALKING }.orEmpty()
    return if (walking.size == 1) listOf(start, Place.Walk(WalkRef.Inspection(walking.first().walk)))
    else listOf(start)
}

/** What another program or a shortcut asks for: a bundle to take in, or a page. */
internal fun Shell.asked(intent: Intent) {
    when (intent.action) {
        Intent.ACTION_VIEW ->
            intent.data?.let {
                backTo(Place.Start::class)
                FileScreen.take(this, it)
            }
        Shortcut.INSPECT -> {
            backTo(Place.Start::class)
            go(Place.Scan(Purpose.Inspect))
        }
        Shortcut.HOOK -> {
            backTo(Place.Start::class)
            go(Place.Hook())
        }
        Shortcut.ARRIVAL -> {
            backTo(Place.Start::class)
            go(Place.Scan(Purpose.Arrival))
        }
    }
}
