package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.os.SystemClock
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.handheld.R

/** What stands on the screen while something slow is done: that it works, and no key. */
class WorkingPage(private val parts: Parts) {
    fun build(words: Int = R.string.working_words): View =
        LinearLayout(parts.context).apply {
            orientation = LinearLayout.VERTICAL
            gravity = Gravity.CENTER
            setPadding(dp(28), dp(28), dp(28), dp(28))
            addView(
                parts.heading(context.getString(R.string.working), 34).apply {
                    accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE
                }
            )
            addView(
                Sweep(context, parts.palette),
                LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, dp(18)).apply {
                    topMargin = dp(24)
                    bottomMargin = dp(24)
                },
            )
            addView(parts.words(context.getString(words), 20))
        }
}

/** A bar that runs to and fro: the program lives. */
private class Sweep(context: Context, private val palette: Palette) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onDraw(canvas: Canvas) {
        paint.color = palette.line
        paint.style = Paint.Style.STROKE
        paint.strokeWidth = dp(2).toFloat()
        val edge = paint.strokeWidth / 2
        canvas.drawRect(edge, edge, width - edge, height - edge, paint)
        paint.style = Paint.Style.FILL
        paint.color = palette.page.on
        val phase = SystemClock.uptimeMillis() % PERIOD / PERIOD.toFloat()
        val share = if (phase < 0.5f) phase * 2 else 2 - phase * 2
        val wide = width * 0.3f
        val left = (width - wide) * share
        canvas.drawRect(left, 0f, left + wide, height.toFloat(), paint)
        postInvalidateDelayed(STEP)
    }

    private companion object {
        const val PERIOD = 1600L
        const val STEP = 60L
    }
}
