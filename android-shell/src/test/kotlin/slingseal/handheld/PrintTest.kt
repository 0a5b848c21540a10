package slingseal.handheld

import android.os.Looper
import android.os.ParcelFileDescriptor
import android.print.LaidOut
import android.print.PrintAttributes
import android.print.Written
import java.io.File
import java.util.concurrent.CountDownLatch
import java.util.concurrent.TimeUnit
import java.util.concurrent.atomic.AtomicReference
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Zone

/**
 * What goes to the platform's print service. Robolectric has no printer and no spooler: what the service asks
 * of a document is asked here in its place, and the pages are read by poppler.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PrintTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    private fun attributes(size: PrintAttributes.MediaSize) =
        PrintAttributes.Builder().setMediaSize(size).setMinMargins(PrintAttributes.Margins.NO_MARGINS).build()

    private fun answer(ask: ((String?) -> Unit) -> Unit): String? {
        val (latch, said) = CountDownLatch(1) to AtomicReference<String?>("nothing was answered")
        ask {
            said.set(it)
            latch.countDown()
        }
        latch.await(30, TimeUnit.SECONDS)
        return said.get()
    }

    /** As the spooler does it: layout, then write; the answers come from another thread. */
    private fun printed(document: Printing, size: PrintAttributes.MediaSize): File {
        assertEquals(null, answer { document.onLayout(null, attributes(size), null, LaidOut(it), null) })
        val file = File.createTempFile("slingseal", ".pdf").apply { deleteOnExit() }
        assertEquals(
            null,
            answer {
                document.onWrite(
                    emptyArray(),
                    ParcelFileDescriptor.open(file, ParcelFileDescriptor.MODE_READ_WRITE),
                    null,
                    Written(it),
                )
            },
        )
        shadowOf(Looper.getMainLooper()).idle()
        return file
    }

    private fun said(command: String, vararg args: String): String {
        val run = ProcessBuilder(command, *args).redirectErrorStream(true).start()
        val out = run.inputStream.bufferedReader().readText()
        assertEquals(out, 0, run.waitFor())
        return out
    }

    @Test
    fun aTagIsPrintedOnThePaperThatIsPicked() {
        val tag = zone.tag("KM-081")
        for ((size, points) in
            listOf(
                PrintAttributes.MediaSize.ISO_A4 to "595.28 x 841.89",
                PrintAttributes.MediaSize.NA_LETTER to "612 x 792",
            )) {
            val file = printed(Printing("KM-081") { letter -> core.tagPdf(tag.text, letter) }, size)
            assertTrue(said("pdfinfo", file.path), said("pdfinfo", file.path).contains(points))
            val words = said("pdftotext", "-layout", file.path, "-")
            assertTrue(words, words.contains("KM-081") && words.contains("Anvil 3"))
        }
    }

    @Test
    fun aRecordAndEachPartOfACopyArePrinted() {
        val record = Zone.sealed(core, zone.tag("KM-082")).record
        val page =
            said(
                "pdftotext",
                "-layout",
                printed(Printing("r") { core.recordPdf(record, it) }, PrintAttributes.MediaSize.ISO_A4).path,
                "-",
            )
        assertTrue(page, page.contains("KM-082") && page.contains("Lantern 1"))
        val copy = zone.desk.copyAuthority(Zone.PASSPHRASE)
        for ((second, part) in listOf(false to copy.first, true to copy.second)) {
            val file =
                printed(Printing("c") { core.copyPdf(copy, second, it) }, PrintAttributes.MediaSize.ISO_A4)
            val words = said("pdftotext", "-layout", file.path, "-")
            // for the day on which no camera reads it: every row, and nothing of the other part
            val together = words.replace(Regex("\\s"), "")
            for (row in part.rows) assertTrue("$row in\n$words", row.replace(" ", "") in together)
            val other = if (second) copy.first else copy.second
            for (row in other.rows.drop(1)) assertFalse(row, row.replace(" ", "") in together)
        }
    }

    @Test
    fun noPermissionIsAskedForIt() {
        val app = RuntimeEnvironment.getApplication()
        val asked =
            app.packageManager
                .getPackageInfo(app.packageName, android.content.pm.PackageManager.GET_PERMISSIONS)
                .requestedPermissions
                .orEmpty()
        assertFalse(asked.toString(), asked.any { "INTERNET" in it || "NETWORK" in it || "BLUETOOTH" in it })
    }
}
