package slingseal.handheld.screens

import android.view.View
import slingseal.core.AuthorityView
import slingseal.core.CredentialState
import slingseal.core.HandheldException
import slingseal.core.Received
import slingseal.handheld.PageKind
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
                                shell.go(Place(PageKind.TEAM, TeamScreen.CARD))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_card),
                                Sign.CODE,
                                text(R.string.authority_card_about),
                            ) {
                                shell.go(Place(PageKind.AUTHORITY_CODE, CARD))
                            },
                            *ownKeys(shell, own).toTypedArray(),
                            key(
                                Face.ROW,
                                text(R.string.authority_roster),
                                Sign.CODE,
                                text(R.string.authority_roster_about),
                            ) {
                                shell.go(Place(PageKind.AUTHORITY_CODE, ROSTER))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_people),
                                Sign.LIST,
                                text(R.string.authority_people_count, people),
                            ) {
                                shell.go(Place(PageKind.AUTHORITY_PEOPLE))
                            },
                            key(
                                Face.ROW,
                                text(R.string.authority_lists),
                                Sign.TICK,
                                text(R.string.authority_lists_count, approved),
                            ) {
                                shell.go(Place(PageKind.AUTHORITY_LISTS, "", ""))
                            },
                            key(Face.ROW, text(R.string.copy), Sign.KEY, text(R.string.copy_about)) {
                                shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.COPY.name))
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
                                Sign.CODE,
                                text(R.string.procedures_out_about),
                            ) {
                                shell.go(Place(PageKind.PROCEDURES_OUT, ""))
                            },
                        )
                        .toTypedArray(),
                    space = 14,
                ),
                parts.words(text(R.string.authority_lost), 16),
            ),
            listOf(
                key(Face.GOOD, text(R.string.authority_scan), Sign.KEY) {
                    shell.go(Place(PageKind.SCAN, Purpose.KEY_REQUEST.name))
                }
            ),
        )
    }

    companion object {
        /** Where this phone is no authority yet, the way to become one. */
        fun of(shell: Shell, place: Place): Screen =
            authorityHere(shell)?.let { AuthorityScreen(shell, place, it) }
                ?: TeamScreen(shell, Place(PageKind.TEAM, TeamScreen.BEGIN))

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
        if (words.isNotBlank()) return shell.swap(Place(PageKind.AUTHORITY_LISTS, words.trim(), ""))
        shell.notice = text(R.string.nothing_typed)
        shell.redraw()
    }
}

/**
 * Which lists count: with a name, those of an authority that is about to begin; none is taken before somebody
 * says so.
 */
class AuthorityListsScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val name
        get() = place.args[0]

    private val beginning
        get() = name.isNotEmpty()

    private val picked
        get() = place.args[1].split(',').filter { it.isNotEmpty() }.toSet()

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

    private fun put(ids: Set<String>) =
        shell.swap(Place(PageKind.AUTHORITY_LISTS, name, ids.sorted().joinToString(",")))

    private fun next(approved: Set<String>) {
        if (beginning)
            return shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.BEGIN.name, name, picked.joinToString(",")))
        val (back, on) = picked.partition { it in approved }
        when {
            picked.isEmpty() -> {
                shell.notice = text(R.string.authority_pick)
                shell.redraw()
            }
            // one roster says one thing: what is taken back goes first
            back.isNotEmpty() ->
                shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.WITHDRAW.name, back.joinToString(",")))
            else -> shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.APPROVE.name, on.joinToString(",")))
        }
    }
}

/** This phone's own credential is taken in as soon as it is issued. */
internal const val OWN = "own"

/** What the authority's passphrase opens its key for: one deed each. */
enum class Deed(val title: Int) {
    /** (name, lists to approve) */
    BEGIN(R.string.team_start),

    /** (request, holder, roles, days) */
    ISSUE(R.string.authority_issue),

    /** (credential) */
    REVOKE(R.string.authority_revoke),

    /** (lists) */
    APPROVE(R.string.authority_lists),
    WITHDRAW(R.string.authority_lists),

    /** Signs the roster anew, to hold longer. */
    RENEW(R.string.authority_renew),

    /** Makes a copy in two parts. */
    COPY(R.string.copy),

    /** (part, part): this phone becomes the authority of a copy. */
    RESTORE(R.string.copy_restore),
}

/** The passphrase, in letters; a new one twice. It stands in no place and is never shown. */
class AuthorityWordsScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    private val deed = Deed.valueOf(place.args[0])
    private val args
        get() = place.args.drop(1)

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
                deed == Deed.RESTORE -> text(R.string.copy_restore_guide)
                deed != Deed.BEGIN -> text(R.string.passphrase_guide)
                first == null -> text(R.string.passphrase_new)
                else -> text(R.string.passphrase_again)
            }

    override val done
        get() = text(R.string.authority_sign)

    override fun take(words: String) {
        if (words.isBlank()) return refused(R.string.nothing_typed)
        if (deed == Deed.BEGIN) {
            val before = first
            first = if (before == null) words else null
            if (before == null) return shell.redrawSame()
            if (before != words) return refused(R.string.passphrases_differ)
        }
        val core = shell.core
        val given = args
        fun ids(of: String) = of.split(',').filter { it.isNotEmpty() }
        when (deed) {
            Deed.BEGIN ->
                shell.work({ core.authorityInit(given[0], words, ids(given[1])) }) {
                    if (lies(PageKind.TEAM)) led(TeamScreen.CARD) else signed(R.string.authority_begun)
                }
            Deed.APPROVE ->
                shell.work({ core.approve(ids(given[0]), null, words) }) { signed(R.string.authority_signed) }
            Deed.WITHDRAW ->
                shell.work({ core.withdraw(ids(given[0]), null, words) }) {
                    signed(R.string.authority_signed)
                }
            Deed.REVOKE ->
                shell.work({ core.revoke(listOf(given[0]), null, words) }) {
                    signed(R.string.authority_signed)
                }
            Deed.RENEW ->
                shell.work({ core.revoke(emptyList(), null, words) }) { signed(R.string.authority_signed) }
            Deed.COPY ->
                shell.work({ core.copyAuthority(words) }) {
                    CopyMade.copy = it
                    feel(Beat.GOOD)
                    backTo(PageKind.AUTHORITY)
                    go(Place(PageKind.AUTHORITY_COPY, CopyScreen.FIRST))
                }
            Deed.RESTORE ->
                shell.work({ core.restoreAuthority(given[0], given[1], words) }) {
                    CopyKeptScreen.done(this)
                    news = activity.getString(R.string.copy_restored)
                    backTo(PageKind.START)
                    go(Place(PageKind.AUTHORITY))
                }
            Deed.ISSUE -> {
                val issue = slingseal.core.Issue(given[0], given[2], expires(given[3].toInt()), null, null)
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
                    backTo(if (lies(PageKind.TEAM)) PageKind.TEAM else PageKind.AUTHORITY)
                    go(Place(PageKind.AUTHORITY_CREDENTIAL, code.text, given[1], if (own) OWN else ""))
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
    private fun Shell.led(step: String) {
        feel(Beat.GOOD)
        backTo(PageKind.TEAM)
        swap(Place(PageKind.TEAM, step))
    }

    /** To the authority's page, with its new roster: everybody needs that. */
    private fun Shell.signed(id: Int) {
        feel(Beat.GOOD)
        news = activity.getString(id)
        backTo(PageKind.AUTHORITY)
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
