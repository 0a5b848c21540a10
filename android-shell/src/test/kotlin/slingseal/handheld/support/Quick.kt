package slingseal.handheld.support

import java.util.concurrent.Executor
import java.util.concurrent.Executors
import java.util.concurrent.atomic.AtomicInteger

/** The thread that pages are read on, under test: it is known when nothing waits for it. */
object Quick : Executor {
    private val thread = Executors.newSingleThreadExecutor()
    private val waiting = AtomicInteger()

    val isBusy
        get() = waiting.get() > 0

    override fun execute(job: Runnable) {
        waiting.incrementAndGet()
        thread.execute {
            try {
                job.run()
            } finally {
                waiting.decrementAndGet()
            }
        }
    }
}
