package slingseal.handheld

import android.os.Looper
import android.view.KeyEvent
import android.view.MotionEvent
import android.widget.TextView
import java.time.Duration
import java.util.concurrent.Executor
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import slingseal.handheld.look.Key
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen

/** What is seen, and what answers, while a press is written down or a page is read beside the main thread. */
@RunWith(RobolectricTestRunner::class)
class BesideTest : AtTheLoad() {
    private val usual = Core.quick
    private val queue = mutableListOf<Runnable>()

    @Before
    fun holdBack() {
        queue.clear()
    }

    @After
    fun letGo() {
        Core.quick = usual
    }

    private fun idle(millis: Long = 0) = shadowOf(Looper.getMainLooper()).idleFor(Duration.ofMillis(millis))

    /** What stands on the glass at once, whatever is on its way. */
    private fun Screen.glass() = all(activity.window.decorView).filter { it.isShown }

    private fun Screen.seen() = glass().filterIsInstance<TextView>().joinToString("\n") { it.text }

    private fun Screen.tap(at: Pair<Float, Float>) {
        touch(MotionEvent.ACTION_DOWN, at.first, at.second)
        idle(200)
        touch(MotionEvent.ACTION_UP, at.first, at.second)
        idle()
    }

    private fun Screen.up() {
        fun key(action: Int) {
            val now = android.os.SystemClock.uptimeMillis()
            activity.window.decorView.dispatchKeyEvent(
                KeyEvent(now, now, action, KeyEvent.KEYCODE_VOLUME_UP, 0)
            )
        }
        key(KeyEvent.ACTION_DOWN)
        idle(250)
        key(KeyEvent.ACTION_UP)
        idle()
    }

    /** Does what was held back, off this thread, and lets the page be told. */
    private fun next() {
        val job = queue.removeAt(0)
        Thread(job).apply { start() }.join()
        idle()
    }

    /** A walk on its second card, by a press that is held back. */
    private fun pressed(): Pair<Screen, Pair<Float, Float>> {
        zone.inspector()
        val screen = open(core.beginWalk(zone.tag().text).walk)
        screen.hand.hardKeysOn = true
        screen.settle()
        val at = screen.middle(screen.key("All good"))
        Core.quick = Executor { queue += it }
        screen.tap(at)
        assertEquals("written down beside", 1, queue.size)
        return screen to at
    }

    @Test
    fun thePageThatIsSeenTakesNothingUntilTheNextIsThere() {
        val (screen, at) = pressed()
        assertTrue("no flicker", screen.glass().filterIsInstance<Key>().any { it.label == "All good" })
        fun nothingMore(why: String) {
            screen.tap(at)
            screen.up()
            @Suppress("DEPRECATION") screen.activity.onBackPressed()
            screen
                .glass()
                .filterIsInstance<Key>()
                .filter { it.label == "All good" }
                .forEach { it.performClick() }
            idle()
            assertEquals(why, 1, queue.size)
        }
        nothingMore("while it is written down")
        next()
        nothingMore("while the next page is read")
        // a finger that came down on the old page and goes up on the new one answers neither
        screen.touch(MotionEvent.ACTION_DOWN, at.first, at.second)
        next()
        idle(600)
        screen.touch(MotionEvent.ACTION_UP, at.first, at.second)
        idle()
        assertEquals(0, queue.size)
        assertEquals("one press, one card", 2u, onlyWalk().card!!.number)
        assertTrue(screen.seen(), screen.seen().contains(onlyWalk().card!!.title))
        assertFalse(screen.hand.busy)
    }

    @Test
    fun whatLastsIsSaidAndEndsWithItsPage() {
        val (screen, _) = pressed()
        idle(Slow.GRACE + 50)
        assertTrue(screen.seen(), screen.seen().contains("Working"))
        next()
        idle(Slow.GRACE + 50)
        assertTrue("the page is read still", screen.seen().contains("Working"))
        next()
        assertTrue(screen.seen(), screen.seen().contains(onlyWalk().card!!.title))
    }

    @Test
    fun whatIsRefusedLaterIsToldAndThePageIsThereAgain() {
        zone.inspector()
        val screen = open(core.beginWalk(zone.tag().text).walk)
        Core.quick = Executor { queue += it }
        screen.hand.ask({ record("no such record") }) { error("there is none") }
        idle(Slow.GRACE + 50)
        assertTrue(screen.seen(), screen.seen().contains("Working"))
        next()
        assertFalse(screen.seen(), screen.seen().contains("Working"))
        assertTrue(screen.glass().filterIsInstance<Key>().any { it.label == "All good" })
        assertEquals(slingseal.handheld.sense.Beat.REFUSED, screen.hand.lastBeat)
    }
}
