package slingseal.handheld

import android.content.Intent
import android.os.Bundle
import android.view.KeyEvent
import android.view.MotionEvent
import android.view.WindowManager
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.FateView
import slingseal.core.FindingState
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.WalkRequest
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.look.Glove
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.Slots
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.DecideScreen
import slingseal.handheld.screens.PinScreen
import slingseal.handheld.screens.RiggingScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Watched
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN
import slingseal.handheld.support.see

/** What a gloved hand at the load can trust: decisions that go back, PINs that are tried once, palms that answer nothing. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class HandTest {
    private lateinit var zone: Zone

    /** The tag of the load that was walked to its decision. */
    private lateinit var tag: slingseal.core.CodeView
    private val core get() = Core.of(RuntimeEnvironment.getApplication())

    @Before
    fun newPhone() {
        Zone.newPhone()
        zone = Zone()
    }

    private fun onlyWalk() = core.walk(core.start().inHand.single().walk)

    private fun Screen.type(digits: String) = digits.forEach { press(key(it.toString()), settleFirst = false) }

    private val Screen.hand get() = activity as HandheldActivity

    /** A phone at the first page of the recap, everything answered good. */
    private fun atTheDecision(load: String = "KM-015"): Screen {
        zone.inspector()
        tag = zone.tag(load)
        var walk = core.beginWalk(tag.text)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        return open(walk.walk)
    }

    private fun open(walk: String): Screen {
        val screen = Screen(Zone.launch().get())
        screen.hand.backTo(PageKind.START)
        screen.hand.go(Place(PageKind.WALK, walk))
        screen.settle()
        return screen
    }

    private fun Screen.recap() {
        while (hasKey("Next")) press("Next")
    }

    @Test
    fun fitStandsBehindTheRecapAloneAndIsHeld() {
        val screen = atTheDecision()
        val stations = onlyWalk().stations
        for (station in stations) {
            assertFalse("fit before the recap was gone through", screen.keys().any { it.label.startsWith("Fit") })
            assertTrue("not fit stands on every page", screen.hasKey("Not fit"))
            screen.press("Next")
            assertTrue(screen.words(), screen.words().contains(station.title))
        }
        screen.press("Fit: hold")
        assertEquals("a tap is not enough", WalkStage.Walking, onlyWalk().stage)
        screen.press(screen.key("Fit: hold"), held = PressGuard.LONGEST + 2 * PressGuard.GRAVE)
        assertEquals("what rests on the glass says nothing", WalkStage.Walking, onlyWalk().stage)
        // the page of the recap outlives a turn of the phone, the decision is not nearer for it
        val page = screen.hand.front!!.place.args
        screen.hold("Fit: hold")
        assertEquals(WalkStage.Decided(true), onlyWalk().stage)
        assertEquals(stations.size.toString(), page[1])
    }

    @Test
    fun aDecisionIsTakenBackFromThePinFromTheStartAndByTheTag() {
        val screen = atTheDecision()
        fun decide() {
            screen.recap()
            screen.hold("Fit: hold")
            assertTrue(screen.hand.front is PinScreen)
        }
        decide()
        screen.press("Undo")
        assertEquals(Beat.UNDONE, screen.hand.lastBeat)
        assertEquals(WalkStage.Walking, onlyWalk().stage)
        assertTrue("the recap begins anew", screen.hand.front is DecideScreen && !screen.hasKey("Fit: hold"))

        decide()
        screen.press("Back")
        assertTrue(screen.words(), screen.keys().any { "to be sealed" in it.contentDescription })
        screen.press("KM-015")
        screen.press("Undo")
        assertEquals(WalkStage.Walking, onlyWalk().stage)

        decide()
        screen.press("Back")
        Zone.camera()
        screen.press("Inspect a load")
        screen.hand.see(Zone.camera(tag))
        screen.press("Begin the inspection")
        screen.press("Undo")
        assertEquals(WalkStage.Walking, onlyWalk().stage)
        screen.press("Not fit")
        screen.press("Weather or ground")
        assertEquals(WalkStage.Decided(false), onlyWalk().stage)
        screen.type(PIN)
        screen.press("Seal it")
        assertFalse(core.records(null, 1u).single().fit)
        assertTrue(core.record(core.records(null, 1u).single().record).timeline.any { it.what == "Decided not fit: Weather or ground" })
    }

    @Test
    fun withADeficiencyOpenNotFitIsOneKeyAndTheRecapShowsEveryFinding() {
        zone.inspector()
        var walk = core.beginWalk(zone.tag().text)
        val names = mutableListOf<String>()
        fun find(walk: WalkView): WalkView {
            val card = walk.card!!
            val point = card.points.first { point -> point.deficiencies.isNotEmpty() }
            names += point.deficiencies.first().shown
            return core.doWalk(walk.walk, WalkRequest.Deficiency(card.number, point.id, point.deficiencies.first().name, null, emptyList()))
        }
        walk = find(walk)
        walk = core.doWalk(walk.walk, Zone.answer(walk))
        walk = find(walk)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        val screen = open(walk.walk)
        screen.press("Not fit")
        assertEquals("one key, no words", WalkStage.Decided(false), onlyWalk().stage)
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)
        screen.press("Undo")
        for (finding in walk.findings.filter { it.inPlace }) {
            core.doWalk(walk.walk, WalkRequest.PutRight(finding.number, null, null, emptyList()))
            core.doWalk(walk.walk, WalkRequest.LookAgain(finding.number, true, null, null, emptyList()))
        }
        if (onlyWalk().findings.all { it.state == FindingState.CLOSED }) {
            screen.hand.redraw()
            screen.settle()
            for (name in names) assertTrue(screen.words(), screen.words().contains(name))
        }
        assertEquals(2, names.size)
    }

    @Test
    fun thePinPageWorksTakesNoSecondPressAndSurvivesATurn() {
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        val queue = mutableListOf<Runnable>()
        val usual = Core.slow
        Core.slow = java.util.concurrent.Executor { queue += it }
        try {
            screen.type(PIN)
            val (x, y) = screen.middle(screen.key("Seal it"))
            screen.settle()
            fun tap() {
                screen.touch(MotionEvent.ACTION_DOWN, x, y)
                screen.settle(200)
                screen.touch(MotionEvent.ACTION_UP, x, y)
                screen.settle()
            }
            tap()
            assertTrue(screen.words(), screen.words().contains("Working"))
            tap()
            screen.hand.back()
            assertEquals("one press, one try", 1, queue.size)
            assertTrue(screen.words(), screen.words().contains("Working"))

            // turned while the PIN is stretched: the new activity works on, and is told; of what holds the core nothing is asked
            Watched.held = true
            val turned = Robolectric.buildActivity(HandheldActivity::class.java).setup(Bundle().also { Place.saveAll(listOf(Place(PageKind.START), Slow.at!!), it) })
            val after = Screen(turned.get())
            after.settle()
            assertTrue(after.words(), after.words().contains("Working"))
            Watched.held = false
            queue.single().let { job -> Thread(job).also { it.start(); it.join() } }
            after.settle()
            assertEquals(PageKind.SEAL, turned.get().front!!.place.page)
            assertEquals(1, core.records(null, 10u).size)
        } finally {
            Core.slow = usual
        }
    }

    @Test
    fun aWrongPinCostsOneTry() {
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        repeat(2) {
            screen.type("000000")
            screen.press("Seal it")
            assertTrue(screen.words(), screen.words().contains("PIN is wrong", ignoreCase = true))
            assertEquals("typed anew", 0, screen.shown().filterIsInstance<Slots>().single().filled)
        }
        assertEquals("two tries cost no wait; the third does", null, core.setUp().pinLockedUntil)
        screen.press("Seal it")
        assertEquals("no digits are no try", null, core.setUp().pinLockedUntil)
        screen.type("000000")
        screen.press("Seal it")
        assertNotEquals(null, core.setUp().pinLockedUntil)
    }

    /** What stretches a PIN or reads a file is not called by whoever draws the screen. */
    @Test
    fun noSlowCallOnTheMainThread() {
        val screen = atTheDecision()
        val threads = mutableListOf<String>()
        val usual = Core.slow
        Core.slow = java.util.concurrent.Executor { job -> usual.execute { threads += Thread.currentThread().name; job.run() } }
        try {
            screen.recap()
            screen.hold("Fit: hold")
            screen.type(PIN)
            screen.press("Seal it")
            assertEquals(1, core.records(null, 10u).size)
            assertEquals(1, threads.size)
            assertNotEquals(Thread.currentThread().name, threads.single())
        } finally {
            Core.slow = usual
        }
        // and nowhere in the sources: each slow call stands inside shell.work, or off the main thread by its name
        val slow = Regex("core\\.(seal|void|makeKey|examLock|examReveal|examScore|addPhoto|bundleIn|bundleOut|movingBegin|report\\(request\\(\\), pin)\\b")
        var seen = 0
        for (file in java.io.File("src/main/kotlin").walk().filter { it.extension == "kt" }) {
            val lines = file.readLines()
            for ((at, line) in lines.withIndex().filter { slow.containsMatchIn(it.value) }) {
                // inside a block that `work` was given and that is not closed before
                val block = lines.take(at + 1).takeLast(8).joinToString("\n").substringAfterLast("work({", "")
                assertTrue("${file.name}: $line", block.isNotEmpty() && "})" !in block.substringBefore(slow.find(line)!!.value))
                seen += 1
            }
        }
        assertTrue("$seen", seen >= 8)
    }

    /** The watch itself: a page that seals on the main thread would end its test. */
    @Test
    fun theWatchSeesASlowCallOnTheMainThread() {
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        val watched = screen.hand.core
        assertTrue("every phone under test is under it", watched is Watched)
        val caught = runCatching { slingseal.handheld.screens.MainThreadTrial.movingBegin(watched) }.exceptionOrNull()
        assertTrue("$caught", caught is IllegalStateException && "movingBegin on the main thread" in caught.message.orEmpty())
        // and lets the same call pass beside it, with the core's own words when it fails
        val beside = java.util.concurrent.Executors.newSingleThreadExecutor()
        beside.submit { slingseal.handheld.screens.MainThreadTrial.movingBegin(watched) }.get()
        val refused = beside.submit<Throwable?> { runCatching { watched.seal("no such walk", "000000", null) }.exceptionOrNull() }.get()
        assertTrue("$refused", refused is slingseal.core.HandheldException)
    }

    /** The store is opened beside the main thread; what was asked for meanwhile is done when it is open. */
    @Test
    fun theStoreIsOpenedBesideTheMainThread() {
        zone.inspector()
        Core.close()
        val queue = mutableListOf<Runnable>()
        val usual = Core.slow
        Core.slow = java.util.concurrent.Executor { queue += it }
        try {
            val controller = Robolectric.buildActivity(HandheldActivity::class.java).setup()
            val activity = controller.get()
            assertTrue(activity.isOpening && activity.front == null)
            controller.newIntent(Intent(HandheldActivity.HOOK))
            assertEquals(1, queue.size)
            val from = Thread(queue.single())
            from.start()
            from.join()
            org.robolectric.Shadows.shadowOf(android.os.Looper.getMainLooper()).idle()
            assertFalse(activity.isOpening)
            assertEquals("the shortcut was not forgotten", PageKind.HOOK, activity.front!!.place.page)
        } finally {
            Core.slow = usual
        }
    }

    /** 19 mm a key where gloves are worn (MIL-STD-1472E, 5.4.2.1): 120 dp, on a small phone too, both ways up. */
    @Test
    fun pinKeysAreOfGloveSizeAndOnTheWholePage() {
        RuntimeEnvironment.setQualifiers("w360dp-h640dp-port-xhdpi")
        val screen = atTheDecision()
        screen.recap()
        screen.hold("Fit: hold")
        fun padIsOfGloveSize(of: Screen) {
            val density = of.activity.resources.displayMetrics.density
            val pad = of.keys().filter { it.label.length == 1 || it.label in listOf("Erase", "Seal it") }
            assertEquals(12, pad.size)
            for (key in pad) {
                val box = of.box(key)
                assertTrue("${key.label}: ${box.width() / density} x ${box.height() / density}", box.width() >= Glove.KEY * density && box.height() >= Glove.KEY * density)
            }
        }
        padIsOfGloveSize(screen)
        assertTrue("and it says which load", screen.words().contains("load KM-015"))
        RuntimeEnvironment.setQualifiers("w640dp-h360dp-land-xhdpi")
        val aside = open(onlyWalk().walk)
        padIsOfGloveSize(aside)
        assertTrue("no picture of it is taken", screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE != 0)
        screen.press("Back")
        assertTrue(screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE == 0)
    }

    /** Whoever can read it off the screen has compared nothing: it is nowhere on the page, nor among what the page was given. */
    @Test
    fun anAuthorityIsTrustedByWhatIsHeardAlone() {
        val launched = Zone.launch()
        val screen = Screen(launched.get())
        val authority = zone.desk.authority()
        Zone.camera()
        screen.hand.go(Place(PageKind.SET_UP))
        screen.settle()
        screen.press("Scan a code")
        screen.hand.see(Zone.camera(authority.card))
        assertEquals(PageKind.TRUST, screen.hand.front!!.place.page)
        fun untold() {
            val told = screen.words() + screen.shown().map { it.contentDescription ?: "" } + screen.hand.front!!.spoken + screen.hand.front!!.place.args.drop(1)
            for (group in authority.fingerprint.split(' ')) assertFalse(told, group in told)
        }
        untold()

        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("Five groups are wanted"))
        assertTrue(core.setUp().authorities.isEmpty())

        // one digit was heard wrong
        val last = authority.fingerprint.last()
        val wrong = authority.fingerprint.dropLast(1) + if (last == '9') '0' else last + 1
        screen.hear(wrong)
        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("the fingerprint does not match"))
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        untold()
        assertTrue(core.setUp().authorities.isEmpty())

        // a turn of the phone in the middle keeps what was heard; a slip is taken back
        val said = authority.fingerprint.filter { it != ' ' }
        screen.hear(said.take(6))
        screen.press("Erase")
        val state = Bundle().also { launched.saveInstanceState(it) }
        val after = Screen(Robolectric.buildActivity(HandheldActivity::class.java).setup(state).get())
        after.settle()
        after.hear(said.drop(5))
        after.press("Compare")
        assertEquals(authority.fingerprint, core.setUp().authorities.single().fingerprint)
        assertTrue(after.words(), after.words().contains("Sela Relief is trusted here"))
    }

    @Test
    fun aSecondAuthorityOfTheNameIsTrustedOnlyByOneWhoWasToldSo() {
        zone.meet(core)
        val other = zone.core("other desk").also { it.authorityInit("Sela Relief", Zone.PASSPHRASE, emptyList()) }.authority()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place(PageKind.TRUST, other.card.text, other.name, ""))
        screen.settle()
        screen.hear(other.fingerprint)
        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("is trusted here already") && screen.words().contains(zone.desk.authority().fingerprint))
        assertEquals(1, core.setUp().authorities.size)
        screen.press("Trust both")
        assertEquals(2, core.setUp().authorities.size)
    }

    /** A walk at the first card that has a point which `is` what is wanted. */
    private fun walkTo(tag: slingseal.core.CodeView, wanted: (slingseal.core.PointView) -> Boolean): WalkView {
        var walk = core.beginWalk(tag.text)
        while (walk.card!!.points.none(wanted)) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        return walk
    }

    @Test
    fun whatDoesNotApplyIsSaidWithAReason() {
        zone.inspector()
        val walk = walkTo(zone.tag()) { it.mayNotApply }
        val point = walk.card!!.points.first { it.mayNotApply }
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press("Does not apply")
        assertTrue(screen.words(), screen.words().contains(point.prompt))
        screen.press("It is on the other half")
        val answered = onlyWalk().let { core.doWalk(it.walk, WalkRequest.GoTo(walk.card!!.number)) }.card!!.points.first { it.id == point.id }
        assertEquals(PointState.GOOD, answered.state)
        assertTrue(answered.answer.orEmpty(), answered.answer.orEmpty().contains("It is on the other half"))
        assertEquals(Beat.GOOD, screen.hand.lastBeat)

        // and in words of one's own; no words are none
        screen.hand.redraw()
        screen.settle()
        screen.press("Undo")
        screen.press("Deficiency")
        screen.press("Does not apply")
        screen.press("In your own words")
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("short strap, no adjuster")
        screen.press("Take it")
        val again = core.doWalk(walk.walk, WalkRequest.GoTo(walk.card!!.number)).card!!.points.first { it.id == point.id }
        assertTrue(again.answer.orEmpty(), again.answer.orEmpty().contains("short strap, no adjuster"))
    }

    @Test
    fun aRejectedPieceGoesByItsSerialNumber() {
        zone.inspector()
        fun rejecting(point: slingseal.core.PointView) = point.deficiencies.any { it.fate == FateView.REJECT }
        val walk = walkTo(zone.tag(), ::rejecting)
        val point = walk.card!!.points.first(::rejecting)
        val bad = point.deficiencies.first { it.fate == FateView.REJECT }
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press(screen.keys().first { it.label == bad.shown })
        screen.press("Reject the piece")
        assertFalse("nothing of it is put right on the spot", screen.hasKey("It is corrected"))
        screen.press(screen.keys().first { it.label == "Reject the piece" || it.label == "Another serial number" })
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("BG-0417")
        screen.press("Take it")
        assertEquals("BG-0417", onlyWalk().findings.single().piece)
        assertTrue(screen.words(), screen.words().contains("BG-0417") && screen.words().contains("out of service"))
    }

    @Test
    fun aPalmAnswersNothing() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.settle()
        val good = screen.middle(screen.key("All good"))
        val bad = screen.middle(screen.key("Deficiency"))
        val nowhere = screen.root.width / 2f to screen.root.height / 2f
        fun two(first: Pair<Float, Float>, second: Pair<Float, Float>) {
            screen.settle()
            screen.fingers(MotionEvent.ACTION_DOWN, first)
            screen.settle(60)
            screen.fingers(MotionEvent.ACTION_POINTER_DOWN or (1 shl MotionEvent.ACTION_POINTER_INDEX_SHIFT), first, second)
            screen.settle(200)
            screen.fingers(MotionEvent.ACTION_POINTER_UP or (1 shl MotionEvent.ACTION_POINTER_INDEX_SHIFT), first, second)
            screen.settle(200)
            screen.fingers(MotionEvent.ACTION_UP, first)
            screen.settle()
        }
        fun untouched(why: String) {
            assertTrue(why, screen.hand.front is CardScreen)
            assertEquals(why, 1u, onlyWalk().card!!.number)
        }
        two(good, bad)
        untouched("two keys at once")
        two(nowhere, good)
        untouched("a palm beside a finger")
        two(good, nowhere)
        untouched("a finger beside a palm")
        screen.press(screen.key("All good"), held = PressGuard.LONGEST + PressGuard.HOLD + 500)
        untouched("what rests on a key")
        screen.press("All good")
        assertEquals("one finger answers", 2u, onlyWalk().card!!.number)
    }

    @Test
    fun hardKeysAreOffUntilSwitchedOnAndVolumeStaysVolumeOnAVerdict() {
        zone.inspector()
        val tag = zone.tag()
        val walk = core.beginWalk(tag.text)
        val screen = open(walk.walk)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        assertEquals("off out of the box", 1u, onlyWalk().card!!.number)
        assertFalse(screen.hand.ear.listening)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 100)
        assertEquals("a brush", 1u, onlyWalk().card!!.number)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        assertEquals(2u, onlyWalk().card!!.number)

        val seal = Zone.sealed(core, zone.tag("KM-016"))
        screen.hand.go(Place(PageKind.HOOK, seal.code.text, zone.tag("KM-016").text))
        screen.settle()
        for (code in listOf(KeyEvent.KEYCODE_VOLUME_UP, KeyEvent.KEYCODE_VOLUME_DOWN)) screen.hardKey(code, 300)
        assertEquals("a verdict stands until somebody presses the glass", PageKind.HOOK, screen.hand.front!!.place.page)
        assertFalse("the volume is the system's", screen.hand.front!!.takesHardKeys)
        assertTrue("nothing was reported by them", core.movements("KM-016").isEmpty())
    }

    /** A headset by radio speaks to the media session. */
    @Test
    fun aHeadsetByRadioAnswersThroughTheMediaSession() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        assertTrue(screen.hand.ear.listening)
        fun button(code: Int) {
            screen.settle()
            val at = android.os.SystemClock.uptimeMillis()
            for (action in listOf(KeyEvent.ACTION_DOWN, KeyEvent.ACTION_UP)) {
                screen.hand.ear.callback.onMediaButtonEvent(Intent(Intent.ACTION_MEDIA_BUTTON).putExtra(Intent.EXTRA_KEY_EVENT, KeyEvent(at, at + 80, action, code, 0)))
            }
            screen.settle(600)
        }
        button(KeyEvent.KEYCODE_MEDIA_PLAY)
        assertEquals(2u, onlyWalk().card!!.number)
        button(KeyEvent.KEYCODE_MEDIA_PREVIOUS)
        assertEquals("back", 1u, onlyWalk().card!!.number)
        button(KeyEvent.KEYCODE_MEDIA_NEXT)
        assertEquals(PageKind.PICK, screen.hand.front!!.place.page)
    }

    @Test
    fun countsAreAskedTheNumberFirst() {
        zone.inspector()
        var walk = core.beginWalk(zone.tag().text)
        fun count(view: WalkView) = view.card?.points?.firstOrNull { it.kind is PointKind.Count && it.state == PointState.UNANSWERED }
        while (count(walk) == null) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        val screen = open(walk.walk)
        assertFalse("not good before it is counted", screen.hasKey("All good"))
        screen.press("Count")
        assertTrue(screen.hand.front is ValueScreen)
        val wanted = slingseal.handheld.support.counted(count(walk)!!.id).toInt()
        assertFalse(screen.words(), Regex("[Mm]ust be|wanted").containsMatchIn(screen.words()))
        screen.type(wanted.toString())
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Counted $wanted"))
    }

    @Test
    fun aLinkThatDiffersIsADeficiencyAndChangesTheStatics() {
        zone.inspector()
        var walk = core.beginWalk(zone.vehicleTag().text)
        fun links(view: WalkView) = view.card?.points?.firstOrNull { it.kind is PointKind.Count && it.state == PointState.UNANSWERED }
        while (links(walk) == null) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        val planned = walk.rigging
        val screen = open(walk.walk)
        screen.press("Count")
        val wanted = slingseal.handheld.support.counted(links(walk)!!.id).toInt()
        screen.type((wanted + 4).toString())
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Counted ${wanted + 4}, wanted $wanted: noted as a deficiency"))
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)
        val after = core.walk(walk.walk)
        assertNotEquals(planned, after.rigging)
        assertTrue(screen.words(), screen.words().contains(after.linkChange!!))
        screen.press("More")
        screen.press(screen.keys().first { it.label == "Rigging" })
        assertTrue(screen.hand.front is RiggingScreen)
        assertTrue(screen.shown().any { it is android.widget.ImageView && it.contentDescription.isNotEmpty() })
    }

    @Test
    fun theLoadStandsOverEveryPageOfItsInspection() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag("KM-071").text)
        val card = walk.card!!
        val point = card.points.first { it.deficiencies.isNotEmpty() }
        val screen = open(walk.walk)
        val places = listOf(
            Place(PageKind.WALK, walk.walk),
            Place(PageKind.MORE, walk.walk),
            Place(PageKind.CARDS, walk.walk),
            Place(PageKind.FINDINGS, walk.walk),
            Place(PageKind.PICK, walk.walk, "1"),
            Place(PageKind.DEFICIENCY, walk.walk, "1", point.id, point.deficiencies.first().name, "", ""),
            Place(PageKind.WRITE, walk.walk, "NOTE", "1", point.id, point.deficiencies.first().name, "", ""),
            Place(PageKind.NOT_FIT, walk.walk),
        )
        for (place in places) {
            screen.hand.go(place)
            screen.settle()
            assertTrue("${place.page}: ${screen.words()}", screen.words().contains("Load KM-071"))
        }
    }

    @Test
    fun setUpIsFourStepsAndTheInspectionWarnsBeforeTheFirstCard() {
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Set-up")
        val words = screen.words()
        for (step in listOf("1  An authority is trusted", "2  A key under your PIN", "3  A credential", "4  A fresh roster")) assertTrue(words, words.contains(step))
        assertTrue(words, words.contains("Ready to check at the hook") && !words.contains("Ready to inspect"))
        zone.credential(core, "Mason 5", "hookup")
        screen.hand.redraw()
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("It seals no load") && !screen.words().contains("Ready to inspect"))
        screen.hand.go(Place(PageKind.TAG, zone.tag().text))
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("cannot seal yet"))

        Zone.newPhone()
        zone.inspector()
        val good = Screen(Zone.launch().get())
        good.hand.go(Place(PageKind.SET_UP))
        good.settle()
        assertTrue(good.words(), good.words().contains("Ready to inspect and seal"))
        good.hand.go(Place(PageKind.TAG, zone.tag().text))
        good.settle()
        assertFalse(good.words(), good.words().contains("cannot seal yet"))
    }

    @Test
    fun aLostKeystoreKeyIsToldAsSuch() {
        zone.inspector()
        Zone.launch().pause().stop().destroy()
        assertFalse(Core.keyLost)
        // the phone's keystore forgets, as after a reset; the home is still there
        slingseal.handheld.support.FakeKeystore.fresh()
        Core.close()
        val screen = Screen(Zone.launch().get())
        assertTrue(Core.keyLost)
        assertTrue(screen.words(), screen.words().contains("lost the key that guards your PIN"))
        screen.press("Inspect a load")
        screen.hand.see(Zone.camera(zone.tag()))
        assertTrue(screen.words(), screen.words().contains("cannot seal yet") && screen.words().contains("lost the key"))
    }

    @Test
    fun aNoteOfTwoLinesIsTaken() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press(screen.keys().first { it.label == "Something else" })
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("strap frayed\nleft of the patch")
        screen.press("Take it")
        screen.press("Note it, go on")
        assertEquals("strap frayed / left of the patch", onlyWalk().findings.single().note)
    }

    /** The order in which a screen reader goes: the words, the card's number, then the answers. */
    @Test
    fun aScreenReaderHearsTheWordsBeforeTheKeys() {
        zone.inspector()
        val screen = open(core.beginWalk(zone.tag().text).walk)
        val frame = screen.all().first { it is slingseal.handheld.look.GloveFrame }
        val good = screen.key("All good")
        val after = frame.findViewById<android.view.View>(good.accessibilityTraversalAfter)!!
        assertTrue("the number stands before the answer", after.contentDescription.startsWith("Card 1 of"))
        val words = frame.findViewById<android.view.View>(after.accessibilityTraversalAfter)!!
        assertTrue("the words stand before the number", words is android.widget.ScrollView)
        assertEquals("the edge is the keys'", 2, frame.systemGestureExclusionRects.size)
    }
}
