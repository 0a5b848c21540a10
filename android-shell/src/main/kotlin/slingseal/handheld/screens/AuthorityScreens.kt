package slingseal.handheld.screens

import android.view.View
import slingseal.core.AuthorityView
import slingseal.core.CredentialState
import slingseal.core.HandheldException
import slingseal.core.IssuedView
import slingseal.core.Received
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
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
class AuthorityScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.authority)

    override fun build(): View {
        val authority =
            authorityHere(shell) ?: return TeamScreen(shell, Place(PageKind.TEAM, TeamScreen.BEGIN)).build()
        val list = shell.attempt { shell.core.issued() }
        val people =
            list?.issued.orEmpty().count {
                it.state == CredentialState.GOOD || it.state == CredentialState.RUNS_OUT_SOON
            }
        val approved = list?.approved.orEmpty().count { it.withdrawn == null }
        val own = shell.attempt { shell.core.setUp() }
        val mine = own?.request?.takeIf { own.credential == null }
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
                            if (own?.request == null)
                                key(
                                    Face.ROW,
                                    text(R.string.make_key),
                                    Sign.KEY,
                                    text(R.string.authority_own_key),
                                ) {
                                    shell.go(Place(PageKind.NAME))
                                }
                            else null,
                            mine?.let { request ->
                                key(Face.ROW, text(R.string.authority_own), Sign.KEY, own.holder) {
                                    shell.go(
                                        Place(
                                            PageKind.AUTHORITY_ISSUE,
                                            request,
                                            own.holder.orEmpty(),
                                            own.fingerprint.orEmpty(),
                                            "",
                                            DAYS.first().toString(),
                                        )
                                    )
                                }
                            },
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

    override fun build(): View {
        val lists = shell.attempt { shell.core.procedures() }.orEmpty()
        val approved =
            if (beginning) emptySet()
            else
                shell
                    .attempt { shell.core.issued() }
                    ?.approved
                    .orEmpty()
                    .filter { it.withdrawn == null }
                    .map { it.id to it.version }
                    .toSet()
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
private const val OWN = "own"

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
                shell.work({ core.issue(issue, words) }) { code ->
                    feel(Beat.GOOD)
                    val own = (attempt { core.receive(code.text) } as? Received.Credential)?.own == true
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

/** Who asks, what they may do, and for how long. */
class AuthorityIssueScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val roles
        get() = place.args[3].split(',').filter { it.isNotEmpty() }

    private val days
        get() = place.args[4].toInt()

    override val paneTitle: CharSequence
        get() = text(R.string.authority_issue)

    override val spoken
        get() = text(R.string.authority_compare)

    override fun build(): View {
        val rows =
            ROLES.map { (role, name) ->
                key(
                        Face.ROW,
                        text(name),
                        if (role in roles) Sign.TICK else Sign.NONE,
                        text(if (role in roles) R.string.role_given else R.string.role_not_given),
                    ) {
                        put(if (role in roles) roles - role else roles + role, days)
                    }
                    .apply { chosen = role in roles }
            }
        val times =
            AuthorityScreen.DAYS.map { given ->
                key(
                        Face.ROW,
                        text(R.string.authority_days, given),
                        if (given == days) Sign.TICK else Sign.NONE,
                    ) {
                        put(roles, given)
                    }
                    .apply { chosen = given == days }
            }
        val facts =
            parts.facts(
                listOf(text(R.string.holder) to place.args[1], text(R.string.fingerprint) to place.args[2]),
                22,
            )
        return page(
            text(R.string.authority_issue),
            body(
                parts.panel(facts),
                parts.words(spoken, 19, bold = true),
                parts.eyebrow(text(R.string.roles)),
                parts.column(*rows.toTypedArray(), space = 12),
                parts.eyebrow(text(R.string.expires)),
                parts.column(*times.toTypedArray(), space = 12),
            ),
            listOf(key(Face.GOOD, text(R.string.authority_issue), Sign.KEY) { issue() }),
        )
    }

    private fun put(roles: List<String>, days: Int) =
        shell.swap(
            Place(
                PageKind.AUTHORITY_ISSUE,
                place.args[0],
                place.args[1],
                place.args[2],
                roles.joinToString(","),
                days.toString(),
            )
        )

    private fun issue() {
        if (roles.isEmpty()) {
            shell.notice = text(R.string.authority_no_role)
            shell.feel(Beat.REFUSED)
            return shell.redraw()
        }
        shell.go(
            Place(
                PageKind.AUTHORITY_WORDS,
                Deed.ISSUE.name,
                place.args[0],
                place.args[1],
                roles.joinToString(","),
                days.toString(),
            )
        )
    }

    private companion object {
        val ROLES =
            listOf(
                "inspector" to R.string.role_inspector,
                "planner" to R.string.role_planner,
                "hookup" to R.string.role_hookup,
                "leader" to R.string.role_leader,
                "instructor" to R.string.role_instructor,
            )
    }
}

/**
 * The card or the roster, for every phone of the team; beside the card the fingerprint, which is read out and
 * never scanned.
 */
class AuthorityCodeScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val card
        get() = place.args[0] == AuthorityScreen.CARD

    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(if (card) R.string.authority_card_words else R.string.authority_roster_words)

    override fun build(): View {
        val authority = authorityHere(shell) ?: return page(text(R.string.authority), body())
        val code =
            codeView(
                shell,
                if (card) authority.card else authority.roster,
                text(if (card) R.string.authority_card else R.string.authority_roster),
            )
        val facts =
            if (card) {
                listOf<Pair<CharSequence, CharSequence>>(
                    text(R.string.authority) to authority.name,
                    text(R.string.fingerprint) to authority.fingerprint,
                )
            } else {
                listOf(
                    text(R.string.roster) to text(R.string.authority_roster_no, authority.sequence.toInt()),
                    text(R.string.expires) to authority.rosterExpires.dtg,
                )
            }
        val renew =
            key(Face.SIDE, text(R.string.authority_renew), Sign.UNDO) {
                    shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.RENEW.name))
                }
                .takeIf { !card }
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
        return codePage(
            shell,
            onItsSide,
            code,
            underCode(
                body(parts.words(spoken, 18, bold = true), parts.panel(parts.facts(facts, 22))),
                done,
                renew,
            ),
        )
    }
}

/** A credential that was issued, for its holder's phone; that of this phone is taken in here. */
class AuthorityCredentialScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.authority_credential_words, place.args[1])

    override fun build(): View {
        val code =
            shell.attempt { shell.core.codeOf(place.args[0]) }
                ?: return page(text(R.string.authority), body())
        val own = place.args[2] == OWN
        val said = if (own) text(R.string.credential_taken, place.args[1]) else spoken
        val led = shell.lies(PageKind.TEAM)
        val roster =
            when {
                led ->
                    key(Face.SIDE, text(R.string.team_next_person), Sign.CODE) {
                        shell.backTo(PageKind.TEAM)
                        shell.go(Place(PageKind.SCAN, Purpose.KEY_REQUEST.name))
                    }
                own -> null
                else ->
                    key(Face.SIDE, text(R.string.authority_roster), Sign.CODE) {
                        shell.swap(Place(PageKind.AUTHORITY_CODE, AuthorityScreen.ROSTER))
                    }
            }
        val done =
            if (led) {
                key(Face.GOOD, text(R.string.team_all_have), Sign.NEXT) {
                    shell.backTo(PageKind.TEAM)
                    shell.swap(Place(PageKind.TEAM, TeamScreen.ROSTER))
                }
            } else {
                key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(PageKind.AUTHORITY) }
            }
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(R.string.authority_credential)),
            underCode(body(parts.words(said, 20, bold = true)), done, roster),
        )
    }
}

/** Who holds what; what no longer holds comes last. */
class AuthorityPeopleScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.authority_people)

    override fun build(): View {
        val issued = shell.attempt { shell.core.issued() }?.issued.orEmpty()
        val rows = issued.sortedBy { it.state }.map { one -> row(one) }
        val none = if (rows.isEmpty()) parts.words(text(R.string.authority_nobody), 18) else null
        return page(
            text(R.string.authority_people),
            body(none, parts.column(*rows.toTypedArray(), space = 14)),
        )
    }

    private fun row(one: IssuedView): Key {
        val revoked = one.state == CredentialState.REVOKED
        val sign =
            when (one.state) {
                CredentialState.GOOD -> Sign.TICK
                CredentialState.RUNS_OUT_SOON -> Sign.WARN
                else -> Sign.CROSS
            }
        val state =
            listOfNotNull(
                one.roles.joinToString(", "),
                text(R.string.until, one.expires.dtg),
                if (revoked) text(R.string.revoked)
                else if (one.state == CredentialState.EXPIRED) text(R.string.expired) else null,
            )
        return key(Face.ROW, one.holder, sign, state.joinToString(" · ")) {
            if (!revoked) shell.go(Place(PageKind.AUTHORITY_PERSON, one.id))
        }
    }
}

/** One who holds a credential: taking it back is asked here, and done under the passphrase. */
class AuthorityPersonScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.authority_people)

    override fun build(): View {
        val one =
            shell.attempt { shell.core.issued() }?.issued?.firstOrNull { it.id == place.args[0] }
                ?: return page(text(R.string.authority_people), body())
        val facts =
            parts.facts(
                listOf(
                    text(R.string.roles) to one.roles.joinToString(", "),
                    text(R.string.expires) to one.expires.dtg,
                    text(R.string.fingerprint) to one.key,
                ),
                18,
            )
        return page(
            one.holder,
            body(parts.panel(facts), parts.words(text(R.string.authority_revoke_words), 19)),
            listOf(
                key(Face.BAD, text(R.string.authority_revoke), Sign.CROSS) {
                    shell.go(Place(PageKind.AUTHORITY_WORDS, Deed.REVOKE.name, one.id))
                }
            ),
        )
    }
}
