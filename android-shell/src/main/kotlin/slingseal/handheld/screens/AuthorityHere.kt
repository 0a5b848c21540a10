package slingseal.handheld.screens

import slingseal.core.AuthorityView
import slingseal.core.HandheldException
import slingseal.handheld.Shell

/** The authority of this phone, where it is one: whether it is, is no error. */
internal fun authorityHere(shell: Shell): AuthorityView? =
    try {
        shell.core.authority()
    } catch (e: HandheldException.Refused) {
        android.util.Log.i("slingseal", "no authority: ${e.message}")
        null
    } catch (e: HandheldException.NotFound) {
        android.util.Log.i("slingseal", "no authority: ${e.message}")
        null
    }
