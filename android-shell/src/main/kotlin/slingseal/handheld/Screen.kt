package slingseal.handheld

import android.content.res.Configuration
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.RunView
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Page
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.Sign
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.places.run
import slingseal.handheld.screens.LoadBand
import slingseal.handheld.screens.RunBand
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.sense.Sticker

/**
 * One page. It is made beside the main thread, and then it reads all that it shows; it is drawn on the main
 * thread from what was read, and asks the core no more but through [Shell.ask] and [Shell.work]. After each
 * answer it is made anew.
 */
abstract class Screen(protected val shell: Shell, open val place: Place) {
    protected val parts
        get() = shell.parts

    protected val palette
        get() = shell.palette

    protected val context
        get() = shell.activity

    protected val onItsSide
        get() = context.resources.configuration.orientation == Configuration.ORIENTATION_LANDSCAPE

    /** What stands over the page: the number of the load that is inspected, or the run and its clock. */
    protected var load: String? = null
        private set

    private var run: RunView? = null

    /** What is read when the page is made, and before it is drawn: what stands over it. */
    open fun read() {
        run = place.run?.let { RunBand.read(shell.core, it) }
        load = LoadBand.load(shell, place)
    }

    abstract fun build(): View

    /**
     * The page as it is shown: in an examination under the band with its clock, in an inspection under its
     * load's number.
     */
    fun whole(): View {
        place.run?.let {
            return RunBand.over(shell, it, run, onItsSide, build())
        }
        val load = load?.takeIf { !saysLoad } ?: return build()
        return LoadBand.over(shell, load, build())
    }

    /** Tells why something that was asked for was refused. */
    open fun refused(words: String) {
        shell.notice = words
        shell.redrawSame()
    }

    /** Whether the page itself says which load it means, where the band would take the room of its keys. */
    protected open val saysLoad
        get() = false

    /** What a screen reader calls the page. */
    open val paneTitle: CharSequence
        get() = text(R.string.app_name)

    /** What a voice says when the page comes; null says nothing. */
    open val spoken: String?
        get() = null

    /** Whether the screen stays on. */
    open val staysOn
        get() = false

    /** Whether the screen shines as bright as it can. */
    open val shines
        get() = false

    /** Whether the keyboard of the system stands on the page. */
    open val types
        get() = false

    /** Whether the bars of the system make room. */
    open val hidesBars
        get() = false

    /**
     * Whether a PIN or a list that others must not see shows here: then no screen shot, no recording, no
     * picture among recent tasks.
     */
    open val secret
        get() = false

    /** Whether a sticker may be touched here. */
    open val touches
        get() = false

    /** A sticker was touched; null is one that holds no messages. Off the main thread. */
    open fun touched(sticker: Sticker?) = Unit

    /** Whether the volume keys answer here. */
    open val takesHardKeys
        get() = false

    /** Whether the button at the ear answers, where the volume keys stay volume. */
    open val takesEarKeys
        get() = false

    open fun hard(answer: HardAnswer) = Unit

    /** The page is in front. */
    open fun shown() = Unit

    /** The page is not in front any more. */
    open fun hidden() = Unit

    protected fun text(id: Int, vararg args: Any): String = context.getString(id, *args)

    protected fun key(
        face: Face,
        label: CharSequence,
        sign: Sign = Sign.NONE,
        detail: CharSequence? = null,
        hold: Long = PressGuard.HOLD,
        press: () -> Unit,
    ) = Key(context, palette, face, label, sign, detail, hold) { if (!shell.busy) press() }

    protected fun backKey() = key(Face.SIDE, text(R.string.back), Sign.BACK) { shell.back() }

    /** The notice, if there is one, above the rest. */
    protected fun body(vararg views: View?, space: Int = 14): View {
        val all = listOfNotNull(noticePanel(), *views)
        return parts.column(*all.toTypedArray(), space = space)
    }

    protected fun noticePanel(): View? {
        val words = shell.notice ?: shell.news ?: return null
        val sign = if (shell.notice == null) Sign.TICK else Sign.WARN
        val line =
            parts.signed(sign, parts.words(words, 19, bold = true, ground = palette.panel), palette.panel)
        return parts.panel(line, thick = true).apply {
            accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_ASSERTIVE
        }
    }

    protected fun page(
        title: CharSequence?,
        body: View,
        keys: List<Key> = emptyList(),
        back: Boolean = true,
        scrolls: Boolean = true,
    ): View = Page(parts).build(title, if (back) backKey() else null, body, keys, onItsSide, scrolls)

    protected fun padPage(title: CharSequence, words: View, value: View, pad: View, done: Key): View =
        Page(parts).pad(title, backKey(), words, value, pad, done, onItsSide)

    /** What stands beside a code: words over one key, without a title, for the code is the title. */
    protected fun underCode(words: View, done: Key, beside: Key? = null): View =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            setPadding(dp(14), dp(8), dp(14), dp(12))
            addView(
                parts.scroll(words),
                LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f),
            )
            val keys =
                LinearLayout(context).apply {
                    beside?.let {
                        addView(
                            it,
                            LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.MATCH_PARENT, 1f).apply {
                                marginEnd = dp(18)
                            },
                        )
                    }
                    addView(done, LinearLayout.LayoutParams(0, ViewGroup.LayoutParams.MATCH_PARENT, 1f))
                }
            addView(
                keys,
                LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, dp(80)).apply {
                    topMargin = dp(10)
                },
            )
        }
}
