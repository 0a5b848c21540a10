package slingseal.handheld.support

/**
 * What a sound load has at a count of the lists that come with the program: a screen does not tell it before
 * it is entered. In a file of its own, for it goes through the shrinker beside [Walked], where nothing of the
 * test runner is.
 */
fun counted(id: String): String =
    when {
        id.endsWith(".passes") || id.endsWith(".crossing") -> "1"
        ".parts-" in id -> "4"
        id.endsWith(".plate") -> "10"
        id.startsWith("drum-") && id.endsWith(".ring") -> "21"
        else -> "3"
    }
