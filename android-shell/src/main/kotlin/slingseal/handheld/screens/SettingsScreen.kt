package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Palette
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place

/** Light and voice. The core keeps what was chosen. */
class SettingsScreen(shell: Shell, override val place: Place.Settings) : Screen(shell, place) {
    override fun build(): View {
        val lights =
            listOf(
                    Triple(Palette.DAY, R.string.day, R.string.day_about),
                    Triple(Palette.SUN, R.string.sun, R.string.sun_about),
                    Triple(Palette.NIGHT, R.string.night, R.string.night_about),
                )
                .map { (light, name, about) ->
                    key(Face.ROW, text(name), if (light == palette) Sign.TICK else Sign.SUN, text(about)) {
                            shell.changePalette(light)
                        }
                        .apply { chosen = light == palette }
                }
        val speaks = shell.speaks
        val voice =
            key(
                    Face.ROW,
                    text(R.string.voice),
                    if (speaks) Sign.TICK else Sign.SPEAK,
                    text(if (speaks) R.string.voice_on else R.string.voice_off),
                ) {
                    shell.speaks = !speaks
                    shell.redraw()
                }
                .apply { chosen = speaks }
        val on = shell.hardKeysOn
        val keys =
            key(
                    Face.ROW,
                    text(R.string.keys_title),
                    if (on) Sign.TICK else Sign.BARS,
                    text(if (on) R.string.keys_on else R.string.keys_off),
                ) {
                    shell.hardKeysOn = !on
                    shell.redraw()
                }
                .apply { chosen = on }
        return page(
            text(R.string.settings),
            body(
                parts.eyebrow(text(R.string.light)),
                parts.column(*lights.toTypedArray(), space = 16),
                parts.words(text(R.string.not_for_goggles), 16, quiet = true),
                parts.eyebrow(text(R.string.voice)),
                voice,
                parts.eyebrow(text(R.string.keys_title)),
                keys,
                parts.words(text(R.string.keys_about), 17),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
        )
    }
}
