package slingseal.handheld.screens

import android.text.InputType
import android.view.View
import android.widget.EditText
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place

/** One line or more that is typed, for every place where something must be written. */
abstract class WritingScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private lateinit var line: EditText

    override val types
        get() = true

    override val paneTitle: CharSequence
        get() = title

    protected abstract val title: String
    protected abstract val guide: String
    protected abstract val done: String

    /** Whether letters are codes, not words: no suggestions, capitals. */
    protected open val code
        get() = false

    protected open val digits
        get() = false

    /**
     * Whether nobody may read over a shoulder what is typed: it is not shown, not learnt by the keyboard and
     * not kept over a turn.
     */
    protected open val hidden
        get() = false

    protected abstract fun take(words: String)

    /** What stands in the field. */
    protected val written: String
        get() = line.text.toString()

    /** What stands in the field when the page comes. */
    protected open val before: String
        get() = ""

    override fun build(): View {
        line =
            EditText(context).apply {
                // one id for the platform's own saving: what was typed outlives a turn of the phone
                id = R.id.writing
                setText(before)
                setTextColor(palette.panel.on)
                textSize = 22f
                contentDescription = guide
                minLines = if (code) 3 else 1
                background =
                    android.graphics.drawable.GradientDrawable().apply {
                        setColor(palette.panel.under)
                        cornerRadius = context.dp(12).toFloat()
                        setStroke(context.dp(3), palette.page.on)
                    }
                setPadding(context.dp(14), context.dp(16), context.dp(14), context.dp(16))
                inputType =
                    when {
                        hidden -> InputType.TYPE_CLASS_TEXT or InputType.TYPE_TEXT_VARIATION_PASSWORD
                        digits -> InputType.TYPE_CLASS_TEXT
                        code ->
                            InputType.TYPE_CLASS_TEXT or
                                InputType.TYPE_TEXT_FLAG_NO_SUGGESTIONS or
                                InputType.TYPE_TEXT_FLAG_CAP_CHARACTERS or
                                InputType.TYPE_TEXT_FLAG_MULTI_LINE
                        else ->
                            InputType.TYPE_CLASS_TEXT or
                                InputType.TYPE_TEXT_FLAG_CAP_SENTENCES or
                                InputType.TYPE_TEXT_FLAG_MULTI_LINE
                    }
            }
        if (hidden) line.isSaveEnabled = false
        val use = key(Face.GOOD, done, Sign.TICK) { take(written) }
        return page(title, body(parts.words(guide, 19), line, *extra().toTypedArray()), listOf(use))
    }

    protected open fun extra(): List<View> = emptyList()
}

/** The text of a code, typed where no camera can read it. */
class TypeScreen(shell: Shell, override val place: Place.Type) : WritingScreen(shell, place) {
    private val purpose = place.purpose
    override val title
        get() = text(purpose.title)

    override val guide
        get() = text(purpose.typing)

    override val done
        get() = text(R.string.use_it)

    override val code
        get() = true

    override fun take(words: String) {
        purpose.take(shell, words.trim())
    }
}
