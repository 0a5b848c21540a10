package slingseal.handheld.screens

import android.view.View
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.core.RefusalCause
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Said
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** A line of a load's story: what happened, when, who says so, and what else the report says. */
internal fun storyRow(shell: Shell, report: MovementView): Key {
    val about = (listOf(report.at.dtg, report.origin) + report.details).joinToString(" · ")
    return Key(
        shell.activity,
        shell.palette,
        Face.ROW,
        report.what.replaceFirstChar(Char::uppercase),
        Draft.signOf(report),
        about,
    ) {
        shell.go(Place.Report(report.load, report.digest))
    }
}

/** What was done to a load, under its own small title; nothing where nothing is known. */
internal fun storyOf(shell: Shell, reports: List<MovementView>): List<View> {
    if (reports.isEmpty()) return emptyList()
    val parts = shell.parts
    return listOf(
        parts.eyebrow(shell.activity.getString(R.string.what_became)),
        parts.column(*reports.map { storyRow(shell, it) }.toTypedArray(), space = 12),
    )
}

/**
 * What was reported, as it stands, and its code: another phone scans it, a sticker carries it. (load, digest)
 */
class ReportScreen(shell: Shell, override val place: Place.Report) : Screen(shell, place) {
    private val made = shell.attempt { shell.core.showReport(place.load, place.digest) }

    /** On other phones it is a hint that moves nothing, until somebody signs. */
    private val waits =
        made != null && shell.attempt { shell.core.reportWaitsForSignature(place.load, place.digest) } == true

    /** Only who has a credential has something to sign with. */
    private val maySign = shell.attempt { shell.core.setUp() }?.credential != null
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = made?.report?.let(::said) ?: text(R.string.report)

    override val spoken
        get() = made?.report?.let { "${said(it)}. ${it.origin}." }

    private fun said(report: MovementView) = "${report.load}: ${report.what}"

    override fun build(): View {
        val made = made ?: return page(text(R.string.report), body())
        val report = made.report
        val ground = palette.panel
        val lines =
            listOf(parts.words("${report.at.dtg} · ${report.origin}", 17, ground = ground)) +
                report.details.map { parts.words(it, 17, bold = true, ground = ground) }
        val head = parts.signed(Draft.signOf(report), parts.heading(said(report), 21, ground), ground)
        val read = parts.panel(parts.column(head, *lines.toTypedArray(), space = 3), thick = report.against)
        // from the hook the next load waits; from the receiving side the load that lies there
        val next =
            if (shell.lies(Place.Arrival::class))
                key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
            else key(Face.GOOD, text(R.string.next_load), Sign.HOOK) { shell.swap(Place.Hook()) }
        val sticker = stickerKey(shell, made.code.text)
        val sign = if (waits && maySign) signKey() else null
        list = PickList(listOfNotNull(next, sign, sticker), shell)
        val unsigned =
            if (waits)
                parts.signed(
                    Sign.KEY,
                    parts.words(
                        text(if (maySign) R.string.report_unsigned else R.string.report_unsigned_no_key),
                        17,
                        bold = true,
                    ),
                )
            else null
        return codePage(
            shell,
            onItsSide,
            codeView(shell, made.code, text(R.string.report_code)),
            underCode(
                body(read, unsigned, sign, parts.words(text(R.string.report_show), 16, quiet = true)),
                next,
                sticker,
            ),
        )
    }

    private fun signKey() =
        key(Face.ROW, text(R.string.report_sign), Sign.KEY) {
            shell.go(Place.ReportSign(place.load, place.digest))
        }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit
}

/**
 * Why it was not lifted: one press on a reason gives the report. Words of one's own may go with it; they hold
 * nothing up.
 */
class RefuseScreen(shell: Shell, override val place: Place.Refuse) : Screen(shell, place) {
    private val draft = place.draft
    private val known = shell.core.refusalCauses()
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.event_refused)

    override val spoken
        get() = text(R.string.refuse_guide)

    override fun build(): View {
        val causes =
            known.map { cause ->
                key(Face.ROW, cause.shown.replaceFirstChar(Char::uppercase), Sign.CROSS) { give(cause.cause) }
            }
        val note = saidRow(shell, draft, Said.NOTE)
        list = PickList(causes + note, shell)
        return page(
            text(R.string.refuse_title, draft.load),
            body(
                parts.words(text(R.string.refuse_guide), 19),
                parts.column(*causes.toTypedArray(), space = 18),
                note,
            ),
        )
    }

    private fun give(cause: RefusalCause) {
        val whole = draft.copy(cause = cause)
        // another reason is no reason without words
        if (cause == RefusalCause.OTHER && draft.note.isEmpty()) shell.go(Place.ReportNote(whole, Said.NOTE))
        else whole.give(shell)
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit
}

/** A row that leads to words of a person's own, and shows those that are there. */
internal fun saidRow(shell: Shell, draft: Draft, what: Said): Key {
    val about = what.of(draft).ifEmpty { shell.activity.getString(R.string.report_note_about) }
    return Key(
        shell.activity,
        shell.palette,
        Face.ROW,
        shell.activity.getString(what.title),
        Sign.PLUS,
        about,
    ) {
        shell.go(Place.ReportNote(draft, what))
    }
}

/** Words of the reporter's own. A refusal that waited for them alone is given with them. */
class ReportNoteScreen(shell: Shell, override val place: Place.ReportNote) : WritingScreen(shell, place) {
    private val draft = place.draft
    override val staysOn
        get() = true

    private val what = place.said
    override val title
        get() = text(what.title)

    override val guide
        get() = text(if (draft.cause == null) what.guide else R.string.refuse_other_guide)

    override val done
        get() = text(R.string.take_it)

    override val before
        get() = what.of(draft)

    override fun take(words: String) {
        val whole = what.on(draft, words.trim())
        if (whole.cause != null) {
            if (whole.note.isNotEmpty()) return whole.give(shell)
            shell.notice = text(R.string.nothing_typed)
            return shell.redraw()
        }
        shell.back()
        shell.swap(if (whole.event == MovementKind.REFUSED) Place.Refuse(whole) else Place.What(whole))
    }
}

/**
 * Everything that may be said of a load: what became of it, and around that when, in whose words, and signed
 * or not.
 */
class WhatScreen(shell: Shell, override val place: Place.What) : Screen(shell, place) {
    private val draft = place.draft
    private val maySign = shell.attempt { shell.core.setUp() }?.credential != null
    private var list: PickList? = null
    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.report)

    override val spoken
        get() = text(R.string.what_happened)

    override fun build(): View {
        val events =
            EVENTS.map { event ->
                key(Face.ROW, text(Draft.keyOf(event)), Draft.signOf(event)) { take(event) }
            } +
                key(Face.ROW, text(R.string.gear), Sign.GEAR, text(R.string.gear_about)) {
                    shell.go(Place.Gear(draft))
                }
        val at = draft.at?.let { text(R.string.when_earlier, Zulu.dtg(it)) } ?: text(R.string.when_now)
        val around =
            listOfNotNull(
                key(Face.ROW, at, Sign.CLOCK, text(R.string.when_about)) { shell.go(Place.When(draft)) }
                    .apply { chosen = draft.at != null },
                saidRow(shell, draft, Said.NOTE),
                saidRow(shell, draft, Said.AIRCRAFT),
                saidRow(shell, draft, Said.WHERE),
                key(
                        Face.ROW,
                        text(R.string.add_photo),
                        Sign.PHOTO,
                        text(R.string.photos_taken, draft.photos.size),
                    ) {
                        shell.go(Place.ReportPhoto(draft))
                    }
                    .apply { chosen = draft.photos.isNotEmpty() },
                signRow(),
            )
        list = PickList(events + around, shell)
        return page(
            text(R.string.report_of, draft.load),
            body(
                parts.words(text(R.string.what_happened), 20, bold = true),
                parts.column(*events.toTypedArray(), space = 16),
                parts.eyebrow(text(R.string.around_it)),
                parts.column(*around.toTypedArray(), space = 16),
            ),
        )
    }

    /** Only where there is something to sign with. */
    private fun signRow(): Key? {
        if (!maySign) return null
        return key(
                Face.ROW,
                text(R.string.sign_it),
                if (draft.sign) Sign.TICK else Sign.KEY,
                text(if (draft.sign) R.string.sign_on else R.string.sign_off),
            ) {
                shell.swap(Place.What(draft.copy(sign = !draft.sign)))
            }
            .apply { chosen = draft.sign }
    }

    private fun take(event: MovementKind) {
        val whole = draft.copy(event = event)
        if (event == MovementKind.REFUSED) shell.go(Place.Refuse(whole)) else whole.give(shell)
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    private companion object {
        val EVENTS =
            listOf(
                MovementKind.SET_DOWN,
                MovementKind.DERIGGED,
                MovementKind.LOST,
                MovementKind.LIFTED,
                MovementKind.REFUSED,
            )
    }
}

/** The PIN that signs a report, for who wants it to count on other devices too. */
class ReportPinScreen(shell: Shell, override val place: Place.ReportPin) : PinPage(shell, place) {
    private val draft = place.draft
    override val title
        get() = text(R.string.sign_it)

    override val words
        get() = text(R.string.sign_pin, draft.load, draft.event?.let { text(Draft.keyOf(it)) }.orEmpty())

    override val done
        get() = text(R.string.sign_done)

    override fun take(pin: String) = draft.give(shell, pin)
}

/** The PIN that signs what was reported already: a second report of the same, with its own time. */
class ReportSignScreen(shell: Shell, override val place: Place.ReportSign) : PinPage(shell, place) {
    private val report = shell.attempt { shell.core.showReport(place.load, place.digest) }?.report

    override val title
        get() = text(R.string.sign_it)

    override val words
        get() = text(R.string.sign_pin, place.load, report?.what.orEmpty())

    override val done
        get() = text(R.string.sign_done)

    override fun take(pin: String) {
        val core = shell.core
        val (load, digest) = place
        shell.work({ core.signReport(load, digest, pin) }) {
            feel(Beat.GOOD)
            back()
            swap(Place.Report(it.report.load, it.report.digest))
        }
    }
}
