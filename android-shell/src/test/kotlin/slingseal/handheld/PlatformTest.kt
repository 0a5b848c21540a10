package slingseal.handheld

import android.content.Intent
import android.content.res.XmlResourceParser
import android.graphics.drawable.AdaptiveIconDrawable
import android.net.Uri
import android.security.keystore.StrongBoxUnavailableException
import android.view.WindowManager
import java.io.File
import java.nio.file.Files
import java.security.ProviderException
import java.util.concurrent.CopyOnWriteArrayList
import java.util.concurrent.CountDownLatch
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import org.xmlpull.v1.XmlPullParser
import slingseal.core.Handheld
import slingseal.core.MovementKind
import slingseal.core.VoidCause
import slingseal.core.WalkRequest
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planting
import slingseal.handheld.places.Standard
import slingseal.handheld.places.WalkRef
import slingseal.handheld.support.FakeKeystore
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Watched
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN

/** What the handheld asks of the platform, and what it does where the platform says no. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PlatformTest : OnAPhone() {
    private val app
        get() = RuntimeEnvironment.getApplication()

    // keys

    @Test
    fun theDevicesKeyLiesInAChipOfItsOwnWhereThereIsOne() {
        val first = DeviceSecret.bytes()
        assertEquals("asked for the chip, and nothing else", listOf(true), FakeKeystore.asked)
        assertTrue("the same key ever after", first.contentEquals(DeviceSecret.bytes()))
        assertEquals(listOf(true), FakeKeystore.asked)
        for (no in
            listOf(StrongBoxUnavailableException("none"), ProviderException("none, in a way of its own"))) {
            FakeKeystore.fresh()
            FakeKeystore.withoutChip = no
            assertEquals(32, DeviceSecret.bytes().size)
            assertEquals("the chip first, then without", listOf(true, false), FakeKeystore.asked)
        }
    }

    // what the manifest says

    private fun elements(xml: Int): List<Pair<String, Map<String, String>>> {
        val parser: XmlResourceParser = app.resources.getXml(xml)
        val out = mutableListOf<Pair<String, Map<String, String>>>()
        while (parser.next() != XmlPullParser.END_DOCUMENT) {
            if (parser.eventType != XmlPullParser.START_TAG) continue
            out +=
                parser.name to
                    (0 until parser.attributeCount).associate {
                        parser.getAttributeName(it) to parser.getAttributeValue(it)
                    }
        }
        return out
    }

    private val manifest = java.io.File("src/main/AndroidManifest.xml").readText()

    @Test
    fun theLanguagesOfferedAreThoseThatThereAreWordsFor() {
        val offered =
            elements(R.xml.locales).filter { it.first == "locale" }.map { it.second.getValue("name") }
        val written =
            java.io
                .File("src/main/res")
                .list()!!
                .filter { it.startsWith("values") }
                .map { it.removePrefix("values").removePrefix("-").ifEmpty { "en" } }
        assertEquals(written.sorted(), offered.sorted())
        assertTrue(manifest.contains("android:localeConfig=\"@xml/locales\""))
    }

    /** Both ways out, and each place that a program may keep something in. */
    @Test
    fun nothingGoesToACloudOrToAnotherPhone() {
        var way = ""
        val shut = mutableMapOf<String, MutableSet<String>>()
        for ((name, attributes) in elements(R.xml.data_extraction_rules)) when (name) {
            "cloud-backup",
            "device-transfer" -> way = name
            "exclude" -> shut.getOrPut(way) { mutableSetOf() } += attributes.getValue("domain")
            "include" -> throw AssertionError("$way lets $attributes out")
        }
        val everything = setOf("root", "file", "database", "sharedpref", "external")
        assertEquals(mapOf("cloud-backup" to everything, "device-transfer" to everything), shut)
        assertTrue(
            manifest.contains("android:dataExtractionRules=\"@xml/data_extraction_rules\"") &&
                manifest.contains("android:allowBackup=\"false\"")
        )
        assertTrue(
            "the home is outside every backup besides",
            core.start().holder == null && java.io.File(app.noBackupFilesDir, "home").isDirectory,
        )
    }

    @Test
    fun theIconIsOfTwoLayersAndKeepsToWhatEveryMaskLeaves() {
        val icon = app.getDrawable(R.mipmap.launcher) as AdaptiveIconDrawable
        assertNotNull(icon.background)
        assertNotNull(icon.foreground)
        assertNotNull("for a home screen that tints icons", icon.monochrome)
        // the foreground leaves a sixth free on every side: a mask may cut there
        val side = 108
        val bitmap =
            android.graphics.Bitmap.createBitmap(side, side, android.graphics.Bitmap.Config.ARGB_8888)
        icon.foreground.apply { setBounds(0, 0, side, side) }.draw(android.graphics.Canvas(bitmap))
        val drawn =
            (0 until side * side).filter {
                android.graphics.Color.alpha(bitmap.getPixel(it % side, it / side)) > 0
            }
        assertTrue("something is drawn", drawn.size > 100)
        for (at in drawn) assertTrue("${at % side}, ${at / side}", at % side in 18..89 && at / side in 18..89)
    }

    /** Any file of bytes is not ours to offer for: only what says that it is a bundle. */
    @Test
    fun onlyBundlesAreOpenedByAnotherProgram() {
        fun opens(type: String) =
            app.packageManager
                .queryIntentActivities(
                    Intent(Intent.ACTION_VIEW)
                        .setDataAndType(Uri.parse("content://elsewhere/file"), type)
                        .addCategory(Intent.CATEGORY_DEFAULT),
                    0,
                )
                .any { it.activityInfo.packageName == app.packageName }
        assertTrue(opens(KIND))
        for (other in
            listOf("application/octet-stream", "application/zip", "text/plain", "image/jpeg")) assertFalse(
            other,
            opens(other),
        )
        assertEquals("what is handed on says what it is", KIND, Papers().getType(Papers.uri(app)))
    }

    // files

    /**
     * The system's own picker: asked for, it comes back with a place, and the bundle that lies there is taken
     * in or written.
     */
    @Test
    fun theSystemsPickerBringsABundleInAndTakesOneOut() {
        zone.inspector()
        sealedWithAPhoto(zone.tag("KM-097"))
        val screen = Screen(Zone.launch().get())
        fun answer(result: Int, at: Uri?) {
            val asked = shadowOf(screen.activity).nextStartedActivityForResult
            shadowOf(screen.activity).receiveResult(asked.intent, result, at?.let { Intent().setData(it) })
            screen.settle()
            screen.finish()
            screen.settle()
        }
        screen.hand.go(Place.Files)
        screen.settle()
        screen.press("Write a bundle")
        shadowOf(screen.activity).peekNextStartedActivityForResult().intent.let {
            assertEquals(Intent.ACTION_CREATE_DOCUMENT to KIND, it.action to it.type)
            assertTrue(
                it.hasCategory(Intent.CATEGORY_OPENABLE) &&
                    it.getStringExtra(Intent.EXTRA_TITLE)!!.endsWith(".bundle")
            )
        }
        val out = Uri.parse("content://elsewhere/out")
        val written = java.io.ByteArrayOutputStream()
        shadowOf(app.contentResolver).registerOutputStream(out, written)
        answer(android.app.Activity.RESULT_OK, out)
        assertTrue(screen.words(), screen.words().contains("The bundle is written: 1 records."))
        assertTrue("${written.size()}", written.size() > 500)

        // who thinks better of it has done nothing
        screen.press("Open a bundle")
        assertEquals(
            Intent.ACTION_OPEN_DOCUMENT,
            shadowOf(screen.activity).peekNextStartedActivityForResult().intent.action,
        )
        answer(android.app.Activity.RESULT_CANCELED, null)
        assertEquals(Place.Files::class, screen.hand.front!!.place::class)

        // the same bytes, opened by the picker of another phone
        Zone.newPhone()
        zone.meet(core)
        val other = Screen(Zone.launch().get())
        other.hand.go(Place.Files)
        other.settle()
        val from = Uri.parse("content://elsewhere/in")
        shadowOf(app.contentResolver).registerInputStreamSupplier(from) {
            java.io.ByteArrayInputStream(written.toByteArray())
        }
        other.press("Open a bundle")
        val asked = shadowOf(other.activity).nextStartedActivityForResult
        shadowOf(other.activity)
            .receiveResult(asked.intent, android.app.Activity.RESULT_OK, Intent().setData(from))
        other.settle()
        other.finish()
        other.settle()
        assertTrue(other.words(), other.words().contains("1 new"))
        val record = core.records(null, 10u).single()
        assertEquals("KM-097", record.load)
        assertEquals("the photograph came with it", 1, core.record(record.record).photos.size)
    }

    /** Walked and sealed, with a deficiency that was photographed and corrected. */
    private fun sealedWithAPhoto(tag: slingseal.core.CodeView) {
        val picture = java.io.ByteArrayOutputStream()
        android.graphics.Bitmap.createBitmap(64, 48, android.graphics.Bitmap.Config.ARGB_8888)
            .compress(android.graphics.Bitmap.CompressFormat.JPEG, 90, picture)
        val photo = core.addPhoto(picture.toByteArray())
        var walk = core.beginWalk(tag.text)
        while (walk.card!!.points.none { point -> point.deficiencies.any { it.inPlace } }) walk =
            core.doWalk(walk.walk, Zone.answer(walk))
        val card = walk.card!!
        val point = card.points.first { point -> point.deficiencies.any { it.inPlace } }
        walk =
            core.doWalk(
                walk.walk,
                WalkRequest.Deficiency(
                    card.number,
                    point.id,
                    point.deficiencies.first { it.inPlace }.name,
                    null,
                    listOf(photo),
                ),
            )
        core.doWalk(walk.walk, WalkRequest.PutRight(walk.findings.single().number, null, null, emptyList()))
        walk =
            core.doWalk(
                walk.walk,
                WalkRequest.LookAgain(walk.findings.single().number, true, null, null, emptyList()),
            )
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        core.doWalk(walk.walk, WalkRequest.Decide(true, null))
        core.seal(walk.walk, PIN, null)
    }

    /** A place that cannot be read is told, and nothing ends. */
    @Test
    fun aFileThatCannotBeReadIsTold() {
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Files)
        screen.settle()
        screen.press("Open a bundle")
        val gone = Uri.parse("content://elsewhere/gone")
        shadowOf(app.contentResolver).registerInputStreamSupplier(gone) {
            throw java.io.FileNotFoundException("gone")
        }
        val asked = shadowOf(screen.activity).nextStartedActivityForResult
        shadowOf(screen.activity)
            .receiveResult(asked.intent, android.app.Activity.RESULT_OK, Intent().setData(gone))
        screen.settle()
        screen.finish()
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("could not be read"))
    }

    /** Otherwise the next opening finds the home in use, and says so instead of a page. */
    @Test
    fun aCoreIsNotClosedWhileItIsPutAway() {
        val begun = CountDownLatch(1)
        val goOn = CountDownLatch(1)
        val order = CopyOnWriteArrayList<String>()
        Core.close()
        Core.watched = { real ->
            object : Watched(real) {
                override fun preference(name: String) = real.preference(name)

                override fun setUp() = real.setUp()

                override fun settle() {
                    begun.countDown()
                    goOn.await()
                    order += "put away"
                }

                override fun close() {
                    order += "closed"
                    super.close()
                }
            }
        }
        try {
            Core.of(app)
            Core.settle()
            begun.await()
            val closing = Thread(Core::close).apply { start() }
            while (closing.state != Thread.State.BLOCKED && closing.isAlive) Thread.yield()
            goOn.countDown()
            closing.join()
        } finally {
            Core.watched = Watched::watch
        }
        assertEquals(listOf("put away", "closed"), order)
    }

    /** Whoever copies the home's one file while the phone is put away has everything that was written. */
    @Test
    fun aPhoneThatIsPutAwayHasEverythingInOneFile() {
        zone.inspector()
        val front = Zone.launch()
        val screen = Screen(front.get())
        Zone.sealed(core, zone.tag("KM-098"))
        screen.settle()
        assertEquals("it is in the log beside the file", emptyList<String>(), loadsInTheFile())
        front.pause()
        screen.read()
        assertEquals(listOf("KM-098"), loadsInTheFile())
    }

    private fun loadsInTheFile(): List<String> {
        val copy = Files.createTempDirectory("slingseal-copy").toFile().apply { deleteOnExit() }
        File(app.noBackupFilesDir, "home/$DATABASE").copyTo(File(copy, DATABASE))
        return Handheld.open(copy.path, DeviceSecret.bytes(), "en").use { home ->
            home.records(null, 10u).map { it.load }
        }
    }

    // back

    @Test
    fun backGoesThroughThePlatformsDispatcherOnePageATime() {
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Records")
        assertEquals(Place.Records::class, screen.hand.front!!.place::class)
        val callback =
            HandheldActivity::class
                .java
                .getDeclaredField("backCallback")
                .apply { isAccessible = true }
                .get(screen.hand) as android.window.OnBackInvokedCallback
        fun back() {
            callback.onBackInvoked()
            screen.settle()
        }
        back()
        assertEquals(Place.Else::class, screen.hand.front!!.place::class)
        back()
        assertEquals(Place.Start::class, screen.hand.front!!.place::class)
        assertFalse(screen.hand.isFinishing)
        back()
        assertTrue("at the start there is no page to go back to", screen.hand.isFinishing)
        assertTrue(manifest.contains("android:enableOnBackInvokedCallback=\"true\""))
    }

    // what is felt and heard

    /** A phone set to silence still says NO-GO, by vibration and by tone: both are an alarm's. */
    @Test
    fun aVerdictIsFeltAndHeardAsAnAlarm() {
        val activity = Zone.launch().get()
        activity.feel(slingseal.handheld.sense.Beat.NO_GO)
        @Suppress("DEPRECATION")
        val vibrator = app.getSystemService(android.content.Context.VIBRATOR_SERVICE) as android.os.Vibrator
        val meant = shadowOf(vibrator).vibrationAttributesFromLastVibration as android.os.VibrationAttributes
        assertEquals(android.os.VibrationAttributes.USAGE_ALARM, meant.usage)
        assertEquals(
            android.media.ToneGenerator.TONE_SUP_ERROR,
            org.robolectric.shadows.ShadowToneGenerator.getPlayedTones().last().type(),
        )
        val played = org.robolectric.shadows.ShadowToneGenerator.getPlayedTones().size
        activity.feel(slingseal.handheld.sense.Beat.GOOD)
        assertEquals(
            "a key has no tone",
            played,
            org.robolectric.shadows.ShadowToneGenerator.getPlayedTones().size,
        )
    }

    // what others must not see

    /** Every page that a PIN or a passphrase is typed on. */
    @Test
    fun noPictureIsTakenOfAPinOrAPassphrase() {
        zone.inspector()
        val record = Zone.sealed(core, zone.tag("KM-099"))
        var walk = core.beginWalk(zone.tag("KM-100").text)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        core.doWalk(walk.walk, WalkRequest.Decide(true, null))
        val screen = Screen(Zone.launch().get())
        for (place in
            listOf(
                Place.Walk(WalkRef.Inspection(walk.walk)),
                Place.NewPin("Thistle 7"),
                Place.VoidPin(record.record, VoidCause.LOAD_MOVED),
                Place.ClosePin(),
                Place.ReportPin(Draft("KM-099", MovementKind.LIFTED)),
                Place.WithdrawPin("S-1", "worn"),
                Place.AuthorityWords(slingseal.handheld.places.Deed.Renew),
            )) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
            val flags = screen.activity.window.attributes.flags
            assertTrue("$place: ${screen.words()}", flags and WindowManager.LayoutParams.FLAG_SECURE != 0)
        }
    }

    @Test
    fun noPictureIsTakenOfWhatIsPlanted() {
        zone.instructor()
        val tag = zone.tag()
        val key = Zone.locked(core, tag, "Monday")
        val words = key.planted!!.map { it.shown }
        val screen = Screen(Zone.launch().get())
        fun secure() = screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE != 0
        fun at(place: Place) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
        }
        val plan = Planting(tag.text, 3, "Monday")
        val standard = Standard(2, 300, 1)
        for (place in
            listOf(
                Place.ExamPlan(plan),
                Place.ExamCards(plan),
                Place.ExamNames(plan, 1),
                Place.ExamStandard(plan, standard),
                Place.ExamLock(plan, standard),
                Place.ExamReveal(key.key),
            )) {
            at(place)
            assertTrue("$place: ${screen.words()}", secure())
        }
        "$PIN".forEach { screen.press(screen.key(it.toString()), settleFirst = false) }
        screen.press("Show what is planted")
        assertTrue(screen.words(), words.all { it in screen.words() } && secure())
        // whatever else says what is planted is as secret
        for (place in listOf(Place.ExamKey(key.key), Place.ExamKeys, Place.Exams, Place.ExamName(key.key))) {
            at(place)
            assertTrue("$place", secure() || words.none { it in screen.words() })
        }
        at(Place.Start)
        assertFalse(secure())
    }

    private companion object {
        const val DATABASE = "slingseal.db"
    }
}
