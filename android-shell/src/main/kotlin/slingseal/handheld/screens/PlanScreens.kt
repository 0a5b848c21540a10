package slingseal.handheld.screens

import android.view.View
import slingseal.core.RiggingVerdict
import slingseal.core.Subject
import slingseal.core.TagDraft
import slingseal.core.WeightSource
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planned
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.Weighing
import slingseal.handheld.sense.Beat

/** The page of a draft, whatever was put into it: the one that lies open is replaced. */
internal fun Shell.draft(draft: TagDraft) {
    backTo(Place.PlanDraft::class)
    swap(Place.PlanDraft(draft))
}

/** What a new load is like: one whose tag is here, or one whose tag is scanned. */
class PlanScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.plan)

    private val tags = shell.attempt { shell.core.tags(MOST.toUInt()) }.orEmpty()
    private val lists =
        shell.attempt { shell.core.procedures() }.orEmpty().filter { it.subject == Subject.LOAD }

    override fun build(): View {
        val rows =
            tags.mapIndexed { at, tag ->
                val about = "${tag.load} · ${tag.procedureTitle ?: tag.procedure} · ${tag.gross}"
                key(
                    Face.ROW,
                    if (at == 0) text(R.string.plan_last, tag.description) else tag.description,
                    if (at == 0) Sign.AGAIN else Sign.NEXT,
                    about,
                ) {
                    begin(shell, tag.text)
                }
            }
        // the lists that this phone inspects loads by, for a load that is like none before
        val templates =
            lists.map { list ->
                key(Face.ROW, list.title, Sign.PLUS, text(R.string.plan_template)) { beginBy(shell, list.id) }
            }
        val none = if (rows.isEmpty()) parts.words(text(R.string.plan_none), 19) else null
        val scan =
            key(Face.GOOD, text(R.string.plan_scan), Sign.CODE) { shell.go(Place.Scan(Purpose.PlanLike)) }
        return page(
            text(R.string.plan),
            body(
                parts.words(text(R.string.plan_like), 19),
                none,
                parts.column(*rows.toTypedArray(), space = 14),
                parts.eyebrow(text(R.string.plan_by_list)),
                parts.column(*templates.toTypedArray(), space = 14),
            ),
            listOf(scan),
        )
    }

    companion object {
        private const val MOST = 12

        fun begin(shell: Shell, tag: String) = shell.ask({ draftLike(tag) }) { opened(it) }

        private fun beginBy(shell: Shell, list: String) = shell.ask({ draftBy(list) }) { opened(it) }

        private fun Shell.opened(draft: TagDraft) {
            feel(Beat.READ)
            backTo(Place.Plan::class)
            go(Place.PlanDraft(draft))
        }
    }
}

/**
 * The load as it stands: each field a key, what it lacks at the head, its statics and their picture below,
 * anew at each change.
 */
class PlanDraftScreen(shell: Shell, override val place: Place.PlanDraft) : Screen(shell, place) {
    private val draft = place.draft
    override val paneTitle: CharSequence
        get() = text(R.string.plan)

    private val view = shell.attempt { shell.core.checkDraft(draft) }

    override fun build(): View {
        val view = view ?: return page(text(R.string.plan), body())
        val fields =
            Planned.entries
                .map { field ->
                    val value = field.of(draft)
                    key(
                        Face.ROW,
                        text(field.title),
                        if (value.isEmpty()) Sign.NONE else Sign.TICK,
                        value.ifEmpty { text(R.string.plan_open) },
                    ) {
                        shell.go(Place.PlanField(draft, field))
                    }
                }
                .toMutableList()
        val source = SOURCES.firstOrNull { it.first == draft.weightSource }?.second
        fields.add(
            3,
            key(
                Face.ROW,
                text(R.string.plan_source),
                if (source == null) Sign.NONE else Sign.TICK,
                text(source ?: R.string.plan_open),
            ) {
                shell.go(Place.PlanSource(draft))
            },
        )
        // the scales stand beside the weight that they give
        fields.add(
            4,
            key(
                Face.ROW,
                text(R.string.weigh),
                if (draft.centre.isEmpty()) Sign.NEXT else Sign.TICK,
                if (draft.centre.isEmpty()) text(R.string.weigh_about)
                else text(R.string.weighed_centre, draft.centre.joinToString(" · ")),
            ) {
                val mine = draft
                shell.ask({ Weighing.of(this, mine) }) { go(Place.Weigh(it)) }
            },
        )
        val pieces =
            key(
                Face.ROW,
                text(R.string.equipment),
                Sign.LIST,
                draft.equipment.joinToString(", ") { it.serial }.ifEmpty { text(R.string.plan_no_equipment) },
            ) {
                shell.go(Place.PlanPieces(draft))
            }
        val links =
            if (draft.links.isEmpty()) null
            else
                key(
                    Face.ROW,
                    text(R.string.links),
                    Sign.LIST,
                    draft.links.joinToString(", ") { "${it.leg}: ${it.link}" },
                ) {
                    shell.go(Place.PlanLinks(draft))
                }
        val picture = view.picture?.let { picture -> RiggingScreen.drawn(shell) { picture } }
        val faults =
            view.faults.map {
                parts.signed(Sign.WARN, parts.words(it, 17, ground = palette.panel), palette.panel)
            }
        val sign = key(Face.GOOD, text(R.string.plan_sign), Sign.KEY) { sign(view.faults) }
        return page(
            draft.load.ifEmpty { text(R.string.plan) },
            body(
                if (faults.isEmpty()) null
                else parts.panel(parts.column(*faults.toTypedArray(), space = 8), thick = true),
                parts.column(*(fields + listOfNotNull(pieces, links)).toTypedArray(), space = 12),
                view.rigging?.let {
                    parts.panel(
                        parts.signed(
                            if (it.verdict == RiggingVerdict.WITHIN_LIMITS) Sign.TICK else Sign.WARN,
                            parts.words(it.summary, 18, bold = true, ground = palette.panel),
                            palette.panel,
                        ),
                        thick = it.verdict != RiggingVerdict.WITHIN_LIMITS,
                    )
                },
                picture,
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
            listOf(sign),
        )
    }

    private fun sign(faults: List<String>) {
        val first = faults.firstOrNull() ?: return shell.go(Place.PlanPin(draft))
        shell.notice = first
        shell.feel(Beat.REFUSED)
        shell.redraw()
    }

    companion object {
        /** How a weight is known, and what that is called here. */
        val SOURCES =
            listOf(
                WeightSource.WEIGHED to R.string.source_weighed,
                WeightSource.DATA_PLATE to R.string.source_plate,
                WeightSource.ADDED_UP to R.string.source_added,
                WeightSource.ESTIMATED to R.string.source_estimated,
            )
    }
}

/** The PIN that signs the tag. */
class PlanPinScreen(shell: Shell, override val place: Place.PlanPin) : PinPage(shell, place) {
    private val draft = place.draft
    override val title
        get() = text(R.string.plan_sign)

    override val words
        get() = text(R.string.plan_pin, draft.load)

    override val done
        get() = text(R.string.sign_short)

    override fun take(pin: String) {
        val core = shell.core
        val load = draft
        shell.work({ core.writeDraft(load, pin) }) {
            feel(Beat.GOOD)
            backTo(Place.Plan::class)
            go(Place.PlanTag(it.code.text))
        }
    }
}

/** A tag as a code: for the load, for the inspector's phone, for a sticker. */
class PlanTagScreen(shell: Shell, override val place: Place.PlanTag) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.plan_tag_words)

    private val tag = shell.attempt { shell.core.readTag(place.text) }
    private val code = shell.attempt { shell.core.codeOf(place.text) }

    override fun build(): View {
        val tag = tag ?: return page(text(R.string.tag), body())
        val code = code ?: return page(text(R.string.tag), body())
        val core = shell.core
        val ground = palette.panel
        val read =
            parts.panel(
                parts.column(
                    parts.words("${tag.load} · ${tag.gross}", 22, bold = true, ground = ground),
                    parts.words(tag.description, 18, ground = ground),
                    parts.words(
                        text(R.string.aircraft_allowable, tag.aircraft, tag.allowable),
                        18,
                        ground = ground,
                    ),
                    parts.words(tag.planner ?: text(R.string.not_signed), 18, ground = ground),
                    space = 3,
                )
            )
        val warnings = tag.warnings.map { parts.signed(Sign.WARN, parts.words(it, 17, bold = true)) }
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Start::class) }
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(R.string.tag)),
            underCode(
                body(
                    read,
                    *warnings.toTypedArray(),
                    parts.words(spoken, 16),
                    printKey(shell, tag.load) { letter -> core.tagPdf(tag.text, letter) },
                ),
                done,
                stickerKey(shell, tag.text),
            ),
        )
    }
}
