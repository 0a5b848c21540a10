package slingseal.handheld

import android.app.Activity
import android.view.View.MeasureSpec
import android.widget.TextView
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Parts

/**
 * Letters that a person writes down: whole groups, in every width that a page may have, whatever they are.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class RowsTest {
    /** Pairs that a font draws closer than it measured them, where a line is broken between them. */
    private val rows =
        listOf(
            "9AUP IFLY F3PA TJLP OX",
            "AVAT LTLY PAPA WAWA VA",
            "IIII JJJJ WWWW MMMM QQ",
            "TATA 7J7A LYLV AYAY PJ",
        )

    @Test
    fun noGroupIsBrokenAndNoLineIsWiderThanItsRoom() {
        val activity = Robolectric.buildActivity(Activity::class.java).setup().get()
        var broken = 0
        for (size in listOf(17, 34)) {
            val view = Parts(activity, Palette.DAY).rows(rows, size)
            val letter = (view.getChildAt(0) as TextView).paint.measureText("M").toInt()
            for (width in 5 * letter..25 * letter) {
                view.measure(
                    MeasureSpec.makeMeasureSpec(width, MeasureSpec.EXACTLY),
                    MeasureSpec.makeMeasureSpec(0, MeasureSpec.UNSPECIFIED),
                )
                view.layout(0, 0, view.measuredWidth, view.measuredHeight)
                for ((at, row) in rows.withIndex()) {
                    val line = view.getChildAt(at) as TextView
                    assertTrue("${line.text}", line.text.toString().endsWith("${at + 1}. $row"))
                    for (part in 0 until line.layout.lineCount) {
                        assertTrue(
                            "${line.text} at $width",
                            line.layout.getLineMax(part) <= line.layout.width,
                        )
                        val end = line.layout.getLineEnd(part)
                        if (end < line.text.length) {
                            assertEquals("${line.text} at $width", ' ', line.text[end - 1])
                            broken += 1
                        }
                    }
                }
            }
        }
        assertTrue("no row was too long for one line", broken > 100)
    }
}
