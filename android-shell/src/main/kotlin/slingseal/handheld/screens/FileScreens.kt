package slingseal.handheld.screens

import android.content.Intent
import android.net.Uri
import android.view.View
import java.io.File
import java.io.IOException
import slingseal.core.Handheld
import slingseal.handheld.KIND
import slingseal.handheld.Papers
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/** What a bundle's file is called. */
private const val NAME = "slingseal.bundle"

/** A code that the picker comes back with. */
internal const val PICK_IN = 11
internal const val PICK_OUT = 12
internal const val PICK_LISTS = 13

/**
 * Bundles by file, photographs and all: through the system's own picker, which asks for no permission, or
 * handed to another program. A bundle that another program opens with this one comes in here too.
 */
class FileScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.bundle_title)

    override fun build(): View =
        page(
            text(R.string.bundle_title),
            body(
                parts.column(
                    key(Face.ROW, text(R.string.bundle_in), Sign.FILE, text(R.string.bundle_in_about)) {
                        open(shell)
                    },
                    key(Face.ROW, text(R.string.bundle_out), Sign.FILE, text(R.string.bundle_out_about)) {
                        pick(
                            shell,
                            Intent(Intent.ACTION_CREATE_DOCUMENT)
                                .setType(KIND)
                                .putExtra(Intent.EXTRA_TITLE, NAME),
                            PICK_OUT,
                        )
                    },
                    key(
                        Face.ROW,
                        text(R.string.bundle_share),
                        Sign.SPREAD,
                        text(R.string.bundle_share_about),
                    ) {
                        share()
                    },
                    space = 20,
                )
            ),
        )

    private fun share() {
        val core = shell.core
        val app = context.applicationContext
        shell.work({ core.bundleOut(Papers.file(app).path) }) {
            feel(Beat.GOOD)
            val send =
                Intent(Intent.ACTION_SEND)
                    .setType(KIND)
                    .putExtra(Intent.EXTRA_STREAM, Papers.uri(activity))
                    .addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION)
            activity.startActivity(Intent.createChooser(send, activity.getString(R.string.bundle_share)))
            redraw()
        }
    }

    companion object {
        /** Asks for a file to take in: a bundle of anything. */
        fun open(shell: Shell) = pick(shell, Intent(Intent.ACTION_OPEN_DOCUMENT).setType("*/*"), PICK_IN)

        /** Asks the system's own picker, which asks for no permission. */
        fun pick(shell: Shell, intent: Intent, code: Int) {
            intent.addCategory(Intent.CATEGORY_OPENABLE)
            try {
                shell.activity.startActivityForResult(intent, code)
            } catch (e: android.content.ActivityNotFoundException) {
                android.util.Log.i("slingseal", "no picker: ${e.message}")
                shell.notice = shell.activity.getString(R.string.bundle_failed)
                shell.redraw()
            }
        }

        /** The picker came back with a place. */
        fun picked(shell: Shell, code: Int, at: Uri) =
            when (code) {
                PICK_OUT -> write(shell, at, R.string.bundle_written) { bundleOut(it) }
                PICK_LISTS -> write(shell, at, R.string.procedures_written) { proceduresOut(emptyList(), it) }
                else -> take(shell, at)
            }

        private fun write(shell: Shell, to: Uri, done: Int, out: Handheld.(String) -> UInt) {
            val app = shell.activity.applicationContext
            val resolver = shell.activity.applicationContext.contentResolver
            val core = shell.core
            shell.work({
                val file = Papers.file(app)
                val records = core.out(file.path)
                val whole = copied {
                    resolver.openOutputStream(to)!!.use { out -> file.inputStream().use { it.copyTo(out) } }
                }
                file.delete()
                records.takeIf { whole }
            }) { records ->
                if (records == null) notice = activity.getString(R.string.bundle_failed)
                else news = activity.getString(done, records.toInt())
                feel(if (records == null) Beat.REFUSED else Beat.GOOD)
                redraw()
            }
        }

        /** Takes a bundle in, from wherever it lies. */
        fun take(shell: Shell, from: Uri) {
            val app = shell.activity.applicationContext
            val resolver = shell.activity.applicationContext.contentResolver
            val core = shell.core
            shell.work({
                val file = File(app.cacheDir, "incoming")
                val whole = copied {
                    resolver.openInputStream(from)!!.use { input ->
                        file.outputStream().use { input.copyTo(it) }
                    }
                }
                try {
                    if (whole) core.bundleIn(file.path) else null
                } finally {
                    file.delete()
                }
            }) { report ->
                feel(if (report == null) Beat.REFUSED else Beat.GOOD)
                if (report == null) {
                    notice = activity.getString(R.string.bundle_failed)
                    redraw()
                } else {
                    go(MovedScreen.place(this, report))
                }
            }
        }

        /** Whatever lies behind a place may fail in any way. */
        private fun copied(job: () -> Unit): Boolean =
            try {
                job()
                true
            } catch (e: IOException) {
                android.util.Log.i("slingseal", "no file: ${e.message}")
                false
            } catch (e: RuntimeException) {
                android.util.Log.i("slingseal", "no file: ${e.message}")
                false
            }
    }
}
