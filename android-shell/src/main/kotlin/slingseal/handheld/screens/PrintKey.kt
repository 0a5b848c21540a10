package slingseal.handheld.screens

import slingseal.handheld.Printing
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign

/** The key that hands pages to the platform's print service. */
internal fun Screen.printKey(shell: Shell, name: String, pages: (letter: Boolean) -> ByteArray): Key =
    Key(
        shell.activity,
        shell.palette,
        Face.ROW,
        shell.activity.getString(R.string.print),
        Sign.PAPER,
        shell.activity.getString(R.string.print_about),
    ) {
        if (Printing.begin(shell, name, pages)) return@Key
        shell.notice = shell.activity.getString(R.string.print_none)
        shell.redraw()
    }
