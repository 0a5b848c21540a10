package slingseal.handheld.screens

import slingseal.core.MovementKind
import slingseal.core.ReportMade
import slingseal.handheld.Shell
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/**
 * On disk at once and signed by nobody: nothing is waited for. Where somebody wants to sign, the PIN comes
 * first.
 */
internal fun Draft.give(shell: Shell) {
    val event = event ?: return
    if (sign) return shell.go(Place.ReportPin(this))
    shell.ask({ report(request(event), null) }) { given(this@give, it) }
}

/** The same under a PIN. */
internal fun Draft.give(shell: Shell, pin: String) {
    val core = shell.core
    val event = event ?: return
    shell.work({ core.report(request(event), pin) }) { given(this@give, it) }
}

/** Nothing of the way there is left to go back into: what was given is given. */
private fun Shell.given(draft: Draft, made: ReportMade) {
    feel(draft.beat())
    backTo(if (lies(Place.Arrival::class)) Place.Arrival::class else Place.Start::class)
    go(Place.Report(made.report.load, made.report.digest))
}

private fun Draft.beat() =
    if (event == MovementKind.REFUSED || event == MovementKind.LOST) Beat.DEFICIENCY else Beat.GOOD
