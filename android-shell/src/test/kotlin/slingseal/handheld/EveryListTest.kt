package slingseal.handheld

import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.ProcedureView
import slingseal.core.Subject
import slingseal.core.WalkView
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.sound

/**
 * Each list that comes with the program is walked to its end on the handheld, page by page, in each language.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class EveryListTest {
    private fun begin(zone: Zone, core: Handheld, list: ProcedureView): WalkView =
        when {
            list.subject != Subject.LOAD ->
                core.beginInspection(
                    list.id,
                    if (list.id == "hookup" || list.id == "derig") "KM-015" else "AB 12",
                )
            list.id == "vehicle" -> core.beginWalk(zone.vehicleTag().text)
            else -> core.beginWalk(zone.tag("KM-0${list.id.length}", procedure = list.id).text)
        }

    private fun everyCard(qualifiers: String, bag: String) {
        RuntimeEnvironment.setQualifiers("$qualifiers-w360dp-h640dp-port-xhdpi")
        Zone.newPhone()
        val zone = Zone()
        zone.inspector()
        val screen = Screen(Zone.launch().get())
        val hand = screen.activity as HandheldActivity
        val core = Core.of(hand)
        val texts = File("../core/walk/procedures").listFiles().orEmpty().filter { it.extension == "toml" }
        val lists = core.procedures().filter { !it.own }
        assertEquals(texts.map { it.nameWithoutExtension }.toSet(), lists.map { it.id }.toSet())
        assertEquals(bag, lists.single { it.id == "bag" }.title)
        for (list in lists) {
            var view = begin(zone, core, list)
            var cards = 0
            hand.backTo(Place.Start::class)
            hand.go(Place.Walk(WalkRef.Inspection(view.walk)))
            while (view.card != null) {
                hand.redraw()
                screen.settle()
                val card = view.card!!
                val page = hand.front as CardScreen
                assertTrue("${list.id} ${card.number}", page.spoken.isNotBlank())
                val shown = screen.words().replace("\n", " ")
                assertTrue("${list.id} ${card.number}: ${card.title} in $shown", card.title in shown)
                for (point in card.points) assertTrue(
                    "${list.id}: ${point.prompt} in $shown",
                    point.prompt in shown,
                )
                view = core.doWalk(view.walk, sound(view))
                check(view.refused == null) { "${list.id} ${card.number}: ${view.refused?.message}" }
                cards += 1
            }
            assertTrue("${list.id}: $cards", cards >= list.cards.toInt())
        }
    }

    @Test fun inEnglish() = everyCard("en-rUS", "Webbing cargo bag on one chain leg")

    @Test fun inSpanish() = everyCard("es-rMX", "Bolsa de cincha con un ramal de cadena")
}
