package slingseal.handheld.screens

import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.HandheldException
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.ofLoad

/**
 * The load's number over every page of its inspection: of two nets side by side, the phone says which one it
 * means.
 */
object LoadBand {
    private const val HIGH = 30

    /**
     * What an inspection's page is of, in words; null on every other, and in a run of an examination, which
     * has a band of its own.
     */
    fun load(shell: Shell, place: Place): String? {
        val on = (place as? Place.OfWalk)?.on as? WalkRef.Inspection ?: return null
        return try {
            shell.core.walk(on.walk).let {
                if (it.ofLoad) shell.activity.getString(R.string.load_of, it.load) else it.load
            }
        } catch (e: HandheldException) {
            // the page itself says what is wrong
            android.util.Log.i("slingseal", "no load: ${e.message}")
            null
        }
    }

    fun over(shell: Shell, load: String, page: View): View =
        LinearLayout(shell.activity).apply {
            val fill = ViewGroup.LayoutParams.MATCH_PARENT
            orientation = LinearLayout.VERTICAL
            val band =
                shell.parts.fitted(load, 19, 12).apply {
                    setBackgroundColor(shell.palette.page.on)
                    setTextColor(shell.palette.page.under)
                    gravity = Gravity.CENTER
                }
            addView(band, LinearLayout.LayoutParams(fill, dp(HIGH)))
            addView(page, LinearLayout.LayoutParams(fill, 0, 1f))
        }
}
