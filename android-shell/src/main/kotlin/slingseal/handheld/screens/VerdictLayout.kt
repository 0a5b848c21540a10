package slingseal.handheld.screens

import android.content.Context
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.handheld.look.Glove
import slingseal.handheld.look.Key
import slingseal.handheld.look.dp

/** Where the parts of a verdict's page stand: the word, what lies beside it, the facts, and the two keys. */
internal class VerdictLayout(private val context: Context) {
    /** The word from edge to edge, the facts, and under the thumb the two keys of the report. */
    fun upright(sign: View, beside: View, said: View, answers: List<Key>, looks: Boolean): View =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            val top =
                LinearLayout(context).apply {
                    addView(sign, LinearLayout.LayoutParams(0, MATCH, if (looks) 1.6f else 2.6f))
                    addView(
                        beside,
                        LinearLayout.LayoutParams(0, MATCH, 1f).apply {
                            if (!looks) setMargins(dp(8), dp(8), dp(8), dp(8))
                        },
                    )
                }
            addView(top, LinearLayout.LayoutParams(MATCH, context.dp(176)))
            addView(said, LinearLayout.LayoutParams(MATCH, 0, 1f))
            if (answers.isEmpty()) return@apply
            val keys =
                LinearLayout(context).apply {
                    for ((at, key) in answers.withIndex()) addView(
                        key,
                        LinearLayout.LayoutParams(0, MATCH, 1f).apply {
                            if (at > 0) marginStart = dp(Glove.GAP)
                        },
                    )
                }
            addView(
                keys,
                LinearLayout.LayoutParams(MATCH, dp(Glove.KEY)).apply {
                    setMargins(dp(14), dp(6), dp(14), dp(12))
                },
            )
        }

    fun aside(sign: View, beside: View, said: View, answers: List<Key>, looks: Boolean): View =
        LinearLayout(context).apply {
            val left =
                LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    addView(sign, LinearLayout.LayoutParams(MATCH, 0, 1.5f))
                    addView(
                        beside,
                        LinearLayout.LayoutParams(MATCH, 0, if (looks) 1.3f else 0.6f).apply {
                            if (!looks) setMargins(dp(8), dp(8), dp(8), dp(8))
                        },
                    )
                }
            addView(left, LinearLayout.LayoutParams(0, MATCH, 0.8f))
            addView(said, LinearLayout.LayoutParams(0, MATCH, 1.1f))
            if (answers.isEmpty()) return@apply
            val keys =
                LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    for ((at, key) in answers.withIndex()) addView(
                        key,
                        LinearLayout.LayoutParams(MATCH, 0, 1f).apply {
                            if (at > 0) topMargin = dp(Glove.GAP)
                        },
                    )
                }
            addView(
                keys,
                LinearLayout.LayoutParams(dp(Glove.KEY + 4), MATCH).apply {
                    setMargins(0, dp(14), dp(12), dp(14))
                },
            )
        }

    private companion object {
        const val MATCH = ViewGroup.LayoutParams.MATCH_PARENT
    }
}
