package slingseal.handheld

import android.app.Activity
import android.os.Build
import android.window.OnBackInvokedCallback
import android.window.OnBackInvokedDispatcher

/**
 * From API 33 on the system asks a callback when somebody goes back; before that [Activity.onBackPressed].
 */
internal object SystemBack {
    /** What the system asks from now on; null where it asks none. */
    fun listen(activity: Activity, back: () -> Unit): Any? =
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) newer(activity, back) else null

    @NewerAndroid
    private fun newer(activity: Activity, back: () -> Unit): Any {
        val callback = OnBackInvokedCallback { back() }
        activity.onBackInvokedDispatcher.registerOnBackInvokedCallback(
            OnBackInvokedDispatcher.PRIORITY_DEFAULT,
            callback,
        )
        return callback
    }
}
