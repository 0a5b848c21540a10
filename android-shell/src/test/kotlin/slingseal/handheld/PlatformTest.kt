package slingseal.handheld

import android.content.Intent
import android.content.res.XmlResourceParser
import android.graphics.drawable.AdaptiveIconDrawable
import android.hardware.camera2.CameraDevice
import android.net.Uri
import android.security.keystore.StrongBoxUnavailableException
import android.view.View
import android.view.ViewGroup
import android.view.WindowManager
import android.widget.EditText
import android.widget.TextView
import java.security.ProviderException
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import org.xmlpull.v1.XmlPullParser
import slingseal.core.WalkRequest
import slingseal.handheld.look.Key
import slingseal.handheld.screens.DeficiencyDraft
import slingseal.handheld.screens.Draft
import slingseal.handheld.screens.KIND
import slingseal.handheld.screens.Planting
import slingseal.handheld.screens.Purpose
import slingseal.handheld.screens.Standard
import slingseal.handheld.screens.WalkRef
import slingseal.handheld.sense.Blind
import slingseal.handheld.sense.Eye
import slingseal.handheld.support.FakeKeystore
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN

/** What the handheld asks of the platform, and what it does where the platform says no. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PlatformTest {
    private lateinit var zone: Zone
    private val app
        get() = RuntimeEnvironment.getApplication()

    private val core
        get() = Core.of(app)

    private val Screen.hand
        get() = activity as HandheldActivity

    @Before
    fun newPhone() {
        Zone.newPhone()
        zone = Zone()
    }

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
                Place.VoidPin(record.record, "load-moved"),
                Place.ClosePin(),
                Place.ReportPin(Draft("KM-099", Draft.LIFTED)),
                Place.WithdrawPin("S-1", "worn"),
                Place.AuthorityWords(slingseal.handheld.screens.Deed.Renew),
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

    // the camera

    private fun eye(photo: ((ByteArray) -> Unit)? = null, told: MutableList<Blind>): Eye {
        val activity = Zone.launch().get()
        return Eye(activity, android.view.TextureView(activity), {}, photo) { told += it }
    }

    private fun settle() = shadowOf(android.os.Looper.getMainLooper()).idle()

    @Test
    fun aPhotographIsTakenInTheLargestSizeThatTheCoreTakes() {
        fun size(width: Int, height: Int) = android.util.Size(width, height)
        val sizes =
            listOf(size(640, 480), size(8000, 6000), size(4000, 3000), size(3000, 4000), size(1920, 1080))
        assertEquals(
            "12 megapixels: the 48 are more than a record carries",
            12_000_000,
            Eye.largest(sizes)!!.let { it.width * it.height },
        )
        assertEquals(size(1920, 1080), Eye.largest(listOf(size(640, 480), size(1920, 1080))))
        assertEquals("a camera of nothing smaller takes none", null, Eye.largest(listOf(size(8000, 6000))))
    }

    /** The keyboard is another program's and knows no red; the camera's picture is as bright as the day. */
    @Test
    fun atNightTheKeyboardAndTheCamerasPictureAreDimmed() {
        Zone.camera()
        val screen = Screen(Zone.launch().get())
        fun light() = screen.activity.window.attributes.screenBrightness
        fun preview() = screen.shown().filterIsInstance<android.view.TextureView>().single()
        fun at(place: Place) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
        }
        fun red(): Boolean {
            val paint =
                View::class.java.getDeclaredField("mLayerPaint").apply { isAccessible = true }.get(preview())
                    as android.graphics.Paint?
            return paint?.colorFilter is android.graphics.ColorMatrixColorFilter
        }
        at(Place.Hook())
        assertFalse("by day the picture is as it is", red())
        screen.hand.changePalette(slingseal.handheld.look.Palette.NIGHT)
        at(Place.Type(Purpose.Inspect))
        assertEquals("the keyboard", 0.05f, light())
        at(Place.Hook())
        assertTrue("the camera's picture", red())
        at(Place.Start)
        assertEquals("the system's own again", -1f, light())
    }

    /** On its side the picture goes from edge to edge, with words and keys laid on it. */
    @Test
    fun onItsSideTheCamerasPictureFillsTheGlass() {
        Zone.camera()
        org.robolectric.RuntimeEnvironment.setQualifiers("w800dp-h360dp-land")
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        for (place in listOf(Place.Hook(), Place.Scan(Purpose.Inspect))) {
            screen.hand.backTo(Place.Start::class)
            screen.hand.go(place)
            screen.settle()
            val seen = screen.shown().filterIsInstance<android.view.TextureView>().single()
            val glass = screen.box(screen.activity.findViewById<View>(android.R.id.content)!!)
            assertEquals("$place", glass, screen.box(seen))
            assertTrue("keys lie on it", screen.keys().size >= 2)
        }
    }

    /** Whoever leaves a page that looks, or puts the phone down, leaves the camera to others. */
    @Test
    fun theCameraIsLetGoWhenItsPageGoes() {
        Zone.camera()
        zone.inspector()
        val controller = Zone.launch()
        val screen = Screen(controller.get())
        fun eye() =
            generateSequence<Class<*>>(screen.hand.front!!.javaClass) { it.superclass }
                .first { it.simpleName == "LookingScreen" }
                .getDeclaredMethod("getEye")
                .apply { isAccessible = true }
                .invoke(screen.hand.front!!) as Eye
        screen.press("Hook check")
        val first = eye()
        assertTrue("it looks", first.isOpen)
        screen.press("Back")
        assertFalse("left", first.isOpen)
        screen.press("Hook check")
        val second = eye()
        assertTrue(second.isOpen)
        controller.pause()
        assertFalse("put down", second.isOpen)
        controller.resume()
        assertTrue("taken up again", second.isOpen)
    }

    @Test
    fun everyWayInWhichACameraFailsIsToldAndLetsGoOfIt() {
        Zone.camera()
        val failures =
            listOf(
                CameraDevice.StateCallback.ERROR_CAMERA_IN_USE to Blind.TAKEN,
                CameraDevice.StateCallback.ERROR_MAX_CAMERAS_IN_USE to Blind.TAKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_DISABLED to Blind.BROKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_DEVICE to Blind.BROKEN,
                CameraDevice.StateCallback.ERROR_CAMERA_SERVICE to Blind.BROKEN,
            )
        for ((error, why) in failures) {
            val told = mutableListOf<Blind>()
            val eye = eye(null, told)
            eye.start()
            eye.failed(error)
            settle()
            assertEquals("$error", listOf(why), told)
            assertFalse("$error: nothing holds the camera", eye.isOpen)
        }
        for (thrown in
            listOf(
                android.hardware.camera2.CameraAccessException(
                    android.hardware.camera2.CameraAccessException.CAMERA_IN_USE
                ),
                android.hardware.camera2.CameraAccessException(
                    android.hardware.camera2.CameraAccessException.CAMERA_ERROR
                ),
                SecurityException("no"),
                IllegalStateException("closed"),
                IllegalArgumentException("gone"),
            )) {
            val told = mutableListOf<Blind>()
            val eye = eye(null, told)
            eye.start()
            assertFalse(eye.tried { throw thrown })
            settle()
            assertEquals("$thrown", 1, told.size)
            assertFalse("$thrown", eye.isOpen)
        }
    }

    // a screen reader

    /**
     * What a screen reader stops at, one after the other: the platform's own order by place, and what a view
     * asks to come after.
     */
    private fun stops(screen: Screen): List<View> {
        val out = mutableListOf<View>()
        fun visit(view: View) {
            if (
                !view.isShown ||
                    view.importantForAccessibility == View.IMPORTANT_FOR_ACCESSIBILITY_NO_HIDE_DESCENDANTS
            )
                return
            val speaks =
                !view.contentDescription.isNullOrBlank() || view is TextView && !view.text.isNullOrBlank()
            val stops =
                view.importantForAccessibility != View.IMPORTANT_FOR_ACCESSIBILITY_NO &&
                    (view.isClickable || view is EditText || speaks)
            if (stops) out += view
            // a group that is said in one breath is one stop
            if (stops && view is ViewGroup && !view.contentDescription.isNullOrBlank()) return
            if (view is ViewGroup) {
                val children = ArrayList<View>().also(view::addChildrenForAccessibility)
                children.forEach(::visit)
            }
        }
        visit(screen.root)
        // then what was asked to come after something: with all that lies in it
        val groups = screen.all().filter { it.accessibilityTraversalAfter != View.NO_ID }.toList()
        fun inside(view: View, of: View): Boolean =
            generateSequence(view as View?) { it.parent as? View }.any { it === of }
        repeat(groups.size) {
            for (group in groups) {
                val before = screen.root.findViewById<View>(group.accessibilityTraversalAfter) ?: continue
                val moved = out.filter { inside(it, group) }
                val last = out.indexOfLast { inside(it, before) }
                if (moved.isEmpty() || last < 0 || out.indexOf(moved.first()) > last) continue
                out.removeAll(moved)
                out.addAll(out.indexOfLast { inside(it, before) } + 1, moved)
            }
        }
        return out
    }

    private fun said(view: View): String =
        (view.contentDescription ?: (view as? TextView)?.text ?: "").toString()

    @Test
    fun aScreenReaderGoesThroughEveryPageFromItsWordsToItsKeys() {
        Zone.camera()
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val card = walk.card!!
        val point = card.points.first { it.deficiencies.isNotEmpty() }
        val screen = Screen(Zone.launch().get())
        val places =
            listOf(
                Place.Start,
                Place.Else,
                Place.SetUp,
                Place.Settings(),
                Place.Records(),
                Place.Move,
                Place.Files,
                Place.Scan(Purpose.Inspect),
                Place.Type(Purpose.Inspect),
                Place.Hook(),
                Place.Walk(WalkRef.Inspection(walk.walk)),
                Place.More(WalkRef.Inspection(walk.walk)),
                Place.Cards(WalkRef.Inspection(walk.walk)),
                Place.Pick(WalkRef.Inspection(walk.walk)),
                Place.Deficiency(
                    DeficiencyDraft(
                        WalkRef.Inspection(walk.walk),
                        1,
                        point.id,
                        point.deficiencies.first().name,
                    )
                ),
                Place.Arrival(zone.tag("KM-028").text),
                Place.What(Draft("KM-028")),
                Place.Gear(Draft("KM-028")),
                Place.Refuse(Draft("KM-028", Draft.REFUSED)),
                Place.When(Draft("KM-028")),
                Place.NotFit(WalkRef.Inspection(walk.walk)),
                Place.NewPin("Thistle 7"),
                Place.Tag(zone.vehicleTag().text),
            )
        for (place in places) {
            screen.hand.backTo(Place.Start::class)
            if (place::class != Place.Start::class) screen.hand.go(place)
            screen.settle()
            // slow work, a camera or a voice that fails draw a page again as it stands
            screen.hand.redrawSame()
            screen.settle()
            val stops = stops(screen)
            val where = "$place: ${stops.map(::said)}"
            assertEquals("$where: each once", stops.size, stops.toSet().size)
            assertTrue("$where: nothing is silent", stops.all { said(it).isNotBlank() })
            val keys = screen.all().filterIsInstance<Key>().filter { it.isShown }.toList()
            assertTrue("$where: every key is reached", stops.containsAll(keys))
            val words =
                screen.all().filterIsInstance<TextView>().filter {
                    it.isShown &&
                        it.text.isNotBlank() &&
                        it.importantForAccessibility != View.IMPORTANT_FOR_ACCESSIBILITY_NO
                }
            assertTrue(
                "$where: every word is reached",
                words.all { text ->
                    stops.any {
                        it === text || generateSequence(text.parent) { p -> p.parent }.any { p -> p === it }
                    }
                },
            )
            // what answers comes after what is asked
            val answers =
                stops.indexOfFirst {
                    it is Key && said(it).startsWith("All good") ||
                        it is Key && said(it).startsWith("Correct it now") ||
                        it is Key && said(it).startsWith("Take it")
                }
            val heading = stops.indexOfFirst { it.isAccessibilityHeading }
            if (answers >= 0 && heading >= 0)
                assertTrue("$where: the words before the answer", heading < answers)
        }
        assertNotEquals(0, places.size)
    }
}
