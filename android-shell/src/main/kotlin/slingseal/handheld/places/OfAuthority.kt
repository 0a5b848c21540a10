package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.Role
import slingseal.handheld.R

/** What the authority's passphrase opens its key for. */
sealed class Deed(val title: Int) : Serializable {
    /** [lists] are those that it approves from the beginning. */
    data class Begin(val name: String, val lists: List<String>) : Deed(R.string.team_start)

    data class Issue(val issuing: Issuing) : Deed(R.string.authority_issue)

    data class Revoke(val credential: String) : Deed(R.string.authority_revoke)

    data class Approve(val lists: List<String>) : Deed(R.string.authority_lists)

    data class Withdraw(val lists: List<String>) : Deed(R.string.authority_lists)

    /** Signs the roster anew, to hold longer. */
    data object Renew : Deed(R.string.authority_renew)

    /** Makes a copy in two parts. */
    data object Copy : Deed(R.string.copy)

    /** This phone becomes the authority of a copy, of which these are the parts. */
    data class Restore(val part: String, val other: String) : Deed(R.string.copy_restore)
}

/** A credential before it is issued: to whom, for which key, what its holder may do, for how many days. */
data class Issuing(
    val request: String,
    val holder: String,
    val fingerprint: String,
    val roles: List<Role> = emptyList(),
    val days: Int = DAYS.first(),
) : Serializable {
    companion object {
        /** For how long a credential may be given, in days; the first is what stands there. */
        val DAYS = listOf(30, 7, 365)
    }
}

/** What of an authority every phone of its team is shown. */
enum class AuthorityCode {
    CARD,
    ROSTER,
}

/** The two parts of an authority's copy. */
enum class CopyPart {
    FIRST,
    SECOND,
}

/** The four steps to a team, on the phone that carries its trust. */
enum class TeamStep {
    BEGIN,
    CARD,
    KEYS,
    ROSTER,
}
