package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.FieldWeighing
import slingseal.core.Handheld
import slingseal.core.ScaleReading
import slingseal.core.TagDraft
import slingseal.handheld.R

/** A weighing that is being keyed in, and the draft that it is for. */
data class Weighing(val draft: TagDraft, val entered: FieldWeighing) : Serializable {
    /** Whoever goes back by mistake finds it again. */
    fun remember() {
        last = this
    }

    fun point(at: Int): ScaleReading = entered.points.getOrElse(at) { EMPTY }

    /** With a point changed; the one after the last is a new one. */
    fun with(at: Int, point: ScaleReading): Weighing {
        val points = entered.points.toMutableList()
        if (at < points.size) points[at] = point else points += point
        return copy(entered = entered.copy(points = points))
    }

    companion object {
        private val EMPTY = ScaleReading("", "", "", "", "", "", "")

        /** What was keyed in last. */
        @Volatile private var last: Weighing? = null

        /** The weighing of a draft: the one that was left, or one that begins. */
        fun of(core: Handheld, draft: TagDraft): Weighing =
            last?.takeIf { it.draft.like == draft.like && it.draft.load == draft.load }?.copy(draft = draft)
                ?: Weighing(draft, core.beginWeighing(draft))

        fun forget() {
            last = null
        }
    }
}

/** In what a number is keyed in. */
enum class Counted {
    LENGTH,
    MASS,
    SHARE,
    ANGLE;

    fun unit(of: FieldWeighing) =
        when (this) {
            LENGTH -> of.lengthUnit
            MASS -> of.massUnit
            SHARE -> "%"
            ANGLE -> "deg"
        }
}

/**
 * A number of a weighing. Two ways of one value, as forward and aft, are two of them: the key that is pressed
 * says which, and nobody keys in a minus.
 */
enum class Measure(val title: Int, val counted: Counted, val against: Boolean = false) {
    READS(R.string.weigh_reads, Counted.MASS),
    TARE(R.string.weigh_tare, Counted.MASS),
    FORWARD(R.string.weigh_forward, Counted.LENGTH),
    AFT(R.string.weigh_aft, Counted.LENGTH, against = true),
    LEFT(R.string.weigh_left, Counted.LENGTH),
    RIGHT(R.string.weigh_right, Counted.LENGTH, against = true),
    TILTED(R.string.weigh_tilted, Counted.MASS),
    UP(R.string.weigh_up, Counted.LENGTH),
    BELOW(R.string.weigh_below, Counted.LENGTH, against = true),
    TOLERANCE(R.string.weigh_tolerance, Counted.MASS),
    TOLERANCE_SHARE(R.string.weigh_tolerance_share, Counted.SHARE),
    HEIGHT(R.string.weigh_height_is, Counted.LENGTH),
    HEIGHT_TOLERANCE(R.string.weigh_height_off, Counted.LENGTH),
    FRONT_RAISED(R.string.weigh_front_raised, Counted.LENGTH),
    REAR_RAISED(R.string.weigh_rear_raised, Counted.LENGTH, against = true),
    OVER(R.string.weigh_over, Counted.LENGTH),
    NOSE_UP(R.string.weigh_nose_up, Counted.ANGLE),
    NOSE_DOWN(R.string.weigh_nose_down, Counted.ANGLE, against = true),
    ANGLE_TOLERANCE(R.string.weigh_angle_off, Counted.ANGLE),
    HELD_FORWARD(R.string.weigh_held_forward, Counted.LENGTH),
    HELD_AFT(R.string.weigh_held_aft, Counted.LENGTH, against = true),
    HELD_UP(R.string.weigh_held_up, Counted.LENGTH);

    /** What stands there, whichever way it goes. */
    private fun whole(of: Weighing, at: Int): String =
        when (this) {
            READS -> of.point(at).reads
            TARE -> of.point(at).tare
            FORWARD,
            AFT -> of.point(at).forward
            LEFT,
            RIGHT -> of.point(at).left
            TILTED -> of.point(at).tilted
            UP,
            BELOW -> of.point(at).up
            TOLERANCE,
            TOLERANCE_SHARE -> of.entered.tolerance
            HEIGHT -> of.entered.height
            HEIGHT_TOLERANCE -> of.entered.heightTolerance
            FRONT_RAISED,
            REAR_RAISED,
            NOSE_UP,
            NOSE_DOWN -> of.entered.raised
            OVER -> of.entered.over
            ANGLE_TOLERANCE -> of.entered.angleTolerance
            HELD_FORWARD,
            HELD_AFT -> of.entered.held[0]
            HELD_UP -> of.entered.held[1]
        }

    /** What stands there and goes this way, without its sign; empty where nothing does. */
    fun of(weighing: Weighing, at: Int): String {
        val whole = whole(weighing, at)
        val mine = whole.startsWith('-') == against && (whole.endsWith('%') == (counted == Counted.SHARE))
        val angle = whole.endsWith(DEGREES) == (counted == Counted.ANGLE)
        return if (whole.isNotEmpty() && mine && angle) whole.removePrefix("-") else ""
    }

    fun put(weighing: Weighing, at: Int, value: String): Weighing {
        val text = if (against && value.isNotEmpty()) "-$value" else value
        val (point, entered) = weighing.point(at) to weighing.entered
        fun whole(changed: FieldWeighing) = weighing.copy(entered = changed)
        return when (this) {
            READS -> weighing.with(at, point.copy(reads = text))
            TARE -> weighing.with(at, point.copy(tare = text))
            FORWARD,
            AFT -> weighing.with(at, point.copy(forward = text))
            LEFT,
            RIGHT -> weighing.with(at, point.copy(left = text))
            TILTED -> weighing.with(at, point.copy(tilted = text))
            UP,
            BELOW -> weighing.with(at, point.copy(up = text))
            TOLERANCE,
            TOLERANCE_SHARE -> whole(entered.copy(tolerance = text))
            HEIGHT -> whole(entered.copy(height = text))
            HEIGHT_TOLERANCE -> whole(entered.copy(heightTolerance = text))
            FRONT_RAISED,
            REAR_RAISED,
            NOSE_UP,
            NOSE_DOWN -> whole(entered.copy(raised = text))
            OVER -> whole(entered.copy(over = text))
            ANGLE_TOLERANCE -> whole(entered.copy(angleTolerance = text))
            HELD_FORWARD,
            HELD_AFT -> whole(entered.copy(held = listOf(text, entered.held[1])))
            HELD_UP -> whole(entered.copy(held = listOf(entered.held[0], text)))
        }
    }

    companion object {
        private const val DEGREES = "deg"
        val OF_POINT = listOf(READS, TARE, FORWARD, AFT, LEFT, RIGHT)

        /** What is asked of a point besides where one end is raised. */
        val OF_POINT_RAISED = listOf(TILTED, UP, BELOW)
        val OF_HEIGHT = listOf(HEIGHT, HEIGHT_TOLERANCE)
        val OF_RAISED =
            listOf(
                FRONT_RAISED,
                REAR_RAISED,
                OVER,
                NOSE_UP,
                NOSE_DOWN,
                ANGLE_TOLERANCE,
                HELD_FORWARD,
                HELD_AFT,
                HELD_UP,
            )
    }
}
