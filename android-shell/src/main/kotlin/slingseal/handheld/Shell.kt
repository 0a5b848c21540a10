package slingseal.handheld

import android.app.Activity
import kotlin.reflect.KClass
import slingseal.core.Handheld
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Parts
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Untouched

/**
 * What a page may ask of the program around it. The core is asked beside the main thread: by a page when it
 * is made ([attempt]), by a press through [ask], and through [work] where it takes its time.
 */
interface Shell {
    val activity: Activity
    val core: Handheld
    val palette: Palette
    val parts: Parts

    /** One line that the next page shows at its head: why something was refused. */
    var notice: String?

    /** One line of good news that the next page shows at its head. */
    var news: String?

    fun go(place: Place)

    /**
     * Puts down what the page that is shown has come to, so that a turn of the phone keeps it; nothing is
     * drawn anew.
     */
    fun keep(place: Place)

    /** Goes to a place instead of the one that is shown. */
    fun swap(place: Place)

    /** Back to the page that is nearest of this kind, or to the start. */
    fun backTo(page: KClass<out Place>)

    fun back()

    /** Whether a page of this kind lies open, in front or under others. */
    fun lies(page: KClass<out Place>): Boolean

    fun redraw()

    /** Draws the page that is in front again, as the same object. */
    fun redrawSame()

    /**
     * Whether something is under way, or a page is being read: until then the one that is seen takes nothing.
     */
    val busy: Boolean

    fun feel(beat: Beat)

    fun say(words: String)

    /**
     * Does slow work off the main thread while the page says that it works and takes no press; then `done` is
     * called on the shell that is there by then, which may be another one. An error of the core is told on
     * the page.
     */
    fun <T> work(job: () -> T, done: Shell.(T) -> Unit)

    /**
     * Asks the core on a press, off the main thread: the page stays as it is and takes no other; then `done`
     * goes on with the answer, on the shell that is there by then. A refusal is told by the page in front
     * ([Screen.refused]).
     */
    fun <T> ask(job: Handheld.() -> T, done: Shell.(T) -> Unit)

    /** Keeps a choice ([Core.choice]). */
    fun choose(name: String, value: String)

    /** Feels a refusal, and lets the page in front tell it. */
    fun refuse(words: String)

    /** How work ended; `then` goes on with what came of it. */
    fun worked(result: Result<Any?>, then: (Any?) -> Unit)

    /**
     * Reads while a page is made; an error of the core is told on the page that comes. Null where there was
     * one.
     */
    fun <T : Any> attempt(job: () -> T): T?

    fun changePalette(palette: Palette)

    /** Whether each page is spoken when it comes. */
    var speaks: Boolean

    /** Why no sticker can be touched; null where one can. */
    val untouched: Untouched?

    /** Whether the keys at the edge and at the ear answer: off until somebody switches them on. */
    var hardKeysOn: Boolean
}
