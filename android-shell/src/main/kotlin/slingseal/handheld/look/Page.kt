package slingseal.handheld.look

import android.annotation.SuppressLint
import android.content.Context
import android.graphics.Rect
import android.os.Build
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.view.WindowInsets
import android.widget.FrameLayout
import android.widget.LinearLayout
import slingseal.handheld.NewerAndroid

/** The ground of every page: keeps clear of the bars of the system, of cut-outs and of the keyboard. */
@SuppressLint("ViewConstructor")
class SafeArea(context: Context, palette: Palette) : FrameLayout(context) {
    init {
        setBackgroundColor(palette.page.under)
        fitsSystemWindows = false
    }

    override fun onApplyWindowInsets(insets: WindowInsets): WindowInsets {
        val safe = if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) newer(insets) else older(insets)
        setPadding(safe.left, safe.top, safe.right, safe.bottom)
        return insets
    }

    @NewerAndroid
    private fun newer(insets: WindowInsets): Rect {
        val kinds =
            WindowInsets.Type.systemBars() or WindowInsets.Type.displayCutout() or WindowInsets.Type.ime()
        return insets.getInsets(kinds).let { Rect(it.left, it.top, it.right, it.bottom) }
    }

    @Suppress("DEPRECATION")
    private fun older(insets: WindowInsets): Rect {
        val bars =
            Rect(
                insets.systemWindowInsetLeft,
                insets.systemWindowInsetTop,
                insets.systemWindowInsetRight,
                insets.systemWindowInsetBottom,
            )
        return if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) withCutout(insets, bars) else bars
    }

    @NewerAndroid
    private fun withCutout(insets: WindowInsets, bars: Rect): Rect {
        val cut = insets.displayCutout ?: return bars
        return Rect(
            maxOf(bars.left, cut.safeInsetLeft),
            maxOf(bars.top, cut.safeInsetTop),
            maxOf(bars.right, cut.safeInsetRight),
            maxOf(bars.bottom, cut.safeInsetBottom),
        )
    }
}

/**
 * A page that is read and then acted on. Upright: title, words, keys at the foot. On its side: title and
 * words on the left, keys on the right.
 */
class Page(private val parts: Parts) {
    private val context = parts.context

    fun build(
        title: CharSequence?,
        back: Key?,
        body: View,
        keys: List<Key>,
        onItsSide: Boolean,
        scrolls: Boolean = true,
    ): View {
        val read =
            LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                header(title, back)?.let { addView(it, wide()) }
                addView(
                    if (scrolls) parts.scroll(body) else body,
                    LinearLayout.LayoutParams(MATCH, 0, 1f).apply { topMargin = dp(8) },
                )
            }
        return LinearLayout(context).apply {
            orientation = if (onItsSide) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
            setPadding(dp(14), dp(10), dp(14), dp(12))
            if (onItsSide) {
                addView(read, LinearLayout.LayoutParams(0, MATCH, 1f))
                if (keys.isNotEmpty())
                    addView(
                        foot(keys, stacked = true),
                        LinearLayout.LayoutParams(dp(190), MATCH).apply { marginStart = dp(18) },
                    )
            } else {
                addView(read, LinearLayout.LayoutParams(MATCH, 0, 1f))
                if (keys.isNotEmpty())
                    addView(foot(keys, stacked = false), wide().apply { topMargin = dp(12) })
            }
        }
    }

    /**
     * A page with a pad of numbers. What is typed stands still while the words above it may scroll. On its
     * side the pad takes the whole height, for its keys are the smallest.
     */
    fun pad(
        title: CharSequence,
        back: Key,
        words: View,
        value: View,
        pad: View,
        done: Key,
        onItsSide: Boolean,
    ): View {
        fun column(vararg shares: Pair<View, LinearLayout.LayoutParams>) =
            LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                for ((view, place) in shares) addView(view, place)
            }
        fun rest(share: Float) = LinearLayout.LayoutParams(MATCH, 0, share).apply { topMargin = dp(8) }
        val line = LinearLayout.LayoutParams(MATCH, dp(60))
        return LinearLayout(context).apply {
            setPadding(dp(14), dp(10), dp(14), dp(12))
            if (onItsSide) {
                // the column is narrow: a long title scrolls with the words
                val read = parts.scroll(parts.column(parts.heading(title, 22), words, space = 6))
                val step = LinearLayout.LayoutParams(dp(76), dp(76))
                addView(
                    column(back to step, read to rest(1f), value to line),
                    LinearLayout.LayoutParams(0, MATCH, 1f),
                )
                addView(pad, LinearLayout.LayoutParams(0, MATCH, 1.1f).apply { marginStart = dp(14) })
                addView(done, LinearLayout.LayoutParams(dp(130), MATCH).apply { marginStart = dp(18) })
            } else {
                orientation = LinearLayout.VERTICAL
                addView(header(title, back), wide())
                addView(parts.scroll(words), rest(1f))
                addView(value, line)
                addView(pad, rest(PAD))
                addView(done, LinearLayout.LayoutParams(MATCH, dp(92)).apply { topMargin = dp(14) })
            }
        }
    }

    /**
     * A page for a PIN: keys at glove size from edge to edge, the words and the slots in what is left. On its
     * side the words stand in a narrow column.
     */
    fun pin(
        back: Key,
        other: Key?,
        words: View,
        slots: View,
        pad: View,
        onItsSide: Boolean,
        high: Int = 38,
    ): View =
        PadFrame(context, onItsSide, high).apply {
            val edge = dp(6)
            val step = dp(if (onItsSide) 84 else 76)
            if (onItsSide) {
                val keys =
                    LinearLayout(context).apply {
                        addView(back, LinearLayout.LayoutParams(0, step, 1f))
                        other?.let {
                            addView(it, LinearLayout.LayoutParams(0, step, 1f).apply { marginStart = edge })
                        }
                    }
                val column =
                    LinearLayout(context).apply {
                        orientation = LinearLayout.VERTICAL
                        setPadding(edge, edge, edge, edge)
                        addView(keys, wide())
                        addView(
                            parts.scroll(words),
                            LinearLayout.LayoutParams(MATCH, 0, 1f).apply { topMargin = edge },
                        )
                        addView(slots, LinearLayout.LayoutParams(MATCH, dp(high - 4)))
                    }
                addView(column)
                addView(pad)
            } else {
                val head =
                    LinearLayout(context).apply {
                        gravity = Gravity.CENTER_VERTICAL
                        setPadding(edge, edge, edge, 0)
                        addView(back, LinearLayout.LayoutParams(step, step))
                        addView(
                            parts.scroll(words),
                            LinearLayout.LayoutParams(0, MATCH, 1f).apply {
                                marginStart = dp(10)
                                marginEnd = dp(4)
                            },
                        )
                        other?.let { addView(it, LinearLayout.LayoutParams(step, step)) }
                    }
                addView(head)
                addView(slots)
                addView(pad)
            }
        }

    private fun header(title: CharSequence?, back: Key?): View? {
        if (title == null && back == null) return null
        return LinearLayout(context).apply {
            orientation = LinearLayout.HORIZONTAL
            gravity = Gravity.CENTER_VERTICAL
            back?.let { addView(it, LinearLayout.LayoutParams(dp(76), dp(76))) }
            title?.let {
                addView(
                    parts.heading(it, 24),
                    LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f).apply {
                        marginStart = if (back == null) 0 else dp(16)
                    },
                )
            }
        }
    }

    private fun foot(keys: List<Key>, stacked: Boolean): View =
        LinearLayout(context).apply {
            if (!stacked && keys.size == 3) return underTwo(keys)
            val beside = !stacked && keys.size == 2
            orientation = if (beside) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
            gravity = Gravity.BOTTOM
            // the main step comes last in the list of keys and lies nearest to the thumb
            for ((at, key) in keys.asReversed().withIndex()) {
                val place =
                    when {
                        beside -> LinearLayout.LayoutParams(0, dp(TALL), 1f)
                        stacked -> LinearLayout.LayoutParams(MATCH, 0, 1f)
                        else -> LinearLayout.LayoutParams(MATCH, dp(if (keys.size > 2) 88 else TALL))
                    }
                if (at > 0) if (beside) place.marginStart = dp(20) else place.topMargin = dp(18)
                addView(key, place)
            }
        }

    /** Two side steps beside each other over the main one. */
    private fun underTwo(keys: List<Key>): View =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            val (main, right, left) = keys
            val pair =
                LinearLayout(context).apply {
                    addView(left, LinearLayout.LayoutParams(0, MATCH, 1f))
                    addView(right, LinearLayout.LayoutParams(0, MATCH, 1f).apply { marginStart = dp(20) })
                }
            addView(pair, LinearLayout.LayoutParams(MATCH, dp(88)))
            addView(main, LinearLayout.LayoutParams(MATCH, dp(TALL)).apply { topMargin = dp(18) })
        }

    private fun wide() = LinearLayout.LayoutParams(MATCH, ViewGroup.LayoutParams.WRAP_CONTENT)

    private fun dp(value: Int) = context.dp(value)

    private companion object {
        const val MATCH = ViewGroup.LayoutParams.MATCH_PARENT
        const val TALL = 108

        /** How much more room an upright pad takes than the words above it. */
        const val PAD = 3.4f
    }
}

/**
 * A pad and what stands before it. The pad has the room that twelve keys of glove size take, whatever is left
 * for the words; what is over goes to the words first, until they have enough, and to the keys after.
 */
private class PadFrame(context: Context, private val onItsSide: Boolean, private val high: Int) :
    PlacedGroup(context) {
    override fun place(width: Int, height: Int, put: (View, Int, Int, Int, Int) -> Unit) {
        val pad = dp(Glove.KEY * 4)
        if (onItsSide) {
            val column = (width - pad).coerceIn(dp(LEAST_WIDE), dp(MOST_WIDE))
            put(getChildAt(0), 0, 0, column, height)
            put(getChildAt(1), column, 0, width - column, height)
        } else {
            val line = dp(high)
            val head = (height - line - pad).coerceIn(dp(LEAST_HIGH), dp(MOST_HIGH))
            put(getChildAt(0), 0, 0, width, head)
            put(getChildAt(1), 0, head, width, line)
            put(getChildAt(2), 0, head + line, width, height - head - line)
        }
    }

    private companion object {
        const val LEAST_WIDE = 150
        const val MOST_WIDE = 230
        const val LEAST_HIGH = 64
        const val MOST_HIGH = 150
    }
}
