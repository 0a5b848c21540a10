package slingseal.handheld

import android.os.Bundle
import android.os.CancellationSignal
import android.os.ParcelFileDescriptor
import android.print.PageRange
import android.print.PrintAttributes
import android.print.PrintDocumentAdapter
import android.print.PrintDocumentInfo
import android.print.PrintManager
import java.io.IOException
import slingseal.core.HandheldException

/**
 * Hands pages of the core to the platform's print service, which finds the printer and speaks to it: this
 * program asks for no permission and opens no connection. The pages are made for the paper that the person
 * picks there.
 */
class Printing(private val name: String, private val pages: (letter: Boolean) -> ByteArray) :
    PrintDocumentAdapter() {
    private var made: ByteArray? = null
    private var letter: Boolean? = null

    override fun onLayout(
        old: PrintAttributes?,
        new: PrintAttributes,
        cancel: CancellationSignal?,
        callback: LayoutResultCallback,
        extras: Bundle?,
    ) {
        if (cancel?.isCanceled == true) return callback.onLayoutCancelled()
        val wanted = isLetter(new)
        val changed = wanted != letter
        Core.slow.execute {
            try {
                if (changed || made == null) made = pages(wanted)
                letter = wanted
                callback.onLayoutFinished(
                    PrintDocumentInfo.Builder("$name.pdf")
                        .setContentType(PrintDocumentInfo.CONTENT_TYPE_DOCUMENT)
                        .setPageCount(PrintDocumentInfo.PAGE_COUNT_UNKNOWN)
                        .build(),
                    changed,
                )
            } catch (e: HandheldException) {
                callback.onLayoutFailed(e.words)
            }
        }
    }

    override fun onWrite(
        ranges: Array<out PageRange>,
        to: ParcelFileDescriptor,
        cancel: CancellationSignal?,
        callback: WriteResultCallback,
    ) {
        val pdf = made
        if (cancel?.isCanceled == true || pdf == null) return callback.onWriteCancelled()
        Core.slow.execute {
            try {
                ParcelFileDescriptor.AutoCloseOutputStream(to).use { it.write(pdf) }
                callback.onWriteFinished(arrayOf(PageRange.ALL_PAGES))
            } catch (e: IOException) {
                callback.onWriteFailed(e.message)
            } catch (e: RuntimeException) {
                // whatever lies behind the place may fail in any way
                callback.onWriteFailed(e.toString())
            }
        }
    }

    companion object {
        /** US Letter is wider than A4 and shorter; what is no Letter is printed as A4. */
        internal fun isLetter(attributes: PrintAttributes): Boolean {
            val size = attributes.mediaSize?.asPortrait() ?: return false
            val letter = PrintAttributes.MediaSize.NA_LETTER
            return size.widthMils == letter.widthMils && size.heightMils == letter.heightMils
        }

        /** Opens the platform's own page for printing; false on a phone that has none. */
        fun begin(shell: Shell, name: String, pages: (letter: Boolean) -> ByteArray): Boolean {
            val manager = shell.activity.getSystemService(PrintManager::class.java) ?: return false
            manager.print(name, Printing(name, pages), null)
            return true
        }
    }
}
