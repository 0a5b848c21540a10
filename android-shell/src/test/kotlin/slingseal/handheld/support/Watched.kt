package slingseal.handheld.support

import android.os.Looper
import slingseal.core.Handheld
import slingseal.core.HandheldInterface
import slingseal.core.NoHandle
import slingseal.core.ReportRequest

/**
 * The core under a watch, on every phone under test: a page that makes a slow call from the main thread ends
 * the test. Slow is what stretches a PIN, reads or writes a bundle, decodes a picture, or writes a
 * photograph. A test's own calls are its own affair.
 *
 * In place of the platform's StrictMode, which sees files and sockets of Java's and nothing of what a native
 * library does.
 */
@Suppress("DELEGATED_MEMBER_HIDES_SUPERTYPE_OVERRIDE")
class Watched(private val real: Handheld) : Handheld(NoHandle), HandheldInterface by real {
    private fun <T> slow(call: String, job: () -> T): T {
        seen += call
        val page =
            Throwable().stackTrace.firstOrNull { frame -> PAGES.any { frame.className.startsWith(it) } }
        check(Looper.myLooper() != Looper.getMainLooper() || page == null) {
            "$call on the main thread, from $page"
        }
        return job()
    }

    /** A call of a page, which would wait for whoever holds the core. */
    private fun <T> page(call: String, job: () -> T): T {
        check(!held || Looper.myLooper() != Looper.getMainLooper()) {
            "$call on the main thread while the core is held"
        }
        return job()
    }

    override fun preference(name: String) = page("preference") { real.preference(name) }

    override fun speak(language: String) = page("speak") { real.speak(language) }

    override fun start() = page("start") { real.start() }

    override fun setUp() = page("setUp") { real.setUp() }

    override fun walk(walk: String) = page("walk") { real.walk(walk) }

    override fun examRuns() = page("examRuns") { real.examRuns() }

    override fun check(seal: String?, tag: String?) = page("check") { real.check(seal, tag) }

    override fun close() = real.close()

    override fun destroy() = real.destroy()

    override fun addPhoto(bytes: ByteArray) = slow("addPhoto") { real.addPhoto(bytes) }

    override fun closeAccount(day: String?) = slow("closeAccount") { real.closeAccount(day) }

    override fun copyAuthority(passphrase: String) = slow("copyAuthority") { real.copyAuthority(passphrase) }

    override fun restoreAuthority(one: String, other: String, passphrase: String) =
        slow("restoreAuthority") { real.restoreAuthority(one, other, passphrase) }

    override fun signClosing(day: String?, pin: String) = slow("signClosing") { real.signClosing(day, pin) }

    override fun signReport(load: String, digest: String, pin: String) =
        slow("signReport") { real.signReport(load, digest, pin) }

    override fun weighDraft(draft: slingseal.core.TagDraft, entered: slingseal.core.FieldWeighing) =
        slow("weighDraft") { real.weighDraft(draft, entered) }

    override fun withdrawPiece(serial: String, why: String, pin: String) =
        slow("withdrawPiece") { real.withdrawPiece(serial, why, pin) }

    override fun writeDraft(draft: slingseal.core.TagDraft, pin: String) =
        slow("writeDraft") { real.writeDraft(draft, pin) }

    override fun bundleIn(file: String) = slow("bundleIn") { real.bundleIn(file) }

    override fun bundleOut(file: String) = slow("bundleOut") { real.bundleOut(file) }

    override fun examLock(plan: slingseal.core.ExamPlan, standard: slingseal.core.ExamStandard, pin: String) =
        slow("examLock") { real.examLock(plan, standard, pin) }

    override fun examReveal(key: String, pin: String) = slow("examReveal") { real.examReveal(key, pin) }

    override fun examScore(run: String, pin: String) = slow("examScore") { real.examScore(run, pin) }

    override fun makeKey(holder: String, pin: String) = slow("makeKey") { real.makeKey(holder, pin) }

    override fun movingBegin(have: String?) = slow("movingBegin") { real.movingBegin(have) }

    override fun movingTake(text: String) = slow("movingTake") { real.movingTake(text) }

    override fun readFrame(width: UInt, height: UInt, stride: UInt, luminance: ByteArray) =
        slow("readFrame") { real.readFrame(width, height, stride, luminance) }

    override fun readFrameBeside(
        width: UInt,
        height: UInt,
        stride: UInt,
        luminance: ByteArray,
        known: List<String>,
    ) = slow("readFrameBeside") { real.readFrameBeside(width, height, stride, luminance, known) }

    override fun readPicture(picture: ByteArray) = slow("readPicture") { real.readPicture(picture) }

    override fun report(request: ReportRequest, pin: String?) =
        if (pin == null) real.report(request, null) else slow("report") { real.report(request, pin) }

    override fun seal(walk: String, pin: String, validityHours: UInt?) =
        slow("seal") { real.seal(walk, pin, validityHours) }

    override fun signInspection(walk: String, pin: String) =
        slow("signInspection") { real.signInspection(walk, pin) }

    override fun tagPicture(tag: String) = slow("tagPicture") { real.tagPicture(tag) }

    override fun walkPicture(walk: String) = slow("walkPicture") { real.walkPicture(walk) }

    override fun void(record: String, cause: String, note: String?, pin: String) =
        slow("void") { real.void(record, cause, note, pin) }

    companion object {
        /** What was called so far. */
        val seen = java.util.concurrent.CopyOnWriteArraySet<String>()

        /**
         * Whether the core is held for long, as by a bundle that is read: a page that asked it would stand
         * still.
         */
        @Volatile var held = false
        private val PAGES =
            listOf(
                "slingseal.handheld.screens.",
                "slingseal.handheld.HandheldActivity",
                "slingseal.handheld.Slow",
            )
    }
}
