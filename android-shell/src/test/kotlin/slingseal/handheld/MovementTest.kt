package slingseal.handheld

import android.graphics.Rect
import android.view.KeyEvent
import android.widget.EditText
import java.time.Instant
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CodeView
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.core.Received
import slingseal.core.RefusalCause
import slingseal.core.ReportRequest
import slingseal.core.StickerReading
import slingseal.core.VerdictWord
import slingseal.handheld.look.Glove
import slingseal.handheld.look.VerdictView
import slingseal.handheld.screens.Purpose
import slingseal.handheld.screens.ReportScreen
import slingseal.handheld.screens.Zulu
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.Gloves
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import slingseal.handheld.support.touch

/**
 * What becomes of a load after its verdict: one press at the hook, and the receiving side, on phones that
 * have no key of their own.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class MovementTest {
    private lateinit var zone: Zone
    private val core
        get() = Core.of(RuntimeEnvironment.getApplication())

    private val Screen.hand
        get() = activity as HandheldActivity

    @Before
    fun newPhone() {
        Zone.newPhone()
        Zone.camera()
        zone = Zone()
    }

    /** A phone of the hookup team, without a key, before this verdict. */
    private fun judged(seal: CodeView, tag: CodeView): Screen {
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        screen.hand.see(Zone.camera(seal, tag))
        return screen
    }

    private fun only(load: String = "KM-015"): MovementView = core.movements(load).single()

    private fun Screen.code(): String {
        val view = shown().filterIsInstance<slingseal.handheld.look.CodeView>().single()
        return Zone.readIndependently(pixels(), box(view))
    }

    // at the hook

    @Test
    fun onePressAfterTheVerdictSaysThatItFlew() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        assertEquals("no key, no credential", null, core.setUp().fingerprint)
        screen.press("Lifted")
        val report = only()
        assertEquals(
            listOf(MovementKind.LIFTED, VerdictWord.GO, null),
            listOf(report.event, report.verdict, report.by),
        )
        assertFalse(report.later || report.against)
        assertEquals(Beat.GOOD, screen.hand.lastBeat)
        assertTrue(
            screen.words(),
            screen.words().contains("KM-015: lifted") && screen.words().contains("unsigned"),
        )
        // what is shown is the report itself: another phone has it by its camera
        val leader = zone.core("leader").also(zone::meet)
        val taken = leader.receive(screen.code()) as Received.Movement
        assertEquals(report.digest, taken.report.digest)
        screen.press("Next load")
        assertEquals(Place.Hook::class, screen.hand.front!!.place::class)
        assertEquals(null, screen.shown().filterIsInstance<VerdictView>().singleOrNull())
    }

    @Test
    fun aRefusalHasItsReasonFromAListAndWordsOnlyIfThereIsMoreToSay() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag, fit = false), tag)
        screen.press("Refused")
        screen.press(screen.keys().first { it.label == "The verdict was not GO" })
        assertEquals(
            listOf(MovementKind.REFUSED, RefusalCause.VERDICT, VerdictWord.NO_GO, null),
            only().let { listOf(it.event, it.cause, it.verdict, it.note) },
        )
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)

        // a note goes along
        screen.press("Next load")
        val second = zone.tag("KM-016")
        screen.hand.see(Zone.camera(zone.sealOf(second), second))
        screen.press("Refused")
        screen.press("Add a note")
        screen.shown().filterIsInstance<EditText>().single().setText("swung into the mast")
        screen.press("Take it")
        assertEquals("nothing is given yet", 0, core.movements("KM-016").size)
        screen.press(screen.keys().first { it.label == "It hung or swung badly" })
        assertEquals(
            listOf(RefusalCause.UNSTABLE, "swung into the mast"),
            only("KM-016").let { listOf(it.cause, it.note) },
        )

        // another reason is none without words
        screen.press("Next load")
        val third = zone.tag("KM-017")
        screen.hand.see(Zone.camera(zone.sealOf(third), third))
        screen.press("Refused")
        screen.press(screen.keys().first { it.label.startsWith("Another reason") })
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        screen.shown().filterIsInstance<EditText>().single().setText("crew changed")
        screen.press("Take it")
        assertEquals(
            listOf(RefusalCause.OTHER, "crew changed"),
            only("KM-017").let { listOf(it.cause, it.note) },
        )
    }

    /** It was lifted all the same: that is kept, and stands out. */
    @Test
    fun aLiftAgainstANoGoIsTakenAndStandsOut() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag, fit = false), tag)
        screen.press("Lifted")
        assertTrue(only().against)
        assertTrue(screen.words(), screen.words().contains("the verdict shown was NO-GO"))
    }

    @Test
    fun whereNoLoadOrSeveralAreMeantNothingIsReported() {
        val a = zone.sealOf(zone.tag())
        val b = zone.sealOf(zone.tag("KM-016"))
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        screen.hand.see(Zone.camera(a, b))
        assertFalse(screen.hasKey("Lifted") || screen.hasKey("Refused"))
        assertTrue(screen.hasKey("Next load"))
        screen.press("Next load")
        assertFalse("no verdict yet", screen.hasKey("Lifted"))
    }

    /**
     * 19 mm a key, as far apart as gloves want (MIL-STD-1472E, 5.4.2.1), on a small phone, both ways up, in
     * both languages.
     */
    @Test
    fun theTwoKeysAreOfGloveSizeAndApart() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        for (qualifiers in
            listOf(
                "w360dp-h640dp-port-xhdpi",
                "w640dp-h360dp-land-xhdpi",
                "es-rMX-w360dp-h640dp-port-xhdpi",
            )) {
            RuntimeEnvironment.setQualifiers(qualifiers)
            Zone.newPhone()
            zone.meet(core)
            val screen = Screen(Zone.launch().get())
            screen.hand.go(Place.Hook(seal.text, tag.text))
            screen.settle()
            val density = screen.activity.resources.displayMetrics.density
            val words =
                if ("es" in qualifiers) listOf("Levantada", "Rechazada") else listOf("Lifted", "Refused")
            val (lifted, refused) = words.map { screen.box(screen.key(it)) }
            for (box in listOf<Rect>(lifted, refused)) assertTrue(
                "$qualifiers: $box",
                box.width() >= Glove.KEY * density && box.height() >= Glove.KEY * density,
            )
            assertTrue(qualifiers, Gloves.gap(lifted, refused) >= Glove.GAP * density)
        }
    }

    /** The volume stays the volume on a verdict; the button at the ear answers, once it is switched on. */
    @Test
    fun aTeamWithItsHandsOnTheLoadReportsAtTheEar() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 100)
        assertEquals("off out of the box", 0, core.movements("KM-015").size)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        assertTrue(screen.hand.ear.listening)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 300)
        assertEquals("the volume keys are the system's", 0, core.movements("KM-015").size)
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 1200)
        assertEquals(
            "held, it says the verdict again",
            core.check(null, tag.text).spoken,
            screen.hand.lastWords,
        )
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 100)
        assertEquals(MovementKind.LIFTED, only().event)
        assertTrue(screen.hand.front is ReportScreen)
    }

    @Test
    fun aRefusalByKeysAlone() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        screen.hardKey(KeyEvent.KEYCODE_MEDIA_NEXT, 60)
        assertEquals(Place.Refuse::class, screen.hand.front!!.place::class)
        repeat(3) { screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 250) }
        assertTrue(screen.hand.lastWords, screen.hand.lastWords!!.startsWith("The load shifted"))
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 250)
        assertEquals(RefusalCause.DAMAGE, only().cause)
    }

    // the receiving side

    @Test
    fun whoeverTakesALoadDownNeedsNoKeyAndNothingKnownBefore() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        assertEquals(emptyList<Any>(), core.setUp().authorities)
        screen.press("Receive a load")
        screen.hand.see(Zone.camera(tag))
        val view = core.readTag(tag.text)
        for (words in listOf("KM-015", view.description, view.gross, view.destination.name)) assertTrue(
            screen.words(),
            screen.words().contains(words),
        )
        screen.press("Set down")
        assertEquals(listOf(MovementKind.SET_DOWN, null), only().let { listOf(it.event, it.by) })
        screen.press("Done")
        assertTrue(
            screen.words(),
            screen.keys().any {
                it.label == "Set down" && it.contentDescription.contains("this device, unsigned")
            },
        )
        screen.press("Derigged")
        assertEquals(
            setOf(MovementKind.SET_DOWN, MovementKind.DERIGGED),
            core.movements("KM-015").map { it.event }.toSet(),
        )
    }

    @Test
    fun eachPieceGoesBackOrIsDamaged() {
        val tag = zone.vehicleTag()
        val pieces = core.arrival(tag.text).pieces
        assertTrue("${pieces.size}", pieces.size >= 2)
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Equipment")
        assertFalse("nothing is marked, so nothing is to be said", screen.hasKey("Derigged"))
        val first = "${pieces[0].kind} ${pieces[0].serial}"
        screen.press(screen.keys().first { it.contentDescription == "$first: Damaged" })
        assertTrue(screen.hasKey("Set down"))
        screen.press("All of it goes back")
        screen.press(
            screen.keys().first {
                it.contentDescription == "${pieces[1].kind} ${pieces[1].serial}: Goes back"
            }
        )
        // a turn of the phone keeps the marks
        screen.hand.redraw()
        screen.settle()
        screen.press(screen.keys().last { it.label == "Goes back" })
        val report = only(core.readTag(tag.text).load)
        assertEquals(MovementKind.RETURNED, report.event)
        assertEquals(
            pieces.filter { it != pieces[1] }.map { it.serial }.sorted(),
            report.pieces.map { it.serial }.sorted(),
        )
        assertTrue(
            report.pieces.all { it.back } && report.pieces.single { it.damaged }.serial == pieces[0].serial
        )
        screen.press("Done")
        assertTrue(
            screen.words(),
            screen.words().contains("Goes back, damaged") && screen.words().contains("Not back yet"),
        )
    }

    /**
     * The same by the keys at the edge alone: down frames the next, up marks it, and the frame stays where it
     * was.
     */
    @Test
    fun piecesAreMarkedByTheKeysAtTheEdge() {
        val tag = zone.vehicleTag()
        val pieces = core.arrival(tag.text).pieces
        val screen = Screen(Zone.launch().get())
        screen.hand.hardKeysOn = true
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Equipment")
        fun down() = screen.hardKey(android.view.KeyEvent.KEYCODE_VOLUME_DOWN, 250)
        fun up() = screen.hardKey(android.view.KeyEvent.KEYCODE_VOLUME_UP, 250)
        // past "all of it" to what the first piece has: goes back, damaged
        repeat(3) { down() }
        up()
        assertTrue(screen.words(), screen.hasKey("Set down"))
        down()
        up()
        // past the rest of the pieces to the report
        repeat(2 * pieces.size - 2) { down() }
        up()
        val report = only(core.readTag(tag.text).load)
        assertEquals(MovementKind.RETURNED, report.event)
        assertEquals(
            setOf(pieces[0].serial to false, pieces[1].serial to true),
            report.pieces.map { it.serial to it.back }.toSet(),
        )
        assertEquals(pieces[0].serial, report.pieces.single { it.damaged }.serial)
    }

    /**
     * A photograph of what came down goes with the report, by its digest, and its bytes are kept beside it.
     */
    @Test
    fun aReportTakesPhotographsAlong() {
        Zone.camera()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        for (shade in listOf(60, 190)) {
            screen.press("Add a photo")
            val picture = java.io.ByteArrayOutputStream()
            android.graphics.Bitmap.createBitmap(64, 48, android.graphics.Bitmap.Config.ARGB_8888)
                .apply { eraseColor(android.graphics.Color.rgb(shade, shade, shade)) }
                .compress(android.graphics.Bitmap.CompressFormat.JPEG, 90, picture)
            (screen.hand.front as slingseal.handheld.screens.ReportPhotoScreen).review(picture.toByteArray())
            screen.settle()
            assertTrue(screen.words(), screen.words().contains("Can it be seen what became of the load?"))
            screen.press("Keep it")
        }
        assertTrue(screen.words(), screen.key("Add a photo").contentDescription.contains("Photos: 2"))
        screen.press("Set down")
        assertEquals(2, only().photos.size)
    }

    @Test
    fun aMissedReportIsGivenLaterAndSaysSo() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Now")
        screen.press("30 minutes ago")
        screen.press("Lifted")
        val report = only()
        assertTrue(report.later)
        assertEquals(1800.0, (report.written.unix - report.at.unix).toDouble(), 60.0)
        assertTrue(screen.words(), screen.words().contains("reported ${report.written.dtg}"))

        // and by its time
        screen.press("Done")
        screen.press("Equipment, more")
        screen.press("Now")
        screen.press("Give the time")
        for (digit in "2575") screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("No clock shows this"))
        repeat(4) { screen.press(screen.key("Erase"), settleFirst = false) }
        val at = Instant.now().minusSeconds(7 * 60)
        val digits =
            "%tH%<tM"
                .format(
                    java.util.Locale.ENGLISH,
                    java.util.Date.from(at).toInstant().atOffset(java.time.ZoneOffset.UTC),
                )
        for (digit in digits) screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Take it")
        screen.press("Lost or jettisoned")
        val lost = core.movements("KM-015").single { it.event == MovementKind.LOST }
        assertEquals(at.epochSecond / 60, lost.at.unix / 60)
        assertTrue(lost.later)
    }

    @Test
    fun aircraftAndPlaceGoAlongWhereSomebodyGivesThem() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        fun say(row: String, words: String) {
            screen.press(row)
            screen.shown().filterIsInstance<EditText>().single().setText(words)
            screen.press("Take it")
        }
        say("Aircraft", "Heron 2")
        say("Place", "by the bridge")
        screen.press("Lost or jettisoned")
        assertEquals("no grid is told, and nothing given", 0, core.movements("KM-015").size)
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        say("Place", "33T WN 30740 61215")
        screen.press("Lost or jettisoned")
        assertEquals(
            listOf(MovementKind.LOST, "Heron 2", "33T WN 30740 61215"),
            only().let { listOf(it.event, it.aircraft, it.place) },
        )
        assertTrue(
            screen.words(),
            screen.words().contains("aircraft Heron 2") && screen.words().contains("at 33T WN 30740 61215"),
        )
    }

    @Test
    fun theLastTimeThatAClockShowed() {
        val now = Instant.parse("2026-11-26T00:10:00Z")
        assertEquals(Instant.parse("2026-11-26T00:05:00Z").epochSecond, Zulu.last("0005", now))
        assertEquals("yesterday", Instant.parse("2026-11-25T23:50:00Z").epochSecond, Zulu.last("2350", now))
        for (none in listOf("2400", "1260", "12", "")) assertEquals(none, null, Zulu.last(none, now))
        val report =
            core
                .report(
                    ReportRequest(
                        "KM-099",
                        MovementKind.SET_DOWN,
                        null,
                        null,
                        null,
                        null,
                        emptyList(),
                        emptyList(),
                        null,
                    ),
                    null,
                )
                .report
        assertEquals("as the core writes it", report.at.dtg, Zulu.dtg(report.at.unix))
    }

    @Test
    fun aReportIsSignedWhereSomebodyWantsTo() {
        zone.inspector()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Sign with your PIN")
        screen.press("Set down")
        assertEquals("nothing before the PIN", 0, core.movements("KM-015").size)
        for (digit in Zone.PIN) screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Sign it")
        assertEquals("Lantern 1", only().by)
        assertTrue(screen.hand.front is ReportScreen)
    }

    // from phone to phone

    @Test
    fun aReportGoesByCodeByMovingCodeAndByBundleAndTheStoryIsTold() {
        val tag = zone.tag()
        val hook = zone.core("hook").also(zone::meet)
        hook.readTag(tag.text)
        fun report(event: MovementKind) =
            hook.report(
                ReportRequest("KM-015", event, null, null, null, null, emptyList(), emptyList(), null),
                null,
            )
        val lifted = report(MovementKind.LIFTED)
        val screen = Screen(Zone.launch().get())
        // where moving codes are taken in, a report by itself is welcome
        screen.hand.go(Place.Scan(Purpose.Moving))
        screen.settle()
        screen.hand.see(Zone.camera(lifted.code))
        assertEquals(listOf(MovementKind.LIFTED), core.movements("KM-015").map { it.event })
        assertTrue(screen.words(), screen.words().contains("Load KM-015: lifted"))
        // and at the receiving side it leads to its load
        val down = report(MovementKind.SET_DOWN)
        screen.hand.go(Place.Scan(Purpose.Arrival))
        screen.settle()
        screen.hand.see(Zone.camera(down.code))
        assertEquals(Place.Arrival::class, screen.hand.front!!.place::class)
        assertTrue(screen.words(), screen.keys().count { it.contentDescription.contains("unsigned") } >= 2)

        report(MovementKind.DERIGGED)
        screen.hand.go(Place.Scan(Purpose.Moving))
        screen.settle()
        hook.movingBegin(null)
        var frame = 0u
        while (screen.hand.front!!.place::class != Place.Moved::class) {
            check(frame < 200u) { screen.words() }
            screen.hand.see(Zone.camera(hook.movingFrame(frame)))
            frame += 1u
        }
        assertTrue(screen.words(), screen.words().contains("Reports: 1 new"))
        assertEquals(3, core.movements("KM-015").size)
    }

    /** The tag and the seal live on the load: a report goes beside them, and never in their place. */
    @Test
    fun aReportGoesOntoTheStickerOfItsLoadBesideTheTag() {
        Zone.nfc()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Set down")
        screen.press("Write to sticker")
        fun holding(text: String, room: Int = 2000) =
            FakeSticker(room, core.sticker(listOf(text), 2000u).message)
        val own = holding(tag.text)
        screen.touch(own)
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        val held = core.readSticker(own.message) as StickerReading.Ours
        assertEquals(tag.text, held.tag)
        assertEquals(1, held.others.size)
        val others = holding(zone.tag("KM-016").text)
        screen.touch(others)
        assertTrue(screen.words(), screen.words().contains("another load's"))
        assertEquals(
            zone.tag("KM-016").text.length,
            (core.readSticker(others.message) as StickerReading.Ours).tag!!.length,
        )
        val small = holding(tag.text).let { FakeSticker(it.message.size + 20, it.message) }
        screen.touch(small)
        assertTrue("the tag is not given up for it: ${screen.words()}", screen.words().contains("Too small"))
        assertEquals(tag.text, (core.readSticker(small.message) as StickerReading.Ours).tag)

        // another phone has both by one touch
        Zone.newPhone()
        val other = Screen(Zone.launch().get())
        other.hand.go(Place.Scan(Purpose.Arrival))
        other.settle()
        other.touch(own)
        assertEquals(listOf(MovementKind.SET_DOWN), core.movements("KM-015").map { it.event })
        assertEquals(Place.Arrival::class, other.hand.front!!.place::class)
    }

    @Test
    fun theStoryStandsWhereALoadIsLookedAt() {
        zone.inspector()
        val seal = Zone.sealed(core, zone.tag("KM-012"))
        core.report(
            ReportRequest(
                "KM-012",
                MovementKind.LOST,
                null,
                null,
                null,
                null,
                emptyList(),
                emptyList(),
                "over the ridge",
            ),
            null,
        )
        val screen = Screen(Zone.launch().get())
        for (place in
            listOf(Place.Record(seal.record), Place.Tag(zone.tag("KM-012").text), Place.Arrival("KM-012"))) {
            screen.hand.go(place)
            screen.settle()
            val row = screen.keys().firstOrNull { it.label == "Lost or jettisoned" }
            assertTrue(
                "$place: ${screen.words()}",
                row != null && row.contentDescription.contains("over the ridge"),
            )
        }
        screen.press("Lost or jettisoned")
        assertTrue(screen.hand.front is ReportScreen)
    }

    @Test
    fun whatIsNoLoadIsToldAtTheReceivingSide() {
        val screen = Screen(Zone.launch().get())
        screen.press("Receive a load")
        screen.press("Type it")
        screen.shown().filterIsInstance<EditText>().single().setText("KM-404")
        screen.press("Use it")
        assertTrue(screen.words(), screen.words().contains("nothing is known here of load KM-404"))
    }
}
