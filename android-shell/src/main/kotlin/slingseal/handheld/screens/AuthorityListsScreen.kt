package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Place

/**
 * Which lists count: with a name, those of an authority that is about to begin; none is taken before somebody
 * says so.
 */
class AuthorityListsScreen(shell: Shell, override val place: Place.AuthorityLists) : Screen(shell, place) {
    private val name
        get() = place.name

    private val beginning
        get() = name != null

    private val picked
        get() = place.picked

    override val paneTitle: CharSequence
        get() = text(R.string.authority_lists)

    private val lists = shell.attempt { shell.core.procedures() }.orEmpty()
    private val approved =
        if (beginning) emptySet()
        else
            shell
                .attempt { shell.core.issued() }
                ?.approved
                .orEmpty()
                .filter { it.withdrawn == null }
                .map { it.id to it.version }
                .toSet()

    override fun build(): View {
        val rows =
            lists.map { list ->
                val already = (list.id to list.version) in approved
                val sign =
                    if (list.id in picked) if (already) Sign.CROSS else Sign.TICK
                    else if (already) Sign.TICK else Sign.NONE
                val state =
                    text(
                        if (list.id in picked)
                            if (already) R.string.authority_to_withdraw else R.string.authority_to_approve
                        else if (already) R.string.authority_approved else R.string.authority_not_approved
                    )
                key(
                        Face.ROW,
                        list.title,
                        sign,
                        "${text(R.string.procedure_version, list.id, list.version.toInt())} · $state",
                    ) {
                        toggle(list.id)
                    }
                    .apply { chosen = list.id in picked }
            }
        val all =
            key(Face.SIDE, text(R.string.authority_all), Sign.TICK) {
                put(lists.filter { (it.id to it.version) !in approved }.map { it.id }.toSet())
            }
        val next =
            key(Face.GOOD, text(if (beginning) R.string.next else R.string.authority_sign), Sign.NEXT) {
                next(lists.filter { (it.id to it.version) in approved }.map { it.id }.toSet())
            }
        return page(
            text(R.string.authority_lists),
            body(
                parts.words(text(R.string.authority_lists_words), 18),
                parts.column(*rows.toTypedArray(), space = 12),
            ),
            listOf(next, all),
        )
    }

    private fun toggle(id: String) = put(if (id in picked) picked - id else picked + id)

    private fun put(ids: Set<String>) = shell.swap(place.copy(picked = ids))

    private fun next(approved: Set<String>) {
        name?.let {
            return shell.go(Place.AuthorityWords(Deed.Begin(it, picked.sorted())))
        }
        val (back, on) = picked.partition { it in approved }
        when {
            picked.isEmpty() -> {
                shell.notice = text(R.string.authority_pick)
                shell.redraw()
            }
            // one roster says one thing: what is taken back goes first
            back.isNotEmpty() -> shell.go(Place.AuthorityWords(Deed.Withdraw(back.sorted())))
            else -> shell.go(Place.AuthorityWords(Deed.Approve(on.sorted())))
        }
    }
}
