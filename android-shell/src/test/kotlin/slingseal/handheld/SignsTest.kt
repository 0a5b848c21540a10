package slingseal.handheld

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Paint
import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Signs

/** A key is known by its sign: no two look alike, and what a key does has the same one on every page. */
@RunWith(RobolectricTestRunner::class)
class SignsTest {
    private fun drawn(sign: Sign): Set<Int> {
        val picture = Bitmap.createBitmap(SIDE, SIDE, Bitmap.Config.ARGB_8888)
        Signs.draw(Canvas(picture), sign, SIDE / 2f, SIDE / 2f, SIDE * 0.8f, Color.BLACK, Paint())
        return (0 until SIDE * SIDE)
            .filter { Color.alpha(picture.getPixel(it % SIDE, it / SIDE)) > 127 }
            .toSet()
    }

    @Test
    fun noTwoSignsLookAlike() {
        val all = Sign.entries.filter { it != Sign.NONE }.associateWith(::drawn)
        for ((sign, ink) in all) assertTrue("$sign is drawn: ${ink.size}", ink.size > 30)
        for ((one, ink) in all) for ((other, more) in all) {
            if (one >= other) continue
            val apart = ((ink - more) + (more - ink)).size / (ink + more).size.toDouble()
            assertTrue("$one and $other: $apart", apart > 0.25)
        }
    }

    /** By the words on the key: `key(face, text(R.string.words), Sign.X` and its like, in every source. */
    @Test
    fun whatAKeyDoesHasOneSign() {
        val key = Regex("R\\.string\\.(\\w+)(?:, \\w+)?\\),\\s*Sign\\.(\\w+)")
        val signs = sortedMapOf<String, MutableSet<String>>()
        for (file in File("src/main/kotlin").walk().filter { it.extension == "kt" }) for (found in
            key.findAll(file.readText())) {
            val (words, sign) = found.destructured
            signs.getOrPut(words) { sortedSetOf() } += sign
        }
        assertTrue("${signs.size}", signs.size > 60)
        assertEquals(emptyMap<String, Set<String>>(), signs.filterValues { it.size > 1 } - APART)
    }

    private companion object {
        const val SIDE = 96

        /** The same words for two things, with a reason each. */
        val APART =
            setOf(
                // a page's other things, and one more of a number in an examination's plan
                "more",
                // an authority's key is asked for by its own page, and read off another phone in the guide
                "authority_scan",
                // where a step of it is open, the row that leads there warns
                "set_up",
            )
    }
}
