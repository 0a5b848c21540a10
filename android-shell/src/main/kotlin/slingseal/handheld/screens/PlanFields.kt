package slingseal.handheld.screens

import android.view.View
import slingseal.core.TagDraft
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign

/** The field of a draft that a page asks for. */
enum class Planned(val title: Int, val guide: Int) {
    LOAD(R.string.load, R.string.plan_load_guide),
    DESCRIPTION(R.string.plan_what, R.string.plan_what_guide),
    GROSS(R.string.mass, R.string.plan_gross_guide),
    AIRCRAFT(R.string.aircraft, R.string.plan_aircraft_guide),
    ALLOWABLE(R.string.plan_allowable, R.string.plan_allowable_guide),
    PICKUP(R.string.from, R.string.plan_from_guide),
    DESTINATION(R.string.to, R.string.plan_to_guide),
    GRID(R.string.plan_grid, R.string.plan_grid_guide),
    RIGGER(R.string.rigger, R.string.plan_rigger_guide);

    fun of(draft: TagDraft): String =
        when (this) {
            LOAD -> draft.load
            DESCRIPTION -> draft.description
            GROSS -> draft.gross
            AIRCRAFT -> draft.aircraft
            ALLOWABLE -> draft.allowable
            PICKUP -> draft.pickup
            DESTINATION -> draft.destination
            GRID -> draft.grid
            RIGGER -> draft.rigger
        }

    fun put(draft: TagDraft, words: String): TagDraft =
        when (this) {
            LOAD -> draft.copy(load = words)
            DESCRIPTION -> draft.copy(description = words)
            GROSS -> draft.copy(gross = words)
            AIRCRAFT -> draft.copy(aircraft = words)
            ALLOWABLE -> draft.copy(allowable = words)
            PICKUP -> draft.copy(pickup = words)
            DESTINATION -> draft.copy(destination = words)
            GRID -> draft.copy(grid = words)
            RIGGER -> draft.copy(rigger = words)
        }
}

/** One field of the load, typed. */
class PlanFieldScreen(shell: Shell, override val place: Place.PlanField) : WritingScreen(shell, place) {
    private val draft = place.draft
    private val field = place.field
    override val title
        get() = text(field.title)

    override val guide
        get() = text(field.guide)

    override val done
        get() = text(R.string.take_it)

    override val before
        get() = field.of(draft)

    override fun take(words: String) = shell.draft(field.put(draft, words.trim()))
}

/** How the weight is known. */
class PlanSourceScreen(shell: Shell, override val place: Place.PlanSource) : Screen(shell, place) {
    private val draft = place.draft
    override val paneTitle: CharSequence
        get() = text(R.string.plan_source)

    override fun build(): View {
        val rows =
            PlanDraftScreen.SOURCES.map { (source, name) ->
                key(Face.ROW, text(name), if (source == draft.weightSource) Sign.TICK else Sign.NONE) {
                    shell.draft(draft.copy(weightSource = source))
                }
            }
        return page(
            text(R.string.plan_source),
            body(
                parts.words(text(R.string.plan_source_words), 19),
                parts.column(*rows.toTypedArray(), space = 16),
            ),
        )
    }
}
