package slingseal.handheld

import android.app.Activity
import android.content.Intent
import android.os.Build
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.os.SystemClock
import android.view.KeyEvent
import android.view.MotionEvent
import android.view.View
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
import slingseal.handheld.look.StaleTouch
import slingseal.handheld.look.WorkingPage
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.PICK_IN
import slingseal.handheld.screens.PICK_LISTS
import slingseal.handheld.screens.PICK_OUT
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
    private val staleTouch = StaleTouch()
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

    /** Set while a page is read too, beside the main thread. */
    @Volatile override var notice: String? = null
    @Volatile override var news: String? = null

    private val windowDress by lazy { WindowDress(window) }
    private var saidThatItWorks = false

    /** Stands for the page that is being read; the newest alone is shown. */
    private var coming: Any? = null
    private val main = Handler(Looper.getMainLooper())

    /** What was typed before the phone was turned, until the page is there to be given it. */
    private var typed: Bundle? = null

    /** Whether something is awaited that takes no more than a moment. */
    internal val isReading
        get() = coming != null || Slow.quick

    override val busy
        get() = isOpening || coming != null || Slow.at != null

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
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) windowDress.useCutouts()
        useBack()
        val there = Core.opened(this)
        val places = KeptPlaces.load(KeptPlaces.buildOf(this), state)
        if (there == null || places.isEmpty()) open(state) else begin(there, places, state)
    }

    /**
     * The store is opened beside the main thread, and the page says so. What is asked for meanwhile waits.
     */
    private fun open(state: Bundle?) {
        isOpening = true
        left = state
        if (Core.opened(this) == null) working(R.string.opening) else blank()
        Core.slow.execute {
            val opened =
                try {
                    val core = Core.of(this)
                    val kept = KeptPlaces.load(KeptPlaces.buildOf(this), state)
                    Result.success(core to kept.ifEmpty { beginning(core) })
                } catch (e: HandheldException) {
                    Result.failure(e)
                }
            runOnUiThread {
                isOpening = false
                if (!isDestroyed)
                    opened.fold(
                        { (core, places) -> begin(core, places, state) },
                        { stop((it as HandheldException).words) },
                    )
            }
        }
    }

    /** The ground alone, for the moment in which the first page is read. */
    private fun blank() = setContentView(SafeArea(this, palette))

    private fun working(words: Int) =
        setContentView(SafeArea(this, palette).apply { addView(WorkingPage(parts).build(words)) })

    private fun begin(opened: Handheld, there: List<Place>, state: Bundle?) {
        core = opened
        palette = Palette.entries.firstOrNull { it.name == Core.choice(Core.PALETTE) } ?: Palette.DAY
        parts = Parts(this, palette)
        places += there
        // a turn of the phone while a bundle is read: what holds the core is not asked for a page
        if (Slow.at != null) {
            working(R.string.working_words)
        } else {
            blank()
            show()
        }
        Slow.attach(this)
        // a saved state is a page that was left, not a new wish
        if (state == null) intent?.let { whenOpen { asked(it) } }
        doWaiting()
    }

    /** At once, or when the store is open and nothing slow is under way. */
    private fun whenOpen(job: () -> Unit) {
        if (places.isEmpty() || busy) waiting += job else job()
    }

    private fun doWaiting() {
        val jobs = waiting.toList()
        waiting.clear()
        for (job in jobs) whenOpen(job)
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
        typed?.let(state::putAll)
        if (places.isEmpty()) left?.let(state::putAll)
        else KeptPlaces.save(places, KeptPlaces.buildOf(this), state)
    }

    override fun onRestoreInstanceState(state: Bundle) {
        typed = state
        if (screen != null) restore()
    }

    private fun restore() {
        typed?.let { super.onRestoreInstanceState(it) }
        typed = null
    }

    override fun onResume() {
        super.onResume()
        resumed = true
        if (coming != null) return
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

    /**
     * The page of the place that is last: read beside the main thread, then drawn. Until then the one that is
     * seen stays, and takes nothing.
     */
    private fun show() {
        screen?.hidden()
        standing = null
        // whatever goes down before the new page has settled is no answer to it
        settledAt = Long.MAX_VALUE
        val mine = Any()
        coming = mine
        // where a step goes back and on at once, the last page alone is read
        main.post { if (coming === mine) read(mine) }
        main.postDelayed({ if (coming === mine && !isDestroyed) working(R.string.working_words) }, Slow.GRACE)
    }

    private fun read(mine: Any) {
        val place = places.last()
        Core.quick.execute {
            val next = runCatching { Screens.of(this, place).apply { read() } }
            main.post { if (coming === mine && !isDestroyed) came(next.getOrThrow()) }
        }
    }

    private fun came(next: Screen) {
        coming = null
        screen = next
        val told = draw(next)
        restore()
        // one breath: a page that is spoken right after a refusal would cut it short
        if (speaks)
            listOfNotNull(told, next.spoken).takeIf { it.isNotEmpty() }?.let { say(it.joinToString(" ")) }
        // a page that comes while the phone is put down is shown when it is taken up again
        if (resumed && hasWindowFocus()) next.shown()
        else window.decorView.post { if (resumed && screen === next && coming == null) next.shown() }
        doWaiting()
    }

    /** Draws a page; gives the line that stands at its head because of what was done before. */
    private fun draw(screen: Screen): String? {
        val area = SafeArea(this, palette)
        if (notice == null && news == null) notice = standing
        saidThatItWorks = Slow.shows
        val view = if (saidThatItWorks) WorkingPage(parts).build() else screen.whole()
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
        windowDress.wear(screen, palette)
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
        // the page that comes tells it
        if (coming != null || screen == null && Slow.at != null) return
        val told = (screen ?: return show()).let(::draw) ?: return
        if (speaks) say(told)
    }

    /** From API 33 on the system asks this callback; before that it calls [onBackPressed]. */
    private fun useBack() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) newerBack()
    }

    @NewerAndroid
    private fun newerBack() {
        val callback = OnBackInvokedCallback { pressedBack() }
        onBackInvokedDispatcher.registerOnBackInvokedCallback(
            OnBackInvokedDispatcher.PRIORITY_DEFAULT,
            callback,
        )
        backCallback = callback
    }

    @Deprecated("Deprecated in Java") override fun onBackPressed() = pressedBack()

    private fun pressedBack() {
        if (!busy) back()
    }

    override fun dispatchTouchEvent(event: MotionEvent): Boolean {
        if (staleTouch.swallows(event, busy, ::cancelled)) return true
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

    private fun cancelled(end: MotionEvent) {
        oneFinger.sift(end)?.let { super.dispatchTouchEvent(it) }
    }

    override fun dispatchKeyEvent(event: KeyEvent): Boolean {
        val ours = takesHardKeys || takesEarKeys && event.keyCode in HardKeys.AT_THE_EAR
        if (ours && hardKeys.feed(event, settledAt)) return true
        return super.dispatchKeyEvent(event)
    }

    private val takesHardKeys
        get() = screen?.takesHardKeys == true && !Slow.shows && hardKeysOn

    private val takesEarKeys
        get() = screen?.takesEarKeys == true && !Slow.shows && hardKeysOn

    private fun hard(answer: HardAnswer) {
        if (!busy && (takesHardKeys || takesEarKeys)) screen?.hard(answer)
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
        if (!Slow.begin(this, places.last(), Core.slow, quick = false, job, done)) return
        // the hand knows that the press was taken, while the PIN is stretched
        feel(Beat.READ)
        if (Slow.at != null) redrawSame()
    }

    override fun <T> ask(job: Handheld.() -> T, done: Shell.(T) -> Unit) {
        val core = core
        Slow.begin(this, places.last(), Core.quick, quick = true, { core.job() }, done)
    }

    override fun refuse(words: String) {
        feel(Beat.REFUSED)
        val front = screen
        if (front == null || coming != null) notice = words else front.refused(words)
    }

    override fun worked(result: Result<Any?>, then: (Any?) -> Unit) {
        result.onSuccess(then).onFailure { refuse((it as HandheldException).words) }
        // no page goes on saying that it works
        if (saidThatItWorks && coming == null) redrawSame()
        doWaiting()
    }

    override fun choose(name: String, value: String) =
        Core.choose(name, value) { words -> main.post { if (!isDestroyed) refuse(words) } }

    override var speaks: Boolean
        get() = Core.isOn(Core.VOICE)
        set(value) = choose(Core.VOICE, Core.switched(value))

    override fun changePalette(palette: Palette) {
        choose(Core.PALETTE, palette.name)
        this.palette = palette
        parts = Parts(this, palette)
        redraw()
    }

    override val untouched
        get() = touch.missing

    override var hardKeysOn: Boolean
        get() = Core.isOn(Core.HARD_KEYS)
        set(value) = choose(Core.HARD_KEYS, Core.switched(value))

    companion object {
        /** What the program's shortcuts ask for. */
        const val INSPECT = "slingseal.handheld.INSPECT"
        const val HOOK = "slingseal.handheld.HOOK"
        const val ARRIVAL = "slingseal.handheld.ARRIVAL"

        /** The code of the question for the camera. */
        const val ASK_CAMERA = 1
    }
}
