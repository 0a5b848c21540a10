package slingseal.handheld.screens

import android.view.View
import java.io.Serializable
import slingseal.core.AuthorityView
import slingseal.core.CredentialState
import slingseal.core.HandheldException
import slingseal.core.Received
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

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

/**
 * The authority in the hand: whose word it is that lets anybody seal. What everybody needs of it stands
 * first, in the order in which a team is begun: its card, then each one's key, then the roster.
 */
class AuthorityScreen(shell: Shell, place: Place, private val authority: AuthorityView) :
    Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.authority)

    private val list = shell.attempt { shell.core.issued() }
    private val own = shell.attempt { shell.core.setUp() }

    override fun build(): View {
        val people =
            list?.issued.orEmpty().count {
                it.state == CredentialState.GOOD || it.state == CredentialState.RUNS_OUT_SOON
            }
        val approved = list?.approved.orEmpty().count { it.withdrawn == null }
        val facts =
            parts.facts(
                listOf(
                    text(R.string.fingerprint) to authority.fingerprint,
                    text(R.string.roster) to
                        text(
                            R.string.roster_about,
                            authority.sequence.toInt(),
                            authority.rosterExpires.dtg,
                            list?.issued.orEmpty().count { it.state == CredentialState.REVOKED },
                        ),
                ),
                18,
            )
        return page(
            authority.name,
            body(
                *list
                    ?.warnings
                    .orEmpty()
                    .map {
                        parts.panel(
                            parts.signed(
                                Sign.WARN,
                                parts.words(it, 18, bold = true, ground = palette.panel),
                                palette.panel,
                            ),
                            thick = true,
                        )
                    }
                    .toTypedArray(),
                parts.panel(facts),
                parts.column(
                    *listOfNotNull(
                            key(
                                Face.ROW,
                                text(R.string.team_guide),
                                Sign.NEXT,
                                text(R.string.team_guide_about),
                            ) {
                                shell.go(Place.Team(TeamStep.CARD))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_card),
                                Sign.SHOW,
                                text(R.string.authority_card_about),
                            ) {
                                shell.go(Place.AuthorityShown(AuthorityCode.CARD))
                            },
                            *ownKeys(shell, own).toTypedArray(),
                            key(
                                Face.ROW,
                                text(R.string.authority_roster),
                                Sign.SHOW,
                                text(R.string.authority_roster_about),
                            ) {
                                shell.go(Place.AuthorityShown(AuthorityCode.ROSTER))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_people),
                                Sign.LIST,
                                text(R.string.authority_people_count, people),
                            ) {
                                shell.go(Place.AuthorityPeople)
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_lists),
                                Sign.TICK,
                                text(R.string.authority_lists_count, approved),
                            ) {
                                shell.go(Place.AuthorityLists())
                            },
                            key(Face.ROW, text(R.string.copy), Sign.KEY, text(R.string.copy_about)) {
                                shell.go(Place.AuthorityWords(Deed.Copy))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_hand_on),
                                Sign.SPREAD,
                                text(R.string.authority_hand_on_about),
                            ) {
                                MoveOutScreen.ready(shell, null) { go(it) }
                            },
                            key(
                                Face.ROW,
                                text(R.string.procedures_out),
                                Sign.SHOW,
                                text(R.string.procedures_out_about),
                            ) {
                                shell.go(Place.ProceduresOut())
                            },
                        )
                        .toTypedArray(),
                    space = 14,
                ),
                parts.words(text(R.string.authority_lost), 16),
            ),
            listOf(
                key(Face.GOOD, text(R.string.authority_scan), Sign.KEY) {
                    shell.go(Place.Scan(Purpose.KeyRequest))
                }
            ),
        )
    }

    companion object {
        /** Where this phone is no authority yet, the way to become one. */
        fun of(shell: Shell, place: Place): Screen =
            authorityHere(shell)?.let { AuthorityScreen(shell, place, it) }
                ?: TeamScreen(shell, Place.Team(TeamStep.BEGIN))

        const val CARD = "card"
        const val ROSTER = "roster"

        /** For how long a credential may be given, in days; the first is what stands there. */
        val DAYS = listOf(30, 7, 365)
    }
}

/** What the authority is called. */
class AuthorityNameScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    override val title
        get() = text(R.string.team_start)

    override val guide
        get() = text(R.string.authority_name_guide)

    override val done
        get() = text(R.string.next)

    override fun take(words: String) {
        if (words.isNotBlank()) return shell.swap(Place.AuthorityLists(words.trim()))
        shell.notice = text(R.string.nothing_typed)
        shell.redraw()
    }
}

/**
 * Which lists count: with a name, those of an authority that is about to begin; none is taken before somebody
 * says so.
 */
class AuthorityListsScreen(shell: Shell, override val place: Place.AuthorityLists) : Screen(shell, place) {
    private val name
        get() = place.name

    private val beginning
        get() = name != null

    private val picked
        get() = place.picked

    override val paneTitle: CharSequence
        get() = text(R.string.authority_lists)

    private val lists = shell.attempt { shell.core.procedures() }.orEmpty()
    private val approved =
        if (beginning) emptySet()
        else
            shell
                .attempt { shell.core.issued() }
                ?.approved
                .orEmpty()
                .filter { it.withdrawn == null }
                .map { it.id to it.version }
                .toSet()

    override fun build(): View {
        val rows =
            lists.map { list ->
                val already = (list.id to list.version) in approved
                val sign =
                    if (list.id in picked) if (already) Sign.CROSS else Sign.TICK
                    else if (already) Sign.TICK else Sign.NONE
                val state =
                    text(
                        if (list.id in picked)
                            if (already) R.string.authority_to_withdraw else R.string.authority_to_approve
                        else if (already) R.string.authority_approved else R.string.authority_not_approved
                    )
                key(
                        Face.ROW,
                        list.title,
                        sign,
                        "${text(R.string.procedure_version, list.id, list.version.toInt())} · $state",
                    ) {
                        toggle(list.id)
                    }
                    .apply { chosen = list.id in picked }
            }
        val all =
            key(Face.SIDE, text(R.string.authority_all), Sign.TICK) {
                put(lists.filter { (it.id to it.version) !in approved }.map { it.id }.toSet())
            }
        val next =
            key(Face.GOOD, text(if (beginning) R.string.next else R.string.authority_sign), Sign.NEXT) {
                next(lists.filter { (it.id to it.version) in approved }.map { it.id }.toSet())
            }
        return page(
            text(R.string.authority_lists),
            body(
                parts.words(text(R.string.authority_lists_words), 18),
                parts.column(*rows.toTypedArray(), space = 12),
            ),
            listOf(next, all),
        )
    }

    private fun toggle(id: String) = put(if (id in picked) picked - id else picked + id)

    private fun put(ids: Set<String>) = shell.swap(place.copy(picked = ids))

    private fun next(approved: Set<String>) {
        name?.let {
            return shell.go(Place.AuthorityWords(Deed.Begin(it, picked.sorted())))
        }
        val (back, on) = picked.partition { it in approved }
        when {
            picked.isEmpty() -> {
                shell.notice = text(R.string.authority_pick)
                shell.redraw()
            }
            // one roster says one thing: what is taken back goes first
            back.isNotEmpty() -> shell.go(Place.AuthorityWords(Deed.Withdraw(back.sorted())))
            else -> shell.go(Place.AuthorityWords(Deed.Approve(on.sorted())))
        }
    }
}

/** What the authority's passphrase opens its key for. */
sealed class Deed(val title: Int) : Serializable {
    /** [lists] are those that it approves from the beginning. */
    data class Begin(val name: String, val lists: List<String>) : Deed(R.string.team_start)

    data class Issue(val issuing: Issuing) : Deed(R.string.authority_issue)

    data class Revoke(val credential: String) : Deed(R.string.authority_revoke)

    data class Approve(val lists: List<String>) : Deed(R.string.authority_lists)

    data class Withdraw(val lists: List<String>) : Deed(R.string.authority_lists)

    /** Signs the roster anew, to hold longer. */
    data object Renew : Deed(R.string.authority_renew)

    /** Makes a copy in two parts. */
    data object Copy : Deed(R.string.copy)

    /** This phone becomes the authority of a copy, of which these are the parts. */
    data class Restore(val part: String, val other: String) : Deed(R.string.copy_restore)
}

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
