package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Path
import android.graphics.RectF
import android.graphics.Typeface
import android.os.SystemClock
import android.text.Layout
import android.text.StaticLayout
import android.text.TextPaint
import android.view.HapticFeedbackConstants
import android.view.MotionEvent
import android.view.View
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.Button
import kotlin.math.ceil
import kotlin.math.max
import kotlin.math.min

/** What a key is for; it gives the key its face. */
enum class Face {
    GOOD,
    BAD,
    SIDE,
    ROW,

    /** A row whose label is the largest thing on the page. */
    LOAD,
}

/**
 * A key for a gloved hand: a sign over a label, or beside it in a row. It answers to a guarded press alone; a
 * screen reader's double tap counts as one.
 */
class Key(
    context: Context,
    private val palette: Palette,
    private val face: Face,
    val label: CharSequence,
    private val sign: Sign = Sign.NONE,
    /** A second line in a row: a fact that helps to choose. */
    private val detail: CharSequence? = null,
    /** How long it must be held; a key that is held longer than a tap fills while it is. */
    private val hold: Long = PressGuard.HOLD,
    private val onPress: () -> Unit,
) : View(context) {
    private val guard =
        PressGuard(wander = dp(24).toFloat(), hold = hold, longest = PressGuard.LONGEST + hold)
    private val isHeld = hold > PressGuard.HOLD
    private var heldSince = 0L
    private var full = false
    private val ink = Paint(Paint.ANTI_ALIAS_FLAG)
    private val text = TextPaint(Paint.ANTI_ALIAS_FLAG)
    private val frame = RectF()
    private var layout: StaticLayout? = null
    private var detailLayout: StaticLayout? = null
    private var pressedNow = false

    /** The sign, where there is room for it: a word says more. */
    private var shownSign = sign

    /** Drawn with a frame: the hardware keys would take this one. */
    var chosen = false
        set(value) {
            field = value
            isSelected = value
            invalidate()
        }

    /** No press counts that begins before this time, on the clock of `SystemClock.uptimeMillis`. */
    var settledAt = SystemClock.uptimeMillis() + PressGuard.SETTLE

    /**
     * How far inside its box the key is drawn, in pixels: keys that touch each other take the whole glass and
     * still look apart.
     */
    var inset = 0

    init {
        id = generateViewId()
        isClickable = true
        isFocusable = true
        contentDescription = if (detail == null) label else "$label. $detail"
    }

    override fun setEnabled(enabled: Boolean) {
        super.setEnabled(enabled)
        alpha = if (enabled) 1f else 0.5f
    }

    private val ground: Ground
        get() =
            when (face) {
                Face.GOOD -> palette.good
                Face.BAD -> palette.bad
                Face.SIDE,
                Face.ROW,
                Face.LOAD -> palette.side
            }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        val height =
            when (MeasureSpec.getMode(heightSpec)) {
                MeasureSpec.EXACTLY -> MeasureSpec.getSize(heightSpec)
                else -> {
                    setText(width, Int.MAX_VALUE)
                    max(dp(ROW), textHeight() + dp(28))
                }
            }
        setMeasuredDimension(width, height)
        setText(width - 2 * inset, height - 2 * inset)
    }

    /** Whether the whole label lies inside the key, with no word broken. */
    val fits: Boolean
        get() {
            val made = layout ?: return false
            val above = if (inRow) 0 else signRoom(width, height)
            val widest = label.split(' ', '\n').maxOf { made.paint.measureText(it) }
            return textHeight() + above <= height - 2 * inset && widest <= made.width + 1
        }

    private fun textHeight() = (layout?.height ?: 0) + (detailLayout?.let { it.height + dp(4) } ?: 0)

    private val inRow
        get() = face == Face.ROW || face == Face.LOAD

    /** What a sign above the label takes. */
    private fun signRoom(width: Int, height: Int) =
        if (shownSign == Sign.NONE) 0 else max(dp(26), (min(width, height) * 0.3f).toInt()) + dp(6)

    private fun signSize() =
        if (inRow) dp(28)
        else min(width, height).let { if (it == 0) dp(40) else max(dp(26), (it * 0.3f).toInt()) }

    private fun setText(width: Int, height: Int) {
        if (inRow) {
            val room = width - dp(16) * 2 - (if (sign == Sign.NONE) 0 else dp(28) + dp(14))
            text.typeface = Typeface.DEFAULT_BOLD
            layout =
                fitted(
                    label,
                    room,
                    height,
                    sp(if (face == Face.LOAD) 44 else 20),
                    sp(15),
                    Layout.Alignment.ALIGN_NORMAL,
                )
            detailLayout =
                detail?.let {
                    val p =
                        TextPaint(text).apply {
                            typeface = Typeface.DEFAULT
                            textSize = sp(16)
                        }
                    StaticLayout.Builder.obtain(it, 0, it.length, p, max(1, room)).build()
                }
        } else {
            val room = width - dp(10) * 2
            text.typeface = Typeface.DEFAULT_BOLD
            shownSign = sign
            val most = min(sp(26), dp(34).toFloat())
            var made =
                fitted(
                    label,
                    room,
                    height - signRoom(width, height) - dp(12),
                    most,
                    dp(16).toFloat(),
                    Layout.Alignment.ALIGN_CENTER,
                )
            if (
                sign != Sign.NONE &&
                    label.isNotEmpty() &&
                    (made.height > height - signRoom(width, height) - dp(4) || widest(label) > room)
            ) {
                shownSign = Sign.NONE
                made =
                    fitted(
                        label,
                        room,
                        height - dp(12),
                        most,
                        dp(14).toFloat(),
                        Layout.Alignment.ALIGN_CENTER,
                    )
            }
            layout = made
        }
    }

    /** The widest word of a label, as [text] is set. */
    private fun widest(words: CharSequence) = words.split(' ', '\n').maxOf { ceil(text.measureText(it)) }

    /** The largest size at which no word is broken and all lines fit. */
    private fun fitted(
        words: CharSequence,
        room: Int,
        height: Int,
        most: Float,
        least: Float,
        side: Layout.Alignment,
    ): StaticLayout {
        var size = most
        while (true) {
            text.textSize = size
            val widest = widest(words)
            val made =
                StaticLayout.Builder.obtain(words, 0, words.length, TextPaint(text), max(1, room))
                    .setAlignment(side)
                    .build()
            if (size <= least || widest <= room && made.height <= height) return made
            size = max(least, size - dp(1))
        }
    }

    override fun onDraw(canvas: Canvas) {
        val edge = dp(if (chosen) 5 else 3).toFloat()
        val framed = chosen || face == Face.BAD || palette.framed
        val off = inset + edge / 2
        frame.set(off, off, width - off, height - off)
        val outline = outline(face, frame)
        ink.style = Paint.Style.FILL
        ink.color = ground.under
        canvas.drawPath(outline, ink)
        if (framed) {
            ink.style = Paint.Style.STROKE
            ink.strokeWidth = edge
            ink.color = if (face == Face.BAD && !palette.framed && !chosen) ground.under else palette.page.on
            canvas.drawPath(outline, ink)
        }
        if (pressedNow && isHeld) fill(canvas, outline)
        if (pressedNow) {
            ink.style = Paint.Style.STROKE
            ink.strokeWidth = dp(6).toFloat()
            ink.color = ground.on
            canvas.save()
            canvas.scale(0.94f, 0.9f, width / 2f, height / 2f)
            canvas.drawPath(outline, ink)
            canvas.restore()
        }
        drawWords(canvas)
    }

    /** How far the hold has come, as a bar along the foot of the key; when it is full the hand feels it. */
    private fun fill(canvas: Canvas, outline: Path) {
        val share = min(1f, (SystemClock.uptimeMillis() - heldSince) / hold.toFloat())
        canvas.save()
        canvas.clipPath(outline)
        ink.style = Paint.Style.FILL
        ink.color = ground.on
        canvas.drawRect(0f, height - dp(14).toFloat(), width * share, height.toFloat(), ink)
        canvas.restore()
        if (share < 1f) {
            postInvalidateOnAnimation()
        } else if (!full) {
            full = true
            performHapticFeedback(HapticFeedbackConstants.LONG_PRESS)
        }
    }

    private fun drawWords(canvas: Canvas) {
        val words = layout ?: return
        words.paint.color = ground.on
        detailLayout?.paint?.color = ground.on
        val size = signSize().toFloat()
        if (inRow) {
            var x = dp(16).toFloat()
            if (sign != Sign.NONE) {
                Signs.draw(canvas, sign, x + size / 2, height / 2f, size, ground.on, ink)
                x += size + dp(14)
            }
            canvas.save()
            canvas.translate(x, (height - textHeight()) / 2f)
            words.draw(canvas)
            detailLayout?.let {
                canvas.translate(0f, words.height + dp(4).toFloat())
                it.draw(canvas)
            }
            canvas.restore()
            return
        }
        val total = words.height + if (shownSign == Sign.NONE) 0f else size + dp(6)
        var y = (height - total) / 2f
        if (shownSign != Sign.NONE) {
            Signs.draw(canvas, shownSign, width / 2f, y + size / 2, size, ground.on, ink)
            y += size + dp(6)
        }
        canvas.save()
        canvas.translate((width - words.width) / 2f, y)
        words.draw(canvas)
        canvas.restore()
    }

    /** Good is round, deficiency has cut corners: the hand and the eye tell them apart without colour. */
    private fun outline(face: Face, box: RectF) =
        Path().apply {
            when (face) {
                Face.GOOD ->
                    min(box.width(), box.height()).let {
                        addRoundRect(box, it * 0.42f, it * 0.42f, Path.Direction.CW)
                    }
                Face.BAD -> {
                    val cut = min(box.width(), box.height()) * 0.2f
                    moveTo(box.left + cut, box.top)
                    lineTo(box.right - cut, box.top)
                    lineTo(box.right, box.top + cut)
                    lineTo(box.right, box.bottom - cut)
                    lineTo(box.right - cut, box.bottom)
                    lineTo(box.left + cut, box.bottom)
                    lineTo(box.left, box.bottom - cut)
                    lineTo(box.left, box.top + cut)
                    close()
                }
                Face.SIDE,
                Face.ROW,
                Face.LOAD -> dp(14).toFloat().let { addRoundRect(box, it, it, Path.Direction.CW) }
            }
        }

    override fun onTouchEvent(event: MotionEvent): Boolean {
        if (!isEnabled) return true
        when (guard.feed(event, width, height, settledAt)) {
            PressGuard.Step.BEGAN -> {
                press(true)
                performHapticFeedback(HapticFeedbackConstants.VIRTUAL_KEY)
            }
            PressGuard.Step.PRESSED -> {
                press(false)
                performClick()
            }
            PressGuard.Step.CANCELLED -> press(false)
            PressGuard.Step.NOTHING -> {}
        }
        return true
    }

    private fun press(on: Boolean) {
        pressedNow = on
        heldSince = SystemClock.uptimeMillis()
        full = false
        invalidate()
    }

    override fun performClick(): Boolean {
        super.performClick()
        if (!isEnabled) return false
        if (SystemClock.uptimeMillis() < settledAt) return false
        onPress()
        return true
    }

    override fun getAccessibilityClassName(): CharSequence = Button::class.java.name

    override fun onInitializeAccessibilityNodeInfo(info: AccessibilityNodeInfo) {
        super.onInitializeAccessibilityNodeInfo(info)
        info.text = label
    }

    companion object {
        /** The least height of a key in a list. */
        const val ROW = 84
    }
}
