package slingseal.handheld.support

import android.content.Context
import android.graphics.Bitmap
import android.graphics.Rect
import android.hardware.camera2.CameraCharacteristics
import android.hardware.camera2.CameraManager
import com.google.zxing.BarcodeFormat
import com.google.zxing.BinaryBitmap
import com.google.zxing.DecodeHintType
import com.google.zxing.RGBLuminanceSource
import com.google.zxing.ReaderException
import com.google.zxing.common.GlobalHistogramBinarizer
import com.google.zxing.common.HybridBinarizer
import com.google.zxing.qrcode.QRCodeReader
import java.io.File
import java.nio.file.Files
import org.robolectric.Robolectric
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.robolectric.shadow.api.Shadow
import org.robolectric.shadows.ShadowCameraCharacteristics
import slingseal.core.CodeView
import slingseal.core.ExamKeyView
import slingseal.core.ExamPlan
import slingseal.core.ExamStandard
import slingseal.core.Handheld
import slingseal.core.Issue
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.Role
import slingseal.core.SealView
import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.Core
import slingseal.handheld.HandheldActivity
import slingseal.handheld.Slow
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.screens.LookingScreen
import slingseal.handheld.sense.Luminance

/** The demo's zone: a desk that is the authority, and this phone. Everything is invented. */
class Zone {
    val desk = core("desk")

    private val planner = core("planner")

    init {
        desk.authorityInit("Sela Relief", PASSPHRASE, desk.procedures().map { it.id })
        meet(planner)
        credential(planner, "Anvil 3", Role.PLANNER)
    }

    /** Another device's core, with a home and a secret of its own. */
    fun core(name: String): Handheld {
        val home = Files.createTempDirectory("slingseal-$name").toFile().apply { deleteOnExit() }
        return Handheld.open(home.path, name.toByteArray().copyOf(32), "en")
    }

    /** Trust and newest roster, as the cards and codes of the authority bring them. */
    fun meet(device: Handheld) {
        val authority = desk.authority()
        device.trust(authority.card.text, authority.fingerprint)
        device.receive(authority.roster.text)
    }

    fun credential(device: Handheld, holder: String, vararg roles: Role, pin: String = PIN) {
        val request = device.makeKey(holder, pin)
        val issued = desk.issue(Issue(request.text, roles.toList(), "2099-01-01", null, null), PASSPHRASE)
        device.receive(issued.text)
    }

    /** The code of a seal on a tag, by an inspector's phone that is nobody else's. */
    fun sealOf(tag: CodeView, fit: Boolean = true): CodeView {
        val other = core("inspector")
        meet(other)
        credential(other, "Lantern 1", Role.INSPECTOR)
        return other.showSeal(Zone.sealed(other, tag, fit).record).code
    }

    /** A tag of the demo's bag, under a number of its own; a bag that is rejected must be no other load's. */
    fun tag(
        load: String = "KM-015",
        signed: Boolean = true,
        procedure: String = "bag",
        bag: String = "CB-0932",
    ): CodeView {
        val plan =
            File("../bindings/desk/demo/bag.toml")
                .readText()
                .replace("KM-015", load)
                .replace("procedure = \"bag\"", "procedure = \"$procedure\"")
                .replace("CB-0932", bag)
        return planner.writeTag(plan, null, if (signed) PIN else null).code
    }

    fun vehicleTag(): CodeView {
        val plan = File("../bindings/desk/demo/vehicle.toml").readText()
        val rigging = File("../bindings/desk/demo/vehicle-rigging.toml").readText()
        return planner.writeTag(plan, rigging, PIN).code
    }

    /** The phone under test, an inspector's, set up without the screens. */
    fun inspector(vararg roles: Role) {
        val phone = Core.of(RuntimeEnvironment.getApplication())
        meet(phone)
        val has = if (roles.isEmpty()) arrayOf(Role.INSPECTOR) else roles
        credential(phone, "Lantern 1", *has)
    }

    /** The phone under test, an instructor's who inspects too. */
    fun instructor() {
        val phone = Core.of(RuntimeEnvironment.getApplication())
        meet(phone)
        credential(phone, "Mason 5", Role.INSTRUCTOR, Role.INSPECTOR)
    }

    /** An instructor's device without a screen. */
    fun school(): Handheld =
        core("school").also {
            meet(it)
            credential(it, "Mason 5", Role.INSTRUCTOR)
        }

    companion object {
        /**
         * Drawn from words, so that the same words plant the same: two wanted of so many, five minutes, one
         * false call.
         */
        fun locked(device: Handheld, tag: CodeView, seed: String, count: UInt = 3u): ExamKeyView =
            device.examLock(ExamPlan(tag.text, emptyList(), count, seed), ExamStandard(2u, 300u, 1u), PIN)

        /** A device without a screen walks a load through, everything good, and seals it. */
        fun sealed(device: Handheld, tag: CodeView, fit: Boolean = true): SealView {
            var view = device.beginWalk(tag.text)
            while (view.card != null) {
                view = device.doWalk(view.walk, answer(view))
                check(view.refused == null) { view.refused?.message.orEmpty() }
            }
            view = device.doWalk(view.walk, WalkRequest.Decide(fit, if (fit) null else "rain"))
            check(view.refused == null) { view.refused?.message.orEmpty() }
            return device.seal(view.walk, PIN, null)
        }

        /** Good, or the value that is asked for first. */
        fun answer(walk: WalkView): WalkRequest {
            val card = checkNotNull(walk.card)
            val open = card.points.firstOrNull { it.needsValue && it.state == PointState.UNANSWERED }
            return if (card.goodEnabled || open == null) WalkRequest.CardGood(card.number)
            else WalkRequest.Answer(card.number, open.id, value(open.id, open.kind))
        }

        /** What the plan wants of the value page that stands at a place; null where it wants no number. */
        fun planned(place: Place.Value): String? {
            val core = Core.of(RuntimeEnvironment.getApplication())
            val walk =
                when (val on = place.on) {
                    is WalkRef.Inspection -> core.walk(on.walk)
                    is WalkRef.Run -> core.examRun(on.run).walk
                }
            val finding = place.finding?.toUInt()
            val kind =
                if (finding == null) walk.card?.points?.firstOrNull { it.id == place.point }?.kind
                else walk.findings.firstOrNull { it.number == finding }?.kind
            return if (kind is PointKind.Count) counted(place.point) else null
        }

        private fun value(id: String, kind: PointKind): String =
            when (kind) {
                is PointKind.Count -> counted(id)
                is PointKind.Choice -> kind.options.first().name
                is PointKind.Measure -> "1 ${kind.unit.ifEmpty { "m" }}"
                else -> "seen"
            }

        const val PIN = "417293"
        const val PASSPHRASE = "high water at Alder Bridge"

        /** A phone that has just left its box. */
        fun newPhone() {
            FakeKeystore.fresh()
            Core.close()
            Core.watched = Watched::watch
            Core.quick = Quick
            File(RuntimeEnvironment.getApplication().noBackupFilesDir, "home").deleteRecursively()
            Slow.reset()
            for (language in listOf(java.util.Locale.ENGLISH, java.util.Locale("es", "MX"))) org.robolectric
                .shadows
                .ShadowTextToSpeech
                .addLanguageAvailability(language)
        }

        /** Gives the phone a camera with a light, and leave to use it. Robolectric has no picture for it. */
        fun camera() {
            val app = RuntimeEnvironment.getApplication()
            val facts = ShadowCameraCharacteristics.newCameraCharacteristics()
            val shadow = Shadow.extract<ShadowCameraCharacteristics>(facts)
            shadow.set(CameraCharacteristics.LENS_FACING, CameraCharacteristics.LENS_FACING_BACK)
            shadow.set(CameraCharacteristics.FLASH_INFO_AVAILABLE, true)
            val cameras = app.getSystemService(Context.CAMERA_SERVICE) as CameraManager
            if ("0" !in cameras.cameraIdList) shadowOf(cameras).addCamera("0", facts)
            shadowOf(app).grantPermissions(android.Manifest.permission.CAMERA)
        }

        /** Gives the phone what touches stickers, switched on. */
        fun nfc() {
            val app = RuntimeEnvironment.getApplication()
            shadowOf(app.packageManager).setSystemFeature(android.content.pm.PackageManager.FEATURE_NFC, true)
            android.nfc.NfcAdapter.getDefaultAdapter(app)?.let { shadowOf(it).setEnabled(true) }
        }

        fun launch(): ActivityController<HandheldActivity> =
            Robolectric.buildActivity(HandheldActivity::class.java).setup().also { Screen(it.get()).read() }

        /**
         * What a camera would see of a code: grey on grey, eight pixels a module, off the middle, with a
         * little noise.
         */
        fun camera(code: CodeView): Luminance {
            val side = code.size.toInt()
            val scale = 6
            val width = (side + 8) * scale + 60
            val height = (side + 8) * scale + 90
            val grey = ByteArray(width * height)
            var seed = 12345
            for (y in 0 until height) for (x in 0 until width) {
                seed = seed * 1103515245 + 12345
                val noise = (seed ushr 16) % 11 - 5
                val mx = Math.floorDiv(x - 40, scale) - 4
                val my = Math.floorDiv(y - 30, scale) - 4
                val dark =
                    mx in 0 until side && my in 0 until side && code.modules[my * side + mx] != 0.toByte()
                grey[y * width + x] = ((if (dark) 60 else 190) + noise).toByte()
            }
            return Luminance(width, height, grey)
        }

        /** Two codes in one picture, side by side. */
        fun camera(left: CodeView, right: CodeView): Luminance {
            val (a, b) = camera(left) to camera(right)
            val width = a.width + b.width
            val height = maxOf(a.height, b.height)
            val grey = ByteArray(width * height) { 190.toByte() }
            for ((picture, from) in listOf(a to 0, b to a.width)) for (y in 0 until picture.height) {
                picture.bytes.copyInto(grey, y * width + from, y * picture.width, (y + 1) * picture.width)
            }
            return Luminance(width, height, grey)
        }

        /** A drawn screen as a camera would see it. */
        fun camera(screen: Bitmap): Luminance {
            val pixels = IntArray(screen.width * screen.height)
            screen.getPixels(pixels, 0, screen.width, 0, 0, screen.width, screen.height)
            val grey = ByteArray(pixels.size)
            for ((at, p) in pixels.withIndex()) {
                grey[at] =
                    ((299 * (p shr 16 and 255) + 587 * (p shr 8 and 255) + 114 * (p and 255)) / 1000).toByte()
            }
            return Luminance(screen.width, screen.height, grey)
        }

        /** The code in a picture of the screen, read by a reader that shares nothing with ours. */
        fun readIndependently(screen: Bitmap, box: Rect): String {
            val r = Rect(box)
            check(r.intersect(0, 0, screen.width, screen.height))
            val pixels = IntArray(r.width() * r.height())
            screen.getPixels(pixels, 0, r.width(), r.left, r.top, r.width(), r.height())
            val hints =
                mapOf(
                    DecodeHintType.POSSIBLE_FORMATS to listOf(BarcodeFormat.QR_CODE),
                    DecodeHintType.TRY_HARDER to true,
                )
            // black and white without shade: one threshold for the whole picture; where that fails, one for
            // each neighbourhood;
            // where the search for the corners fails, as it does for one code or another, module by module
            // off the grid
            val source = RGBLuminanceSource(r.width(), r.height(), pixels)
            return try {
                QRCodeReader().decode(BinaryBitmap(GlobalHistogramBinarizer(source)), hints).text
            } catch (e: ReaderException) {
                try {
                    QRCodeReader().decode(BinaryBitmap(HybridBinarizer(source)), hints).text
                } catch (e: ReaderException) {
                    QRCodeReader()
                        .decode(
                            BinaryBitmap(GlobalHistogramBinarizer(source)),
                            hints + (DecodeHintType.PURE_BARCODE to true),
                        )
                        .text
                }
            }
        }
    }
}

/** Holds a picture before the phone's camera, which reads it off the main thread as a phone does. */
fun HandheldActivity.see(picture: Luminance) {
    val looking =
        front as? LookingScreen
            ?: error("the phone is not looking; in front is ${front?.javaClass?.simpleName}")
    check(looking.looks) { "the camera is closed on ${looking.javaClass.simpleName}" }
    val camera = Thread { looking.onPicture(picture) }
    camera.start()
    camera.join()
    org.robolectric.Shadows.shadowOf(android.os.Looper.getMainLooper()).idle()
    Screen(this).finish()
}
