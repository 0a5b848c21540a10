package slingseal.handheld.screens

import android.view.View
import android.widget.TextView
import java.time.Instant
import java.time.LocalTime
import java.time.ZoneOffset
import java.time.format.DateTimeFormatter
import java.util.Locale
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.NumberPad
import slingseal.handheld.look.Page
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** Times as the trade says them: in Zulu, day first. */
object Zulu {
    private val DTG = DateTimeFormatter.ofPattern("ddHHmm'Z' MMM yy", Locale.ENGLISH)

    fun dtg(at: Long): String =
        DTG.format(Instant.ofEpochSecond(at).atOffset(ZoneOffset.UTC)).uppercase(Locale.ENGLISH)

    /** Today in Zulu, as the core reads a day. */
    fun today(): String = Instant.now().atOffset(ZoneOffset.UTC).toLocalDate().toString()

    /**
     * The last moment up to `now` at which a clock in Zulu showed these four digits; null where no clock
     * does.
     */
    fun last(digits: String, now: Instant): Long? {
        if (digits.length != 4) return null
        val (hour, minute) = digits.take(2).toInt() to digits.drop(2).toInt()
        if (hour > 23 || minute > 59) return null
        val today = now.atOffset(ZoneOffset.UTC).with(LocalTime.of(hour, minute)).toInstant()
        return (if (today > now) today.minusSeconds(24 * 3600) else today).epochSecond
    }
}

/**
 * When it happened, for a report that is given later: so long ago, or a time. The report says that it was.
 */
class WhenScreen(shell: Shell, override val place: Place.When) : Screen(shell, place) {
    private val draft = place.draft
    private var list: PickList? = null
    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.when_title)

    override val spoken
        get() = text(R.string.when_title)

    override fun build(): View {
        val now = Instant.now().epochSecond
        val rows =
            listOf(key(Face.ROW, text(R.string.when_now), Sign.CLOCK) { take(null) }) +
                AGO.map { minutes ->
                    val at = now - minutes * 60
                    key(Face.ROW, text(R.string.minutes_ago, minutes), Sign.CLOCK, Zulu.dtg(at)) { take(at) }
                } +
                key(Face.ROW, text(R.string.when_time), Sign.CLOCK, text(R.string.when_time_about)) {
                    shell.go(Place.WhenTime(draft))
                }
        list = PickList(rows, shell)
        return page(
            text(R.string.when_title),
            body(parts.words(text(R.string.when_about), 19), parts.column(*rows.toTypedArray(), space = 16)),
        )
    }

    private fun take(at: Long?) {
        shell.back()
        shell.swap(Place.What(draft.copy(at = at)))
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    private companion object {
        val AGO = listOf(5, 15, 30, 60, 120)
    }
}

/** Four digits of a clock in Zulu: the last time that it showed them. */
class WhenTimeScreen(shell: Shell, override val place: Place.WhenTime) : Screen(shell, place) {
    private val draft = place.draft
    private var typed = ""
    private var value: TextView? = null
    override val hidesBars
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.when_time)

    override val spoken
        get() = text(R.string.when_time_about)

    override fun build(): View {
        val shown =
            parts.fitted("", 44, 20).apply { accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE }
        value = shown
        show()
        val take = key(Face.GOOD, text(R.string.take_it), Sign.TICK) { take() }
        val keys =
            NumberPad(
                context,
                palette,
                take,
                text(R.string.take_back),
                gap = 0,
                {
                    if (typed.length < 4) typed += it
                    show()
                },
                {
                    typed = typed.dropLast(1)
                    show()
                },
            )
        val words =
            parts.column(
                *listOfNotNull(
                        noticePanel(),
                        parts.heading(text(R.string.when_time), 19),
                        parts.words(text(R.string.when_time_about), 16),
                    )
                    .toTypedArray(),
                space = 2,
            )
        return Page(parts).pin(backKey(), null, words, shown, keys, onItsSide, high = 56)
    }

    private fun show() {
        val digits = typed.padEnd(4, '–')
        value?.text = "${digits.take(2)}:${digits.drop(2)} Z"
    }

    private fun take() {
        val at = Zulu.last(typed, Instant.now())
        if (at == null) {
            shell.notice = text(R.string.when_no_time)
            shell.feel(Beat.REFUSED)
            return shell.redrawSame()
        }
        shell.back()
        shell.back()
        shell.swap(Place.What(draft.copy(at = at)))
    }
}
