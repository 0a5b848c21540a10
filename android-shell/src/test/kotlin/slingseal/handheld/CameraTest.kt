package slingseal.handheld

import android.content.Context
import android.graphics.Matrix
import android.hardware.camera2.CameraDevice
import android.hardware.camera2.CameraManager
import android.provider.Settings
import android.view.View
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.look.Palette
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.sense.Blind
import slingseal.handheld.sense.Eye
import slingseal.handheld.sense.Preview
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** The camera: its size, its failures, its light, and that it is let go. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class CameraTest : AtTheLoad() {
    private fun eye(photo: ((ByteArray) -> Unit)? = null, told: MutableList<Blind>): Eye {
        val activity = Zone.launch().get()
        return Eye(activity, android.view.TextureView(activity), {}, photo) { told += it }
    }

    private fun settle() = shadowOf(android.os.Looper.getMainLooper()).idle()

    @Test
    fun aPhotographIsTakenInTheLargestSizeThatTheCoreTakes() {
        fun size(width: Int, height: Int) = android.util.Size(width, height)
        val sizes =
            listOf(size(640, 480), size(8000, 6000), size(4000, 3000), size(3000, 4000), size(1920, 1080))
        assertEquals(
            "12 megapixels: the 48 are more than a record carries",
            12_000_000,
            Eye.largest(sizes)!!.let { it.width * it.height },
        )
        assertEquals(size(1920, 1080), Eye.largest(listOf(size(640, 480), size(1920, 1080))))
        assertEquals("a camera of nothing smaller takes none", null, Eye.largest(listOf(size(8000, 6000))))
    }

    /** The keyboard is another program's and knows no red; the camera's picture is as bright as the day. */
    @Test
    fun atNightTheKeyboardAndTheCamerasPictureAreDimmed() {
        Zone.camera()
        val screen = Screen(Zone.launch().get())
        fun light() = screen.activity.window.attributes.screenBrightness
        fun preview() = screen.shown().filterIsInstance<android.view.TextureView>().single()
        fun at(place: Place) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
        }
        fun red(): Boolean {
            val paint =
                View::class.java.getDeclaredField("mLayerPaint").apply { isAccessible = true }.get(preview())
                    as android.graphics.Paint?
            return paint?.colorFilter is android.graphics.ColorMatrixColorFilter
        }
        at(Place.Hook())
        assertFalse("by day the picture is as it is", red())
        screen.hand.changePalette(slingseal.handheld.look.Palette.NIGHT)
        at(Place.Type(Purpose.Inspect))
        assertEquals("the keyboard", 0.05f, light())
        at(Place.Hook())
        assertTrue("the camera's picture", red())
        at(Place.Start)
        assertEquals("the system's own again", -1f, light())
    }

    /** On its side the picture goes from edge to edge, with words and keys laid on it. */
    @Test
    fun onItsSideTheCamerasPictureFillsTheGlass() {
        Zone.camera()
        org.robolectric.RuntimeEnvironment.setQualifiers("w800dp-h360dp-land")
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        for (place in listOf(Place.Hook(), Place.Scan(Purpose.Inspect))) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
            val seen = screen.shown().filterIsInstance<android.view.TextureView>().single()
            val glass = screen.box(screen.activity.findViewById<View>(android.R.id.content)!!)
            assertEquals("$place", glass, screen.box(seen))
            assertTrue("keys lie on it", screen.keys().size >= 2)
        }
    }

    /** Whoever leaves a page that looks, or puts the phone down, leaves the camera to others. */
    @Test
    fun theCameraIsLetGoWhenItsPageGoes() {
        Zone.camera()
        zone.inspector()
        val controller = Zone.launch()
        val screen = Screen(controller.get())
        fun eye() =
            generateSequence<Class<*>>(screen.hand.front!!.javaClass) { it.superclass }
                .first { it.simpleName == "LookingScreen" }
                .getDeclaredMethod("getEye")
                .apply { isAccessible = true }
                .invoke(screen.hand.front!!) as Eye
        screen.press("Hook check")
        val first = eye()
        assertTrue("it looks", first.isOpen)
        screen.press("Back")
        assertFalse("left", first.isOpen)
        screen.press("Hook check")
        val second = eye()
        assertTrue(second.isOpen)
        controller.pause()
        assertFalse("put down", second.isOpen)
        controller.resume()
        assertTrue("taken up again", second.isOpen)
    }

    /** A picture is read in some milliseconds, and a thread that draws has none to give. */
    @Test
    fun whatTheCameraSeesIsReadBesideTheMainThread() {
        Zone.camera()
        val eye = eye(null, mutableListOf())
        fun hands() =
            Eye::class.java.getDeclaredField("hands").apply { isAccessible = true }.get(eye)
                as android.os.Handler?
        assertEquals("nothing is read before it looks", null, hands())
        eye.start()
        val reads = hands()!!.looper
        assertNotEquals(android.os.Looper.getMainLooper(), reads)
        assertTrue("a thread of its own", reads.thread.isAlive)
        eye.stop()
        reads.thread.join(SECOND)
        assertFalse("and none is left of it", reads.thread.isAlive)
    }

    @Test
    fun everyWayInWhichACameraFailsIsToldAndLetsGoOfIt() {
        Zone.camera()
        val failures =
            listOf(
                CameraDevice.StateCallback.ERROR_CAMERA_IN_USE to Blind.TAKEN,
                CameraDevice.StateCallback.ERROR_MAX_CAMERAS_IN_USE to Blind.TAKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_DISABLED to Blind.BROKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_DEVICE to Blind.BROKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_SERVICE to Blind.BROKEN,
            )
        for ((error, why) in failures) {
            val told = mutableListOf<Blind>()
            val eye = eye(null, told)
            eye.start()
            eye.failed(error)
            settle()
            assertEquals("$error", listOf(why), told)
            assertFalse("$error: nothing holds the camera", eye.isOpen)
        }
        for (thrown in
            listOf(
                android.hardware.camera2.CameraAccessException(
                    android.hardware.camera2.CameraAccessException.CAMERA_IN_USE
                ),
                android.hardware.camera2.CameraAccessException(
                    android.hardware.camera2.CameraAccessException.CAMERA_ERROR
                ),
                SecurityException("no"),
                IllegalStateException("closed"),
                IllegalArgumentException("gone"),
            )) {
            val told = mutableListOf<Blind>()
            val eye = eye(null, told)
            eye.start()
            assertFalse(eye.tried { throw thrown })
            settle()
            assertEquals("$thrown", 1, told.size)
            assertFalse("$thrown", eye.isOpen)
        }
    }

    private companion object {
        const val SECOND = 1000L
    }

    @Test
    fun theCameraIsAskedForOnceThenTheWayToTheSettings() {
        shadowOf(RuntimeEnvironment.getApplication()).denyPermissions(android.Manifest.permission.CAMERA)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        assertEquals("asked", "yes", core.preference("camera asked"))
        assertTrue(screen.words(), screen.words().contains("not allowed"))
        assertTrue("typing is the way out", screen.hasKey("Type it"))
        screen.press("Open the settings")
        val started = shadowOf(screen.activity).nextStartedActivity
        assertEquals(Settings.ACTION_APPLICATION_DETAILS_SETTINGS, started.action)
        // allowed there: the page looks again when it is back in front
        Zone.camera()
        screen.hand.front!!.shown()
        screen.settle()
        assertFalse(screen.words(), screen.words().contains("not allowed"))
    }

    @Test
    fun aCameraThatThrowsIsToldAndEndsNothing() {
        val cameras =
            RuntimeEnvironment.getApplication().getSystemService(Context.CAMERA_SERVICE) as CameraManager
        shadowOf(cameras).removeCamera("0")
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        assertTrue(screen.words(), screen.words().contains("no camera"))
        assertTrue(screen.hasKey("Type it"))
    }

    @Test
    fun thePreviewIsTurnedAndFills() {
        fun box(matrix: Matrix, width: Int, height: Int) =
            android.graphics.RectF(0f, 0f, width.toFloat(), height.toFloat()).also { matrix.mapRect(it) }
        for ((turn, width, height) in
            listOf(
                Triple(0, 1080, 1500),
                Triple(90, 1800, 1000),
                Triple(270, 1800, 1000),
                Triple(180, 1080, 1500),
            )) {
            val seen = box(Preview.matrix(width, height, 1280, 720, turn), width, height)
            assertTrue(
                "$turn: $seen fills $width x $height",
                seen.left <= 1 && seen.top <= 1 && seen.right >= width - 1 && seen.bottom >= height - 1,
            )
            // the picture keeps its shape: 16:9, upright or on its side
            val ratio = maxOf(seen.width(), seen.height()) / minOf(seen.width(), seen.height())
            assertEquals("$turn", 16f / 9f, ratio, 0.02f)
            assertEquals(
                "$turn: the long side lies as the screen does",
                height > width,
                seen.height() > seen.width(),
            )
        }
    }
}
