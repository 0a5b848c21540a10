package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place

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
