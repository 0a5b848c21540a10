package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.ExamPick
import slingseal.core.ExamPlan
import slingseal.core.ExamStandard

/** What is to be planted on the load of a tag: so many, drawn from a seed; or those that were picked. */
data class Planting(
    val tag: String,
    val count: Int,
    private val seed: String,
    val picks: List<ExamPick> = emptyList(),
) : Serializable {
    internal val plan
        get() =
            if (picks.isEmpty()) ExamPlan(tag, emptyList(), count.toUInt(), seed)
            else ExamPlan(tag, picks, null, null)

    internal fun picking(picks: List<ExamPick>) = copy(count = picks.size, picks = picks)
}

/**
 * What a student has to reach: so many found, within so many seconds, with at most so many false calls. Null
 * where nobody has said it: the standard is the unit's, so that nothing is chosen for anybody.
 */
data class Standard(val least: Int? = null, val within: Int? = null, val calls: Int? = null) : Serializable {
    internal val asked
        get() =
            if (least == null || within == null || calls == null) null
            else ExamStandard(least.toUInt(), within.toUInt(), calls.toUInt())
}
