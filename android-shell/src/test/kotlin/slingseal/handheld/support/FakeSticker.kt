package slingseal.handheld.support

import java.io.IOException
import slingseal.handheld.HandheldActivity
import slingseal.handheld.sense.Sticker

/**
 * A sticker that any phone may touch: so many bytes of room, what stands on it, and what may go wrong with
 * it.
 */
class FakeSticker(
    override val room: Int?,
    var message: ByteArray = ByteArray(0),
    override val writable: Boolean = true,
    override val readsBack: Boolean = true,
    private val torn: Boolean = false,
    private val gone: Boolean = false,
) : Sticker {
    override fun read() = if (gone) throw IOException("gone") else message

    override fun write(message: ByteArray) {
        if (gone) throw IOException("gone")
        this.message = if (torn) message.copyOf(message.size / 2) else message
    }
}

/**
 * Holds the phone to a sticker, as the platform tells it: off the main thread. Null is one that holds nothing
 * of ours.
 */
fun Screen.touch(sticker: Sticker?) {
    Thread { (activity as HandheldActivity).front!!.touched(sticker) }.apply { start() }.join()
    settle()
    finish()
}
