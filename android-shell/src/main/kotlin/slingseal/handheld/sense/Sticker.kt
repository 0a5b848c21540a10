package slingseal.handheld.sense

import android.app.Activity
import android.nfc.FormatException
import android.nfc.NdefMessage
import android.nfc.NfcAdapter
import android.nfc.Tag
import android.nfc.tech.Ndef
import android.nfc.tech.NdefFormatable
import java.io.IOException

/**
 * A sticker that was touched. Every call may take a moment and may find it gone: never on the main thread.
 */
interface Sticker {
    /** How many bytes of an NDEF message it holds; null where it is blank and does not say. */
    val room: Int?

    /** Whether it takes a message. */
    val writable: Boolean

    /** Whether what was written can be read by the same touch; one out of the box is read by the next. */
    val readsBack: Boolean

    /** The message on it, read anew; empty where it has none. */
    @Throws(IOException::class) fun read(): ByteArray

    @Throws(IOException::class) fun write(message: ByteArray)
}

/** Why a touch gave nothing. */
enum class Untouched {
    NO_NFC,
    OFF,
}

/**
 * Listens for stickers while a page wants them, by the reader mode of the platform: no other program is woken
 * by the touch.
 */
class Touch(private val activity: Activity, private val onSticker: (Sticker?) -> Unit) {
    private val adapter: NfcAdapter? = NfcAdapter.getDefaultAdapter(activity)
    private var listening = false

    /** Why there is nothing to touch with; null where there is. */
    val missing: Untouched?
        get() =
            when {
                adapter == null -> Untouched.NO_NFC
                !isOn(adapter) -> Untouched.OFF
                else -> null
            }

    private fun isOn(adapter: NfcAdapter) =
        try {
            adapter.isEnabled
        } catch (e: RuntimeException) {
            // the service of a phone whose chip died
            android.util.Log.i("slingseal", "no NFC: ${e.message}")
            false
        }

    fun listen(on: Boolean) {
        val adapter = adapter ?: return
        if (on == listening) return
        try {
            if (on) adapter.enableReaderMode(activity, { onSticker(of(it)) }, KINDS, null)
            else adapter.disableReaderMode(activity)
            listening = on
        } catch (e: RuntimeException) {
            android.util.Log.i("slingseal", "no reader mode: ${e.message}")
        }
    }

    private fun of(tag: Tag): Sticker? =
        Ndef.get(tag)?.let(::Written) ?: NdefFormatable.get(tag)?.let(::Blank)

    /** A sticker that is laid out for messages. */
    private class Written(private val ndef: Ndef) : Sticker {
        override val room
            get() = ndef.maxSize

        override val writable
            get() = ndef.isWritable

        override val readsBack
            get() = true

        override fun read() = reached { ndef.ndefMessage?.toByteArray() ?: ByteArray(0) }

        override fun write(message: ByteArray) = reached { ndef.writeNdefMessage(NdefMessage(message)) }

        private fun <T> reached(job: () -> T): T =
            try {
                if (!ndef.isConnected) ndef.connect()
                job()
            } catch (e: FormatException) {
                throw IOException(e)
            } catch (e: SecurityException) {
                // the tag is out of date: another touch came
                throw IOException(e)
            }
    }

    /** A sticker out of the box, which is laid out with its first message. */
    private class Blank(private val blank: NdefFormatable) : Sticker {
        override val room: Int?
            get() = null

        override val writable
            get() = true

        override val readsBack
            get() = false

        override fun read() = ByteArray(0)

        override fun write(message: ByteArray) =
            try {
                blank.connect()
                blank.format(NdefMessage(message))
            } catch (e: FormatException) {
                throw IOException(e)
            } catch (e: SecurityException) {
                throw IOException(e)
            }
    }

    private companion object {
        const val KINDS =
            NfcAdapter.FLAG_READER_NFC_A or
                NfcAdapter.FLAG_READER_NFC_B or
                NfcAdapter.FLAG_READER_NFC_F or
                NfcAdapter.FLAG_READER_NFC_V
    }
}
