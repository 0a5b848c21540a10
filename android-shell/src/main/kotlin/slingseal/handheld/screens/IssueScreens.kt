package slingseal.handheld.screens

import android.view.View
import slingseal.core.CredentialState
import slingseal.core.IssuedView
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

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

    private val authority = authorityHere(shell)

    override fun build(): View {
        val authority = authority ?: return page(text(R.string.authority), body())
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

    private val code = shell.attempt { shell.core.codeOf(place.args[0]) }

    override fun build(): View {
        val code = code ?: return page(text(R.string.authority), body())
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

    private val issued = shell.attempt { shell.core.issued() }?.issued.orEmpty()

    override fun build(): View {
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

    private val one = shell.attempt { shell.core.issued() }?.issued?.firstOrNull { it.id == place.args[0] }

    override fun build(): View {
        val one = one ?: return page(text(R.string.authority_people), body())
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
