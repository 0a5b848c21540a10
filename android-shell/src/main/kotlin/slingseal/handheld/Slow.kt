package slingseal.handheld

import android.os.Handler
import android.os.Looper
import java.util.concurrent.Executor
import slingseal.core.HandheldException
import slingseal.handheld.places.Place

/**
 * The one thing that is being done beside the main thread: a press that is written down, a PIN stretched, a
 * bundle read. It belongs to the process and not to an activity: a turn of the phone makes the activity anew,
 * and whichever is in front then is told how it ended. While it lasts no second one begins, so that one press
 * is one try.
 */
object Slow {
    private class Job(val place: Place, val done: Shell.(Any?) -> Unit, val quick: Boolean) {
        var shows = !quick
        var result: Result<Any?>? = null
    }

    private val main = Handler(Looper.getMainLooper())
    private var job: Job? = null
    private var shell: Shell? = null

    /** The place on whose page it was begun; null where nothing is under way. */
    val at: Place?
        get() = job?.place

    /**
     * Whether the page says that it works. What is thought quick does not at once: it would flicker under
     * each press.
     */
    val shows: Boolean
        get() = job?.shows == true

    /** Whether what is under way was thought to take no more than a moment. */
    internal val quick: Boolean
        get() = job?.quick == true

    /**
     * Begins on a thread of its own kind; false where something is under way.
     *
     * @param quick whether it takes no more than a moment: the page says that it works only when it lasts
     */
    fun <T> begin(
        from: Shell,
        place: Place,
        on: Executor,
        quick: Boolean,
        work: () -> T,
        done: Shell.(T) -> Unit,
    ): Boolean {
        if (job != null) return false
        @Suppress("UNCHECKED_CAST") val mine = Job(place, done as Shell.(Any?) -> Unit, quick)
        job = mine
        shell = from
        if (quick) main.postDelayed({ if (job === mine) lasts(mine) }, GRACE)
        on.execute {
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

    /** What was thought quick is not: the page says so from here on. */
    private fun lasts(mine: Job) {
        mine.shows = true
        shell?.redrawSame()
    }

    private fun tell() {
        val done = job ?: return
        val result = done.result ?: return
        val told = shell ?: return
        job = null
        told.worked(result) { done.done(told, it) }
    }

    /** How long a page may stand without an answer before it says that it works, in milliseconds. */
    const val GRACE = 400L
}
