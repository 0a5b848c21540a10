package slingseal.handheld

import android.view.KeyEvent
import android.view.MotionEvent
import java.nio.ByteBuffer
import org.junit.Assert.assertArrayEquals
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import slingseal.handheld.look.Palette
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.PressGuard.Step
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.sense.HardKeys
import slingseal.handheld.sense.Luminance
import slingseal.handheld.support.Contrast

@RunWith(RobolectricTestRunner::class)
class SenseTest {
    private fun motion(action: Int, at: Long, x: Float = 50f, y: Float = 50f) =
        MotionEvent.obtain(1000, at, action, x, y, 0)

    private fun PressGuard.feed(action: Int, at: Long, x: Float = 50f) =
        feed(motion(action, at, x), 200, 200, settledAt = 900)

    @Test
    fun aPressThatIsMeantCounts() {
        val guard = PressGuard(wander = 24f)
        assertEquals(Step.BEGAN, guard.feed(MotionEvent.ACTION_DOWN, 1000))
        assertEquals(Step.PRESSED, guard.feed(MotionEvent.ACTION_UP, 1000 + PressGuard.HOLD))
    }

    @Test
    fun aBrushAWanderingAPalmAndAnEarlyPressDoNot() {
        val guard = PressGuard(wander = 24f)
        guard.feed(MotionEvent.ACTION_DOWN, 1000)
        assertEquals("a brush", Step.CANCELLED, guard.feed(MotionEvent.ACTION_UP, 1000 + PressGuard.HOLD - 1))
        guard.feed(MotionEvent.ACTION_DOWN, 2000)
        assertEquals("a sleeve drawn over", Step.CANCELLED, guard.feed(MotionEvent.ACTION_MOVE, 2050, 80f))
        assertEquals(Step.NOTHING, guard.feed(MotionEvent.ACTION_UP, 2500, 80f))
        guard.feed(MotionEvent.ACTION_DOWN, 3000)
        assertEquals("a palm", Step.CANCELLED, guard.feed(MotionEvent.ACTION_POINTER_DOWN, 3050))
        assertEquals(Step.NOTHING, guard.feed(MotionEvent.ACTION_UP, 3500))
        assertEquals(
            "before the page settled",
            Step.NOTHING,
            guard.feed(motion(MotionEvent.ACTION_DOWN, 899), 200, 200, 900),
        )
        assertEquals(Step.NOTHING, guard.feed(motion(MotionEvent.ACTION_UP, 1500), 200, 200, 900))
    }

    @Test
    fun hardKeysAnswerAndABrushDoesNot() {
        val heard = mutableListOf<HardAnswer>()
        val later = mutableListOf<() -> Unit>()
        val keys = HardKeys({ _, run -> later += run }, heard::add)
        fun key(code: Int, down: Long, up: Long) {
            assertTrue(keys.feed(KeyEvent(down, down, KeyEvent.ACTION_DOWN, code, 0), 100))
            assertTrue(keys.feed(KeyEvent(down, up, KeyEvent.ACTION_UP, code, 0), 100))
        }
        key(KeyEvent.KEYCODE_VOLUME_UP, 200, 450)
        key(KeyEvent.KEYCODE_VOLUME_DOWN, 500, 750)
        key(KeyEvent.KEYCODE_VOLUME_UP, 800, 920) // a brush
        key(KeyEvent.KEYCODE_VOLUME_UP, 50, 400) // began before the page had settled
        key(KeyEvent.KEYCODE_VOLUME_UP, 1000, 2000)
        key(KeyEvent.KEYCODE_VOLUME_DOWN, 2100, 3100)
        key(KeyEvent.KEYCODE_VOLUME_UP, 3200, 9000) // something leans on it
        assertEquals(listOf(HardAnswer.FIRST, HardAnswer.SECOND, HardAnswer.AGAIN, HardAnswer.BACK), heard)
        heard.clear()
        key(KeyEvent.KEYCODE_HEADSETHOOK, 3000, 3050)
        later.removeAt(0)()
        key(KeyEvent.KEYCODE_HEADSETHOOK, 4000, 4050)
        key(KeyEvent.KEYCODE_HEADSETHOOK, 4200, 4250)
        later.forEach { it() }
        assertEquals(listOf(HardAnswer.FIRST, HardAnswer.SECOND), heard)
        assertTrue(
            "every other key keeps its meaning",
            !keys.feed(KeyEvent(0, 0, KeyEvent.ACTION_DOWN, KeyEvent.KEYCODE_BACK, 0), 0),
        )
    }

    @Test
    fun everyPairOfEveryPaletteHasSevenToOne() {
        for (palette in Palette.entries) {
            val pairs = with(palette) { listOf(page, panel, good, bad, side, go, wait, noGo, code) }
            for (pair in pairs) assertTrue(
                "$palette $pair ${Contrast.ratio(pair.under, pair.on)}",
                Contrast.ratio(pair.under, pair.on) >= 7.0,
            )
            for (under in listOf(palette.page.under, palette.panel.under)) {
                assertTrue("$palette quiet", Contrast.ratio(palette.quiet, under) >= 7.0)
                // WCAG 2.2, 1.4.11: parts that are not text
                assertTrue("$palette line", Contrast.ratio(palette.line, under) >= 3.0)
            }
        }
        // the formula itself: WCAG gives 21:1 for black on white, and #767676 is the known edge of 4.5:1
        assertEquals(21.0, Contrast.ratio(-0x1000000, -1), 1e-9)
        assertEquals(4.54, Contrast.ratio(-0x898989 - 1, -1), 0.01)
    }

    @Test
    fun everyBeatFeelsDifferent() {
        val patterns = Beat.entries.map { it.pattern().toList() }
        assertEquals(patterns.size, patterns.toSet().size)
        // told apart by a hand: another number of beats, or a length that differs by half
        for (a in patterns) for (b in patterns) if (a !== b && a.size == b.size) {
            val longA = a.filterIndexed { i, _ -> i % 2 == 1 }.sum().toDouble()
            val longB = b.filterIndexed { i, _ -> i % 2 == 1 }.sum().toDouble()
            assertTrue("$a $b", longA / longB >= 1.35 || longB / longA >= 1.35)
        }
    }

    @Test
    fun paddedAndSpreadCameraRowsBecomeTightRows() {
        val padded = ByteBuffer.wrap(byteArrayOf(1, 2, 3, 0, 4, 5, 6, 0))
        assertArrayEquals(
            byteArrayOf(1, 2, 3, 4, 5, 6),
            Luminance.ofPlane(padded, 3, 2, rowStride = 4, pixelStride = 1).bytes,
        )
        val spread = ByteBuffer.wrap(byteArrayOf(1, 0, 2, 0, 3, 0, 4, 0))
        assertArrayEquals(
            byteArrayOf(1, 2, 3, 4),
            Luminance.ofPlane(spread, 2, 2, rowStride = 4, pixelStride = 2).bytes,
        )
    }
}
