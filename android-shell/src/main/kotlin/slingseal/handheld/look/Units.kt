package slingseal.handheld.look

import android.content.Context
import android.util.TypedValue
import android.view.View

/** Density-independent pixels as pixels: 160 to the inch. */
fun Context.dp(value: Number): Int =
    TypedValue.applyDimension(TypedValue.COMPLEX_UNIT_DIP, value.toFloat(), resources.displayMetrics).toInt()

/** Scaled pixels as pixels: they grow with the size of text that the person chose. */
fun Context.sp(value: Number): Float =
    TypedValue.applyDimension(TypedValue.COMPLEX_UNIT_SP, value.toFloat(), resources.displayMetrics)

fun View.dp(value: Number): Int = context.dp(value)

fun View.sp(value: Number): Float = context.sp(value)

/**
 * MIL-STD-1472E asks for keys of 19 mm and 13 mm between their edges where gloves are worn: 120 dp and 82 dp.
 */
object Glove {
    const val KEY = 120
    const val GAP = 82
}
