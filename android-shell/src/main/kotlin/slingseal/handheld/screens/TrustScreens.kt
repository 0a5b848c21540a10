package slingseal.handheld.screens

import android.view.View
import android.widget.FrameLayout
import android.widget.TextView
import slingseal.core.TrustedView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.KeyGrid
import slingseal.handheld.look.NumberPad
import slingseal.handheld.look.Page
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/** It is trusted: the core compared, and its refusal would not have told what the card says. */
private fun Shell.took(name: String) {
    feel(Beat.GOOD)
    news = activity.getString(R.string.trust_done, name)
    setUpAgain()
}

/**
 * An authority's fingerprint, keyed in as it is heard. The card's own is nowhere on the page and not among
 * what it was given: whoever copies it from this screen has compared nothing.
 */
class TrustScreen(shell: Shell, override val place: Place.Trust) : Screen(shell, place) {
    private val name
        get() = place.name

    /** What was heard so far: letters and digits, group after group. */
    private var heard = place.heard

    /** The letters that one key stands for, while one of them is picked. */
    private var picked: String? = null
    private lateinit var shown: TextView
    private lateinit var pad: FrameLayout

    override val hidesBars
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.trust_title)

    override val spoken
        get() = text(R.string.trust_words, name)

    override fun build(): View {
        shown =
            parts.fitted("", 30, 16).apply { accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE }
        pad = FrameLayout(context)
        draw()
        val said =
            parts.column(
                *listOfNotNull(
                        noticePanel(),
                        parts.heading(text(R.string.trust_title), 20),
                        parts.words(spoken, 17, bold = true),
                        parts.words(text(R.string.trust_why), 15),
                    )
                    .toTypedArray(),
                space = 3,
            )
        return Page(parts).pin(backKey(), null, said, shown, pad, onItsSide, high = 56)
    }

    private fun draw() {
        val groups = heard.chunked(GROUP)
        val words = groups.joinToString(" ")
        shown.text = if (heard.isEmpty()) text(R.string.trust_empty) else words
        shown.contentDescription =
            if (heard.isEmpty()) text(R.string.nothing_typed)
            else heard.toList().joinToString(" ") { spelled(it) }
        pad.removeAllViews()
        pad.addView(keys())
    }

    private fun keys(): View {
        val letters = picked
        val whole = heard.length >= GROUP * GROUPS
        return when {
            letters != null ->
                KeyGrid(
                    context,
                    letters.map { letter -> soft("$letter ${spelled(letter)}") { pick(letter) } } + erase(),
                    gap = 0,
                    high = 2,
                    wide = 2,
                )
            whole || heard.length % GROUP != 0 ->
                NumberPad(
                    context,
                    palette,
                    compare(),
                    text(R.string.take_back),
                    gap = 0,
                    { if (!whole) hear(it) },
                    { back() },
                )
            else ->
                KeyGrid(
                    context,
                    THREES.map { three -> soft(three.toList().joinToString(" ")) { open(three) } } +
                        null +
                        erase() +
                        null +
                        compare(),
                    gap = 0,
                )
        }
    }

    private fun soft(label: String, sign: Sign = Sign.NONE, press: () -> Unit) =
        key(Face.SIDE, label, sign) { press() }.apply { settledAt = 0 }

    private fun erase() = soft(text(R.string.take_back), Sign.ERASE) { back() }

    private fun compare() = key(Face.GOOD, text(R.string.trust_compare), Sign.TICK) { compareNow() }

    private fun open(three: String) {
        picked = three
        draw()
    }

    private fun pick(letter: Char) {
        picked = null
        hear(letter)
    }

    private fun hear(sign: Char) {
        heard += sign
        kept()
    }

    private fun back() {
        if (picked != null) picked = null else heard = heard.dropLast(1)
        kept()
    }

    private fun kept() {
        shell.keep(place.copy(heard = heard))
        draw()
    }

    private fun compareNow() {
        if (heard.length < GROUP * GROUPS) {
            shell.notice = text(R.string.trust_short)
            shell.feel(Beat.REFUSED)
            return shell.redrawSame()
        }
        val (card, whole) = place.card to heard
        shell.ask({ likeNamed(card).isEmpty().also { alone -> if (alone) trust(card, whole) } }) { alone ->
            if (alone) took(name) else swap(Place.TrustBeside(card, name, whole))
        }
    }

    /** Heard wrong, or another card: it is heard anew from its first group. */
    override fun refused(words: String) {
        heard = ""
        shell.keep(Place.Trust(place.card, name, heard))
        if (shell.speaks) shell.say(words)
        super.refused(words)
    }

    companion object {
        /** A letter and three digits, five times: core/message/src/trust/keys.rs. */
        private const val GROUP = 4
        private const val GROUPS = 5

        /**
         * The letters that a group may begin with, three a key; I and O are none, for they are read as
         * digits.
         */
        private val THREES = listOf("ABC", "DEF", "GHJ", "KLM", "NPQ", "RST", "UVW", "XYZ")

        /** The spelling alphabet of radiotelephony: ICAO Annex 10, volume II, figure 5-1. */
        private val SPELLING =
            listOf(
                "Alfa",
                "Bravo",
                "Charlie",
                "Delta",
                "Echo",
                "Foxtrot",
                "Golf",
                "Hotel",
                "India",
                "Juliett",
                "Kilo",
                "Lima",
                "Mike",
                "November",
                "Oscar",
                "Papa",
                "Quebec",
                "Romeo",
                "Sierra",
                "Tango",
                "Uniform",
                "Victor",
                "Whiskey",
                "X-ray",
                "Yankee",
                "Zulu",
            )

        private fun spelled(sign: Char): String = SPELLING.getOrNull(sign - 'A') ?: sign.toString()
    }
}

/**
 * The card's name is one that an authority has that is trusted here already: a person says whether there are
 * two.
 */
class BesideScreen(shell: Shell, override val place: Place.TrustBeside) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.trust_title)

    override val spoken
        get() = text(R.string.trust_beside, place.name)

    private val like = shell.attempt { shell.core.likeNamed(place.card) }.orEmpty()

    override fun build(): View {
        return page(
            text(R.string.trust_title),
            body(
                parts.signedPanel(Sign.WARN, spoken, 20),
                *like.map(::known).toTypedArray(),
                parts.words(text(R.string.trust_beside_why), 18),
            ),
            listOf(
                key(Face.SIDE, text(R.string.back), Sign.BACK) {
                    shell.backTo(if (shell.lies(Place.Join::class)) Place.Join::class else Place.SetUp::class)
                },
                key(Face.BAD, text(R.string.trust_both), Sign.WARN) { both() },
            ),
        )
    }

    private fun known(other: TrustedView) =
        parts.panel(
            parts.facts(
                listOf(
                    text(R.string.authority) to other.name,
                    text(R.string.fingerprint) to other.fingerprint,
                ),
                18,
            )
        )

    private fun both() {
        val (card, name, heard) = place
        shell.ask({ trustBeside(card, heard) }) { took(name) }
    }

    override fun refused(words: String) {
        shell.notice = words
        if (shell.speaks) shell.say(words)
        shell.swap(Place.Trust(place.card, place.name))
    }
}
