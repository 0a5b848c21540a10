package slingseal.handheld.support

import java.io.File
import java.nio.file.Files
import slingseal.core.Handheld
import slingseal.core.Issue
import slingseal.core.Role

/**
 * A measurement and no test: how long Kotlin waits for a card's view. Run by `scripts/overhead.sh`, which
 * takes the same call in Rust, on the same home, beside it. Prints what the other half needs as its last
 * line.
 */
object Overhead {
    private const val SECRET = "a secret of 32 bytes, made up..."
    private const val PIN = "417293"
    private const val WORDS = "high water at Alder Bridge"

    @JvmStatic
    fun main(args: Array<String>) {
        val calls = args.firstOrNull()?.toInt() ?: 2000
        val folder = Files.createTempDirectory("slingseal-overhead").toFile()
        fun home(name: String) = File(folder, name).apply { mkdirs() }
        val desk = Handheld.open(home("desk").path, SECRET.toByteArray(), "en")
        desk.authorityInit("Sela Relief", WORDS, desk.procedures().map { it.id })
        val phone = Handheld.open(home("phone").path, SECRET.toByteArray(), "en")
        val authority = desk.authority()
        phone.trust(authority.card.text, authority.fingerprint)
        phone.receive(authority.roster.text)
        phone.receive(
            desk
                .issue(
                    Issue(
                        phone.makeKey("Anvil 3", PIN).text,
                        listOf(Role.PLANNER, Role.INSPECTOR),
                        "2099-01-01",
                        null,
                        null,
                    ),
                    WORDS,
                )
                .text
        )
        val tag = phone.writeTag(File("../bindings/desk/demo/bag.toml").readText(), null, PIN).code.text
        val walk = phone.beginWalk(tag).walk

        // the compiler of the JVM needs some thousand calls before it is done
        repeat(calls) { phone.walk(walk) }
        line("a call that does almost nothing", calls) { phone.speak("en") }
        line("a card's view, from Kotlin", calls) { phone.walk(walk) }
        phone.close()
        desk.close()
        println("${home("phone").path}\t$SECRET\t$walk\t$calls")
    }

    private fun line(what: String, calls: Int, call: () -> Unit) {
        val taken =
            LongArray(calls) {
                val began = System.nanoTime()
                call()
                System.nanoTime() - began
            }
        taken.sort()
        fun at(share: Int) = taken[calls * share / 100] / 1000.0
        println(
            "%-32s median %8.1f us, 9 of 10 within %8.1f us"
                .format(java.util.Locale.ROOT, what, at(50), at(90))
        )
    }
}
