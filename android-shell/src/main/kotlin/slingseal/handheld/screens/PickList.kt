package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.Shell
import slingseal.handheld.look.Key
import slingseal.handheld.sense.HardAnswer

/**
 * A list of keys that the volume keys walk through: down goes to the next and says it, up takes the one that
 * is framed.
 */
class PickList(private val keys: List<Key>, private val shell: Shell, start: Int = -1) {
    /** Which key is framed; none below 0. A page that is drawn anew hands it on. */
    var at = start
        private set

    /** Whether the framed key was marked before the frame came. */
    private var was = false

    init {
        frame()
    }

    fun hard(answer: HardAnswer) {
        when (answer) {
            HardAnswer.BACK -> shell.back()
            HardAnswer.SECOND -> if (keys.isNotEmpty()) choose((at + 1) % keys.size)
            HardAnswer.FIRST ->
                keys.getOrNull(at)?.performClick() ?: if (keys.isNotEmpty()) choose(0) else Unit
            HardAnswer.AGAIN -> keys.getOrNull(at)?.let { shell.say(it.contentDescription.toString()) }
        }
    }

    private fun choose(next: Int) {
        keys.getOrNull(at)?.chosen = was
        at = next
        frame()
        val key: Key = keys[next]
        (key as View).requestRectangleOnScreen(android.graphics.Rect(0, 0, key.width, key.height))
        shell.say(key.contentDescription.toString())
    }

    private fun frame() {
        val key = keys.getOrNull(at) ?: return
        was = key.chosen
        key.chosen = true
    }
}
