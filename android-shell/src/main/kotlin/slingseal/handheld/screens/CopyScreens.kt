package slingseal.handheld.screens

import android.view.View
import slingseal.core.AuthorityCopy
import slingseal.core.CopyPartView
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.CopyPart
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.sense.Beat

/**
 * The copy that was made last, in this process's memory alone: both parts together stand in no place that the
 * system writes down.
 */
internal object CopyMade {
    @Volatile var copy: AuthorityCopy? = null
}

/** One part of the authority's copy, to be scanned by a phone that keeps it, printed or written down. */
class CopyScreen(shell: Shell, override val place: Place.Copy) : Screen(shell, place) {
    private val second
        get() = place.part == CopyPart.SECOND

    override val staysOn
        get() = true

    override val shines
        get() = true

    override val secret
        get() = true

    override val spoken
        get() = text(if (second) R.string.copy_second else R.string.copy_first)

    override fun build(): View {
        val copy =
            CopyMade.copy
                ?: return page(
                    text(R.string.copy),
                    body(parts.words(text(R.string.copy_gone), 20, bold = true)),
                )
        val core = shell.core
        val part = if (second) copy.second else copy.first
        val next =
            if (second) {
                key(Face.GOOD, text(R.string.done), Sign.TICK) { finish() }
            } else {
                key(Face.GOOD, text(R.string.copy_other), Sign.NEXT) {
                    shell.swap(Place.Copy(CopyPart.SECOND))
                }
            }
        val words =
            body(
                parts.words(spoken, 19, bold = true),
                parts.words(text(R.string.copy_apart), 17),
                printKey(shell, text(R.string.copy)) { letter -> core.copyPdf(copy, second, letter) },
                parts.words(text(R.string.copy_rows), 17),
                parts.rows(part.rows),
            )
        return codePage(
            shell,
            onItsSide,
            codeView(shell, part.code, text(R.string.copy)),
            underCode(words, next),
        )
    }

    private fun finish() {
        CopyMade.copy = null
        shell.backTo(Place.Authority::class)
    }

    companion object {
        const val FIRST = "1"
        const val SECOND = "2"
    }
}

/** A part that this phone keeps for the authority, and the way in which two of them make a new one. */
class CopyKeptScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val secret
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.copy_kept)

    private val kept = kept()
    private val part = if (kept.isEmpty()) null else shell.attempt { shell.core.authorityPart(kept) }

    override fun build(): View {
        val scan =
            key(Face.GOOD, text(R.string.copy_scan), Sign.CODE) { shell.go(Place.Scan(Purpose.CopyPart)) }
        if (kept.isEmpty())
            return page(
                text(R.string.copy_kept),
                body(parts.words(text(R.string.copy_none), 19)),
                listOf(scan),
            )
        val part = part ?: return page(text(R.string.copy_kept), body(), listOf(scan))
        val number = part.number.toInt()
        val words =
            body(
                parts.signed(Sign.KEY, parts.words(text(R.string.copy_kept_one, number), 20, bold = true)),
                parts.words(text(R.string.copy_kept_words), 18),
                parts.rows(part.rows),
                key(Face.ROW, text(R.string.copy_forget), Sign.CROSS, text(R.string.copy_forget_about)) {
                    forget()
                },
            )
        return codePage(
            shell,
            onItsSide,
            codeView(shell, part.code, text(R.string.copy_kept)),
            underCode(words, scan, backKey()),
        )
    }

    private fun forget() {
        shell.choose(Core.KEPT, "")
        shell.redraw()
    }

    companion object {
        private fun kept() = Core.choice(Core.KEPT)

        /**
         * A part came: the first one is kept; the other of its pair, and this phone can become the authority.
         */
        fun take(shell: Shell, part: CopyPartView) {
            val text = part.code.text
            val before = kept()
            if (before.isEmpty() || before == text) {
                shell.choose(Core.KEPT, text)
                shell.news = shell.activity.getString(R.string.copy_kept_one, part.number.toInt())
                shell.swap(Place.CopyKept)
            } else {
                shell.swap(Place.AuthorityWords(Deed.Restore(before, text)))
            }
        }

        /** This phone is the authority now: no part is kept beside the whole. */
        fun done(shell: Shell) {
            shell.choose(Core.KEPT, "")
            shell.feel(Beat.GOOD)
        }
    }
}
