package slingseal.handheld

import android.os.Handler
import android.os.Looper
import slingseal.core.HandheldException

/**
 * The one slow thing that is being done: a PIN stretched, a bundle read. It belongs to the process and not to
 * an activity: a turn of the phone makes the activity anew, and whichever is in front then is told how it
 * ended. While it lasts no second one begins, so that one press is one try.
 */
object Slow {
    private class Job(val place: Place, val done: Shell.(Any?) -> Unit) {
        var result: Result<Any?>? = null
    }

    private val main = Handler(Looper.getMainLooper())
    private var job: Job? = null
    private var shell: Shell? = null

    /** The place whose page says that it works; null where nothing is under way. */
    val at: Place?
        get() = job?.place

    /** Begins; false where something is under way. */
    fun <T> begin(from: Shell, place: Place, work: () -> T, done: Shell.(T) -> Unit): Boolean {
        if (job != null) return false
        @Suppress("UNCHECKED_CAST") val mine = Job(place, done as Shell.(Any?) -> Unit)
        job = mine
        shell = from
        Core.slow.execute {
            val result =
                try {
                    Result.success(work())
                } catch (e: HandheldException) {
                    Result.failure(e)
                }
            main.post {
                mine.result = result
                if (job === mine) tell()
            }
        }
        return true
    }

    /** This activity is there to be told. */
    fun attach(shell: Shell) {
        this.shell = shell
        tell()
    }

    fun detach(shell: Shell) {
        if (this.shell === shell) this.shell = null
    }

    /** Forgets what is under way, as the end of the process does. */
    fun reset() {
        job = null
        shell = null
    }

    private fun tell() {
        val done = job ?: return
        val result = done.result ?: return
        val told = shell ?: return
        job = null
        told.worked(result) { done.done(told, it) }
    }
}
