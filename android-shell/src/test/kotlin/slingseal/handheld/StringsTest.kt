package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test

/** The words that are the platform's own: labels, shortcuts, permissions. */
class StringsTest {
    @Test
    fun everyStringIsInBothLanguages() {
        fun strings(folder: String) =
            Regex("<string name=\"(\\w+)\">([^<]*)<")
                .findAll(
                    java.io.File("src/main/res/$folder").listFiles()!!.joinToString("") { it.readText() }
                )
                .associate { it.groupValues[1] to it.groupValues[2] }
        val english = strings("values")
        val spanish = strings("values-es")
        assertEquals(english.keys, spanish.keys)
        val places = Regex("%\\d\\$[sd]")
        for ((name, words) in english) assertEquals(
            name,
            places.findAll(words).map { it.value }.toSet(),
            places.findAll(spanish.getValue(name)).map { it.value }.toSet(),
        )
        assertTrue(english.size > 100)
    }
}
