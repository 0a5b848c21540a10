package android.print

// In the platform's own package: it hides the constructors of what a document answers to, so that only its
// spooler makes them.

/** How a layout ended: null where it was done, else why not. */
class LaidOut(private val done: (String?) -> Unit) : PrintDocumentAdapter.LayoutResultCallback() {
    override fun onLayoutFinished(info: PrintDocumentInfo?, changed: Boolean) = done(null)

    override fun onLayoutFailed(error: CharSequence?) = done("failed: $error")

    override fun onLayoutCancelled() = done("cancelled")
}

/** How writing ended. */
class Written(private val done: (String?) -> Unit) : PrintDocumentAdapter.WriteResultCallback() {
    override fun onWriteFinished(pages: Array<out PageRange>?) = done(null)

    override fun onWriteFailed(error: CharSequence?) = done("failed: $error")

    override fun onWriteCancelled() = done("cancelled")
}
