package slingseal.handheld.screens

import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.HandheldException
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.dp

/** The load's number over every page of its inspection: of two nets side by side, the phone says which one it means. */
object LoadBand {
    private const val HIGH = 30

    /** The load of an inspection's page; null on every other, and in a run of an examination, which has a band of its own. */
    fun load(shell: Shell, place: Place): String? {
        val walk = place.args.firstOrNull()?.takeIf { place.page.ofWalk && place.run == null && it.isNotEmpty() } ?: return null
        return try {
            shell.core.walk(walk).load
        } catch (e: HandheldException) {
            // the page itself says what is wrong
            android.util.Log.i("slingseal", "no load: ${e.message}")
            null
        }
    }

    fun over(shell: Shell, load: String, page: View): View = LinearLayout(shell.activity).apply {
        val fill = ViewGroup.LayoutParams.MATCH_PARENT
        orientation = LinearLayout.VERTICAL
        val band = shell.parts.fitted(context.getString(R.string.load_of, load), 19, 12).apply {
            setBackgroundColor(shell.palette.page.on)
            setTextColor(shell.palette.page.under)
            gravity = Gravity.CENTER
        }
        addView(band, LinearLayout.LayoutParams(fill, dp(HIGH)))
        addView(page, LinearLayout.LayoutParams(fill, 0, 1f))
    }
}
