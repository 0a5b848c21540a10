package slingseal.handheld.screens

import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.CodeView

/** A code beside or above its words, as large as the room allows. */
internal fun Screen.codePage(shell: Shell, onItsSide: Boolean, code: View, read: View): View =
    LinearLayout(shell.activity).apply {
        val fill = ViewGroup.LayoutParams.MATCH_PARENT
        val wrap = ViewGroup.LayoutParams.WRAP_CONTENT
        orientation = if (onItsSide) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
        addView(
            code,
            if (onItsSide) LinearLayout.LayoutParams(wrap, fill) else LinearLayout.LayoutParams(fill, wrap),
        )
        addView(
            read,
            if (onItsSide) LinearLayout.LayoutParams(0, fill, 1f) else LinearLayout.LayoutParams(fill, 0, 1f),
        )
    }

/** A code of the core, drawn. */
internal fun codeView(shell: Shell, code: slingseal.core.CodeView, spoken: String): CodeView =
    CodeView(shell.activity, shell.palette, code.size.toInt(), dark(code), spoken)

internal fun dark(code: slingseal.core.CodeView) =
    BooleanArray(code.modules.size) { code.modules[it] != 0.toByte() }
