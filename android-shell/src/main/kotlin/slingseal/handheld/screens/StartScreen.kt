package slingseal.handheld.screens

import android.content.Context
import android.view.View
import slingseal.core.Role
import slingseal.core.SetUpView
import slingseal.core.SetUpWhat
import slingseal.core.StartView
import slingseal.core.WalkLine
import slingseal.core.WalkLineState
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep
import slingseal.handheld.places.WalkRef

/** What a phone is for, by what its credentials allow: the first of them stands first at the start. */
internal enum class Door(
    val title: Int,
    val sign: Sign,
    val about: Int,
    private val role: Role?,
    private val place: () -> Place,
) {
    INSPECT(
        R.string.inspect_load,
        Sign.CODE,
        R.string.inspect_about,
        Role.INSPECTOR,
        { Place.Scan(Purpose.Inspect) },
    ),
    PLAN(R.string.plan, Sign.PLUS, R.string.plan_about, Role.PLANNER, { Place.Plan }),
    BOARD(R.string.board, Sign.LIST, R.string.board_about, Role.LEADER, { Place.Board }),
    HOOK(R.string.hook_check, Sign.HOOK, R.string.hook_about, Role.HOOKUP, { Place.Hook() }),
    EXAMS(R.string.exams, Sign.EXAM, R.string.exams_about, Role.INSTRUCTOR, { Place.Exams }),
    ARRIVAL(R.string.arrival, Sign.DOWN, R.string.arrival_about, null, { Place.Scan(Purpose.Arrival) });

    fun open(shell: Shell) = shell.go(place())

    companion object {
        /**
         * Every phone checks at the hook and receives a load; what else it does, its roles say. The first two
         * stand large.
         */
        fun of(roles: Collection<Role>): List<Door> {
            val own = entries.filter { it.role != null && it.role in roles }
            val first = own.firstOrNull() ?: HOOK
            return (listOf(first, if (first == HOOK) ARRIVAL else HOOK) + own).distinct()
        }
    }
}

/**
 * The first page: the load in hand, large; the doors of whoever holds the phone; everything else behind one
 * key.
 */
class StartScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val start = shell.attempt { shell.core.start() }
    private val runs = shell.attempt { shell.core.openRuns() }.orEmpty()
    private val setUp = shell.attempt { shell.core.setUp() }

    override fun build(): View {
        val start = start ?: return page(text(R.string.app_name), body(), back = false)
        val doors = Door.of(setUp?.roles.orEmpty())
        val (first, second) = doors
        val other = key(Face.SIDE, text(R.string.more), Sign.MORE) { shell.go(Place.Else) }
        val keys =
            listOf(
                key(Face.GOOD, text(first.title), first.sign) { first.open(shell) },
                key(Face.SIDE, text(second.title), second.sign) { second.open(shell) },
                other,
            )
        return page(null, contents(start, setUp, doors.drop(2)), keys, back = false)
    }

    private fun contents(start: StartView, setUp: SetUpView?, rest: List<Door>): View {
        val notices = start.notices.map(::warning)
        // the newest first: it is the one that the hand left
        val hand = start.inHand.sortedByDescending { it.updated.unix }
        val loads = hand.mapIndexed { at, line -> if (at == 0) inHand(line) else row(line) }
        val run =
            runs.firstOrNull()?.let { open ->
                key(Face.ROW, open.student, Sign.EXAM, text(R.string.exam_goes_on, open.load)) {
                    shell.go(Place.Exams)
                }
            }
        val rows =
            rest.map { door ->
                key(Face.ROW, text(door.title), door.sign, text(door.about)) { door.open(shell) }
            }
        val may = setUp != null && (setUp.roles.isNotEmpty() || setUp.authority != null)
        val nothing = if (may) R.string.nothing_in_hand else R.string.only_hook
        return body(
            parts.column(
                parts.heading(text(R.string.app_name), 30),
                parts.words(setUp?.let(::whose) ?: text(R.string.no_holder), 18, quiet = true),
                space = 0,
            ),
            *notices.toTypedArray(),
            if (Core.keyLost) warning(text(R.string.key_lost)) else null,
            if (loads.isEmpty()) parts.words(text(nothing), 20)
            else parts.column(*loads.toTypedArray(), space = 16),
            run,
            setUp?.let(::open),
            setUp?.authority?.let { name ->
                key(Face.ROW, name, Sign.KEY, text(R.string.authority_about)) { shell.go(Place.Authority) }
            },
            *rows.toTypedArray(),
            *(if (setUp == null || may) emptyList() else beginnings(shell, setUp)).toTypedArray(),
        )
    }

    /** Who holds it, and what they may do. */
    private fun whose(setUp: SetUpView): String {
        val holder = setUp.holder ?: setUp.authority ?: return text(R.string.no_holder)
        return listOf(holder, roles(context, setUp.roles)).filter(String::isNotEmpty).joinToString(" · ")
    }

    /**
     * What keeps this phone from what it was made for, in a row; a phone that only checks at the hook lacks
     * no key.
     */
    private fun open(setUp: SetUpView): Key? {
        val step =
            setUp.steps.firstOrNull { step ->
                !step.done &&
                    when (step.what) {
                        SetUpWhat.AUTHORITY,
                        SetUpWhat.KEY -> false
                        SetUpWhat.CREDENTIAL -> setUp.credential != null || setUp.revoked != null
                        // whoever is still joining is led there
                        SetUpWhat.ROSTER ->
                            setUp.credential != null ||
                                setUp.fingerprint == null && setUp.authorities.any { it.roster != null }
                    }
            } ?: return null
        return key(Face.ROW, text(R.string.set_up), Sign.WARN, step.words) { shell.go(Place.SetUp) }
    }

    private fun warning(words: String) = parts.signedPanel(Sign.WARN, words)

    private fun state(line: WalkLine) =
        when (line.state) {
            WalkLineState.PAUSED -> text(R.string.state_paused)
            WalkLineState.DECIDED -> text(R.string.state_decided)
            WalkLineState.WALKING,
            WalkLineState.SEALED,
            WalkLineState.ABANDONED -> text(R.string.state_walking)
        }

    /** The load in hand: its number as large as the page allows. */
    private fun inHand(line: WalkLine): View =
        Key(
            context,
            palette,
            Face.LOAD,
            line.load,
            Sign.NEXT,
            "${text(R.string.in_hand)} · ${state(line)} · ${line.updated.dtg}",
        ) {
            shell.go(Place.Walk(WalkRef.Inspection(line.walk)))
        }

    private fun row(line: WalkLine): View =
        key(Face.ROW, line.load, Sign.NEXT, "${state(line)} · ${line.updated.dtg}") {
            shell.go(Place.Walk(WalkRef.Inspection(line.walk)))
        }

    companion object {
        /** Roles in a line, in the words of whoever reads it. */
        fun roles(context: Context, roles: List<Role>): String =
            roles.joinToString(", ") { context.getString(roleName(it)) }

        /** What a role is called in a line. */
        private fun roleName(role: Role): Int =
            when (role) {
                Role.INSPECTOR -> R.string.role_short_inspector
                Role.PLANNER -> R.string.role_short_planner
                Role.HOOKUP -> R.string.role_short_hookup
                Role.LEADER -> R.string.role_short_leader
                Role.INSTRUCTOR -> R.string.role_short_instructor
            }

        /** The two ways to become more than a hook check. */
        internal fun beginnings(shell: Shell, setUp: SetUpView): List<Key> {
            fun row(title: Int, sign: Sign, about: Int, to: Place) =
                Key(
                    shell.activity,
                    shell.palette,
                    Face.ROW,
                    shell.activity.getString(title),
                    sign,
                    shell.activity.getString(about),
                ) {
                    shell.go(to)
                }
            val started = setUp.authorities.isNotEmpty() || setUp.fingerprint != null
            return listOf(
                row(
                    R.string.join,
                    Sign.NEXT,
                    if (started) R.string.join_on_about else R.string.join_about,
                    Place.Join,
                ),
                row(R.string.team_start, Sign.KEY, R.string.team_start_about, Place.Team(TeamStep.BEGIN)),
            )
        }
    }
}

/** Everything that is not the next load. */
class ElseScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.more)

    private val start = shell.attempt { shell.core.start() }
    private val runs = shell.attempt { shell.core.openRuns() }.orEmpty()
    private val setUp = shell.attempt { shell.core.setUp() }

    override fun build(): View {
        val large = Door.of(setUp?.roles.orEmpty()).take(2)
        fun door(door: Door): Key? =
            if (door in large) null
            else key(Face.ROW, text(door.title), door.sign, text(door.about)) { door.open(shell) }
        val team =
            setUp?.authority?.let { name ->
                listOf(
                    key(Face.ROW, name, Sign.KEY, text(R.string.authority_about)) {
                        shell.go(Place.Authority)
                    }
                )
            } ?: setUp?.takeIf { it.roles.isEmpty() }?.let { StartScreen.beginnings(shell, it) }.orEmpty()
        val doors =
            listOfNotNull(
                door(Door.ARRIVAL),
                door(Door.HOOK),
                door(Door.INSPECT),
                key(
                    Face.ROW,
                    text(R.string.records),
                    Sign.LIST,
                    text(R.string.records_count, start?.records?.toInt() ?: 0),
                ) {
                    shell.go(Place.Records())
                },
                key(Face.ROW, text(R.string.move), Sign.SPREAD, text(R.string.move_about)) {
                    shell.go(Place.Move)
                },
                door(Door.PLAN),
                door(Door.BOARD),
                key(Face.ROW, text(R.string.subjects), Sign.LIST, text(R.string.subjects_about)) {
                    shell.go(Place.Subjects)
                },
                key(Face.ROW, text(R.string.procedures), Sign.LIST, text(R.string.procedures_about)) {
                    shell.go(Place.Procedures)
                },
                key(Face.ROW, text(R.string.set_up), Sign.KEY, text(R.string.set_up_about)) {
                    shell.go(Place.SetUp)
                },
                *team.toTypedArray(),
                key(Face.ROW, text(R.string.exams), Sign.EXAM, exams()) { shell.go(Place.Exams) },
                key(Face.ROW, text(R.string.settings), Sign.SUN, text(R.string.settings_about)) {
                    shell.go(Place.Settings())
                },
            )
        return page(
            text(R.string.more),
            body(
                parts.column(*doors.toTypedArray(), space = 18),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
        )
    }

    private fun exams() =
        runs.firstOrNull()?.let { "${it.student}: ${text(R.string.exam_goes_on, it.load)}" }
            ?: text(R.string.exams_about)
}
