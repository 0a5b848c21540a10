package slingseal.handheld.support

import android.widget.EditText
import kotlin.reflect.KClass
import org.junit.Before
import org.robolectric.RuntimeEnvironment
import slingseal.core.Handheld
import slingseal.handheld.Core
import slingseal.handheld.HandheldActivity
import slingseal.handheld.look.CodeView
import slingseal.handheld.places.Place

/** A new phone with a camera and its zone before each test, and what hands do on every page. */
abstract class OnAPhone {
    protected lateinit var zone: Zone

    protected val core: Handheld
        get() = Core.of(RuntimeEnvironment.getApplication())

    @Before
    fun newPhone() {
        Zone.newPhone()
        Zone.camera()
        zone = Zone()
    }

    protected val Screen.hand
        get() = activity as HandheldActivity

    protected fun Screen.backTo(page: KClass<out Place>) {
        hand.backTo(page)
        settle()
    }

    protected fun Screen.type(digits: String) =
        digits.forEach { press(key(it.toString()), settleFirst = false) }

    protected fun Screen.write(words: String) = shown().filterIsInstance<EditText>().single().setText(words)

    /** The code on the page, read by a reader that is not ours. */
    protected fun Screen.readCode() =
        Zone.readIndependently(pixels(), box(shown().filterIsInstance<CodeView>().single()))
}
