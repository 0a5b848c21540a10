package slingseal.handheld.support

import java.io.File
import java.nio.file.Files
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.Issue
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.Role
import slingseal.core.StickerReading
import slingseal.core.VerdictWord
import slingseal.core.WalkRequest
import slingseal.core.WalkView

/**
 * From an empty folder to GO and NO-GO with no Android about it: a program of its own and no test class, so
 * that it also runs through what the shrinker left (`scripts/shrunk.sh`), where no test runner could find
 * anything by its name.
 */
object Walked {
    private const val PIN = "417293"
    private const val WORDS = "high water at Alder Bridge"

    @JvmStatic
    fun main(args: Array<String>) {
        val plan = File(args[0]).readText()
        val folder = Files.createTempDirectory("slingseal-walked").toFile()
        fun core(name: String) =
            Handheld.open(File(folder, name).apply { mkdirs() }.path, name.toByteArray().copyOf(32), "en")
        val desk = core("desk")
        desk.authorityInit("Sela Relief", WORDS, desk.procedures().map { it.id })
        val authority = desk.authority()
        val phone = core("phone")
        val hook = core("hook")
        for (device in listOf(phone, hook)) {
            device.trust(authority.card.text, authority.fingerprint)
            device.receive(authority.roster.text)
        }
        val request = phone.makeKey("Lantern 1", PIN)
        phone.receive(
            desk
                .issue(
                    Issue(request.text, listOf(Role.PLANNER, Role.INSPECTOR), "2099-01-01", null, null),
                    WORDS,
                )
                .text
        )
        val tag = phone.writeTag(plan, null, PIN).code.text

        var view = phone.beginWalk(tag)
        var answers = 0
        while (view.card != null) {
            view = phone.doWalk(view.walk, answer(view))
            check(view.refused == null) { view.refused?.message.orEmpty() }
            answers++
        }
        view = phone.doWalk(view.walk, WalkRequest.Decide(true, null))
        check(view.refused == null) { view.refused?.message.orEmpty() }
        val wrong = runCatching { phone.seal(view.walk, "000000", null) }.exceptionOrNull()
        check(wrong is HandheldException.Refused) { "a wrong PIN: $wrong" }
        val seal = phone.seal(view.walk, PIN, null).code.text
        phone.close()
        check(core("phone").records(null, 10u).size == 1) {
            "the record is gone after the home was opened again"
        }

        // both over a sticker, as at the hook
        val sticker = overSticker(hook, seal, tag)
        val go = hook.check(sticker.seal, sticker.tag)
        check(go.verdict == VerdictWord.GO) { go.reasons.toString() }
        val other = desk.writeTag(plan.replace("KM-015", "KM-016"), null, null).code.text
        val refused = hook.check(seal, other)
        check(refused.verdict == VerdictWord.NO_GO) { refused.reasons.toString() }
        folder.deleteRecursively()
        println(
            "walked: $answers answers, ${go.verdict} on the right load, ${refused.verdict} on another; ${seal.length} characters"
        )
    }

    private fun overSticker(reader: Handheld, seal: String, tag: String): StickerReading.Ours {
        val written = reader.sticker(listOf(seal, tag), 868u)
        check(written.fits) { "${written.bytes} bytes" }
        return reader.readSticker(written.message) as StickerReading.Ours
    }

    /** Good, or the value that is asked for first. */
    fun answer(walk: WalkView): WalkRequest {
        val card = checkNotNull(walk.card)
        val open = card.points.firstOrNull { it.needsValue && it.state == PointState.UNANSWERED }
        return if (card.goodEnabled || open == null) WalkRequest.CardGood(card.number)
        else WalkRequest.Answer(card.number, open.id, value(open.id, open.kind))
    }

    private fun value(id: String, kind: PointKind): String =
        when (kind) {
            is PointKind.Count -> counted(id)
            is PointKind.Choice -> kind.options.first().name
            is PointKind.Measure -> "1 m"
            else -> "seen"
        }
}
