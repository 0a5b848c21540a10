package slingseal.handheld.screens

import android.view.View
import java.io.IOException
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.MovementView
import slingseal.core.Received
import slingseal.core.StickerReading
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Sticker
import slingseal.handheld.sense.Untouched
import slingseal.handheld.words

/** The key that leads to a sticker, on a phone that can write one. */
internal fun Screen.stickerKey(shell: Shell, vararg texts: String): Key? {
    if (shell.untouched == Untouched.NO_NFC) return null
    return Key(
        shell.activity,
        shell.palette,
        Face.SIDE,
        shell.activity.getString(R.string.sticker_write),
        Sign.STICKER,
    ) {
        shell.go(Place.Sticker(texts.toList()))
    }
}

/** The report that a text is; null where it is something else. */
private fun Handheld.receiveReport(text: String): MovementView? =
    if (text.startsWith(REPORTS)) (receive(text) as? Received.Movement)?.report else null

/** How the text of every report begins, whatever its number. */
private const val REPORTS = "MV"

/** How the writing of a sticker ended. */
private class Outcome(val done: Boolean, val words: String)

/**
 * Writes a code to the sticker that is touched, and believes nothing: what was written is read back and held
 * against what should stand there. A tag, or a seal and its tag. Where both are too much, the seal goes
 * alone.
 */
class StickerScreen(shell: Shell, override val place: Place.Sticker) : Screen(shell, place) {
    private var last: Outcome? = null
    override val staysOn
        get() = true

    override val touches
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.sticker_write)

    override val spoken
        get() = text(R.string.sticker_hold)

    override fun build(): View {
        val off =
            if (shell.untouched == Untouched.OFF) parts.signedPanel(Sign.WARN, text(R.string.sticker_off), 19)
            else null
        val told =
            last?.let {
                parts.signedPanel(if (it.done) Sign.TICK else Sign.WARN, it.words, 22).apply {
                    accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE
                }
            }
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
        return page(
            text(R.string.sticker_write),
            body(
                off,
                told,
                parts.words(text(R.string.sticker_hold), 24, bold = true),
                parts.words(text(R.string.sticker_about), 18),
            ),
            listOf(done),
        )
    }

    override fun touched(sticker: Sticker?) {
        val outcome =
            try {
                if (sticker == null) Outcome(false, text(R.string.sticker_foreign)) else write(sticker)
            } catch (e: IOException) {
                Outcome(false, text(R.string.sticker_lost))
            } catch (e: HandheldException) {
                Outcome(false, e.words)
            }
        context.runOnUiThread {
            last = outcome
            shell.feel(if (outcome.done) Beat.GOOD else Beat.REFUSED)
            if (shell.speaks) shell.say(outcome.words)
            shell.redrawSame()
        }
    }

    /**
     * What is to stand on it: the texts, and where a report is written the tag and the seal that are on it
     * already, for they live on the load. Null where those are another load's.
     */
    private fun beside(sticker: Sticker): List<String>? {
        val report = place.texts.singleOrNull()?.let { shell.core.receiveReport(it) } ?: return place.texts
        val held = shell.core.readSticker(sticker.read()) as? StickerReading.Ours ?: return place.texts
        if (held.tag?.let { shell.core.readTag(it).load != report.load } == true) return null
        return listOfNotNull(held.seal, held.tag) + place.texts
    }

    private fun write(sticker: Sticker): Outcome {
        if (!sticker.writable) return Outcome(false, text(R.string.sticker_locked))
        // a blank one does not tell its room; it tells when it is too small by failing
        val room = (sticker.room ?: Int.MAX_VALUE).toUInt()
        var texts = beside(sticker) ?: return Outcome(false, text(R.string.sticker_other_load))
        var made = shell.core.sticker(texts, room)
        if (!made.fits && place.texts.size > 1) {
            texts = texts.take(1)
            made = shell.core.sticker(texts, room)
        }
        if (!made.fits) return Outcome(false, text(R.string.sticker_full, made.bytes.toInt(), room.toInt()))
        sticker.write(made.message)
        if (!sticker.readsBack) return Outcome(false, text(R.string.sticker_again))
        val back = shell.core.readSticker(sticker.read())
        val right =
            back is StickerReading.Ours &&
                (listOfNotNull(back.seal, back.tag) + back.others.map { it.text }).toSet() == texts.toSet()
        if (!right) return Outcome(false, text(R.string.sticker_differs))
        return Outcome(
            true,
            text(if (texts.size < place.texts.size) R.string.sticker_alone else R.string.sticker_done),
        )
    }
}
