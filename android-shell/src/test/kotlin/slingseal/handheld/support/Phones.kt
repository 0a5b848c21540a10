package slingseal.handheld.support

import android.widget.EditText
import java.io.File
import org.robolectric.RuntimeEnvironment
import org.robolectric.android.controller.ActivityController
import slingseal.core.Handheld
import slingseal.handheld.Core
import slingseal.handheld.HandheldActivity
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Key
import slingseal.handheld.sense.Luminance

/**
 * Several phones in one process: one lies in the hand, the homes of the others lie aside. What goes from one
 * to another are pictures of screens alone. Presses, letters and looks are counted, each phone's its own.
 */
class Phones {
    private var controller: ActivityController<HandheldActivity>? = null
    private var inHand = ""
    val counts = sortedMapOf<String, Count>()
    val screen: Screen
        get() = Screen(activity)

    val activity: HandheldActivity
        get() = checkNotNull(controller).get()

    val core: Handheld
        get() = Core.of(activity)

    private val count
        get() = counts.getOrPut(inHand) { Count() }

    /**
     * What a person did on one phone. Keys of a pad are their own: they are found without a look at the page.
     */
    class Count(var presses: Int = 0, var padKeys: Int = 0, var letters: Int = 0, var scans: Int = 0) {
        /**
         * Seconds by the keystroke-level model (S. K. Card, T. P. Moran, A. Newell, "The keystroke-level
         * model for user performance time with interactive systems", CACM 23(7), 1980): 1.35 s to think and
         * 1.1 s to point for each press, 0.75 s a letter as for codes, 1.1 s a pad's key. A scan is no part
         * of it: 8 s are our own guess, not a measurement.
         */
        val seconds
            get() = presses * 2.45 + padKeys * 1.1 + letters * 0.75 + scans * 8.0

        override fun toString() =
            "$presses presses, $padKeys pad keys, $letters letters, $scans scans: %.0f s".format(seconds)
    }

    private fun aside(name: String) =
        File(RuntimeEnvironment.getApplication().filesDir, "aside/$name").apply { mkdirs() }

    /** Lays the phone in hand away and takes another up; what is done there is done on its own home. */
    fun on(name: String) {
        if (name == inHand) return
        controller?.pause()?.stop()?.destroy()
        Core.close()
        val files = RuntimeEnvironment.getApplication().noBackupFilesDir
        for (part in PARTS) {
            if (inHand.isNotEmpty())
                File(files, part).takeIf(File::exists)?.renameTo(File(aside(inHand), part))
            File(aside(name), part).takeIf(File::exists)?.renameTo(File(files, part))
        }
        inHand = name
        controller = Zone.launch()
        screen.settle()
    }

    fun press(label: String) = press(screen.key(label))

    fun press(key: Key) {
        screen.press(key)
        count.presses += 1
    }

    fun write(words: String) {
        screen.shown().filterIsInstance<EditText>().single().setText(words)
        count.letters += words.length
    }

    fun digits(digits: String) {
        for (digit in digits) pad(screen.key(digit.toString()))
    }

    private fun pad(key: Key) {
        screen.press(key, settleFirst = false)
        count.padKeys += 1
    }

    /** Keys in a fingerprint as somebody reads it out. */
    fun hear(fingerprint: String) {
        val signs = fingerprint.filter { it != ' ' }
        screen.hear(fingerprint)
        count.padKeys += signs.sumOf { if (it.isDigit()) 1 else 2 as Int }
    }

    /** Holds another phone's screen before this one's camera. */
    fun look(picture: Luminance) {
        activity.see(picture)
        count.scans += 1
    }

    /** The code on this phone's screen as another one's camera sees it: the picture of the whole screen. */
    fun picture(): Luminance {
        screen.settle()
        check(screen.shown().filterIsInstance<CodeView>().count() == 1) {
            "no code on the page: ${screen.words()}"
        }
        return Zone.camera(screen.pixels())
    }

    fun start() {
        activity.backTo(slingseal.handheld.places.Place.Start::class)
        screen.settle()
    }

    private companion object {
        /**
         * What makes a phone this one: its home, and the digest of the secret that its vault was locked with.
         */
        val PARTS = listOf("home", "witness")
    }
}
