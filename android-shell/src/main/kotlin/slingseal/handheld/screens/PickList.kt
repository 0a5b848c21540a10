package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.Shell
import slingseal.handheld.look.Key
import slingseal.handheld.sense.HardAnswer

/** A list of keys that the volume keys walk through: down goes to the next and says it, up takes the one that is framed. */
class PickList(private val keys: List<Key>, private val shell: Shell) {
    private var at = -1

    fun hard(answer: HardAnswer) {
        when (answer) {
            HardAnswer.BACK -> shell.back()
            HardAnswer.SECOND -> if (keys.isNotEmpty()) choose((at + 1) % keys.size)
            HardAnswer.FIRST -> keys.getOrNull(at)?.performClick() ?: if (keys.isNotEmpty()) choose(0) else Unit
            HardAnswer.AGAIN -> keys.getOrNull(at)?.let { shell.say(it.contentDescription.toString()) }
        }
    }

    private fun choose(next: Int) {
        keys.getOrNull(at)?.chosen = false
        at = next
        val key: Key = keys[next]
        key.chosen = true
        (key as View).requestRectangleOnScreen(android.graphics.Rect(0, 0, key.width, key.height))
        shell.say(key.contentDescription.toString())
    }
}
