package slingseal.handheld.sense

import android.Manifest
import android.annotation.SuppressLint
import android.content.Context
import android.content.pm.PackageManager
import android.graphics.ImageFormat
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
import kotlin.math.abs

/** Why the camera shows nothing. */
enum class Blind { NO_CAMERA, NOT_ALLOWED, TAKEN }

/**
 * The camera behind the phone: shows a preview and hands grey pictures on, one at a time and off the main thread,
 * the newest first; frames that come while one is being read are dropped.
 */
class Eye(
    private val context: Context,
    private val preview: TextureView,
    private val onPicture: (Luminance) -> Unit,
    private val onBlind: (Blind) -> Unit,
) : TextureView.SurfaceTextureListener {
    private val cameras = context.getSystemService(Context.CAMERA_SERVICE) as CameraManager
    private var thread: HandlerThread? = null
    private var hands: Handler? = null
    private var device: CameraDevice? = null
    private var session: CameraCaptureSession? = null
    private var reader: ImageReader? = null
    private var request: CaptureRequest.Builder? = null
    private var open = false

    var torch = false
        private set

    /** Whether the camera has a light of its own. */
    val hasTorch: Boolean
        get() = back()?.let { cameras.getCameraCharacteristics(it).get(CameraCharacteristics.FLASH_INFO_AVAILABLE) } == true

    fun start() {
        if (open) return
        if (context.checkSelfPermission(Manifest.permission.CAMERA) != PackageManager.PERMISSION_GRANTED) return onBlind(Blind.NOT_ALLOWED)
        if (back() == null) return onBlind(Blind.NO_CAMERA)
        open = true
        thread = HandlerThread("eye").also { it.start(); hands = Handler(it.looper) }
        if (preview.isAvailable) begin() else preview.surfaceTextureListener = this
    }

    fun stop() {
        if (!open) return
        open = false
        torch = false
        session?.close()
        device?.close()
        reader?.close()
        session = null
        device = null
        reader = null
        request = null
        thread?.quitSafely()
        thread = null
        hands = null
    }

    fun light(on: Boolean) {
        torch = on
        val asked = request ?: return
        asked.set(CaptureRequest.FLASH_MODE, if (on) CaptureRequest.FLASH_MODE_TORCH else CaptureRequest.FLASH_MODE_OFF)
        repeat()
    }

    private fun back(): String? = try {
        cameras.cameraIdList.let { ids ->
            ids.firstOrNull {
                cameras.getCameraCharacteristics(it).get(CameraCharacteristics.LENS_FACING) == CameraCharacteristics.LENS_FACING_BACK
            } ?: ids.firstOrNull()
        }
    } catch (e: CameraAccessException) {
        null
    }

    /** About 1 megapixel: enough for a dense code at arm's length, read in some milliseconds. */
    private fun size(id: String): Size {
        val map = cameras.getCameraCharacteristics(id).get(CameraCharacteristics.SCALER_STREAM_CONFIGURATION_MAP)
        val sizes = map?.getOutputSizes(ImageFormat.YUV_420_888)?.toList().orEmpty()
        return sizes.minByOrNull { abs(it.width * it.height - WANTED) } ?: Size(1280, 720)
    }

    @SuppressLint("MissingPermission")
    private fun begin() {
        val id = back() ?: return onBlind(Blind.NO_CAMERA)
        try {
            cameras.openCamera(id, object : CameraDevice.StateCallback() {
                override fun onOpened(camera: CameraDevice) {
                    if (open) opened(camera, size(id)) else camera.close()
                }

                override fun onDisconnected(camera: CameraDevice) = lost(camera)
                override fun onError(camera: CameraDevice, error: Int) = lost(camera)
            }, hands)
        } catch (e: CameraAccessException) {
            onBlind(Blind.TAKEN)
        }
    }

    private fun lost(camera: CameraDevice) {
        camera.close()
        preview.post { stop(); onBlind(Blind.TAKEN) }
    }

    @Suppress("DEPRECATION") // the newer call needs API 28
    private fun opened(camera: CameraDevice, size: Size) {
        device = camera
        val pictures = ImageReader.newInstance(size.width, size.height, ImageFormat.YUV_420_888, 2)
        reader = pictures
        pictures.setOnImageAvailableListener({ source ->
            val image = source.acquireLatestImage() ?: return@setOnImageAvailableListener
            val picture = image.use {
                val y = it.planes[0]
                Luminance.ofPlane(y.buffer, it.width, it.height, y.rowStride, y.pixelStride)
            }
            onPicture(picture)
        }, hands)
        val texture = preview.surfaceTexture ?: return
        texture.setDefaultBufferSize(size.width, size.height)
        val shown = Surface(texture)
        val asked = camera.createCaptureRequest(CameraDevice.TEMPLATE_PREVIEW)
        asked.addTarget(shown)
        asked.addTarget(pictures.surface)
        asked.set(CaptureRequest.CONTROL_AF_MODE, CaptureRequest.CONTROL_AF_MODE_CONTINUOUS_PICTURE)
        asked.set(CaptureRequest.FLASH_MODE, if (torch) CaptureRequest.FLASH_MODE_TORCH else CaptureRequest.FLASH_MODE_OFF)
        request = asked
        camera.createCaptureSession(listOf(shown, pictures.surface), object : CameraCaptureSession.StateCallback() {
            override fun onConfigured(made: CameraCaptureSession) {
                session = made
                repeat()
            }

            override fun onConfigureFailed(made: CameraCaptureSession) = lost(camera)
        }, hands)
    }

    private fun repeat() {
        val asked = request ?: return
        try {
            session?.setRepeatingRequest(asked.build(), null, hands)
        } catch (e: CameraAccessException) {
            onBlind(Blind.TAKEN)
        } catch (e: IllegalStateException) {
            // the session was closed in between: stop() has already cleared up
            android.util.Log.i("slingseal", "the camera closed: ${e.message}")
        }
    }

    override fun onSurfaceTextureAvailable(texture: SurfaceTexture, width: Int, height: Int) {
        if (open) begin()
    }

    override fun onSurfaceTextureSizeChanged(texture: SurfaceTexture, width: Int, height: Int) = Unit
    override fun onSurfaceTextureDestroyed(texture: SurfaceTexture): Boolean = true
    override fun onSurfaceTextureUpdated(texture: SurfaceTexture) = Unit

    private companion object {
        const val WANTED = 1280 * 720
    }
}
