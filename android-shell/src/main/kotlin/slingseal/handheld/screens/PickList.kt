package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.look.Key
import slingseal.handheld.sense.HardAnswer

/** A list of keys that the volume keys walk through: down goes to the next and says it, up takes the one that is framed. */
class PickList(private val keys: List<Key>, private val say: (String) -> Unit) {
    private var at = -1

    fun hard(answer: HardAnswer) {
        if (keys.isEmpty()) return
        when (answer) {
            HardAnswer.SECOND -> choose((at + 1) % keys.size)
            HardAnswer.FIRST -> keys.getOrNull(at)?.performClick() ?: choose(0)
            HardAnswer.AGAIN -> keys.getOrNull(at)?.let { say(it.contentDescription.toString()) }
        }
    }

    private fun choose(next: Int) {
        keys.getOrNull(at)?.chosen = false
        at = next
        val key: Key = keys[next]
        key.chosen = true
        (key as View).requestRectangleOnScreen(android.graphics.Rect(0, 0, key.width, key.height))
        say(key.contentDescription.toString())
    }
}
