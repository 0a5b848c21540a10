package slingseal.handheld

import android.app.Activity
import android.os.Build
import android.os.Bundle
import android.os.SystemClock
import android.view.KeyEvent
import android.view.View
import android.view.WindowInsetsController
import android.view.WindowManager
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Parts
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.SafeArea
import slingseal.handheld.screens.openRuns
import slingseal.handheld.screens.runName
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Feel
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.sense.HardKeys
import slingseal.handheld.sense.Voice

/** The one activity: holds the pages that lie open, and the hands, ears and voice of the phone. */
class HandheldActivity : Activity(), Shell {
    private val places = ArrayList<Place>()
    private var screen: Screen? = null
    private var settledAt = 0L
    private lateinit var feel: Feel
    private lateinit var voice: Voice
    private lateinit var hardKeys: HardKeys

    override val activity: Activity get() = this
    override lateinit var core: Handheld
        private set
    override var palette = Palette.DAY
        private set
    override var parts = Parts(this, palette)
        private set
    override var notice: String? = null
    override var news: String? = null

    /** The page in front. */
    val front: Screen? get() = screen

    /** What was felt and said last. */
    val lastBeat: Beat? get() = feel.last
    val lastWords: String? get() = voice.last

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        feel = Feel(this)
        voice = Voice(this)
        hardKeys = HardKeys({ millis, run -> window.decorView.postDelayed(run, millis) }, ::hard)
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) useCutouts()
        core = try {
            Core.of(this)
        } catch (e: HandheldException) {
            return stop(e.words)
        }
        palette = Palette.entries.firstOrNull { it.name == preference(PALETTE) } ?: Palette.DAY
        parts = Parts(this, palette)
        places += Place.loadAll(state).ifEmpty { beginning() }
        show()
    }

    /** The start; over it the run whose clock goes on, or the walk that was in the middle of being walked, if there is one. */
    private fun beginning(): List<Place> {
        val start = Place(PageKind.START)
        val runs = openRuns()
        if (runs.size == 1) return listOf(start, Place(PageKind.EXAMS), Place(PageKind.WALK, runName(runs.first().run)))
        val walking = attempt { core.start() }?.inHand?.filter { it.state == "walking" }.orEmpty()
        return if (walking.size == 1) listOf(start, Place(PageKind.WALK, walking.first().walk)) else listOf(start)
    }

    /** The store cannot be opened: say what to do, and nothing else. */
    private fun stop(words: String) {
        notice = words
        val area = SafeArea(this, palette)
        val line = parts.words(words, 22, bold = true)
        val gap = (24 * resources.displayMetrics.density).toInt()
        line.setPadding(gap, gap, gap, gap)
        area.addView(line)
        setContentView(area)
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        Place.saveAll(places, state)
    }

    override fun onResume() {
        super.onResume()
        screen?.shown()
    }

    override fun onPause() {
        screen?.hidden()
        voice.hush()
        super.onPause()
    }

    override fun onDestroy() {
        voice.close()
        super.onDestroy()
    }

    override fun onRequestPermissionsResult(code: Int, permissions: Array<out String>, results: IntArray) {
        super.onRequestPermissionsResult(code, permissions, results)
        if (results.firstOrNull() == android.content.pm.PackageManager.PERMISSION_GRANTED) redraw()
    }

    private fun make(place: Place): Screen = Screens.of(this, place)

    private fun show(speak: Boolean = true) {
        screen?.hidden()
        val next = make(places.last())
        screen = next
        draw(next)
        if (speak && speaks) next.spoken?.let(::say)
        if (!isFinishing && hasWindowFocus()) next.shown() else window.decorView.post { if (screen === next) next.shown() }
    }

    private fun draw(screen: Screen) {
        val area = SafeArea(this, palette)
        val view = screen.whole()
        notice = null
        news = null
        area.addView(view)
        setContentView(area)
        settledAt = SystemClock.uptimeMillis() + PressGuard.SETTLE
        dress(screen)
        area.requestApplyInsets()
    }

    private fun dress(screen: Screen) {
        if (screen.staysOn) window.addFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON) else window.clearFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
        val attributes = window.attributes
        attributes.screenBrightness = when {
            !screen.shines -> WindowManager.LayoutParams.BRIGHTNESS_OVERRIDE_NONE
            // eyes that are used to the dark are spared; a code of light in the dark needs no more
            palette == Palette.NIGHT -> 0.4f
            else -> WindowManager.LayoutParams.BRIGHTNESS_OVERRIDE_FULL
        }
        window.attributes = attributes
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) newerBars(screen) else olderBars(screen)
    }

    @NewerAndroid
    private fun useCutouts() {
        window.attributes = window.attributes.apply {
            layoutInDisplayCutoutMode = WindowManager.LayoutParams.LAYOUT_IN_DISPLAY_CUTOUT_MODE_SHORT_EDGES
        }
    }

    @NewerAndroid
    private fun newerBars(screen: Screen) {
        window.setDecorFitsSystemWindows(false)
        val bars = window.insetsController ?: return
        val light = WindowInsetsController.APPEARANCE_LIGHT_STATUS_BARS or WindowInsetsController.APPEARANCE_LIGHT_NAVIGATION_BARS
        bars.setSystemBarsAppearance(if (palette.lightPage) light else 0, light)
        bars.systemBarsBehavior = WindowInsetsController.BEHAVIOR_SHOW_TRANSIENT_BARS_BY_SWIPE
        val kinds = android.view.WindowInsets.Type.systemBars()
        if (screen.hidesBars) bars.hide(kinds) else bars.show(kinds)
    }

    @Suppress("DEPRECATION")
    private fun olderBars(screen: Screen) {
        var flags = View.SYSTEM_UI_FLAG_LAYOUT_STABLE or View.SYSTEM_UI_FLAG_LAYOUT_FULLSCREEN or View.SYSTEM_UI_FLAG_LAYOUT_HIDE_NAVIGATION
        if (palette.lightPage) flags = flags or View.SYSTEM_UI_FLAG_LIGHT_STATUS_BAR or View.SYSTEM_UI_FLAG_LIGHT_NAVIGATION_BAR
        if (screen.hidesBars) flags = flags or View.SYSTEM_UI_FLAG_FULLSCREEN or View.SYSTEM_UI_FLAG_HIDE_NAVIGATION or View.SYSTEM_UI_FLAG_IMMERSIVE_STICKY
        window.decorView.systemUiVisibility = flags
    }

    // where the person is

    override fun go(place: Place) {
        places += place
        show()
    }

    override fun swap(place: Place) {
        if (places.size > 1) places.removeAt(places.size - 1)
        go(place)
    }

    override fun backTo(page: PageKind) {
        while (places.size > 1 && places.last().page != page) places.removeAt(places.size - 1)
        show()
    }

    override fun back() {
        if (places.size > 1) {
            places.removeAt(places.size - 1)
            show()
        } else {
            finish()
        }
    }

    override fun redraw() = show()

    override fun redrawSame() {
        screen?.let(::draw)
    }

    // the newer way needs API 33; the older works on every version that we serve
    @Deprecated("Deprecated in Java")
    override fun onBackPressed() = back()

    // what is felt, said and heard

    override fun feel(beat: Beat) = feel.play(beat)

    override fun say(words: String) = voice.say(words)

    override fun dispatchKeyEvent(event: KeyEvent): Boolean {
        if (screen?.takesHardKeys == true && hardKeys.feed(event, settledAt)) return true
        return super.dispatchKeyEvent(event)
    }

    private fun hard(answer: HardAnswer) {
        screen?.hard(answer)
    }

    // the core

    override fun <T : Any> attempt(job: () -> T): T? = try {
        job()
    } catch (e: HandheldException) {
        notice = e.words
        null
    }

    override fun <T> work(job: () -> T, done: (T) -> Unit) {
        val asked = screen
        // the hand knows that the press was taken, while the PIN is stretched
        feel(Beat.READ)
        Core.slow.execute {
            val result = try {
                Result.success(job())
            } catch (e: HandheldException) {
                Result.failure(e)
            }
            runOnUiThread {
                if (isDestroyed || screen !== asked) return@runOnUiThread
                result.onSuccess(done).onFailure {
                    notice = (it as HandheldException).words
                    feel(Beat.REFUSED)
                    redraw()
                }
            }
        }
    }

    private fun preference(name: String): String? = attempt { core.preference(name).orEmpty() }?.ifEmpty { null }

    override var speaks: Boolean
        get() = preference(VOICE) == "on"
        set(value) {
            attempt { core.prefer(VOICE, if (value) "on" else "off") }
        }

    override fun changePalette(palette: Palette) {
        attempt { core.prefer(PALETTE, palette.name) }
        this.palette = palette
        parts = Parts(this, palette)
        redraw()
    }

    private companion object {
        const val PALETTE = "palette"
        const val VOICE = "voice"
    }
}
