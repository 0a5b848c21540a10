package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.RectF
import android.graphics.Typeface
import android.graphics.drawable.GradientDrawable
import android.os.Build
import android.util.TypedValue
import android.view.Gravity
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import android.widget.ScrollView
import android.widget.TextView
import kotlin.math.max
import slingseal.handheld.NewerAndroid

/** Makes the quiet parts of a page: words, facts, panels. */
class Parts(val context: Context, val palette: Palette) {
    fun words(
        text: CharSequence,
        size: Int = 18,
        bold: Boolean = false,
        quiet: Boolean = false,
        ground: Ground = palette.page,
    ): TextView =
        TextView(context).apply {
            this.text = text
            setTextSize(TypedValue.COMPLEX_UNIT_SP, size.toFloat())
            typeface = if (bold) Typeface.DEFAULT_BOLD else Typeface.DEFAULT
            setTextColor(if (quiet) palette.quiet else ground.on)
            setLineSpacing(0f, 1.08f)
            if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.M)
                breakStrategy = android.text.Layout.BREAK_STRATEGY_SIMPLE
        }

    fun heading(text: CharSequence, size: Int = 26, ground: Ground = palette.page): TextView =
        words(text, size, bold = true, ground = ground).apply {
            if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) markHeading(this)
        }

    @NewerAndroid
    private fun markHeading(view: TextView) {
        view.isAccessibilityHeading = true
    }

    /** One line that is made smaller until it fits its room. */
    fun fitted(text: CharSequence, most: Int, least: Int): TextView =
        words(text, most, bold = true).apply {
            gravity = Gravity.CENTER
            includeFontPadding = false
            setLineSpacing(0f, 1f)
            maxLines = 1
            setAutoSizeTextTypeUniformWithConfiguration(
                dp(least),
                max(dp(least) + 1, context.sp(most).toInt()),
                1,
                TypedValue.COMPLEX_UNIT_PX,
            )
        }

    /** A small word above what it names. */
    fun eyebrow(text: CharSequence) =
        words(text, 15, bold = true, quiet = true).apply { letterSpacing = 0.04f }

    fun column(vararg views: View, space: Int = 10): LinearLayout =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            for ((at, view) in views.withIndex()) {
                val place =
                    LinearLayout.LayoutParams(
                        ViewGroup.LayoutParams.MATCH_PARENT,
                        ViewGroup.LayoutParams.WRAP_CONTENT,
                    )
                if (at > 0) place.topMargin = dp(space)
                addView(view, place)
            }
        }

    fun scroll(content: View): ScrollView =
        ScrollView(context).apply {
            isFillViewport = true
            // a bar that stays says that there is more below; it stands beside the words, not on them
            isScrollbarFadingEnabled = false
            scrollBarSize = dp(8)
            setPadding(0, 0, dp(6), 0)
            scrollBarStyle = View.SCROLLBARS_OUTSIDE_INSET
            if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.Q) markBar(this)
            addView(content)
        }

    /** A bar that is seen on every ground; older systems keep their own grey one. */
    @NewerAndroid
    private fun markBar(view: ScrollView) {
        view.verticalScrollbarThumbDrawable =
            GradientDrawable().apply {
                setColor(palette.line)
                cornerRadius = dp(4).toFloat()
            }
    }

    /** A panel with a frame around what belongs together. */
    fun panel(content: View, thick: Boolean = false): ViewGroup =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            background =
                GradientDrawable().apply {
                    setColor(palette.panel.under)
                    cornerRadius = dp(14).toFloat()
                    setStroke(dp(if (thick) 4 else 2), if (thick) palette.page.on else palette.line)
                }
            setPadding(dp(14), dp(12), dp(14), dp(12))
            addView(
                content,
                LinearLayout.LayoutParams(
                    ViewGroup.LayoutParams.MATCH_PARENT,
                    ViewGroup.LayoutParams.WRAP_CONTENT,
                ),
            )
        }

    /** Named facts, one under the other: name small, value large. */
    fun facts(rows: List<Pair<CharSequence, CharSequence>>, size: Int = 19): ViewGroup {
        val views =
            rows.map { (name, value) ->
                val pair =
                    column(
                        words(name, 15, ground = palette.panel, quiet = true),
                        words(value, size, bold = true, ground = palette.panel),
                        space = 0,
                    )
                spokenAs(pair, "$name: $value")
            }
        return column(*views.toTypedArray(), space = 8)
    }

    /**
     * Rows of letters that a person writes down, each with its number; letters of one width stand under one
     * another.
     */
    fun rows(rows: List<String>, size: Int = 17): ViewGroup {
        val lines =
            rows.mapIndexed { at, row ->
                words("%2d. %s".format(java.util.Locale.ROOT, at + 1, row), size).apply {
                    typeface = Typeface.MONOSPACE
                }
            }
        return column(*lines.toTypedArray(), space = 4)
    }

    /** A group that a screen reader says in one breath, instead of part by part. */
    fun <T : ViewGroup> spokenAs(group: T, words: CharSequence): T =
        group.apply {
            contentDescription = words
            importantForAccessibility = View.IMPORTANT_FOR_ACCESSIBILITY_YES
            for (i in 0 until childCount) getChildAt(i).importantForAccessibility =
                View.IMPORTANT_FOR_ACCESSIBILITY_NO
        }

    /** Words that must not be overlooked, in a panel; its sign says of what kind they are. */
    fun signedPanel(sign: Sign, words: CharSequence, size: Int = 18): ViewGroup =
        panel(
            signed(sign, words(words, size, bold = true, ground = palette.panel), palette.panel),
            thick = true,
        )

    /** A sign in a line with words. */
    fun signed(sign: Sign, text: TextView, ground: Ground = palette.page): LinearLayout =
        LinearLayout(context).apply {
            orientation = LinearLayout.HORIZONTAL
            gravity = Gravity.TOP
            val size = (text.textSize * 1.1f).toInt()
            addView(
                SignView(context, sign, ground.on),
                LinearLayout.LayoutParams(size, size).apply { topMargin = dp(2) },
            )
            addView(
                text,
                LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.WRAP_CONTENT, 1f).apply {
                    marginStart = dp(10)
                },
            )
        }

    private fun dp(value: Int) = context.dp(value)
}

/** A sign alone; a screen reader passes over it, for words stand beside it. */
class SignView(context: Context, private val sign: Sign, private val color: Int) : View(context) {
    private val paint = Paint()

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onDraw(canvas: Canvas) =
        Signs.draw(canvas, sign, width / 2f, height / 2f, minOf(width, height) * 0.9f, color, paint)
}

/** How one card stands. */
enum class Link {
    OPEN,
    GOOD,
    DEFICIENT,
    MENDED,
}

/**
 * The walk as a chain, one link a card: full where it is good, a gap with a bar where a deficiency is open.
 */
class Chain(
    context: Context,
    private val palette: Palette,
    private val links: List<Link>,
    private val at: Int,
) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)
    private val box = RectF()

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) =
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), dp(22))

    override fun onDraw(canvas: Canvas) {
        if (links.isEmpty()) return
        val step = width.toFloat() / links.size
        val gap = minOf(dp(3).toFloat(), step * 0.25f)
        for ((i, link) in links.withIndex()) {
            val tall = if (i == at) height.toFloat() else height * 0.5f
            val middle = height / 2f
            box.set(i * step + gap / 2, middle - tall / 2, (i + 1) * step - gap / 2, middle + tall / 2)
            val round = minOf(box.width(), box.height()) / 2.4f
            paint.color = palette.page.on
            paint.style = if (link == Link.OPEN) Paint.Style.STROKE else Paint.Style.FILL
            paint.strokeWidth = dp(1.5f).toFloat()
            if (link == Link.OPEN) box.inset(paint.strokeWidth / 2, paint.strokeWidth / 2)
            if (link == Link.DEFICIENT) {
                // a broken link: two stumps
                val hole = box.height() * 0.3f
                canvas.drawRect(box.left, box.top, box.right, middle - hole / 2, paint)
                canvas.drawRect(box.left, middle + hole / 2, box.right, box.bottom, paint)
            } else {
                canvas.drawRoundRect(box, round, round, paint)
            }
        }
    }
}
