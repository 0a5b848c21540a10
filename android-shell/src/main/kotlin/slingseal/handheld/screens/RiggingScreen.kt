package slingseal.handheld.screens

import android.graphics.BitmapFactory
import android.os.Handler
import android.os.Looper
import android.view.View
import android.widget.ImageView
import java.util.concurrent.atomic.AtomicInteger
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.LinkBesidePlan
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.walkOf

/** The rigging as a picture: side, front and top to one scale, with the links as they were counted. */
class RiggingScreen(shell: Shell, override val place: Place.Rigging) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.rigging)

    private val walk = shell.attempt { shell.core.walkOf(place.on) }
    private val statics =
        walk?.let { shell.attempt { listOfNotNull(shell.core.walkRigging(it.walk)) } }?.firstOrNull()

    private val links = walk?.let { shell.attempt { shell.core.walkLinks(it.walk) } }.orEmpty()

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.rigging), body())
        val change = walk.linkChange?.let { parts.signedPanel(Sign.WARN, it) }
        // what is expected stands below what was counted, where the two differ
        val differs = links.any { link -> link.counted?.let { it != link.planned } == true }
        val planned =
            if (statics == null || !differs) emptyList()
            else
                listOf(
                    parts.eyebrow(text(R.string.rigging_planned)),
                    drawn(shell) { core -> core.walkPlannedPicture(walk.walk) },
                )
        return page(
            text(R.string.rigging),
            body(
                change,
                statics?.let { parts.words(it.summary, 19, bold = true) },
                if (links.isEmpty()) null else parts.panel(parts.facts(links.map(::row), 18)),
                if (differs) parts.eyebrow(text(R.string.rigging_counted)) else null,
                statics?.let { drawn(shell) { core -> core.walkPicture(walk.walk) } },
                *planned.toTypedArray(),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
        )
    }

    /** The link of a leg as it is planned, and as it was counted. */
    private fun row(link: LinkBesidePlan): Pair<CharSequence, CharSequence> {
        val counted = link.counted
        val planned = link.planned.toInt()
        return text(R.string.rigging_leg, link.leg) to
            when {
                counted == null -> text(R.string.link_not_counted, planned)
                counted == link.planned -> text(R.string.link_as_planned, planned)
                else -> text(R.string.link_differs, counted.toInt(), planned)
            }
    }

    companion object {
        /** How many pictures are still being drawn. */
        val drawing = AtomicInteger()

        /**
         * A picture as wide as the page. It is drawn beside the main thread and stands there when it is done;
         * nothing where there is none.
         */
        fun drawn(shell: Shell, draw: (Handheld) -> ByteArray?): View {
            val core = shell.core
            val image = empty(shell)
            drawing.incrementAndGet()
            Core.slow.execute {
                val bitmap =
                    try {
                        draw(core)?.let { BitmapFactory.decodeByteArray(it, 0, it.size) }
                    } catch (e: HandheldException) {
                        android.util.Log.i("slingseal", "no picture: ${e.message}")
                        null
                    }
                Handler(Looper.getMainLooper()).post {
                    if (bitmap == null) image.visibility = View.GONE else image.setImageBitmap(bitmap)
                    drawing.decrementAndGet()
                }
            }
            return image
        }

        private fun empty(shell: Shell) =
            ImageView(shell.activity).apply {
                adjustViewBounds = true
                contentDescription = context.getString(R.string.rigging_picture)
                // ink on paper by day; at night the page stays dark and the picture with it
                if (!shell.palette.lightPage) colorFilter = android.graphics.ColorMatrixColorFilter(NIGHT)
            }

        /** White becomes black, black becomes the night's red. */
        private val NIGHT =
            floatArrayOf(
                -1f,
                0f,
                0f,
                0f,
                255f,
                -0.42f,
                0f,
                0f,
                0f,
                106f,
                -0.19f,
                0f,
                0f,
                0f,
                48f,
                0f,
                0f,
                0f,
                1f,
                0f,
            )
    }
}
