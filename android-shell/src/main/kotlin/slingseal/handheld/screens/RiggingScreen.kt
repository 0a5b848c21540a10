package slingseal.handheld.screens

import android.graphics.BitmapFactory
import android.view.View
import android.widget.ImageView
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Sign

/** The rigging as a picture: side, front and top to one scale, with the links as they were counted. */
class RiggingScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn get() = true
    override val paneTitle: CharSequence get() = text(R.string.rigging)

    override fun build(): View {
        val walk = shell.attempt { shell.core.walk(place.args[0]) } ?: return page(text(R.string.rigging), body())
        val statics = shell.attempt { listOfNotNull(shell.core.walkRigging(walk.walk)) }?.firstOrNull()
        val picture = shell.attempt { shell.core.walkPicture(walk.walk) ?: ByteArray(0) }?.takeIf { it.isNotEmpty() }
        val change = walk.linkChange?.let { parts.panel(parts.signed(Sign.WARN, parts.words(it, 18, bold = true, ground = palette.panel), palette.panel), thick = true) }
        return page(
            text(R.string.rigging),
            body(
                change,
                statics?.let { parts.words(it.summary, 19, bold = true) },
                picture?.let { drawn(this, shell, it) },
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
        )
    }

    companion object {
        /** A picture as wide as the page. */
        fun drawn(screen: Screen, shell: Shell, png: ByteArray): View? {
            val bitmap = BitmapFactory.decodeByteArray(png, 0, png.size) ?: return null
            return ImageView(shell.activity).apply {
                setImageBitmap(bitmap)
                adjustViewBounds = true
                contentDescription = context.getString(R.string.rigging_picture)
                // ink on paper by day; at night the page stays dark and the picture with it
                if (!shell.palette.lightPage) colorFilter = android.graphics.ColorMatrixColorFilter(NIGHT)
            }
        }

        /** White becomes black, black becomes the night's red. */
        private val NIGHT = floatArrayOf(
            -1f, 0f, 0f, 0f, 255f,
            -0.42f, 0f, 0f, 0f, 106f,
            -0.19f, 0f, 0f, 0f, 48f,
            0f, 0f, 0f, 1f, 0f,
        )
    }
}
