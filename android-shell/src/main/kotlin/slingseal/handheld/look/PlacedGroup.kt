package slingseal.handheld.look

import android.content.Context
import android.view.View
import android.view.ViewGroup

/** A group that fills what it is given, and says of each of its views where it stands and how large it is. */
abstract class PlacedGroup(context: Context) : ViewGroup(context) {
    /** Gives every view its left, its top, its width and its height, in pixels. */
    protected abstract fun place(width: Int, height: Int, put: (View, Int, Int, Int, Int) -> Unit)

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        val height = MeasureSpec.getSize(heightSpec)
        setMeasuredDimension(width, height)
        place(width, height) { view, _, _, w, h ->
            view.measure(
                MeasureSpec.makeMeasureSpec(w, MeasureSpec.EXACTLY),
                MeasureSpec.makeMeasureSpec(h, MeasureSpec.EXACTLY),
            )
        }
    }

    override fun onLayout(changed: Boolean, left: Int, top: Int, right: Int, bottom: Int) =
        place(right - left, bottom - top) { view, x, y, w, h -> view.layout(x, y, x + w, y + h) }
}
