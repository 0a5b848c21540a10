package slingseal.handheld.sense

import android.Manifest
import android.annotation.SuppressLint
import android.content.Context
import android.content.pm.PackageManager
import android.graphics.ImageFormat
import android.graphics.Matrix
import android.graphics.RectF
import android.graphics.SurfaceTexture
import android.hardware.camera2.CameraAccessException
import android.hardware.camera2.CameraCaptureSession
import android.hardware.camera2.CameraCharacteristics
import android.hardware.camera2.CameraDevice
import android.hardware.camera2.CameraManager
import android.hardware.camera2.CaptureRequest
import android.media.ImageReader
import android.os.Handler
import android.os.HandlerThread
import android.util.Size
import android.view.Surface
import android.view.TextureView
import android.view.WindowManager
import kotlin.math.abs
import kotlin.math.max

/** Why the camera shows nothing. */
enum class Blind {
    NO_CAMERA,
    NOT_ALLOWED,
    TAKEN,
    BROKEN,
}

/**
 * The camera behind the phone: shows a preview and hands grey pictures on, one at a time and off the main
 * thread, the newest first; frames that come while one is being read are dropped. Whatever the camera throws
 * ends here: the device is closed and the page is told, on the main thread.
 */
class Eye(
    private val context: Context,
    private val preview: TextureView,
    private val onPicture: (Luminance) -> Unit,
    /** A photograph as the camera's own JPEG, on the main thread; the longer side may be given. */
    private val onPhoto: ((ByteArray) -> Unit)? = null,
    private val onBlind: (Blind) -> Unit,
) : TextureView.SurfaceTextureListener {
    private val cameras = context.getSystemService(Context.CAMERA_SERVICE) as CameraManager
    private val main = Handler(context.mainLooper)
    private var thread: HandlerThread? = null
    private var hands: Handler? = null
    private var device: CameraDevice? = null
    private var session: CameraCaptureSession? = null
    private var reader: ImageReader? = null
    private var photos: ImageReader? = null
    private var request: CaptureRequest.Builder? = null
    private var size = Size(1280, 720)

    @Volatile private var open = false

    /** Whether the camera is held; nothing holds it when the page is gone. */
    val isOpen
        get() = open

    var torch = false
        private set

    /** Whether the camera has a light of its own. */
    val hasTorch: Boolean
        get() = back()?.let { fact(it, CameraCharacteristics.FLASH_INFO_AVAILABLE) } == true

    fun start() {
        if (open) return
        if (context.checkSelfPermission(Manifest.permission.CAMERA) != PackageManager.PERMISSION_GRANTED)
            return onBlind(Blind.NOT_ALLOWED)
        if (back() == null) return onBlind(Blind.NO_CAMERA)
        open = true
        thread =
            HandlerThread("eye").also {
                it.start()
                hands = Handler(it.looper)
            }
        preview.surfaceTextureListener = this
        if (preview.isAvailable) begin()
    }

    fun stop() {
        if (!open) return
        open = false
        torch = false
        letGo()
        thread?.quitSafely()
        thread = null
        hands = null
    }

    private fun letGo() {
        // the device first: with it go its sessions, and what they still hand over finds nobody
        for (held in listOf(device, session, reader, photos)) {
            try {
                held?.close()
            } catch (e: RuntimeException) {
                android.util.Log.i("slingseal", "the camera was closed already: ${e.message}")
            }
        }
        session = null
        device = null
        reader = null
        photos = null
        request = null
    }

    fun light(on: Boolean) {
        torch = on
        val asked = request ?: return
        asked.set(
            CaptureRequest.FLASH_MODE,
            if (on) CaptureRequest.FLASH_MODE_TORCH else CaptureRequest.FLASH_MODE_OFF,
        )
        repeat()
    }

    /** Takes a photograph in the camera's full size; false where it cannot. */
    fun shoot(): Boolean {
        val camera = device ?: return false
        val full = photos ?: return false
        return tried {
            val asked = camera.createCaptureRequest(CameraDevice.TEMPLATE_STILL_CAPTURE)
            asked.addTarget(full.surface)
            asked.set(CaptureRequest.CONTROL_AF_MODE, CaptureRequest.CONTROL_AF_MODE_CONTINUOUS_PICTURE)
            asked.set(
                CaptureRequest.FLASH_MODE,
                if (torch) CaptureRequest.FLASH_MODE_TORCH else CaptureRequest.FLASH_MODE_OFF,
            )
            asked.set(CaptureRequest.JPEG_ORIENTATION, (sensorTurn() - screenTurn() + 360) % 360)
            asked.set(CaptureRequest.JPEG_QUALITY, 92)
            session?.capture(asked.build(), null, hands)
        }
    }

    private fun back(): String? =
        try {
            cameras.cameraIdList.let { ids ->
                ids.firstOrNull {
                    fact(it, CameraCharacteristics.LENS_FACING) == CameraCharacteristics.LENS_FACING_BACK
                } ?: ids.firstOrNull()
            }
        } catch (e: CameraAccessException) {
            null
        } catch (e: RuntimeException) {
            null
        }

    private fun <T> fact(id: String, key: CameraCharacteristics.Key<T>): T? =
        try {
            cameras.getCameraCharacteristics(id).get(key)
        } catch (e: CameraAccessException) {
            null
        } catch (e: RuntimeException) {
            null
        }

    private fun sizes(id: String, format: Int): List<Size> =
        fact(id, CameraCharacteristics.SCALER_STREAM_CONFIGURATION_MAP)
            ?.getOutputSizes(format)
            ?.toList()
            .orEmpty()

    /** About 1 megapixel: enough for a dense code at arm's length, read in some milliseconds. */
    private fun size(id: String): Size =
        sizes(id, ImageFormat.YUV_420_888).minByOrNull { abs(it.width * it.height - WANTED) }
            ?: Size(1280, 720)

    @SuppressLint("MissingPermission")
    private fun begin() {
        val id = back() ?: return blind(Blind.NO_CAMERA)
        size = size(id)
        turn()
        tried {
            cameras.openCamera(
                id,
                object : CameraDevice.StateCallback() {
                    override fun onOpened(camera: CameraDevice) {
                        if (open) tried { opened(camera, id) } else camera.close()
                    }

                    override fun onDisconnected(camera: CameraDevice) = lost(camera, Blind.TAKEN)

                    override fun onError(camera: CameraDevice, error: Int) {
                        camera.close()
                        failed(error)
                    }
                },
                hands,
            )
        }
    }

    /** The camera says by itself that it failed. */
    internal fun failed(error: Int) {
        val taken =
            error == CameraDevice.StateCallback.ERROR_CAMERA_IN_USE ||
                error == CameraDevice.StateCallback.ERROR_MAX_CAMERAS_IN_USE
        if (open) blind(if (taken) Blind.TAKEN else Blind.BROKEN)
    }

    /** Every exception of the camera: none may end the program. */
    internal fun tried(job: () -> Unit): Boolean =
        try {
            job()
            true
        } catch (e: CameraAccessException) {
            blind(
                if (
                    e.reason == CameraAccessException.CAMERA_IN_USE ||
                        e.reason == CameraAccessException.MAX_CAMERAS_IN_USE
                )
                    Blind.TAKEN
                else Blind.BROKEN
            )
            false
        } catch (e: SecurityException) {
            blind(Blind.NOT_ALLOWED)
            false
        } catch (e: RuntimeException) {
            android.util.Log.i("slingseal", "the camera: ${e.message}")
            if (open) blind(Blind.BROKEN)
            false
        }

    private fun blind(why: Blind) {
        main.post {
            stop()
            onBlind(why)
        }
    }

    private fun lost(camera: CameraDevice, why: Blind) {
        camera.close()
        if (open) blind(why)
    }

    @Suppress("DEPRECATION") // the newer call needs API 28
    private fun opened(camera: CameraDevice, id: String) {
        device = camera
        val pictures = ImageReader.newInstance(size.width, size.height, ImageFormat.YUV_420_888, 2)
        reader = pictures
        pictures.setOnImageAvailableListener(
            { source ->
                val image = source.acquireLatestImage() ?: return@setOnImageAvailableListener
                val picture =
                    image.use {
                        val y = it.planes[0]
                        Luminance.ofPlane(y.buffer, it.width, it.height, y.rowStride, y.pixelStride)
                    }
                if (open) onPicture(picture)
            },
            hands,
        )
        val texture = preview.surfaceTexture ?: return
        texture.setDefaultBufferSize(size.width, size.height)
        val shown = Surface(texture)
        val asked = camera.createCaptureRequest(CameraDevice.TEMPLATE_PREVIEW)
        asked.addTarget(shown)
        asked.addTarget(pictures.surface)
        asked.set(CaptureRequest.CONTROL_AF_MODE, CaptureRequest.CONTROL_AF_MODE_CONTINUOUS_PICTURE)
        asked.set(
            CaptureRequest.FLASH_MODE,
            if (torch) CaptureRequest.FLASH_MODE_TORCH else CaptureRequest.FLASH_MODE_OFF,
        )
        request = asked
        camera.createCaptureSession(
            listOfNotNull(shown, pictures.surface, full(id)?.surface),
            object : CameraCaptureSession.StateCallback() {
                override fun onConfigured(made: CameraCaptureSession) {
                    session = made
                    repeat()
                }

                override fun onConfigureFailed(made: CameraCaptureSession) = lost(camera, Blind.BROKEN)
            },
            hands,
        )
    }

    /** The largest picture that the core takes in: what a deficiency's edge needs is in the pixels. */
    private fun full(id: String): ImageReader? {
        val taken = onPhoto ?: return null
        val largest = largest(sizes(id, ImageFormat.JPEG)) ?: return null
        return ImageReader.newInstance(largest.width, largest.height, ImageFormat.JPEG, 1).also { made ->
            photos = made
            made.setOnImageAvailableListener(
                { source ->
                    val image = source.acquireLatestImage() ?: return@setOnImageAvailableListener
                    val bytes =
                        image.use {
                            val plane = it.planes[0].buffer
                            ByteArray(plane.remaining()).also { into -> plane.get(into) }
                        }
                    main.post { if (open) taken(bytes) }
                },
                hands,
            )
        }
    }

    private fun repeat() {
        val asked = request ?: return
        tried { session?.setRepeatingRequest(asked.build(), null, hands) }
    }

    @Suppress("DEPRECATION") // the newer way needs API 30
    private fun screenTurn(): Int =
        (context.getSystemService(Context.WINDOW_SERVICE) as WindowManager).defaultDisplay.rotation * 90

    private fun sensorTurn(): Int = back()?.let { fact(it, CameraCharacteristics.SENSOR_ORIENTATION) } ?: 90

    /**
     * Turns the preview against the turn of the screen and fills the view with it; what is too much is cut.
     */
    private fun turn() {
        if (preview.width > 0 && preview.height > 0)
            preview.setTransform(
                Preview.matrix(preview.width, preview.height, size.width, size.height, screenTurn())
            )
    }

    override fun onSurfaceTextureAvailable(texture: SurfaceTexture, width: Int, height: Int) {
        if (open && device == null) begin()
    }

    override fun onSurfaceTextureSizeChanged(texture: SurfaceTexture, width: Int, height: Int) = turn()

    /** The page is drawn anew: what was shown on goes, and the next surface begins again. */
    override fun onSurfaceTextureDestroyed(texture: SurfaceTexture): Boolean {
        letGo()
        return true
    }

    override fun onSurfaceTextureUpdated(texture: SurfaceTexture) = Unit

    companion object {
        private const val WANTED = 1280 * 720

        /** 12 megapixels: some 4 MB as JPEG. */
        private const val MOST = 12_600_000L

        /**
         * The size in which a photograph is taken, of those that the camera has; null where none is small
         * enough for a record.
         */
        fun largest(sizes: List<Size>): Size? =
            sizes
                .filter { it.width.toLong() * it.height <= MOST }
                .maxByOrNull { it.width.toLong() * it.height }
    }
}

/** How a camera's picture lies in a view. */
object Preview {
    /**
     * A texture is stretched over its view, as if it were upright; `turn` is how far the screen is turned.
     * The matrix undoes the stretch, turns, and scales until the view is full.
     */
    fun matrix(viewWidth: Int, viewHeight: Int, bufferWidth: Int, bufferHeight: Int, turn: Int): Matrix {
        val matrix = Matrix()
        val view = RectF(0f, 0f, viewWidth.toFloat(), viewHeight.toFloat())
        val (x, y) = view.centerX() to view.centerY()
        // the sensor of a phone lies on its side: upright the buffer's height is the width that is seen
        val seen =
            if (turn % 180 == 0) bufferHeight.toFloat() to bufferWidth.toFloat()
            else bufferWidth.toFloat() to bufferHeight.toFloat()
        if (turn % 180 == 0) {
            val scale = max(viewWidth / seen.first, viewHeight / seen.second)
            matrix.setScale(seen.first * scale / viewWidth, seen.second * scale / viewHeight, x, y)
            if (turn == 180) matrix.postRotate(180f, x, y)
        } else {
            val buffer = RectF(0f, 0f, bufferHeight.toFloat(), bufferWidth.toFloat())
            buffer.offset(x - buffer.centerX(), y - buffer.centerY())
            matrix.setRectToRect(view, buffer, Matrix.ScaleToFit.FILL)
            val scale = max(viewWidth / seen.first, viewHeight / seen.second)
            matrix.postScale(scale, scale, x, y)
            matrix.postRotate(if (turn == 90) -90f else 90f, x, y)
        }
        return matrix
    }
}
