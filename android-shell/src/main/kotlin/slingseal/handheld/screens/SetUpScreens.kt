package slingseal.handheld.screens

import android.view.View
import android.widget.LinearLayout
import slingseal.core.Received
import slingseal.core.SetUpStep
import slingseal.core.SetUpView
import slingseal.core.SetUpWhat
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep
import slingseal.handheld.sense.Beat

/** Whose device it is, whom it trusts, and what is still missing. */
class SetUpScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val view = shell.attempt { shell.core.setUp() }

    override fun build(): View {
        val view = view ?: return page(text(R.string.set_up), body())
        val scan = key(Face.GOOD, text(R.string.scan_code), Sign.CODE) { shell.go(Place.Scan(Purpose.SetUp)) }
        val open = view.steps.indexOfFirst { !it.done }
        return page(
            text(R.string.set_up),
            body(
                if (Core.keyLost) warned(text(R.string.key_lost)) else null,
                if (Core.keyLost) null else state(view)?.let { parts.signedPanel(Sign.TICK, it, 24) },
                *(if (view.roles.isEmpty() && view.authority == null) StartScreen.beginnings(shell, view)
                    else emptyList())
                    .toTypedArray(),
                parts.column(
                    *view.steps
                        .mapIndexed { at, step -> stepView(at, step, at == open, view) }
                        .toTypedArray(),
                    space = 10,
                ),
                *own(view).toTypedArray(),
                *trusted(view).toTypedArray(),
                view.authority?.let { name ->
                    key(Face.ROW, name, Sign.KEY, text(R.string.authority_about)) {
                        shell.go(Place.Authority)
                    }
                }
                    ?: key(Face.ROW, text(R.string.team_start), Sign.KEY, text(R.string.team_start_about)) {
                            shell.go(Place.Team(TeamStep.BEGIN))
                        }
                        .takeIf { view.roles.isNotEmpty() },
                key(Face.ROW, text(R.string.copy_kept), Sign.KEY, text(R.string.copy_kept_about)) {
                        shell.go(Place.CopyKept)
                    }
                    .takeIf { view.authority == null },
            ),
            listOf(scan),
        )
    }

    /** What this phone is good for as it stands; null where a step that it needs is open. */
    private fun state(view: SetUpView): String? =
        when {
            view.maySeal -> text(R.string.ready)
            view.ready -> view.next
            view.authority != null && view.fingerprint == null -> text(R.string.ready_authority)
            view.fingerprint == null &&
                view.authorities.isNotEmpty() &&
                view.authorities.none { it.roster == null || it.rosterExpired } -> text(R.string.ready_hook)
            else -> null
        }

    private fun warned(words: String) = parts.signedPanel(Sign.WARN, words)

    /** One of the four steps: its number and its tick; the one that comes next says what to do. */
    private fun stepView(at: Int, step: SetUpStep, next: Boolean, view: SetUpView): View {
        val name =
            text(
                when (step.what) {
                    SetUpWhat.AUTHORITY -> R.string.step_authority
                    SetUpWhat.KEY -> R.string.step_key
                    SetUpWhat.CREDENTIAL -> R.string.step_credential
                    SetUpWhat.ROSTER -> R.string.step_roster
                }
            )
        val title = "${at + 1}  $name"
        val ground = palette.panel
        val head =
            parts.signed(
                if (step.done) Sign.TICK else if (next) Sign.NEXT else Sign.NONE,
                parts.words(title, if (next) 21 else 18, bold = true, ground = ground),
                ground,
            )
        parts.spokenAs(head, "$title. ${text(if (step.done) R.string.step_done else R.string.step_open)}")
        val press =
            when {
                step.what == SetUpWhat.KEY && (view.fingerprint == null || view.revoked != null) ->
                    key(Face.ROW, text(R.string.make_key), Sign.KEY, text(R.string.make_key_about)) {
                        shell.go(Place.Name)
                    }
                step.what == SetUpWhat.CREDENTIAL && !step.done && view.request != null ->
                    key(Face.ROW, text(R.string.show_request), Sign.SHOW, text(R.string.show_request_about)) {
                        shell.go(Place.Request)
                    }
                else -> null
            }
        val words =
            if (next || !step.done && step.what == SetUpWhat.CREDENTIAL)
                parts.words(step.words, 18, ground = ground)
            else null
        return parts.panel(
            parts.column(*listOfNotNull(head, words, press).toTypedArray(), space = 10),
            thick = next,
        )
    }

    private fun own(view: SetUpView): List<View> {
        val credential = view.credential
        val facts =
            listOfNotNull(
                view.holder?.let { text(R.string.holder) to it },
                view.fingerprint?.let { text(R.string.own_fingerprint) to it },
                credential?.let { text(R.string.roles) to StartScreen.roles(context, it.roles) },
                credential?.let {
                    text(R.string.expires) to
                        listOfNotNull(
                                it.expires.dtg,
                                if (it.expired) text(R.string.expired) else null,
                                if (it.revoked) text(R.string.revoked) else null,
                            )
                            .joinToString(" · ")
                },
                credential?.let { text(R.string.authority) to it.authority },
                view.pinLockedUntil?.let { text(R.string.pin_locked) to it.dtg },
            )
        return if (facts.isEmpty()) emptyList()
        else listOf(parts.eyebrow(text(R.string.this_device)), parts.panel(parts.facts(facts, 18)))
    }

    private fun trusted(view: SetUpView): List<View> {
        if (view.authorities.isEmpty()) return listOf(parts.words(text(R.string.nobody_trusted), 18))
        return listOf(parts.eyebrow(text(R.string.trusted))) +
            view.authorities.map { authority ->
                parts.panel(
                    parts.facts(
                        listOfNotNull(
                            text(R.string.authority) to authority.name,
                            text(R.string.fingerprint) to authority.fingerprint,
                            text(R.string.roster) to
                                (authority.roster?.let { number ->
                                    text(
                                        R.string.roster_about,
                                        number.toInt(),
                                        authority.rosterExpires?.dtg.orEmpty(),
                                        authority.revoked.toInt(),
                                    )
                                } ?: text(R.string.no_roster)),
                        ),
                        18,
                    )
                )
            }
    }

    companion object {
        /** Goes where a code leads that was taken in during the set-up. */
        fun received(shell: Shell, what: Received) =
            when {
                what is Received.Authority && !what.trusted -> shell.swap(Place.Trust(what.card, what.name))
                what is Received.Tag -> shell.swap(Place.Tag(what.v1.text))
                else -> told(shell, words(shell, what))
            }

        /** What was taken in, in a line. */
        fun words(shell: Shell, what: Received): String {
            fun text(id: Int, vararg args: Any) = shell.activity.getString(id, *args)
            return when (what) {
                is Received.Authority -> text(R.string.trusted_already, what.name)
                is Received.Credential ->
                    text(
                        if (what.own) R.string.credential_taken else R.string.credential_of_other,
                        what.credential.holder,
                    )
                is Received.Roster ->
                    text(
                        if (what.new) R.string.roster_taken else R.string.roster_known,
                        what.sequence.toInt(),
                    )
                is Received.Void -> text(R.string.void_taken, what.load, what.by, what.cause)
                is Received.Movement ->
                    text(R.string.report_taken, what.report.load, what.report.what, what.report.origin)
                is Received.Closing -> text(R.string.closing_taken, what.statement.name, what.statement.by)
                is Received.Inspection ->
                    text(
                        if (what.fit) R.string.inspection_fit else R.string.inspection_not_fit,
                        what.name,
                        what.by,
                    )
                is Received.Examination -> text(R.string.exam_taken, what.load, what.by)
                is Received.KeyRequest -> text(R.string.request_of, what.holder, what.fingerprint)
                is Received.Tag -> what.v1.load
                is Received.Seal -> what.v1.first
            }
        }

        private fun told(shell: Shell, words: String) {
            shell.news = words
            shell.setUpAgain()
        }
    }
}

/** The key request, for the authority to scan. */
class RequestScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    private val view = shell.attempt { shell.core.setUp() }
    private val request = view?.request?.let { text -> shell.attempt { shell.core.codeOf(text) } }

    override fun build(): View {
        val view = view ?: return page(text(R.string.key_request), body())
        val request = request ?: return page(text(R.string.key_request), body())
        val code = codeView(shell, request, text(R.string.code_of_request))
        val facts =
            parts.facts(
                listOfNotNull(
                    view.holder?.let { text(R.string.holder) to it },
                    view.fingerprint?.let { text(R.string.own_fingerprint) to it },
                )
            )
        val words = parts.words(text(R.string.request_words), 18)
        if (!onItsSide) return page(text(R.string.key_request), body(code, words, parts.panel(facts)))
        val row =
            LinearLayout(context).apply {
                addView(
                    code,
                    LinearLayout.LayoutParams(
                        LinearLayout.LayoutParams.WRAP_CONTENT,
                        LinearLayout.LayoutParams.MATCH_PARENT,
                    ),
                )
                addView(
                    page(text(R.string.key_request), body(words, parts.panel(facts))),
                    LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.MATCH_PARENT, 1f),
                )
            }
        return row
    }
}

/** Who holds this device. */
class NameScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    override val title
        get() = text(R.string.make_key)

    override val guide
        get() = text(R.string.name_guide)

    override val done
        get() = text(R.string.take_it)

    override fun take(words: String) {
        if (words.isBlank()) {
            shell.notice = text(R.string.nothing_typed)
            return shell.redraw()
        }
        shell.swap(Place.NewPin(words.trim()))
    }
}

/** A new PIN, typed twice. */
class NewPinScreen(shell: Shell, override val place: Place.NewPin) : PinPage(shell, place) {
    private var first: String? = null
    override val title
        get() = text(R.string.new_pin)

    override val words
        get() = text(if (first == null) R.string.new_pin_words else R.string.new_pin_again)

    override val done
        get() = text(R.string.take_it)

    override fun take(pin: String) {
        val before = first
        if (before == null) {
            first = pin
            return shell.redrawSame()
        }
        first = null
        if (before != pin) {
            shell.notice = text(R.string.pins_differ)
            shell.feel(Beat.REFUSED)
            return shell.redrawSame()
        }
        val core = shell.core
        val holder = place.holder
        shell.work({ core.makeKey(holder, pin) }) {
            feel(Beat.GOOD)
            if (lies(Place.Join::class)) backTo(Place.Join::class)
            else if (lies(Place.Team::class)) backTo(Place.Team::class) else swap(Place.Request)
        }
    }
}
