package slingseal.handheld

import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test

/**
 * The Gradle files are for whoever opens the shell in the usual studio; they are not built here, so they are
 * at least held to what is: the versions in pom.xml and the manifest.
 */
class GradleTest {
    private val gradle = File("build.gradle.kts").readText()
    private val pom = File("pom.xml").readText()
    private val manifest = File("src/main/AndroidManifest.xml").readText()

    private fun String.one(pattern: String): String =
        checkNotNull(Regex(pattern).find(this)) { "nothing like $pattern" }.groupValues[1]

    private fun property(name: String) = pom.one("<${Regex.escape(name)}>([^<]+)</")

    private fun version(artifact: String): String {
        val found =
            pom.one("<artifactId>${Regex.escape(artifact)}</artifactId>\\s*<version>([^<]+)</version>")
        return if (found.startsWith("$")) property(found.removeSurrounding("\${", "}")) else found
    }

    @Test
    fun thePluginsAndLibrariesAreThePoms() {
        assertEquals(property("kotlin.version"), gradle.one("kotlin.android\"\\) version \"([^\"]+)\""))
        assertEquals(property("jvm.target"), gradle.one("jvmToolchain\\((\\d+)\\)"))
        assertEquals(
            "VERSION_" + property("jvm.target"),
            gradle.one("targetCompatibility = JavaVersion\\.(\\w+)"),
        )
        val named = Regex("mplementation\\(\"([^:\"]+):([^:\"]+):([^@\"]+)").findAll(gradle).toList()
        assertTrue("${named.size} libraries", named.size >= 4)
        for (library in named) assertEquals(
            library.value,
            version(library.groupValues[2]),
            library.groupValues[3],
        )
        // a library that the pom gives the tests or the app must not be left out
        val scopes = listOf("jna", "junit", "core", "robolectric")
        assertEquals(scopes.toSet(), named.map { it.groupValues[2] }.toSet())
    }

    @Test
    fun thePhonesAreTheManifests() {
        for ((inGradle, inManifest) in
            listOf(
                "minSdk = (\\d+)" to "minSdkVersion=\"(\\d+)\"",
                "targetSdk = (\\d+)" to "targetSdkVersion=\"(\\d+)\"",
                "compileSdk = (\\d+)" to "targetSdkVersion=\"(\\d+)\"",
                "versionCode = (\\d+)" to "versionCode=\"(\\d+)\"",
                "versionName = \"([^\"]+)\"" to "versionName=\"([^\"]+)\"",
                "applicationId = \"([^\"]+)\"" to "package=\"([^\"]+)\"",
            )) assertEquals(inGradle, manifest.one(inManifest), gradle.one(inGradle))
        assertEquals(
            pom.one("<artifactId>android-shell</artifactId>\\s*<version>([^<]+)<"),
            gradle.one("versionName = \"([^\"]+)\""),
        )
        for (file in listOf("build.gradle.kts", "settings.gradle.kts")) assertTrue(
            file,
            File(file).readText().startsWith("// NOT BUILT HERE"),
        )
    }
}
