package slingseal.handheld.look

import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Path
import kotlin.math.cos
import kotlin.math.min
import kotlin.math.sin

/**
 * A sign drawn with lines, so that a key is known by its shape too. One sign means one thing, and one thing
 * has one sign, on whatever page it stands.
 */
enum class Sign {
    /** Good, done, chosen. */
    TICK,

    /** Wrong, not fit, refused; takes it away. */
    CROSS,

    /** Mind this. */
    WARN,

    /** To the page before. */
    BACK,

    /** Takes off the digit that was typed last. */
    ERASE,

    /** On, to what comes next. */
    NEXT,

    /** A sticker that is touched. */
    STICKER,

    /** Takes back what was done. */
    UNDO,

    /** The same once more. */
    AGAIN,

    /** What else there is. */
    MORE,

    /** To be looked at. */
    EYE,

    /** To look for something. */
    FIND,

    /** Says the page. */
    SPEAK,

    /** Stands still, waits. */
    BARS,

    /** Many of a kind, one under the other. */
    LIST,

    /** A number is asked for: counted or measured. */
    NUMBER,

    /** Reads a code through the camera. */
    CODE,

    /** Shows a code, for another phone's camera. */
    SHOW,

    /** Typed letter by letter. */
    TYPE,

    /** A photograph. */
    PHOTO,

    /** When. */
    CLOCK,

    /** Light, voice and keys: the settings. */
    SUN,

    /** A key, and what is done under a PIN or a passphrase. */
    KEY,

    /** One more, or one of somebody's own. */
    PLUS,

    /** One less, or left out. */
    MINUS,
    TORCH,

    /** The check at the hook. */
    HOOK,

    /** Off the ground, and onto it. */
    LIFT,
    DOWN,

    /** Equipment. */
    GEAR,

    /** An examination. */
    EXAM,

    /** Where to aim the camera. */
    CORNERS,

    /** From phone to phone, out or in. */
    SPREAD,

    /** A file. */
    FILE,

    /** Printed. */
    PAPER,
    NONE,
}

/** Draws signs in a square around a middle. */
object Signs {
    // one branch a sign: its strokes
    @Suppress("CyclomaticComplexMethod")
    fun draw(canvas: Canvas, sign: Sign, x: Float, y: Float, size: Float, color: Int, paint: Paint) {
        val r = size / 2
        paint.reset()
        paint.isAntiAlias = true
        paint.color = color
        paint.style = Paint.Style.STROKE
        paint.strokeWidth = size * 0.13f
        paint.strokeCap = Paint.Cap.ROUND
        paint.strokeJoin = Paint.Join.ROUND
        val p = Path()
        fun line(vararg at: Float) {
            p.moveTo(x + at[0] * r, y + at[1] * r)
            for (i in 2 until at.size step 2) p.lineTo(x + at[i] * r, y + at[i + 1] * r)
        }
        fun dot(dx: Float, dy: Float, radius: Float) {
            paint.style = Paint.Style.FILL
            canvas.drawCircle(x + dx * r, y + dy * r, radius * r, paint)
            paint.style = Paint.Style.STROKE
        }
        when (sign) {
            Sign.TICK -> line(-0.75f, 0.05f, -0.2f, 0.6f, 0.8f, -0.55f)
            Sign.CROSS -> {
                line(-0.6f, -0.6f, 0.6f, 0.6f)
                line(0.6f, -0.6f, -0.6f, 0.6f)
            }
            Sign.BACK -> line(0.35f, -0.7f, -0.4f, 0f, 0.35f, 0.7f)
            // a triangle with its stroke: mind this
            Sign.WARN -> {
                line(0f, -0.8f, 0.9f, 0.75f, -0.9f, 0.75f, 0f, -0.8f)
                line(0f, -0.2f, 0f, 0.25f)
                dot(0f, 0.5f, 0.08f)
            }
            // the key that takes one digit off
            Sign.ERASE -> {
                line(-0.9f, 0f, -0.4f, -0.6f, 0.85f, -0.6f, 0.85f, 0.6f, -0.4f, 0.6f, -0.9f, 0f)
                line(-0.05f, -0.25f, 0.45f, 0.25f)
                line(0.45f, -0.25f, -0.05f, 0.25f)
            }
            Sign.NEXT -> line(-0.35f, -0.7f, 0.4f, 0f, -0.35f, 0.7f)
            // waves out of a sticker
            Sign.STICKER -> {
                line(-0.85f, -0.6f, -0.25f, -0.6f, -0.25f, 0.6f, -0.85f, 0.6f, -0.85f, -0.6f)
                for (wave in floatArrayOf(0.35f, 0.7f, 1.05f)) p.addArc(
                    x - (0.25f + wave) * r,
                    y - wave * r,
                    x + (-0.25f + wave) * r,
                    y + wave * r,
                    -50f,
                    100f,
                )
            }
            Sign.UNDO -> {
                line(-0.75f, -0.75f, -0.75f, -0.15f, -0.15f, -0.15f)
                p.addArc(x - 0.72f * r, y - 0.62f * r, x + 0.72f * r, y + 0.82f * r, 205f, 250f)
            }
            Sign.MORE -> for (at in floatArrayOf(-0.65f, 0f, 0.65f)) dot(at, 0f, 0.17f)
            // three quarters of the way round, and on
            Sign.AGAIN -> {
                p.addArc(x - 0.7f * r, y - 0.7f * r, x + 0.7f * r, y + 0.7f * r, -20f, 285f)
                line(0.3f, -0.05f, 0.68f, -0.25f, 0.95f, 0.1f)
            }
            Sign.FIND -> {
                canvas.drawCircle(x - 0.2f * r, y - 0.2f * r, 0.5f * r, paint)
                line(0.2f, 0.2f, 0.8f, 0.8f)
            }
            Sign.NUMBER -> {
                line(-0.25f, -0.8f, -0.4f, 0.8f)
                line(0.4f, -0.8f, 0.25f, 0.8f)
                line(-0.75f, -0.3f, 0.8f, -0.3f)
                line(-0.8f, 0.3f, 0.75f, 0.3f)
            }
            // the three squares of a code
            Sign.SHOW -> {
                for ((sx, sy) in listOf(-1f to -1f, 1f to -1f, -1f to 1f)) {
                    val (mx, my) = sx * 0.48f to sy * 0.48f
                    line(
                        mx - 0.3f,
                        my - 0.3f,
                        mx + 0.3f,
                        my - 0.3f,
                        mx + 0.3f,
                        my + 0.3f,
                        mx - 0.3f,
                        my + 0.3f,
                        mx - 0.3f,
                        my - 0.3f,
                    )
                }
                dot(0.3f, 0.3f, 0.12f)
                dot(0.7f, 0.7f, 0.12f)
            }
            // keys over a long one
            Sign.TYPE -> {
                for (row in floatArrayOf(-0.55f, -0.05f)) for (at in floatArrayOf(-0.6f, 0f, 0.6f)) dot(
                    at,
                    row,
                    0.14f,
                )
                line(-0.55f, 0.55f, 0.55f, 0.55f)
            }
            Sign.PHOTO -> {
                line(-0.85f, -0.4f, -0.4f, -0.4f, -0.2f, -0.7f, 0.2f, -0.7f, 0.4f, -0.4f, 0.85f, -0.4f)
                line(0.85f, -0.4f, 0.85f, 0.7f, -0.85f, 0.7f, -0.85f, -0.4f)
                canvas.drawCircle(x, y + 0.12f * r, 0.32f * r, paint)
            }
            Sign.CLOCK -> {
                canvas.drawCircle(x, y, 0.8f * r, paint)
                line(0f, -0.45f, 0f, 0f, 0.35f, 0.2f)
            }
            // a cap with its tassel
            Sign.EXAM -> {
                line(0f, -0.65f, 0.95f, -0.2f, 0f, 0.25f, -0.95f, -0.2f, 0f, -0.65f)
                line(-0.5f, 0.1f, -0.5f, 0.6f, 0.5f, 0.6f, 0.5f, 0.1f)
                line(0.95f, -0.2f, 0.95f, 0.5f)
            }
            Sign.FILE ->
                line(
                    -0.85f,
                    0.65f,
                    -0.85f,
                    -0.6f,
                    -0.25f,
                    -0.6f,
                    -0.05f,
                    -0.35f,
                    0.85f,
                    -0.35f,
                    0.85f,
                    0.65f,
                    -0.85f,
                    0.65f,
                )
            Sign.LIST -> for (row in intArrayOf(-1, 0, 1)) line(-0.7f, row * 0.5f, 0.7f, row * 0.5f)
            Sign.EYE -> {
                p.moveTo(x - 0.9f * r, y)
                p.quadTo(x, y - 1.1f * r, x + 0.9f * r, y)
                p.quadTo(x, y + 1.1f * r, x - 0.9f * r, y)
                dot(0f, 0f, 0.26f)
            }
            Sign.SPEAK -> {
                line(
                    -0.8f,
                    -0.25f,
                    -0.45f,
                    -0.25f,
                    -0.05f,
                    -0.65f,
                    -0.05f,
                    0.65f,
                    -0.45f,
                    0.25f,
                    -0.8f,
                    0.25f,
                    -0.8f,
                    -0.25f,
                )
                p.addArc(x - 0.35f * r, y - 0.55f * r, x + 0.6f * r, y + 0.55f * r, -50f, 100f)
            }
            Sign.BARS -> {
                line(-0.35f, -0.7f, -0.35f, 0.7f)
                line(0.35f, -0.7f, 0.35f, 0.7f)
                paint.strokeWidth = size * 0.2f
            }
            Sign.CODE -> {
                for (sx in floatArrayOf(-1f, 1f)) for (sy in floatArrayOf(-1f, 1f)) {
                    line(sx * 0.8f, sy * 0.35f, sx * 0.8f, sy * 0.8f, sx * 0.35f, sy * 0.8f)
                }
                line(-0.8f, 0f, 0.8f, 0f)
            }
            // one arrow out, one in
            Sign.SPREAD -> {
                line(-0.8f, -0.4f, 0.75f, -0.4f)
                line(0.4f, -0.75f, 0.8f, -0.4f, 0.4f, -0.05f)
                line(0.8f, 0.45f, -0.75f, 0.45f)
                line(-0.4f, 0.1f, -0.8f, 0.45f, -0.4f, 0.8f)
            }
            Sign.CORNERS -> {
                paint.strokeWidth = size * 0.03f
                for (sx in floatArrayOf(-1f, 1f)) for (sy in floatArrayOf(-1f, 1f)) {
                    line(sx * 0.85f, sy * 0.5f, sx * 0.85f, sy * 0.85f, sx * 0.5f, sy * 0.85f)
                }
            }
            Sign.SUN -> {
                canvas.drawCircle(x, y, 0.35f * r, paint)
                for (i in 0 until 8) {
                    val a = Math.PI * i / 4
                    val c = cos(a).toFloat()
                    val s = sin(a).toFloat()
                    line(c * 0.62f, s * 0.62f, c * 0.9f, s * 0.9f)
                }
            }
            Sign.KEY -> {
                canvas.drawCircle(x - 0.45f * r, y, 0.35f * r, paint)
                line(-0.1f, 0f, 0.85f, 0f, 0.85f, 0.4f)
                line(0.45f, 0f, 0.45f, 0.3f)
            }
            Sign.PLUS -> {
                line(-0.7f, 0f, 0.7f, 0f)
                line(0f, -0.7f, 0f, 0.7f)
            }
            Sign.MINUS -> line(-0.7f, 0f, 0.7f, 0f)
            Sign.TORCH -> {
                line(
                    -0.4f,
                    0.85f,
                    -0.4f,
                    -0.05f,
                    -0.7f,
                    -0.5f,
                    0.7f,
                    -0.5f,
                    0.4f,
                    -0.05f,
                    0.4f,
                    0.85f,
                    -0.4f,
                    0.85f,
                )
                line(-0.4f, -0.85f, 0.4f, -0.85f)
            }
            Sign.HOOK -> {
                line(0f, -0.9f, 0f, -0.3f)
                p.addArc(x - 0.55f * r, y - 0.3f * r, x + 0.55f * r, y + 0.8f * r, -90f, 250f)
            }
            // off the ground, and onto it
            Sign.LIFT -> {
                line(0f, 0.45f, 0f, -0.8f)
                line(-0.45f, -0.35f, 0f, -0.8f, 0.45f, -0.35f)
                line(-0.75f, 0.85f, 0.75f, 0.85f)
            }
            Sign.DOWN -> {
                line(0f, -0.85f, 0f, 0.4f)
                line(-0.45f, -0.05f, 0f, 0.4f, 0.45f, -0.05f)
                line(-0.75f, 0.85f, 0.75f, 0.85f)
            }
            // a shackle with its pin
            Sign.GEAR -> {
                p.addArc(x - 0.55f * r, y - 0.85f * r, x + 0.55f * r, y + 0.25f * r, 180f, 180f)
                line(-0.55f, -0.3f, -0.55f, 0.55f)
                line(0.55f, -0.3f, 0.55f, 0.55f)
                line(-0.85f, 0.6f, 0.85f, 0.6f)
            }
            // a sheet with a turned corner and two lines
            Sign.PAPER -> {
                line(
                    0.2f,
                    -0.85f,
                    -0.6f,
                    -0.85f,
                    -0.6f,
                    0.85f,
                    0.6f,
                    0.85f,
                    0.6f,
                    -0.45f,
                    0.2f,
                    -0.85f,
                    0.2f,
                    -0.45f,
                    0.6f,
                    -0.45f,
                )
                line(-0.3f, 0.05f, 0.3f, 0.05f)
                line(-0.3f, 0.45f, 0.3f, 0.45f)
            }
            Sign.NONE -> {}
        }
        canvas.drawPath(p, paint)
    }

    /** The outline of a verdict: a ring for GO, a diamond for WAIT, an octagon for NO-GO. */
    fun outline(corners: Int, x: Float, y: Float, size: Float): Path =
        Path().apply {
            val r = size / 2
            if (corners == 0) {
                addCircle(x, y, r, Path.Direction.CW)
            } else {
                val turn = if (corners == 8) Math.PI / 8 else 0.0
                for (i in 0 until corners) {
                    val a = 2 * Math.PI * i / corners + turn
                    val px = x + r * cos(a).toFloat()
                    val py = y + r * sin(a).toFloat()
                    if (i == 0) moveTo(px, py) else lineTo(px, py)
                }
                close()
            }
        }

    /** The largest sign that fits beside others in a box. */
    fun fit(width: Float, height: Float, share: Float) = min(width, height) * share
}
