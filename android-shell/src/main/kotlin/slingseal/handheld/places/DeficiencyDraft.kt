package slingseal.handheld.places

import java.io.Serializable

/** What the core takes for a deficiency that has no name in the procedure; it needs a note. */
internal const val OTHER = "other"

/** A deficiency before it is noted. [name] is the list's, or [OTHER]; [photos] are digests. */
data class DeficiencyDraft(
    val on: WalkRef,
    val card: Int,
    val point: String,
    val name: String,
    val note: String = "",
    val photos: List<String> = emptyList(),
) : Serializable
