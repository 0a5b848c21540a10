package slingseal.handheld.screens

import android.view.View
import slingseal.core.AuthorityView
import slingseal.core.CredentialState
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.AuthorityCode
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep

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
                *list?.warnings.orEmpty().map { parts.signedPanel(Sign.WARN, it) }.toTypedArray(),
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
