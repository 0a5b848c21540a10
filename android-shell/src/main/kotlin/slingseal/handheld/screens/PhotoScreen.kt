package slingseal.handheld.screens

import android.graphics.BitmapFactory
import android.view.View
import android.view.ViewGroup
import android.widget.ImageView
import android.widget.LinearLayout
import slingseal.core.Reading
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/**
 * Takes a photograph in the camera's full size, shows it, and keeps it if it is good enough; the core keeps
 * it and gives the digest that the finding or the report names.
 */
abstract class PhotoScreen(shell: Shell, place: Place) : LookingScreen(shell, place) {
    /** Whether it is good enough, asked of what it is to show. */
    protected abstract val ask: Int

    private var taken: ByteArray? = null
    override val looks
        get() = taken == null

    override val paneTitle: CharSequence
        get() = text(R.string.add_photo)

    override fun photo(): ((ByteArray) -> Unit) = ::review

    override fun onCodes(codes: List<Reading.Ours>) = Unit

    override fun build(): View {
        taken?.let {
            return reviewPage(it)
        }
        val read =
            LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                noticePanel()?.let { addView(it) }
                addView(
                    window(),
                    LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply {
                        topMargin = context.dp(10)
                    },
                )
            }
        val take = key(Face.GOOD, text(R.string.take_photo), Sign.PHOTO) { shoot() }.takeIf { blind == null }
        return page(text(R.string.add_photo), read, listOfNotNull(take, torchKey()), scrolls = false)
    }

    private fun shoot() {
        if (eye.shoot()) return shell.feel(Beat.READ)
        shell.notice = text(R.string.camera_wait)
        shell.feel(Beat.REFUSED)
        shell.redrawSame()
    }

    private fun reviewPage(bytes: ByteArray): View {
        // decoded small: the page is small, and the picture is kept as it came
        val size = BitmapFactory.Options().apply { inJustDecodeBounds = true }
        BitmapFactory.decodeByteArray(bytes, 0, bytes.size, size)
        val small =
            BitmapFactory.Options().apply {
                inSampleSize = maxOf(1, maxOf(size.outWidth, size.outHeight) / 1600)
            }
        val picture =
            ImageView(context).apply {
                setImageBitmap(BitmapFactory.decodeByteArray(bytes, 0, bytes.size, small))
                scaleType = ImageView.ScaleType.FIT_CENTER
                contentDescription = text(R.string.photo_taken)
            }
        val read =
            LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                noticePanel()?.let { addView(it) }
                addView(parts.words(text(ask), 19, bold = true))
                addView(
                    picture,
                    LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply {
                        topMargin = context.dp(10)
                    },
                )
            }
        val keep = key(Face.GOOD, text(R.string.photo_keep), Sign.TICK) { keep(bytes) }
        val again = key(Face.SIDE, text(R.string.photo_again), Sign.AGAIN) { again() }
        return page(text(R.string.add_photo), read, listOf(keep, again), scrolls = false)
    }

    /** What the camera took: shown before it is kept. */
    fun review(bytes: ByteArray) {
        taken = bytes
        eye.stop()
        shell.feel(Beat.READ)
        shell.redrawSame()
    }

    private fun again() {
        taken = null
        shell.redrawSame()
        if (inFront) eye.start()
    }

    private fun keep(bytes: ByteArray) {
        val core = shell.core
        shell.work({ core.addPhoto(bytes) }) { digest ->
            feel(Beat.READ)
            kept(this, digest)
        }
    }

    /**
     * Back to what the photograph is of, with the digest that names it; the shell may be another one by then.
     */
    protected abstract fun kept(shell: Shell, digest: String)
}

/** A photograph of a deficiency. */
class DeficiencyPhotoScreen(shell: Shell, override val place: Place.Photo) : PhotoScreen(shell, place) {
    override val ask
        get() = R.string.photo_ask

    override fun kept(shell: Shell, digest: String) {
        shell.backTo(Place.Walk::class)
        shell.go(Place.Deficiency(place.draft.copy(photos = place.draft.photos + digest)))
    }
}

/** A photograph that goes with a report: of what came down, of what is damaged. */
class ReportPhotoScreen(shell: Shell, override val place: Place.ReportPhoto) : PhotoScreen(shell, place) {
    override val ask
        get() = R.string.photo_ask_report

    override fun kept(shell: Shell, digest: String) {
        shell.backTo(Place.What::class)
        shell.swap(Place.What(place.draft.copy(photos = place.draft.photos + digest)))
    }
}
