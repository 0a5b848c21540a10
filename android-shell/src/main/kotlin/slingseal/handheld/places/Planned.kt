package slingseal.handheld.places

import slingseal.core.TagDraft
import slingseal.handheld.R

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
