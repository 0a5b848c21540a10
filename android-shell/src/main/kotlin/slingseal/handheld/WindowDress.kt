package slingseal.handheld

import android.os.Build
import android.view.View
import android.view.Window
import android.view.WindowInsetsController
import android.view.WindowManager
import slingseal.handheld.look.Palette

/** What the window wears for a page: its flags, its light, and the bars of the system. */
internal class WindowDress(private val window: Window) {
    fun wear(screen: Screen, palette: Palette) {
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
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.R) newerBars(screen, palette)
        else olderBars(screen, palette)
    }

    @NewerAndroid
    fun useCutouts() {
        window.attributes =
            window.attributes.apply {
                layoutInDisplayCutoutMode =
                    WindowManager.LayoutParams.LAYOUT_IN_DISPLAY_CUTOUT_MODE_SHORT_EDGES
            }
    }

    @NewerAndroid
    private fun newerBars(screen: Screen, palette: Palette) {
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
    private fun olderBars(screen: Screen, palette: Palette) {
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
}
