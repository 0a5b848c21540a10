package slingseal.handheld.screens

import android.view.View
import slingseal.core.Role
import slingseal.core.TagDraft
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Weighing
import slingseal.handheld.sense.Beat

/**
 * What it weighs and where its centre of gravity is, within what the scales may be wrong by; how it hangs
 * then; and what of it goes into the plan.
 */
class WeighedScreen(shell: Shell, override val place: Place.Weighed) : Screen(shell, place) {
    private val result = place.result

    /** Whoever signs no tag tells the planner. */
    private val plans = Role.PLANNER in shell.attempt { shell.core.setUp() }?.roles.orEmpty()
    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.weighed)

    override val spoken
        get() = result.mass

    override fun build(): View {
        val ground = palette.panel
        val head =
            parts.panel(
                parts.column(
                    *listOfNotNull(
                            parts.signed(
                                if (result.good) Sign.TICK else Sign.WARN,
                                parts.words(result.mass, 30, bold = true, ground = ground),
                                ground,
                            ),
                            result.centre
                                .joinToString(" · ")
                                .ifEmpty { null }
                                ?.let {
                                    parts.words(
                                        text(R.string.weighed_centre, it),
                                        19,
                                        bold = true,
                                        ground = ground,
                                    )
                                },
                        )
                        .toTypedArray(),
                    space = 3,
                ),
                thick = true,
            )
        val lines = result.beside.map { parts.words(it, 18, bold = true) }
        val report =
            result.report.lines().filter(String::isNotBlank).map { parts.words(it, 17, ground = ground) }
        val taken = result.taken
        val picture = taken?.let { RiggingScreen.drawn(shell) { core -> core.checkDraft(it).picture } }
        val keys =
            if (plans && taken != null)
                listOf(key(Face.GOOD, text(R.string.weigh_take_over), Sign.NEXT) { takeOver(taken) })
            else emptyList()
        return page(
            text(R.string.weighed),
            body(
                head,
                parts.column(*lines.toTypedArray(), space = 8),
                if (plans) null else parts.words(text(R.string.weigh_tell_planner), 19, bold = true),
                parts.panel(parts.column(*report.toTypedArray(), space = 6)),
                picture,
            ),
            keys,
        )
    }

    private fun takeOver(taken: TagDraft) {
        Weighing.forget()
        shell.feel(Beat.GOOD)
        if (shell.lies(Place.PlanDraft::class)) return shell.draft(taken)
        shell.backTo(Place.Start::class)
        shell.go(Place.Plan)
        shell.go(Place.PlanDraft(taken))
    }
}
