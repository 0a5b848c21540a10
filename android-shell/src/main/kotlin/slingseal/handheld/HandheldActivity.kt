package slingseal.handheld

import android.app.Activity
import android.content.Intent
import android.os.Build
import android.os.Bundle
import android.os.SystemClock
import android.view.KeyEvent
import android.view.MotionEvent
import android.view.View
import android.view.WindowInsetsController
import android.view.WindowManager
import android.window.OnBackInvokedCallback
import android.window.OnBackInvokedDispatcher
import kotlin.reflect.KClass
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.handheld.look.OneFinger
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Parts
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.SafeArea
import slingseal.handheld.look.WorkingPage
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.PICK_IN
import slingseal.handheld.screens.PICK_LISTS
import slingseal.handheld.screens.PICK_OUT
import slingseal.handheld.screens.Purpose
import slingseal.handheld.screens.WalkRef
import slingseal.handheld.screens.openRuns
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Ear
import slingseal.handheld.sense.Feel
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.sense.HardKeys
import slingseal.handheld.sense.Touch
import slingseal.handheld.sense.Voice

/** The one activity: holds the pages that lie open, and the hands, ears and voice of the phone. */
class HandheldActivity : Activity(), Shell {
    private val places = ArrayList<Place>()
    private var screen: Screen? = null
    private var settledAt = 0L
    private lateinit var feel: Feel
    private lateinit var voice: Voice
    private lateinit var hardKeys: HardKeys
    private lateinit var touch: Touch
    private var resumed = false
    private var voiceTold = false

    /** A line that stays as long as its page does, whatever draws that anew. */
    private var standing: String? = null
    private val oneFinger = OneFinger()
    private var backCallback: Any? = null

    /** Whether the store is being opened, and what is done when it is. */
    internal var isOpening = false
        private set

    private val waiting = ArrayList<() -> Unit>()
    private var left: Bundle? = null

    /** The button of a headset. */
    lateinit var ear: Ear
        private set

    override val activity: Activity
        get() = this

    override lateinit var core: Handheld
        private set

    override var palette = Palette.DAY
        private set

    override var parts = Parts(this, palette)
        private set

    override var notice: String? = null
    override var news: String? = null

    /** The page in front. */
    val front: Screen?
        get() = screen

    /** What was felt and said last. */
    val lastBeat: Beat?
        get() = feel.last

    val lastWords: String?
        get() = voice.last

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        feel = Feel(this)
        voice = Voice(this, ::voiceFailed)
        voice.language = Core.language(this)
        hardKeys = HardKeys({ millis, run -> window.decorView.postDelayed(run, millis) }, ::hard)
        touch = Touch(this) { sticker -> screen?.takeIf { it.touches }?.touched(sticker) }
        ear = Ear(this) { hardKeys.feed(it, settledAt) }
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) useCutouts()
        useBack()
        val there = Core.opened(this)
        if (there == null) open(state) else begin(there, state)
    }

    /**
     * The store is opened beside the main thread, and the page says so. What is asked for meanwhile waits.
     */
    private fun open(state: Bundle?) {
        isOpening = true
        left = state
        working(R.string.opening)
        Core.slow.execute {
            val opened =
                try {
                    Result.success(Core.of(this))
                } catch (e: HandheldException) {
                    Result.failure(e)
                }
            runOnUiThread {
                isOpening = false
                if (!isDestroyed) opened.fold({ begin(it, state) }, { stop((it as HandheldException).words) })
            }
        }
    }

    private fun working(words: Int) =
        setContentView(SafeArea(this, palette).apply { addView(WorkingPage(parts).build(words)) })

    private fun begin(opened: Handheld, state: Bundle?) {
        core = opened
        palette = Palette.entries.firstOrNull { it.name == preference(PALETTE) } ?: Palette.DAY
        parts = Parts(this, palette)
        val there = KeptPlaces.load(KeptPlaces.buildOf(this), state)
        // a turn of the phone while a bundle is read: what holds the core is not asked for a page
        val busy = Slow.at != null && there.isNotEmpty()
        places += there.ifEmpty { beginning() }
        if (busy) working(R.string.working_words) else show()
        Slow.attach(this)
        // a saved state is a page that was left, not a new wish
        if (state == null) intent?.let { whenOpen { asked(it) } }
        doWaiting()
    }

    /** At once, or when the store is open and nothing slow is under way. */
    private fun whenOpen(job: () -> Unit) {
        if (places.isEmpty() || Slow.at != null) waiting += job else job()
    }

    private fun doWaiting() {
        val jobs = waiting.toList()
        waiting.clear()
        for (job in jobs) whenOpen(job)
    }

    /**
     * The start; over it the run whose clock goes on, or the walk that was in the middle of being walked, if
     * there is one.
     */
    private fun beginning(): List<Place> {
        val start = Place.Start
        val runs = openRuns()
        if (runs.size == 1) return listOf(start, Place.Exams, Place.Walk(WalkRef.Run(runs.first().run)))
        val walking = attempt { core.start() }?.inHand?.filter { it.state == "walking" }.orEmpty()
        return if (walking.size == 1) listOf(start, Place.Walk(WalkRef.Inspection(walking.first().walk)))
        else listOf(start)
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
        if (places.isEmpty()) left?.let(state::putAll)
        else KeptPlaces.save(places, KeptPlaces.buildOf(this), state)
    }

    override fun onResume() {
        super.onResume()
        resumed = true
        touch.listen(screen?.touches == true)
        screen?.shown()
    }

    override fun onPause() {
        resumed = false
        touch.listen(false)
        screen?.hidden()
        voice.hush()
        super.onPause()
    }

    override fun onDestroy() {
        Slow.detach(this)
        ear.listen(false)
        voice.close()
        super.onDestroy()
    }

    override fun onRequestPermissionsResult(code: Int, permissions: Array<out String>, results: IntArray) {
        super.onRequestPermissionsResult(code, permissions, results)
        if (results.firstOrNull() == android.content.pm.PackageManager.PERMISSION_GRANTED) whenOpen(::redraw)
    }

    @Deprecated("Deprecated in Java")
    override fun onActivityResult(code: Int, result: Int, data: Intent?) {
        super.onActivityResult(code, result, data)
        val at = data?.data ?: return
        if (result == RESULT_OK && code in setOf(PICK_IN, PICK_OUT, PICK_LISTS))
            whenOpen { FileScreen.picked(this, code, at) }
    }

    override fun onNewIntent(intent: Intent) {
        super.onNewIntent(intent)
        whenOpen { asked(intent) }
    }

    /** What another program or a shortcut asks for: a bundle to take in, or a page. */
    private fun asked(intent: Intent) {
        when (intent.action) {
            Intent.ACTION_VIEW ->
                intent.data?.let {
                    backTo(Place.Start::class)
                    FileScreen.take(this, it)
                }
            INSPECT -> {
                backTo(Place.Start::class)
                go(Place.Scan(Purpose.Inspect))
            }
            HOOK -> {
                backTo(Place.Start::class)
                go(Place.Hook())
            }
            ARRIVAL -> {
                backTo(Place.Start::class)
                go(Place.Scan(Purpose.Arrival))
            }
        }
    }

    private fun make(place: Place): Screen = Screens.of(this, place)

    private fun show(speak: Boolean = true) {
        screen?.hidden()
        standing = null
        val next = make(places.last())
        screen = next
        val told = draw(next)
        // one breath: a page that is spoken right after a refusal would cut it short
        if (speak && speaks)
            listOfNotNull(told, next.spoken).takeIf { it.isNotEmpty() }?.let { say(it.joinToString(" ")) }
        if (!isFinishing && hasWindowFocus()) next.shown()
        else window.decorView.post { if (screen === next) next.shown() }
    }

    /** Draws a page; gives the line that stands at its head because of what was done before. */
    private fun draw(screen: Screen): String? {
        val area = SafeArea(this, palette)
        if (notice == null && news == null) notice = standing
        val view = if (Slow.at == null) screen.whole() else WorkingPage(parts).build()
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) nameThePane(area, screen)
        val told = (notice ?: news).takeIf { it != standing }
        notice = null
        news = null
        area.addView(view)
        setContentView(area)
        settledAt = SystemClock.uptimeMillis() + PressGuard.SETTLE
        dress(screen)
        area.requestApplyInsets()
        return told
    }

    /** A screen reader says which page came. */
    @NewerAndroid
    private fun nameThePane(area: View, screen: Screen) {
        area.accessibilityPaneTitle = screen.paneTitle
    }

    private fun dress(screen: Screen) {
        ear.listen(takesHardKeys || takesEarKeys)
        // the reader wants an activity that is in front
        touch.listen(resumed && screen.touches)
        if (screen.secret) window.addFlags(WindowManager.LayoutParams.FLAG_SECURE)
        else window.clearFlags(WindowManager.LayoutParams.FLAG_SECURE)
        if (screen.staysOn) window.addFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
        else window.clearFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
        val attributes = window.attributes
        attributes.screenBrightness =
            when {
                // the keyboard is another program's and knows no red: the whole screen is dimmed for it
                palette == Palette.NIGHT && screen.types -> 0.05f
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
        window.attributes =
            window.attributes.apply {
                layoutInDisplayCutoutMode =
                    WindowManager.LayoutParams.LAYOUT_IN_DISPLAY_CUTOUT_MODE_SHORT_EDGES
            }
    }

    @NewerAndroid
    private fun newerBars(screen: Screen) {
        window.setDecorFitsSystemWindows(false)
        val bars = window.insetsController ?: return
        val light =
            WindowInsetsController.APPEARANCE_LIGHT_STATUS_BARS or
                WindowInsetsController.APPEARANCE_LIGHT_NAVIGATION_BARS
        bars.setSystemBarsAppearance(if (palette.lightPage) light else 0, light)
        bars.systemBarsBehavior = WindowInsetsController.BEHAVIOR_SHOW_TRANSIENT_BARS_BY_SWIPE
        val kinds = android.view.WindowInsets.Type.systemBars()
        if (screen.hidesBars) bars.hide(kinds) else bars.show(kinds)
    }

    @Suppress("DEPRECATION")
    private fun olderBars(screen: Screen) {
        var flags =
            View.SYSTEM_UI_FLAG_LAYOUT_STABLE or
                View.SYSTEM_UI_FLAG_LAYOUT_FULLSCREEN or
                View.SYSTEM_UI_FLAG_LAYOUT_HIDE_NAVIGATION
        if (palette.lightPage)
            flags = flags or View.SYSTEM_UI_FLAG_LIGHT_STATUS_BAR or View.SYSTEM_UI_FLAG_LIGHT_NAVIGATION_BAR
        if (screen.hidesBars)
            flags =
                flags or
                    View.SYSTEM_UI_FLAG_FULLSCREEN or
                    View.SYSTEM_UI_FLAG_HIDE_NAVIGATION or
                    View.SYSTEM_UI_FLAG_IMMERSIVE_STICKY
        window.decorView.systemUiVisibility = flags
    }

    // where the person is

    override fun go(place: Place) {
        places += place
        show()
    }

    override fun keep(place: Place) {
        places[places.lastIndex] = place
    }

    override fun swap(place: Place) {
        if (places.size > 1) places.removeAt(places.size - 1)
        go(place)
    }

    override fun backTo(page: KClass<out Place>) {
        while (places.size > 1 && !page.isInstance(places.last())) places.removeAt(places.size - 1)
        show()
    }

    override fun back() {
        // what is under way is told where it was begun
        if (Slow.at != null) return
        if (places.size > 1) {
            places.removeAt(places.size - 1)
            show()
        } else {
            finish()
        }
    }

    override fun lies(page: KClass<out Place>) = places.any(page::isInstance)

    override fun redraw() = show()

    override fun redrawSame() {
        if (screen == null && Slow.at != null) return
        val told = (screen ?: return show()).let(::draw) ?: return
        if (speaks) say(told)
    }

    /** From API 33 on the system asks this callback; before that it calls [onBackPressed]. */
    private fun useBack() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) newerBack()
    }

    @NewerAndroid
    private fun newerBack() {
        val callback = OnBackInvokedCallback { back() }
        onBackInvokedDispatcher.registerOnBackInvokedCallback(
            OnBackInvokedDispatcher.PRIORITY_DEFAULT,
            callback,
        )
        backCallback = callback
    }

    @Deprecated("Deprecated in Java") override fun onBackPressed() = back()

    override fun dispatchTouchEvent(event: MotionEvent): Boolean {
        val sifted = oneFinger.sift(event) ?: return true
        return super.dispatchTouchEvent(sifted).also { if (sifted !== event) sifted.recycle() }
    }

    // what is felt, said and heard

    override fun feel(beat: Beat) = feel.play(beat)

    override fun say(words: String) = voice.say(words)

    /** Whoever listens and hears nothing must know that nothing is coming; told once. */
    private fun voiceFailed() {
        if (voiceTold) return
        voiceTold = true
        standing = getString(R.string.voice_fails)
        window.decorView.post { redrawSame() }
    }

    override fun dispatchKeyEvent(event: KeyEvent): Boolean {
        val ours = takesHardKeys || takesEarKeys && event.keyCode in HardKeys.AT_THE_EAR
        if (ours && hardKeys.feed(event, settledAt)) return true
        return super.dispatchKeyEvent(event)
    }

    private val takesHardKeys
        get() = screen?.takesHardKeys == true && Slow.at == null && hardKeysOn

    private val takesEarKeys
        get() = screen?.takesEarKeys == true && Slow.at == null && hardKeysOn

    private fun hard(answer: HardAnswer) {
        if (takesHardKeys || takesEarKeys) screen?.hard(answer)
    }

    // the core

    override fun <T : Any> attempt(job: () -> T): T? =
        try {
            job()
        } catch (e: HandheldException) {
            notice = e.words
            null
        }

    override fun <T> work(job: () -> T, done: Shell.(T) -> Unit) {
        if (!Slow.begin(this, places.last(), job, done)) return
        // the hand knows that the press was taken, while the PIN is stretched
        feel(Beat.READ)
        if (Slow.at != null) redrawSame()
    }

    override fun worked(result: Result<Any?>, then: (Any?) -> Unit) {
        result.onSuccess(then).onFailure {
            notice = (it as HandheldException).words
            feel(Beat.REFUSED)
            redrawSame()
        }
        doWaiting()
    }

    private fun preference(name: String): String? = attempt { Core.choice(name) }?.ifEmpty { null }

    override var speaks: Boolean
        get() = preference(VOICE) == "on"
        set(value) {
            attempt { Core.choose(VOICE, if (value) "on" else "off") }
        }

    override fun changePalette(palette: Palette) {
        attempt { Core.choose(PALETTE, palette.name) }
        this.palette = palette
        parts = Parts(this, palette)
        redraw()
    }

    override val untouched
        get() = touch.missing

    override var hardKeysOn: Boolean
        get() = preference(HARD_KEYS) == "on"
        set(value) {
            attempt { Core.choose(HARD_KEYS, if (value) "on" else "off") }
        }

    companion object {
        /** What the program's shortcuts ask for. */
        const val INSPECT = "slingseal.handheld.INSPECT"
        const val HOOK = "slingseal.handheld.HOOK"
        const val ARRIVAL = "slingseal.handheld.ARRIVAL"

        /** The code of the question for the camera. */
        const val ASK_CAMERA = 1
        private const val HARD_KEYS = "hard keys"
        private const val PALETTE = "palette"
        private const val VOICE = "voice"
    }
}
