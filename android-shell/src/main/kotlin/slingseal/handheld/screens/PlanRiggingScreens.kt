package slingseal.handheld.screens

import android.view.View
import slingseal.core.DraftLink
import slingseal.core.DraftPiece
import slingseal.core.TagDraft
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose

/** The equipment: a piece is taken off by its key, and put on by its code or its serial number. */
class PlanPiecesScreen(shell: Shell, override val place: Place.PlanPieces) : Screen(shell, place) {
    private val draft = place.draft
    override val paneTitle: CharSequence
        get() = text(R.string.equipment)

    override fun build(): View {
        val rows =
            draft.equipment.mapIndexed { at, piece ->
                key(Face.ROW, "${piece.kind} ${piece.serial}", Sign.CROSS, text(R.string.plan_take_off)) {
                    shell.swap(
                        Place.PlanPieces(
                            draft.copy(equipment = draft.equipment.filterIndexed { other, _ -> other != at })
                        )
                    )
                }
            }
        val kinds = (draft.equipment.map { it.kind } + text(R.string.plan_piece)).distinct()
        val typed =
            kinds.map { kind ->
                key(Face.ROW, text(R.string.plan_another, kind), Sign.PLUS) {
                    shell.go(Place.PlanPiece(draft, kind))
                }
            }
        return page(
            text(R.string.equipment),
            body(
                parts.column(*rows.toTypedArray(), space = 12),
                parts.column(*typed.toTypedArray(), space = 12),
            ),
            listOf(
                    key(Face.SIDE, text(R.string.done), Sign.TICK) { shell.draft(draft) },
                    key(Face.GOOD, text(R.string.scan_piece), Sign.CODE) {
                        shell.go(Place.Scan(Purpose.PlanPiece(draft)))
                    },
                )
                .reversed(),
        )
    }

    companion object {
        /** A piece whose code was scanned is put on. */
        fun scanned(shell: Shell, serial: String, draft: TagDraft) {
            val more =
                draft.copy(
                    equipment =
                        draft.equipment + DraftPiece(shell.activity.getString(R.string.plan_piece), serial)
                )
            shell.backTo(Place.PlanPieces::class)
            shell.swap(Place.PlanPieces(more))
        }
    }
}

/** A piece's serial number, typed. */
class PlanPieceScreen(shell: Shell, override val place: Place.PlanPiece) : WritingScreen(shell, place) {
    private val draft = place.draft
    override val title
        get() = place.kind

    override val guide
        get() = text(R.string.name_of_piece)

    override val done
        get() = text(R.string.take_it)

    override fun take(words: String) {
        val more = draft.copy(equipment = draft.equipment + DraftPiece(title, words.trim()))
        shell.backTo(Place.PlanPieces::class)
        shell.swap(Place.PlanPieces(more))
    }
}

/** The link in each grab hook, up or down one: the statics stand below and change with it. */
class PlanLinksScreen(shell: Shell, override val place: Place.PlanLinks) : Screen(shell, place) {
    private val draft = place.draft
    override val paneTitle: CharSequence
        get() = text(R.string.links)

    private val view = shell.attempt { shell.core.checkDraft(draft) }

    override fun build(): View {
        val rows =
            draft.links.flatMap { link ->
                listOf(
                    key(
                        Face.ROW,
                        text(R.string.plan_link_more, link.leg, link.link.toInt()),
                        Sign.PLUS,
                        text(R.string.plan_link_one_more),
                    ) {
                        set(link, link.link + 1u)
                    },
                    key(
                        Face.ROW,
                        text(R.string.plan_link_more, link.leg, link.link.toInt()),
                        Sign.MINUS,
                        text(R.string.plan_link_one_less),
                    ) {
                        if (link.link > 1u) set(link, link.link - 1u)
                    },
                )
            }
        return page(
            text(R.string.links),
            body(
                view?.rigging?.let { parts.words(it.summary, 19, bold = true) },
                parts.column(*rows.toTypedArray(), space = 12),
                view?.picture?.let { picture -> RiggingScreen.drawn(shell) { picture } },
            ),
            listOf(key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.draft(draft) }),
        )
    }

    private fun set(link: DraftLink, to: UInt) =
        shell.swap(
            Place.PlanLinks(
                draft.copy(links = draft.links.map { if (it.leg == link.leg) DraftLink(it.leg, to) else it })
            )
        )
}
