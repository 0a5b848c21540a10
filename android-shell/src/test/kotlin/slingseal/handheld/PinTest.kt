package slingseal.handheld

import android.content.Intent
import android.os.Bundle
import android.view.MotionEvent
import android.view.WindowManager
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.look.Glove
import slingseal.handheld.look.Slots
import slingseal.handheld.places.KeptPlaces
import slingseal.handheld.places.Place
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Watched
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN

/** The PIN: tried once, on keys of a glove's size, and nothing slow on the main thread. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PinTest : AtTheLoad() {
    @Test
    fun thePinPageWorksTakesNoSecondPressAndSurvivesATurn() {
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        val queue = mutableListOf<Runnable>()
        val usual = Core.slow
        Core.slow = java.util.concurrent.Executor { queue += it }
        try {
            screen.type(PIN)
            val (x, y) = screen.middle(screen.key("Seal it"))
            screen.settle()
            fun tap() {
                screen.touch(MotionEvent.ACTION_DOWN, x, y)
                screen.settle(200)
                screen.touch(MotionEvent.ACTION_UP, x, y)
                screen.settle()
            }
            tap()
            assertTrue(screen.words(), screen.words().contains("Working"))
            tap()
            screen.hand.back()
            assertEquals("one press, one try", 1, queue.size)
            assertTrue(screen.words(), screen.words().contains("Working"))

            // turned while the PIN is stretched: the new activity works on, and is told; of what holds the
            // core nothing is asked
            val build = KeptPlaces.buildOf(screen.hand)
            Watched.seen.clear()
            val turned =
                Robolectric.buildActivity(HandheldActivity::class.java)
                    .setup(Bundle().also { KeptPlaces.save(listOf(Place.Start, Slow.at!!), build, it) })
            val after = Screen(turned.get())
            after.settle()
            assertTrue(after.words(), after.words().contains("Working"))
            assertTrue("${Watched.seen}", Watched.seen.isEmpty())
            queue.single().let { job ->
                Thread(job).also {
                    it.start()
                    it.join()
                }
            }
            after.settle()
            assertEquals(Place.Seal::class, turned.get().front!!.place::class)
            assertEquals(1, core.records(null, 10u).size)
        } finally {
            Core.slow = usual
        }
    }

    @Test
    fun aWrongPinCostsOneTry() {
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        repeat(2) {
            screen.type("000000")
            screen.press("Seal it")
            assertTrue(screen.words(), screen.words().contains("PIN is wrong", ignoreCase = true))
            assertEquals("typed anew", 0, screen.shown().filterIsInstance<Slots>().single().filled)
        }
        assertEquals("two tries cost no wait; the third does", null, core.setUp().pinLockedUntil)
        screen.press("Seal it")
        assertEquals("no digits are no try", null, core.setUp().pinLockedUntil)
        screen.type("000000")
        screen.press("Seal it")
        assertNotEquals(null, core.setUp().pinLockedUntil)
    }

    /** Whether more is opened than closed at every place of it, with the one that stood before it. */
    private fun isOpen(block: String): Boolean {
        var depth = 1
        for (letter in block) {
            if (letter in "({") depth += 1
            if (letter in ")}") depth -= 1
            if (depth == 0) return false
        }
        return true
    }

    /** What stretches a PIN or reads a file is not called by whoever draws the screen. */
    @Test
    fun noSlowCallOnTheMainThread() {
        val screen = atTheDecision()
        val threads = mutableListOf<String>()
        val usual = Core.slow
        Core.slow =
            java.util.concurrent.Executor { job ->
                usual.execute {
                    threads += Thread.currentThread().name
                    job.run()
                }
            }
        try {
            screen.recap()
            screen.hold("Fit: hold")
            screen.type(PIN)
            screen.press("Seal it")
            assertEquals(1, core.records(null, 10u).size)
            assertEquals(1, threads.size)
            assertNotEquals(Thread.currentThread().name, threads.single())
        } finally {
            Core.slow = usual
        }
        // and nowhere in the sources: each slow call stands inside shell.work, or off the main thread by its
        // name
        val slow =
            Regex(
                "core\\.(seal|void|makeKey|examLock|examReveal|examScore|addPhoto|bundleIn|bundleOut|movingBegin|report\\(request\\(\\), pin)\\b"
            )
        var seen = 0
        for (file in java.io.File("src/main/kotlin").walk().filter { it.extension == "kt" }) {
            val lines = file.readLines()
            for ((at, line) in lines.withIndex().filter { slow.containsMatchIn(it.value) }) {
                // inside the block that `work` was given: what it opened is not closed before the call
                val before = lines.take(at).joinToString("\n", postfix = "\n") + line.substringBefore("core.")
                val block = before.substringAfterLast("work({", "")
                assertTrue("${file.name}: $line", before.contains("work({") && isOpen(block))
                seen += 1
            }
        }
        assertTrue("$seen", seen >= 8)
    }

    /** The watch itself: a page that asks the core anything on the main thread would end its test. */
    @Test
    fun theWatchSeesEveryCallOnTheMainThread() {
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        val watched = screen.hand.core
        assertTrue("every phone under test is under it", watched is Watched)
        val caught =
            runCatching { slingseal.handheld.screens.MainThreadTrial.movingBegin(watched) }.exceptionOrNull()
        assertTrue(
            "$caught",
            caught is IllegalStateException && "movingBegin on the main thread" in caught.message.orEmpty(),
        )
        val quick =
            runCatching { slingseal.handheld.screens.MainThreadTrial.setUp(watched) }.exceptionOrNull()
        assertTrue("$quick", quick is IllegalStateException && "setUp on" in quick.message.orEmpty())
        // and lets the same call pass beside it, with the core's own words when it fails
        val beside = java.util.concurrent.Executors.newSingleThreadExecutor()
        beside.submit { slingseal.handheld.screens.MainThreadTrial.movingBegin(watched) }.get()
        val refused =
            beside
                .submit<Throwable?> {
                    runCatching { watched.seal("no such walk", "000000", null) }.exceptionOrNull()
                }
                .get()
        assertTrue("$refused", refused is slingseal.core.HandheldException)
    }

    /** The store is opened beside the main thread; what was asked for meanwhile is done when it is open. */
    @Test
    fun theStoreIsOpenedBesideTheMainThread() {
        zone.inspector()
        Core.close()
        val queue = mutableListOf<Runnable>()
        val usual = Core.slow
        Core.slow = java.util.concurrent.Executor { queue += it }
        try {
            val controller = Robolectric.buildActivity(HandheldActivity::class.java).setup()
            val activity = controller.get()
            assertTrue(activity.isOpening && activity.front == null)
            controller.newIntent(Intent(Shortcut.HOOK))
            assertEquals(1, queue.size)
            val from = Thread(queue.single())
            from.start()
            from.join()
            org.robolectric.Shadows.shadowOf(android.os.Looper.getMainLooper()).idle()
            assertFalse(activity.isOpening)
            Screen(activity).read()
            assertEquals("the shortcut was not forgotten", Place.Hook::class, activity.front!!.place::class)
        } finally {
            Core.slow = usual
        }
    }

    /**
     * 19 mm a key where gloves are worn (MIL-STD-1472E, 5.4.2.1): 120 dp, on a small phone too, both ways up.
     */
    @Test
    fun pinKeysAreOfGloveSizeAndOnTheWholePage() {
        RuntimeEnvironment.setQualifiers("w360dp-h640dp-port-xhdpi")
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        fun padIsOfGloveSize(of: Screen) {
            val density = of.activity.resources.displayMetrics.density
            val pad = of.keys().filter { it.label.length == 1 || it.label in listOf("Erase", "Seal it") }
            assertEquals(12, pad.size)
            for (key in pad) {
                val box = of.box(key)
                assertTrue(
                    "${key.label}: ${box.width() / density} x ${box.height() / density}",
                    box.width() >= Glove.KEY * density && box.height() >= Glove.KEY * density,
                )
            }
        }
        padIsOfGloveSize(screen)
        assertTrue("and it says which load", screen.words().contains("load KM-015"))
        RuntimeEnvironment.setQualifiers("w640dp-h360dp-land-xhdpi")
        val aside = open(onlyWalk().walk)
        padIsOfGloveSize(aside)
        assertTrue(
            "no picture of it is taken",
            screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE != 0,
        )
        screen.press("Back")
        assertTrue(screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE == 0)
    }
}
