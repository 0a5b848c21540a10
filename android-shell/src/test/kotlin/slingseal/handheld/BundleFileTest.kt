package slingseal.handheld

import android.content.Intent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** Records from phone to phone by a file that the system shares. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class BundleFileTest : OnAPhone() {
    @Test
    fun aBundleGoesOutAndComesInByFile() {
        zone.inspector()
        Zone.sealed(core, zone.tag("KM-095"))
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Move records")
        screen.press("By file")
        screen.press("Share a bundle")
        screen.finish()
        screen.settle()
        val file = Papers.file(screen.activity)
        assertTrue(file.length() > 500)
        val chooser = shadowOf(screen.activity).nextStartedActivity
        assertEquals(Intent.ACTION_CHOOSER, chooser.action)

        // another phone opens the very file
        val bytes = file.readBytes()
        Zone.newPhone()
        zone.meet(core)
        val uri = android.net.Uri.parse("content://elsewhere/bundle")
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStreamSupplier(uri) {
            java.io.ByteArrayInputStream(bytes)
        }
        val other =
            Screen(
                org.robolectric.Robolectric.buildActivity(
                        HandheldActivity::class.java,
                        Intent(Intent.ACTION_VIEW, uri),
                    )
                    .setup()
                    .get()
            )
        other.finish()
        other.settle()
        assertTrue(other.words(), other.words().contains("1 new"))
        assertEquals(listOf("KM-095"), core.records(null, 10u).map { it.load })
        // and one that is none is told
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStreamSupplier(uri) {
            java.io.ByteArrayInputStream(ByteArray(40) { 7 })
        }
        other.hand.let { slingseal.handheld.screens.FileScreen.take(it, uri) }
        other.finish()
        other.settle()
        assertTrue(other.words(), other.words().contains("bundle"))
    }
}
