package slingseal.handheld.screens

import android.view.View
import slingseal.core.SetUpView
import slingseal.core.SetUpWhat
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.look.TwoPhones
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep

private fun Shell.stepOf(number: Int) = parts.heading(activity.getString(R.string.step_of_four, number), 24)

/** What is to be done meanwhile on the phone beside this one. */
private fun Shell.otherPhone(there: Int): View =
    parts.panel(
        parts.column(
            parts.words(
                activity.getString(R.string.on_the_other_phone),
                15,
                quiet = true,
                ground = palette.panel,
            ),
            parts.words(activity.getString(there), 18, ground = palette.panel),
            space = 2,
        )
    )

/** The page that a code of the set-up leads back to: the guide, where somebody is being led. */
internal fun Shell.setUpAgain() =
    if (lies(Place.Join::class)) backTo(Place.Join::class) else swap(Place.SetUp)

/**
 * Four steps into a team, one a page, with what the other phone must do meanwhile. Which step stands is asked
 * of the core each time, so that nobody goes through one twice, and a phone that was put down goes on where
 * it was.
 */
class JoinScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val setUp: SetUpView? = shell.attempt { shell.core.setUp() }
    private val step: SetUpWhat? = setUp?.steps?.firstOrNull { !it.done }?.what
    private val request = setUp?.request?.let { text -> shell.attempt { shell.core.codeOf(text) } }
    override val paneTitle: CharSequence
        get() = text(R.string.join)

    override val staysOn
        get() = true

    override val shines
        get() = step == SetUpWhat.CREDENTIAL

    override val spoken
        get() =
            when (step) {
                SetUpWhat.AUTHORITY -> text(R.string.join_card)
                SetUpWhat.KEY -> text(R.string.join_key)
                SetUpWhat.CREDENTIAL -> text(R.string.join_credential)
                SetUpWhat.ROSTER -> text(R.string.join_roster)
                null -> text(R.string.join_done)
            }

    override fun build(): View {
        val setUp = setUp ?: return page(text(R.string.join), body())
        return when (step) {
            SetUpWhat.AUTHORITY ->
                plain(
                    1,
                    TwoPhones.Shows.OTHER,
                    R.string.join_card_there,
                    key(Face.GOOD, text(R.string.join_scan_card), Sign.CODE) { scan() },
                )
            SetUpWhat.KEY ->
                plain(
                    2,
                    TwoPhones.Shows.ALONE,
                    R.string.join_key_there,
                    key(Face.GOOD, text(R.string.join_make_key), Sign.KEY) { shell.go(Place.Name) },
                )
            SetUpWhat.CREDENTIAL ->
                if (setUp.revoked != null)
                    plain(
                        2,
                        TwoPhones.Shows.ALONE,
                        R.string.join_key_there,
                        key(Face.GOOD, text(R.string.join_make_key), Sign.KEY) { shell.go(Place.Name) },
                    )
                else asking(setUp)
            SetUpWhat.ROSTER ->
                plain(
                    4,
                    TwoPhones.Shows.OTHER,
                    R.string.join_roster_there,
                    key(Face.GOOD, text(R.string.join_scan_roster), Sign.CODE) { scan() },
                )
            null -> joined(setUp)
        }
    }

    private fun scan() = shell.go(Place.Scan(Purpose.SetUp))

    private fun plain(
        number: Int,
        shows: TwoPhones.Shows,
        there: Int,
        key: slingseal.handheld.look.Key,
    ): View =
        page(
            text(R.string.join),
            body(
                shell.stepOf(number),
                TwoPhones(context, palette, shows),
                parts.words(spoken, 21, bold = true),
                shell.otherPhone(there),
            ),
            listOf(key),
        )

    /** The third step: this phone shows its wish, and then reads the answer. */
    private fun asking(setUp: SetUpView): View {
        val request = request ?: return page(text(R.string.join), body())
        val code = codeView(shell, request, text(R.string.code_of_request))
        val facts =
            parts.panel(
                parts.facts(
                    listOfNotNull(setUp.fingerprint?.let { text(R.string.own_fingerprint) to it }),
                    21,
                )
            )
        val done = key(Face.GOOD, text(R.string.join_scan_credential), Sign.CODE) { scan() }
        return codePage(
            shell,
            onItsSide,
            code,
            underCode(
                body(
                    shell.stepOf(3),
                    parts.words(spoken, 19, bold = true),
                    facts,
                    shell.otherPhone(R.string.join_credential_there),
                ),
                done,
                backKey(),
            ),
        )
    }

    private fun joined(setUp: SetUpView): View =
        page(
            text(R.string.join),
            body(
                parts.signedPanel(Sign.TICK, spoken, 24),
                parts.panel(
                    parts.facts(
                        listOfNotNull(
                            setUp.holder?.let { text(R.string.holder) to it },
                            text(R.string.roles) to StartScreen.roles(context, setUp.roles),
                            setUp.credential?.let { text(R.string.expires) to it.expires.dtg },
                        ),
                        20,
                    )
                ),
                parts.words(setUp.next, 18),
            ),
            listOf(key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Start::class) }),
            back = false,
        )
}

/** Four steps to a team, on the phone that carries its trust: begin, the card, each one's key, the roster. */
class TeamScreen(shell: Shell, override val place: Place.Team) : Screen(shell, place) {
    private val authority = authorityHere(shell)

    /** Who is the authority already is led on from its card. */
    private val step = if (place.step == TeamStep.BEGIN && authority != null) TeamStep.CARD else place.step
    private val own = shell.attempt { shell.core.setUp() }
    private val people =
        if (authority == null) emptyList() else shell.attempt { shell.core.issued() }?.issued.orEmpty()

    override val paneTitle: CharSequence
        get() = text(R.string.team_start)

    override val staysOn
        get() = true

    override val shines
        get() = step == TeamStep.CARD || step == TeamStep.ROSTER

    override val spoken
        get() =
            when (step) {
                TeamStep.CARD -> text(R.string.team_card)
                TeamStep.KEYS -> text(R.string.team_keys)
                TeamStep.ROSTER -> text(R.string.team_roster)
                TeamStep.BEGIN -> text(R.string.team_begin)
            }

    override fun build(): View {
        if (step != place.step) shell.keep(Place.Team(step))
        return when {
            step == TeamStep.CARD && authority != null ->
                shown(
                    2,
                    authority.card,
                    R.string.authority_card,
                    R.string.team_card_there,
                    listOf(text(R.string.fingerprint) to authority.fingerprint),
                    TeamStep.KEYS,
                )
            step == TeamStep.KEYS && authority != null -> keys()
            step == TeamStep.ROSTER && authority != null ->
                shown(
                    4,
                    authority.roster,
                    R.string.authority_roster,
                    R.string.team_roster_there,
                    listOf(
                        text(R.string.roster) to
                            text(R.string.authority_roster_no, authority.sequence.toInt())
                    ),
                    null,
                )
            else -> beginning()
        }
    }

    /** What it means to be the authority, before anybody is. */
    private fun beginning(): View =
        page(
            text(R.string.team_start),
            body(
                shell.stepOf(1),
                parts.panel(
                    parts.signed(
                        Sign.WARN,
                        parts.words(
                            text(R.string.authority_caution),
                            19,
                            bold = true,
                            ground = palette.panel,
                        ),
                        palette.panel,
                    ),
                    thick = true,
                ),
                parts.words(text(R.string.authority_steps), 19),
                parts.words(text(R.string.authority_lost), 17),
            ),
            listOf(
                key(Face.GOOD, text(R.string.authority_begin), Sign.NEXT) { shell.go(Place.AuthorityName) }
            ),
        )

    private fun shown(
        number: Int,
        code: slingseal.core.CodeView,
        title: Int,
        there: Int,
        facts: List<Pair<CharSequence, CharSequence>>,
        next: TeamStep?,
    ): View {
        val key =
            if (next == null)
                key(Face.GOOD, text(R.string.team_stands), Sign.TICK) { shell.backTo(Place.Start::class) }
            else key(Face.GOOD, text(R.string.next), Sign.NEXT) { shell.swap(Place.Team(next)) }
        val before =
            key(Face.SIDE, text(R.string.back), Sign.BACK) {
                if (next == null) shell.swap(Place.Team(TeamStep.KEYS)) else shell.back()
            }
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(title)),
            underCode(
                body(
                    shell.stepOf(number),
                    parts.words(spoken, 19, bold = true),
                    parts.panel(parts.facts(facts, 21)),
                    shell.otherPhone(there),
                ),
                key,
                before,
            ),
        )
    }

    /** Each one's key in turn; whoever has a credential stands in the list. */
    private fun keys(): View {
        val given =
            people.map {
                parts.signed(
                    Sign.TICK,
                    parts.words("${it.holder} · ${StartScreen.roles(context, it.roles)}", 19),
                )
            }
        return page(
            text(R.string.team_start),
            body(
                shell.stepOf(3),
                TwoPhones(context, palette, TwoPhones.Shows.OTHER),
                parts.words(spoken, 20, bold = true),
                shell.otherPhone(R.string.team_keys_there),
                *given.toTypedArray(),
                *ownKeys(shell, own).toTypedArray(),
            ),
            listOf(
                key(Face.GOOD, text(R.string.authority_scan), Sign.CODE) {
                    shell.go(Place.Scan(Purpose.KeyRequest))
                },
                key(Face.SIDE, text(R.string.team_all_have), Sign.NEXT) {
                    shell.swap(Place.Team(TeamStep.ROSTER))
                },
            ),
        )
    }
}
