package slingseal.handheld.support

import slingseal.handheld.HandheldActivity
import slingseal.handheld.sense.Sticker

/** A sticker that any phone may touch: so many bytes of room, and what stands on it. */
class FakeSticker(override val room: Int?, var message: ByteArray = ByteArray(0)) : Sticker {
    override val writable = true
    override val readsBack = true

    override fun read() = message

    override fun write(message: ByteArray) {
        this.message = message
    }
}

/** Holds the phone to a sticker, as the platform tells it: off the main thread. */
fun Screen.touch(sticker: Sticker) {
    Thread { (activity as HandheldActivity).front!!.touched(sticker) }.apply { start() }.join()
    settle()
    finish()
}
