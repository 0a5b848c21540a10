package slingseal.handheld.screens

import slingseal.core.SetUpView
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Issuing
import slingseal.handheld.places.Place

/**
 * What an authority's phone still lacks to seal as well: its own key, or the credential that it gives itself
 * for the key that it has.
 */
internal fun ownKeys(shell: Shell, own: SetUpView?): List<Key> {
    val request = own?.request
    fun row(label: Int, sign: Sign, about: String, to: Place) =
        Key(shell.activity, shell.palette, Face.ROW, shell.activity.getString(label), sign, about) {
            shell.go(to)
        }
    if (request == null) {
        return listOf(
            row(R.string.make_key, Sign.KEY, shell.activity.getString(R.string.authority_own_key), Place.Name)
        )
    }
    if (own.credential != null) return emptyList()
    val issue = Place.AuthorityIssue(Issuing(request, own.holder.orEmpty(), own.fingerprint.orEmpty()))
    return listOf(row(R.string.authority_own, Sign.KEY, own.holder.orEmpty(), issue))
}
