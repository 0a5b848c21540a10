package slingseal.handheld.look

import android.graphics.Color

/**
 * A pair that is drawn together: what lies under, what stands on it. Every pair has a contrast of 7:1 or
 * more.
 */
data class Ground(val under: Int, val on: Int)

/**
 * The colours of the whole handheld, for one kind of light. Meaning never hangs on colour alone: words and
 * shapes carry it too.
 */
enum class Palette(
    /** The page. */
    val page: Ground,
    /** Words of less weight on the page. */
    val quiet: Int,
    /** A panel laid on the page. */
    val panel: Ground,
    /** Lines and frames: 3:1 against the page or more. */
    val line: Int,
    /** The answer "good", and the main step forward. */
    val good: Ground,
    /** The answer "deficiency". */
    val bad: Ground,
    /** A side step. */
    val side: Ground,
    /** Whether buttons need a frame to stand out from the page. */
    val framed: Boolean,
    /** The verdicts. GO is light and NO-GO is dark on every palette, for eyes that see no hue. */
    val go: Ground,
    val wait: Ground,
    val noGo: Ground,
    /** A code: what is under, and the modules. */
    val code: Ground,
    /** Whether the bars of the system should have dark icons. */
    val lightPage: Boolean,
) {
    DAY(
        page = ground("#F4F1EA", "#17222B"),
        quiet = color("#3B4750"),
        panel = ground("#FFFFFF", "#17222B"),
        line = color("#74807E"),
        good = ground("#0B4F4A", "#FFFFFF"),
        bad = ground("#7C2D00", "#FFFFFF"),
        side = ground("#E2DDD0", "#17222B"),
        framed = false,
        go = ground("#BFEFC9", "#00240C"),
        wait = ground("#FFC64D", "#17140A"),
        noGo = ground("#86101C", "#FFFFFF"),
        code = ground("#FFFFFF", "#000000"),
        lightPage = true,
    ),

    /** Direct sun: nothing but the farthest ends of the scale, and frames. */
    SUN(
        page = ground("#FFFFFF", "#000000"),
        quiet = color("#000000"),
        panel = ground("#FFFFFF", "#000000"),
        line = color("#000000"),
        good = ground("#000000", "#FFFFFF"),
        bad = ground("#FFDD00", "#000000"),
        side = ground("#FFFFFF", "#000000"),
        framed = true,
        go = ground("#FFFFFF", "#003A22"),
        wait = ground("#FFDD00", "#000000"),
        noGo = ground("#6E0012", "#FFFFFF"),
        code = ground("#FFFFFF", "#000000"),
        lightPage = true,
    ),

    /**
     * Night: red on black, to spare eyes that are used to the dark. It is not made for night-vision goggles.
     * Pure red on black reaches only 5.3:1, so it leans to orange as far as 7:1 asks.
     */
    NIGHT(
        page = ground("#000000", "#FF6A30"),
        quiet = color("#FF7038"),
        panel = ground("#140500", "#FF7038"),
        line = color("#B34A22"),
        good = ground("#FF6A30", "#000000"),
        bad = ground("#000000", "#FF6A30"),
        side = ground("#000000", "#FF6A30"),
        framed = true,
        go = ground("#FF6A30", "#000000"),
        wait = ground("#2E0B00", "#FF7C42"),
        noGo = ground("#000000", "#FF6A30"),
        code = ground("#FF6A30", "#000000"),
        lightPage = false,
    ),
}

private fun ground(under: String, on: String) = Ground(color(under), color(on))

private fun color(text: String) = Color.parseColor(text)
