package slingseal.handheld.support

import android.app.Activity
import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Rect
import android.os.Looper
import android.os.SystemClock
import android.view.KeyEvent
import android.view.MotionEvent
import android.view.View
import android.view.ViewGroup
import android.widget.ScrollView
import android.widget.TextView
import java.io.File
import java.time.Duration
import org.junit.Assert.assertFalse
import org.junit.Assert.fail
import org.robolectric.Shadows.shadowOf
import slingseal.handheld.HandheldActivity
import slingseal.handheld.Slow
import slingseal.handheld.look.Key
import slingseal.handheld.look.PressGuard

/** Finger and eye of a test: touches go through the window, pictures come from the drawn pixels. */
class Screen(val activity: Activity) {
    init {
        // a phone that has just been switched on opens its store first
        await { (activity as? HandheldActivity)?.isOpening == true }
    }

    /** The window, when the page is there that was gone to. */
    val root: View
        get() {
            read()
            return activity.window.decorView
        }

    private fun await(lasts: () -> Boolean) {
        val end = System.nanoTime() + Duration.ofMinutes(2).toNanos()
        while (lasts()) {
            check(System.nanoTime() < end) { "nothing came" }
            Thread.sleep(1)
            shadowOf(Looper.getMainLooper()).idle()
        }
    }

    /** Waits until a page is read, or a press is written down, as somebody does without noticing. */
    fun read() = await { Quick.isBusy || (activity as? HandheldActivity)?.isReading == true }

    fun all(view: View = root): Sequence<View> = sequence {
        yield(view)
        if (view is ViewGroup) for (i in 0 until view.childCount) yieldAll(all(view.getChildAt(i)))
    }

    fun shown(): Sequence<View> = all().filter { it.isShown && it.width > 0 && it.height > 0 }

    fun keys(): List<Key> = shown().filterIsInstance<Key>().toList()

    fun key(label: String): Key =
        keys().firstOrNull { it.label.toString() == label }
            ?: error("no key \"$label\"; there are ${keys().map { it.label }} and the page says ${words()}")

    fun hasKey(label: String) = keys().any { it.label.toString() == label }

    /** Everything that is written on the page. */
    fun words(): String = shown().filterIsInstance<TextView>().joinToString("\n") { it.text }

    /** The title of a page. */
    fun heading(): String =
        shown().filterIsInstance<TextView>().first { it.isAccessibilityHeading }.text.toString()

    fun settle(millis: Long = PressGuard.SETTLE + 50) {
        shadowOf(Looper.getMainLooper()).idle()
        read()
        shadowOf(Looper.getMainLooper()).idleFor(Duration.ofMillis(millis))
        read()
        drawn()
    }

    /** A picture that is still drawn is waited for, as by whoever looks. */
    private fun drawn() = await { slingseal.handheld.screens.RiggingScreen.drawing.get() > 0 }

    /** A press in the middle of a view, scrolled into sight first, held as a person holds it. */
    fun press(view: View, held: Long = PressGuard.HOLD + 30, settleFirst: Boolean = true) {
        if (settleFirst) settle()
        reveal(view)
        val (x, y) = middle(view)
        touch(MotionEvent.ACTION_DOWN, x, y)
        settle(held)
        touch(MotionEvent.ACTION_UP, x, y)
        shadowOf(Looper.getMainLooper()).idle()
        finish()
    }

    /** Waits until slow work is done and told, as a person does. */
    fun finish() {
        await { Slow.at != null || (activity as? HandheldActivity)?.isReading == true }
        drawn()
    }

    fun press(label: String) = press(key(label))

    /**
     * Keys in a fingerprint as somebody reads it out: a letter by the key that stands for three and then its
     * own, a digit by its own.
     */
    fun hear(fingerprint: String) {
        for (sign in fingerprint.filter { it != ' ' }) {
            if (sign.isDigit()) {
                press(key(sign.toString()), settleFirst = false)
            } else {
                press(
                    keys().first {
                        it.label.split(' ').let { letters -> letters.size == 3 && sign.toString() in letters }
                    },
                    settleFirst = false,
                )
                press(keys().first { it.label.startsWith("$sign ") }, settleFirst = false)
            }
        }
    }

    /** Holds a key that is held, not tapped. */
    fun hold(label: String) = press(key(label), held = PressGuard.GRAVE + 50)

    private var downAt = 0L

    /**
     * Fingers on the glass, the first of them first; `action` may carry the index of the one that comes or
     * goes.
     */
    fun fingers(action: Int, vararg at: Pair<Float, Float>) {
        val now = SystemClock.uptimeMillis()
        if (action == MotionEvent.ACTION_DOWN) downAt = now
        val props =
            Array(at.size) { i ->
                MotionEvent.PointerProperties().apply {
                    id = i
                    toolType = MotionEvent.TOOL_TYPE_FINGER
                }
            }
        val coords =
            Array(at.size) { i ->
                MotionEvent.PointerCoords().apply {
                    x = at[i].first
                    y = at[i].second
                    pressure = 1f
                    size = 1f
                }
            }
        val event =
            MotionEvent.obtain(
                downAt,
                now,
                action,
                at.size,
                props,
                coords,
                0,
                0,
                1f,
                1f,
                0,
                0,
                android.view.InputDevice.SOURCE_TOUCHSCREEN,
                0,
            )
        activity.window.decorView.dispatchTouchEvent(event)
        event.recycle()
    }

    fun touch(action: Int, x: Float, y: Float) {
        val now = SystemClock.uptimeMillis()
        if (action == MotionEvent.ACTION_DOWN) downAt = now
        val event = MotionEvent.obtain(downAt, now, action, x, y, 0)
        activity.window.decorView.dispatchTouchEvent(event)
        event.recycle()
    }

    /** A hardware key, down and up. */
    fun hardKey(code: Int, held: Long = 200) {
        settle()
        val down = SystemClock.uptimeMillis()
        root.dispatchKeyEvent(KeyEvent(down, down, KeyEvent.ACTION_DOWN, code, 0))
        settle(held)
        root.dispatchKeyEvent(KeyEvent(down, SystemClock.uptimeMillis(), KeyEvent.ACTION_UP, code, 0))
        settle(600)
    }

    /** The whole of a view's box, as far as it can be seen; null where nothing of it can. */
    fun visible(view: View): Rect? = Rect().takeIf { view.getGlobalVisibleRect(it) }

    /** Whether no part of a view is scrolled away or hidden by what it lies in. */
    fun isWhole(view: View): Boolean =
        visible(view)?.let { it.width() == view.width && it.height() == view.height } == true

    /** Scrolls until the whole view can be seen. */
    private fun reveal(view: View) {
        view.requestRectangleOnScreen(Rect(0, 0, view.width, view.height), true)
        shadowOf(Looper.getMainLooper()).idle()
    }

    /** Scrolls until a view stands at the top of what it scrolls in, as far as that goes. */
    fun scrollTo(view: View) {
        val scroll = scrollOf(view) ?: return
        val box = Rect(0, 0, view.width, view.height).also { scroll.offsetDescendantRectToMyCoords(view, it) }
        scroll.scrollTo(0, box.top)
        shadowOf(Looper.getMainLooper()).idle()
    }

    fun scrollOf(view: View): ScrollView? =
        generateSequence(view.parent) { it.parent }.firstNotNullOfOrNull { it as? ScrollView }

    fun middle(view: View): Pair<Float, Float> {
        val at = IntArray(2).also(view::getLocationInWindow)
        val x = at[0] + view.width / 2f
        val y = at[1] + view.height / 2f
        if (x < 0 || y < 0 || x >= root.width || y >= root.height)
            fail("the middle of ${view.contentDescription} lies off the screen at $x, $y")
        return x to y
    }

    fun box(view: View): Rect {
        val at = IntArray(2).also(view::getLocationInWindow)
        return Rect(at[0], at[1], at[0] + view.width, at[1] + view.height)
    }

    /** The page as it is drawn, by the framework's own drawing code on the processor. */
    fun pixels(): Bitmap {
        read()
        shadowOf(Looper.getMainLooper()).idle()
        val bitmap = Bitmap.createBitmap(root.width, root.height, Bitmap.Config.ARGB_8888)
        root.draw(Canvas(bitmap))
        val first = bitmap.getPixel(0, 0)
        val blank =
            (0 until bitmap.height step 3).all { y ->
                (0 until bitmap.width step 3).all { x -> bitmap.getPixel(x, y) == first }
            }
        assertFalse("nothing was drawn", blank)
        return bitmap
    }

    fun picture(name: String): Bitmap {
        val bitmap = pixels()
        val file = File(System.getProperty("pictures.dir") ?: error("pictures.dir is not set"), "$name.png")
        file.parentFile?.mkdirs()
        file.outputStream().buffered().use { Png.write(bitmap, it) }
        return bitmap
    }
}
