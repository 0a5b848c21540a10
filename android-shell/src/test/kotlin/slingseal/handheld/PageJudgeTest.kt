package slingseal.handheld

import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** The judge of the pictures itself: a judge that finds nothing wrong proves nothing. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PageJudgeTest {
    /** The judge itself: it tells words that are faint, cut off or out of reach. */
    @Test
    fun theJudgeFindsWhatIsWrong() {
        Zone.newPhone()
        val judge = PageJudge(emptyMap())
        RuntimeEnvironment.setQualifiers("w360dp-h640dp-port-xhdpi")
        val controller = Zone.launch()
        val activity = controller.get()
        val frame = android.widget.FrameLayout(activity).apply { setBackgroundColor(-1) }
        fun words(text: String, color: Int, width: Int, height: Int, x: Float, y: Float) {
            val view =
                TextView(activity).apply {
                    this.text = text
                    textSize = 20f
                    setTextColor(color)
                    translationX = x
                    translationY = y
                }
            frame.addView(view, android.widget.FrameLayout.LayoutParams(width, height))
        }
        words("sound", -0x1000000, 400, 120, 0f, 0f)
        words("faint", -0x555556, 400, 120, 0f, 200f)
        words("invisible", -1, 400, 120, 0f, 400f)
        words("cut", -0x1000000, 400, 20, 0f, 600f)
        words("away", -0x1000000, 400, 120, 5000f, 0f)
        activity.setContentView(frame)
        val screen = Screen(activity)
        screen.settle()
        judge.wordsAreWhole(screen, "judge")
        judge.everyWordCanBeReadByScrolling(screen, "judge/faulty")
        val found = judge.faults.joinToString("\n")
        for (expected in
            listOf(
                "\"faint\" has 2",
                "nothing can be seen where \"invisible\"",
                "\"cut\" is cut off",
                "\"away\" cannot be brought into sight",
            )) {
            assertTrue("$expected is not among\n$found", expected in found)
        }
        assertTrue(found, "sound" !in found)
        assertEquals(found, 4, judge.faults.size)
    }
}
