package slingseal.handheld.screens

import android.view.View
import slingseal.core.CredentialState
import slingseal.core.IssuedView
import slingseal.core.Role
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.AuthorityCode
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Issuing
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep
import slingseal.handheld.sense.Beat

/** Who asks, what they may do, and for how long. */
class AuthorityIssueScreen(shell: Shell, override val place: Place.AuthorityIssue) : Screen(shell, place) {
    private val issuing = place.issuing
    private val roles
        get() = issuing.roles

    private val days
        get() = issuing.days

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
            Issuing.DAYS.map { given ->
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
                listOf(
                    text(R.string.holder) to issuing.holder,
                    text(R.string.fingerprint) to issuing.fingerprint,
                ),
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

    private fun put(roles: List<Role>, days: Int) =
        shell.swap(Place.AuthorityIssue(issuing.copy(roles = roles, days = days)))

    private fun issue() {
        if (roles.isEmpty()) {
            shell.notice = text(R.string.authority_no_role)
            shell.feel(Beat.REFUSED)
            return shell.redraw()
        }
        shell.go(Place.AuthorityWords(Deed.Issue(issuing)))
    }

    private companion object {
        val ROLES =
            listOf(
                Role.INSPECTOR to R.string.role_inspector,
                Role.PLANNER to R.string.role_planner,
                Role.HOOKUP to R.string.role_hookup,
                Role.LEADER to R.string.role_leader,
                Role.INSTRUCTOR to R.string.role_instructor,
            )
    }
}

/**
 * The card or the roster, for every phone of the team; beside the card the fingerprint, which is read out and
 * never scanned.
 */
class AuthorityCodeScreen(shell: Shell, override val place: Place.AuthorityShown) : Screen(shell, place) {
    private val card
        get() = place.code == AuthorityCode.CARD

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
            key(Face.SIDE, text(R.string.authority_renew), Sign.AGAIN) {
                    shell.go(Place.AuthorityWords(Deed.Renew))
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
class AuthorityCredentialScreen(shell: Shell, override val place: Place.AuthorityCredential) :
    Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.authority_credential_words, place.holder)

    private val code = shell.attempt { shell.core.codeOf(place.text) }

    override fun build(): View {
        val code = code ?: return page(text(R.string.authority), body())
        val own = place.own
        val said = if (own) text(R.string.credential_taken, place.holder) else spoken
        val led = shell.lies(Place.Team::class)
        val roster =
            when {
                led ->
                    key(Face.SIDE, text(R.string.team_next_person), Sign.CODE) {
                        shell.backTo(Place.Team::class)
                        shell.go(Place.Scan(Purpose.KeyRequest))
                    }
                own -> null
                else ->
                    key(Face.SIDE, text(R.string.authority_roster), Sign.SHOW) {
                        shell.swap(Place.AuthorityShown(AuthorityCode.ROSTER))
                    }
            }
        val done =
            if (led) {
                key(Face.GOOD, text(R.string.team_all_have), Sign.NEXT) {
                    shell.backTo(Place.Team::class)
                    shell.swap(Place.Team(TeamStep.ROSTER))
                }
            } else {
                key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Authority::class) }
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
                StartScreen.roles(context, one.roles),
                text(R.string.until, one.expires.dtg),
                if (revoked) text(R.string.revoked)
                else if (one.state == CredentialState.EXPIRED) text(R.string.expired) else null,
            )
        return key(Face.ROW, one.holder, sign, state.joinToString(" · ")) {
            if (!revoked) shell.go(Place.AuthorityPerson(one.id))
        }
    }
}

/** One who holds a credential: taking it back is asked here, and done under the passphrase. */
class AuthorityPersonScreen(shell: Shell, override val place: Place.AuthorityPerson) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.authority_people)

    private val one = shell.attempt { shell.core.issued() }?.issued?.firstOrNull { it.id == place.credential }

    override fun build(): View {
        val one = one ?: return page(text(R.string.authority_people), body())
        val facts =
            parts.facts(
                listOf(
                    text(R.string.roles) to StartScreen.roles(context, one.roles),
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
                    shell.go(Place.AuthorityWords(Deed.Revoke(one.id)))
                }
            ),
        )
    }
}
