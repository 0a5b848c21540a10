package slingseal.handheld.screens

import android.graphics.Bitmap
import android.view.TextureView
import android.view.ViewGroup
import android.widget.LinearLayout
import android.view.View
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.look.dp
import slingseal.handheld.sense.Eye
import java.io.ByteArrayOutputStream

/** Takes a photograph of a deficiency; the core keeps it and gives the digest that the finding names. */
class PhotoScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val preview = TextureView(context)
    private val eye = Eye(context, preview, {}, { shell.notice = text(R.string.no_camera); shell.redrawSame() })
    override val staysOn get() = true

    override fun build(): View {
        (preview.parent as? ViewGroup)?.removeView(preview)
        val read = LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            noticePanel()?.let { addView(it) }
            addView(preview, LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply { topMargin = context.dp(10) })
        }
        val torch = key(Face.SIDE, text(R.string.torch), Sign.TORCH) { eye.light(!eye.torch) }
        val take = key(Face.GOOD, text(R.string.take_photo), Sign.EYE) { preview.bitmap?.let(::keep) }
        return page(text(R.string.add_photo), read, listOfNotNull(take, torch.takeIf { eye.hasTorch }), scrolls = false)
    }

    /** Keeps a picture as JPEG. */
    fun keep(picture: Bitmap) {
        val out = ByteArrayOutputStream()
        picture.compress(Bitmap.CompressFormat.JPEG, 85, out)
        val digest = shell.attempt { shell.core.addPhoto(out.toByteArray()) } ?: return shell.redrawSame()
        shell.feel(Beat.READ)
        val photos = listOf(place.args[5], digest).filter { it.isNotEmpty() }.joinToString(",")
        shell.backTo(PageKind.WALK)
        shell.go(Place(PageKind.DEFICIENCY, *place.args.take(5).toTypedArray(), photos))
    }

    override fun shown() = eye.start()

    override fun hidden() = eye.stop()
}
