package slingseal.handheld.support

import java.io.File
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.WalkRequest
import slingseal.core.WalkView

/**
 * What whoever inspects something sound does next: a serial number as the piece is called, a measure at its
 * limit, else good.
 */
fun sound(view: WalkView): WalkRequest {
    val card = checkNotNull(view.card)
    val open =
        card.points.firstOrNull { it.needsValue && it.state == PointState.UNANSWERED }
            ?: return WalkRequest.CardGood(card.number)
    return when (val kind = open.kind) {
        is PointKind.Serial -> WalkRequest.Answer(card.number, open.id, view.load)
        is PointKind.Measure ->
            WalkRequest.Answer(
                card.number,
                open.id,
                limit(view.procedure, open.id, kind.unit) ?: "30 ${kind.unit}",
            )
        else -> Zone.answer(view)
    }
}

/** The limit of a measure, out of the file of the list: a screen does not tell it before it is answered. */
private fun limit(procedure: String, point: String, unit: String): String? {
    val blocks =
        File("../core/walk/procedures/$procedure.toml")
            .readText()
            .split("[[station.card.point]]", "[[part.card.point]]")
    val limits =
        blocks.filter { "\nid = \"${point.substringAfterLast('.')}\"\n" in it && "kind = \"measure\"" in it }
    val values =
        limits.mapNotNull { Regex("(?m)^(?:least|most) = \"([^\"]+)\"").find(it)?.groupValues?.get(1) }
    return values.firstOrNull { it.endsWith(" $unit") }
}
