package slingseal.handheld.screens

import android.view.View
import slingseal.core.TagView
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.Weighing
import slingseal.handheld.places.ref
import slingseal.handheld.sense.HardAnswer

/** What the tag says, before the walk begins. */
class TagScreen(shell: Shell, override val place: Place.Tag) : Screen(shell, place) {
    private val tag = shell.attempt { shell.core.readTag(place.text) }
    private val unready = shell.attempt { shell.core.setUp() }?.takeIf { !it.maySeal || Core.keyLost }
    private val moves = tag?.let { shell.attempt { shell.core.movements(it.load) } }.orEmpty()

    /** A list that is not here is fetched first: what cannot be walked is not begun. */
    private val missing
        get() = tag?.basis?.edition?.here == false

    override val paneTitle: CharSequence
        get() = tag?.load ?: text(R.string.tag)

    override val spoken
        get() =
            tag?.let { (listOfNotNull(it.load, it.description, cannot()) + it.warnings).joinToString(". ") }

    override val takesHardKeys
        get() = tag != null

    override fun hard(answer: HardAnswer) =
        when (answer) {
            HardAnswer.FIRST -> if (missing) fetch() else begin()
            HardAnswer.SECOND,
            HardAnswer.AGAIN -> shell.say(spoken.orEmpty())
            HardAnswer.BACK -> shell.back()
        }

    override fun build(): View {
        val tag = tag ?: return page(text(R.string.tag), body())
        val begin = key(Face.GOOD, text(R.string.begin_walk), Sign.NEXT) { begin() }
        val fetch = key(Face.GOOD, text(R.string.procedures_in), Sign.CODE) { fetch() }
        return page(
            tag.load,
            contents(tag),
            listOfNotNull(if (missing) fetch else begin, stickerKey(shell, tag.text)),
        )
    }

    private fun contents(tag: TagView): View {
        val warnings = (listOfNotNull(cannot()) + tag.warnings).map { parts.signedPanel(Sign.WARN, it) }
        val facts =
            parts.facts(
                listOfNotNull(
                    text(R.string.procedure) to (tag.procedureTitle ?: tag.procedure),
                    tag.basis.edition?.let {
                        text(R.string.edition_ordered) to
                            text(R.string.edition_of, it.procedure, it.version.toInt(), it.thumbprint.take(8))
                    },
                    text(R.string.mass) to tag.gross,
                    text(R.string.aircraft) to text(R.string.aircraft_allowable, tag.aircraft, tag.allowable),
                    text(R.string.from) to
                        listOfNotNull(tag.pickup.name, tag.pickup.grid).joinToString(" · "),
                    text(R.string.to) to
                        listOfNotNull(tag.destination.name, tag.destination.grid).joinToString(" · "),
                    tag.rigger?.let { text(R.string.rigger) to it },
                    tag.planner?.let { text(R.string.planner) to it },
                    text(R.string.planned) to tag.planned.dtg,
                    text(R.string.check_by_voice) to tag.check,
                    tag.rigging?.let { text(R.string.rigging) to it.summary },
                    if (tag.links.isEmpty()) null
                    else text(R.string.links) to tag.links.joinToString(", ") { "${it.leg}: ${it.link}" },
                )
            )
        val equipment =
            tag.equipment.map {
                "${it.kind} ${it.serial}" to
                    listOfNotNull(
                            it.rating,
                            it.source,
                            it.nextInspection?.let { due -> text(R.string.due, due) },
                        )
                        .joinToString(" · ")
            }
        val picture = tag.rigging?.let { RiggingScreen.drawn(shell) { core -> core.tagPicture(tag.text) } }
        return body(
            parts.words(tag.description, 22, bold = true),
            *warnings.toTypedArray(),
            *storyOf(shell, moves).toTypedArray(),
            parts.panel(facts),
            key(Face.ROW, text(R.string.weigh), Sign.NEXT, text(R.string.weigh_about)) { weigh() },
            picture,
            if (equipment.isEmpty()) null else parts.eyebrow(text(R.string.equipment)),
            if (equipment.isEmpty()) null else parts.panel(parts.facts(equipment, 17)),
            parts.words(text(R.string.manual_rules), 15, quiet = true),
        )
    }

    /**
     * Before the first card, not after the last: what keeps this phone from sealing what it is to inspect.
     */
    private fun cannot() =
        unready?.let { text(R.string.cannot_seal, if (Core.keyLost) text(R.string.key_lost) else it.next) }

    private fun fetch() = shell.go(Place.Scan(Purpose.Moving))

    /** Beside what its tag says; a new tag would be a planner's. */
    private fun weigh() {
        val text = place.text
        shell.ask({ draftLike(text).let { Weighing.of(this, it) } }) { go(Place.Weigh(it)) }
    }

    private fun begin() {
        val text = place.text
        shell.ask({ beginWalk(text) }) { swap(Place.Walk(it.ref)) }
    }
}
