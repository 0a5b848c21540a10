package slingseal.handheld.screens

import android.os.Handler
import android.os.Looper
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.RunView
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.dp

/**
 * The band over every page of a run: that this is an examination, whose, and the clock, which the core keeps.
 * It asks once a second; what it cannot learn shows with the next answer.
 */
class RunBand(private val shell: Shell, private val run: String, first: RunView?, onItsSide: Boolean) :
    LinearLayout(shell.activity) {
    private val hands = Handler(Looper.getMainLooper())
    private val tick = Runnable { move() }
    private val ground = shell.palette.page
    private val what = line(shell.activity.getString(R.string.exam_band), 22)
    private val who = line("", 16)
    private val clock = line("", 26)

    init {
        setBackgroundColor(ground.on)
        setPadding(dp(14), dp(2), dp(14), dp(2))
        val fill = ViewGroup.LayoutParams.MATCH_PARENT
        fun share(of: Float) = LayoutParams(0, fill, of)
        if (onItsSide) {
            addView(what, share(0.8f))
            addView(who, share(1.2f))
            addView(clock, share(1f))
        } else {
            val words =
                LinearLayout(context).apply {
                    orientation = VERTICAL
                    addView(what, LayoutParams(fill, 0, 1.2f))
                    addView(who, LayoutParams(fill, 0, 1f))
                }
            addView(words, share(1.1f))
            addView(clock, share(1f))
        }
        clock.gravity = Gravity.END or Gravity.CENTER_VERTICAL
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_YES
        for (view in listOf(what, who, clock)) view.importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
        first?.let(::show)
    }

    private fun line(words: String, size: Int) =
        shell.parts.fitted(words, size, 11).apply {
            setTextColor(ground.under)
            gravity = Gravity.START or Gravity.CENTER_VERTICAL
            setPadding(0, 0, context.dp(8), 0)
        }

    private fun show(view: RunView) {
        who.text = context.getString(R.string.exam_band_who, view.student)
        clock.text =
            when {
                view.clockJumped -> context.getString(R.string.exam_clock_set, view.clock)
                view.over -> context.getString(R.string.exam_over, view.clock)
                else -> view.clock
            }
        contentDescription = "${what.text}. ${who.text}. ${clock.text}"
    }

    private fun move() {
        val core = shell.core
        Core.quick.execute {
            val view = read(core, run)
            hands.post {
                if (!isAttachedToWindow) return@post
                view?.let(::show)
                if (view?.ended != true) hands.postDelayed(tick, SECOND)
            }
        }
    }

    override fun onAttachedToWindow() {
        super.onAttachedToWindow()
        hands.postDelayed(tick, SECOND)
    }

    override fun onDetachedFromWindow() {
        hands.removeCallbacks(tick)
        super.onDetachedFromWindow()
    }

    companion object {
        private const val SECOND = 1000L

        /** The run as the core has it; null where that cannot be learnt. */
        fun read(core: Handheld, run: String): RunView? =
            try {
                core.examRun(run)
            } catch (e: HandheldException) {
                android.util.Log.i("slingseal", "no clock: ${e.message}")
                null
            }

        /** A page under its band. On its side the band is low: the keys need the height. */
        fun over(shell: Shell, run: String, first: RunView?, onItsSide: Boolean, page: View): View =
            LinearLayout(shell.activity).apply {
                val fill = ViewGroup.LayoutParams.MATCH_PARENT
                orientation = VERTICAL
                addView(
                    RunBand(shell, run, first, onItsSide),
                    LayoutParams(fill, dp(if (onItsSide) 36 else 54)),
                )
                addView(page, LayoutParams(fill, 0, 1f))
            }
    }
}
