package slingseal.handheld.screens

import slingseal.core.HandheldException
import slingseal.core.Received
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.places.CopyPart
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Place
import slingseal.handheld.places.TeamStep
import slingseal.handheld.sense.Beat

/** The passphrase, in letters; a new one twice. It stands in no place and is never shown. */
class AuthorityWordsScreen(shell: Shell, override val place: Place.AuthorityWords) :
    WritingScreen(shell, place) {
    private val deed = place.deed
    private var first: String? = null
    override val secret
        get() = true

    override val hidden
        get() = true

    override val title
        get() = text(deed.title)

    override val guide: String
        get() =
            when {
                deed is Deed.Restore -> text(R.string.copy_restore_guide)
                deed !is Deed.Begin -> text(R.string.passphrase_guide)
                first == null -> text(R.string.passphrase_new)
                else -> text(R.string.passphrase_again)
            }

    override val done
        get() = text(R.string.authority_sign)

    override fun take(words: String) {
        if (words.isBlank()) return refused(R.string.nothing_typed)
        if (deed is Deed.Begin) {
            val before = first
            first = if (before == null) words else null
            if (before == null) return shell.redrawSame()
            if (before != words) return refused(R.string.passphrases_differ)
        }
        val core = shell.core
        when (deed) {
            is Deed.Begin ->
                shell.work({ core.authorityInit(deed.name, words, deed.lists) }) {
                    if (lies(Place.Team::class)) led(TeamStep.CARD) else signed(R.string.authority_begun)
                }
            is Deed.Approve ->
                shell.work({ core.approve(deed.lists, null, words) }) { signed(R.string.authority_signed) }
            is Deed.Withdraw ->
                shell.work({ core.withdraw(deed.lists, null, words) }) { signed(R.string.authority_signed) }
            is Deed.Revoke ->
                shell.work({ core.revoke(listOf(deed.credential), null, words) }) {
                    signed(R.string.authority_signed)
                }
            Deed.Renew ->
                shell.work({ core.revoke(emptyList(), null, words) }) { signed(R.string.authority_signed) }
            Deed.Copy ->
                shell.work({ core.copyAuthority(words) }) {
                    CopyMade.copy = it
                    feel(Beat.GOOD)
                    backTo(Place.Authority::class)
                    go(Place.Copy(CopyPart.FIRST))
                }
            is Deed.Restore ->
                shell.work({ core.restoreAuthority(deed.part, deed.other, words) }) {
                    CopyKeptScreen.done(this)
                    news = activity.getString(R.string.copy_restored)
                    backTo(Place.Start::class)
                    go(Place.Authority)
                }
            is Deed.Issue -> {
                val (request, holder, _, roles, days) = deed.issuing
                val issue = slingseal.core.Issue(request, roles, expires(days), null, null)
                shell.work({
                    val code = core.issue(issue, words)
                    // this phone's own is taken in at once; whose it is, is no error
                    val own =
                        try {
                            (core.receive(code.text) as? Received.Credential)?.own == true
                        } catch (e: HandheldException) {
                            android.util.Log.i("slingseal", "not taken in: ${e.message}")
                            false
                        }
                    code to own
                }) { (code, own) ->
                    feel(Beat.GOOD)
                    backTo(if (lies(Place.Team::class)) Place.Team::class else Place.Authority::class)
                    go(Place.AuthorityCredential(code.text, holder, own))
                }
            }
        }
    }

    private fun refused(id: Int) {
        shell.notice = text(id)
        shell.feel(Beat.REFUSED)
        shell.redrawSame()
    }

    /** To the next step of the guide. */
    private fun Shell.led(step: TeamStep) {
        feel(Beat.GOOD)
        backTo(Place.Team::class)
        swap(Place.Team(step))
    }

    /** To the authority's page, with its new roster: everybody needs that. */
    private fun Shell.signed(id: Int) {
        feel(Beat.GOOD)
        news = activity.getString(id)
        backTo(Place.Authority::class)
    }

    /** The day on which so many days are over, UTC. */
    private fun expires(days: Int): String {
        val calendar =
            java.util.Calendar.getInstance(java.util.TimeZone.getTimeZone("UTC"), java.util.Locale.ROOT)
        calendar.add(java.util.Calendar.DAY_OF_MONTH, days)
        return java.text
            .SimpleDateFormat("yyyy-MM-dd", java.util.Locale.ROOT)
            .apply { timeZone = calendar.timeZone }
            .format(calendar.time)
    }
}
