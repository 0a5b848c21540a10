package slingseal.handheld.screens

import android.view.View
import slingseal.core.VoidCause
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Why
import slingseal.handheld.sense.Beat

/** Why a seal no longer holds, and what a person reads; another reason is written. */
private val CAUSES =
    listOf(
        VoidCause.RIGGING_DISTURBED to R.string.void_disturbed,
        VoidCause.LOAD_MOVED to R.string.void_moved,
        VoidCause.HOOKUP_ABORTED to R.string.void_aborted,
        VoidCause.EQUIPMENT_WITHDRAWN to R.string.void_equipment,
    )

/** Takes a seal back: why it no longer holds, then the PIN. */
class VoidScreen(shell: Shell, override val place: Place.Void) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.void_it)

    override val spoken
        get() = text(R.string.void_guide)

    override fun build(): View {
        val rows =
            CAUSES.map { (cause, words) ->
                key(Face.ROW, text(words), Sign.CROSS) { shell.go(Place.VoidPin(place.record, cause)) }
            } +
                key(Face.ROW, text(R.string.own_words), Sign.PLUS) {
                    shell.go(Place.Write(Why.Void(place.record)))
                }
        return page(
            text(R.string.void_it),
            body(parts.words(text(R.string.void_guide), 19), parts.column(*rows.toTypedArray(), space = 18)),
        )
    }
}

/** The PIN that signs a void. */
class VoidPinScreen(shell: Shell, override val place: Place.VoidPin) : PinPage(shell, place) {
    private val of = shell.attempt { shell.core.record(place.record) }?.line?.load.orEmpty()
    override val title
        get() = text(R.string.void_it)

    override val words: String
        get() {
            val cause =
                place.note
                    ?: CAUSES.firstOrNull { it.first == place.cause }?.let { text(it.second) }.orEmpty()
            return text(R.string.void_pin, of, cause)
        }

    override val done
        get() = text(R.string.void_sign)

    override fun take(pin: String) {
        val core = shell.core
        val (record, cause, note) = place
        shell.work({ core.void(record, cause, note, pin) }) {
            feel(Beat.DEFICIENCY)
            backTo(Place.Record::class)
            go(Place.Voided(it.text))
        }
    }
}

/** The void as a code: whoever has scanned the seal scans this. */
class VoidedScreen(shell: Shell, override val place: Place.Voided) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.void_show)

    private val code = shell.attempt { shell.core.codeOf(place.text) }

    override fun build(): View {
        val code = code ?: return page(text(R.string.void_it), body())
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(R.string.void_code)),
            underCode(body(parts.words(text(R.string.void_show), 19, bold = true)), done),
        )
    }
}
