package slingseal.handheld

import android.app.Activity
import android.content.Intent
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.os.SystemClock
import android.view.KeyEvent
import android.view.MotionEvent
import kotlin.reflect.KClass
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Parts
import slingseal.handheld.look.PressGuard
import slingseal.handheld.places.KeptPlaces
import slingseal.handheld.places.Place
import slingseal.handheld.places.PlaceStack
import slingseal.handheld.screens.FileScreen
import slingseal.handheld.screens.PICK_IN
import slingseal.handheld.screens.PICK_LISTS
import slingseal.handheld.screens.PICK_OUT
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Ear
import slingseal.handheld.sense.Feel
import slingseal.handheld.sense.Voice

/** The one activity: holds the pages that lie open, and the hands, ears and voice of the phone. */
class HandheldActivity : Activity(), Shell {
    private val places = PlaceStack()
    private var screen: Screen? = null
    private var settledAt = 0L
    private lateinit var feel: Feel
    private lateinit var voice: Voice
    private lateinit var hands: Hands
    private var resumed = false
    private var voiceTold = false

    /** A line that stays as long as its page does, whatever draws that anew. */
    private var standing: String? = null

    /** Kept as long as the system may ask it. */
    private var backCallback: Any? = null

    /** Whether the store is being opened, and what is done when it is. */
    internal var isOpening = false
        private set

    private val waiting = ArrayList<() -> Unit>()
    private var left: Bundle? = null

    /** The button of a headset. */
    val ear: Ear
        get() = hands.ear

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

    private val glass = Glass(this)
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
        hands = Hands(this, { screen }, { settledAt })
        glass.useCutouts()
        backCallback = SystemBack.listen(this, ::pressedBack)
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
        if (Core.opened(this) == null) glass.working(R.string.opening) else glass.blank()
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

    private fun begin(opened: Handheld, there: List<Place>, state: Bundle?) {
        core = opened
        palette = Palette.entries.firstOrNull { it.name == Core.choice(Core.PALETTE) } ?: Palette.DAY
        parts = Parts(this, palette)
        places.begin(there)
        // a turn of the phone while a bundle is read: what holds the core is not asked for a page
        if (Slow.at != null) {
            glass.working(R.string.working_words)
        } else {
            glass.blank()
            show()
        }
        Slow.attach(this)
        // a saved state is a page that was left, not a new wish
        if (state == null) intent?.let { whenOpen { asked(it) } }
        doWaiting()
    }

    /** At once, or when the store is open and nothing slow is under way. */
    private fun whenOpen(job: () -> Unit) {
        if (places.isEmpty || busy) waiting += job else job()
    }

    private fun doWaiting() {
        val jobs = waiting.toList()
        waiting.clear()
        for (job in jobs) whenOpen(job)
    }

    /** The store cannot be opened: say what to do, and nothing else. */
    private fun stop(words: String) {
        notice = words
        glass.words(words)
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        typed?.let(state::putAll)
        if (places.isEmpty) left?.let(state::putAll)
        else KeptPlaces.save(places.all, KeptPlaces.buildOf(this), state)
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
        hands.resume()
        screen?.shown()
    }

    override fun onPause() {
        resumed = false
        hands.pause()
        screen?.hidden()
        voice.hush()
        Core.settle()
        super.onPause()
    }

    override fun onDestroy() {
        Slow.detach(this)
        hands.close()
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
        main.postDelayed(
            { if (coming === mine && !isDestroyed) glass.working(R.string.working_words) },
            Slow.GRACE,
        )
    }

    private fun read(mine: Any) {
        val place = places.last
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
        if (notice == null && news == null) notice = standing
        saidThatItWorks = Slow.shows
        val told = (notice ?: news).takeIf { it != standing }
        glass.page(screen, saidThatItWorks)
        notice = null
        news = null
        settledAt = SystemClock.uptimeMillis() + PressGuard.SETTLE
        hands.dress(resumed)
        return told
    }

    // where the person is

    override fun go(place: Place) {
        places.push(place)
        show()
    }

    override fun keep(place: Place) = places.keep(place)

    override fun swap(place: Place) {
        places.pop()
        go(place)
    }

    override fun backTo(page: KClass<out Place>) {
        places.backTo(page)
        show()
    }

    override fun back() {
        // what is under way is told where it was begun
        if (Slow.at != null) return
        if (places.pop()) show() else finish()
    }

    override fun lies(page: KClass<out Place>) = places.lies(page)

    override fun redraw() = show()

    override fun redrawSame() {
        // the page that comes tells it
        if (coming != null || screen == null && Slow.at != null) return
        val told = (screen ?: return show()).let(::draw) ?: return
        if (speaks) say(told)
    }

    @Deprecated("Deprecated in Java") override fun onBackPressed() = pressedBack()

    private fun pressedBack() {
        if (!busy) back()
    }

    override fun dispatchTouchEvent(event: MotionEvent) =
        hands.touched(event) { super.dispatchTouchEvent(it) }

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

    override fun dispatchKeyEvent(event: KeyEvent) = hands.keyed(event) || super.dispatchKeyEvent(event)

    // the core

    override fun <T : Any> attempt(job: () -> T): T? =
        try {
            job()
        } catch (e: HandheldException) {
            notice = e.words
            null
        }

    override fun <T> work(job: () -> T, done: Shell.(T) -> Unit) {
        if (!Slow.begin(this, places.last, Core.slow, quick = false, job, done)) return
        // the hand knows that the press was taken, while the PIN is stretched
        feel(Beat.READ)
        if (Slow.at != null) redrawSame()
    }

    override fun <T> ask(job: Handheld.() -> T, done: Shell.(T) -> Unit) {
        val core = core
        Slow.begin(this, places.last, Core.quick, quick = true, { core.job() }, done)
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
        get() = hands.untouched

    override var hardKeysOn: Boolean
        get() = Core.isOn(Core.HARD_KEYS)
        set(value) = choose(Core.HARD_KEYS, Core.switched(value))
}
