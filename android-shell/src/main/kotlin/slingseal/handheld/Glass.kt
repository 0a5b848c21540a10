package slingseal.handheld

import android.os.Build
import android.view.View
import slingseal.handheld.look.SafeArea
import slingseal.handheld.look.WorkingPage

/** What is drawn on the whole glass: a page, or what stands there until one comes. */
internal class Glass(private val shell: Shell) {
    private val dress by lazy { WindowDress(shell.activity.window) }

    private fun ground() = SafeArea(shell.activity, shell.palette)

    fun useCutouts() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) dress.useCutouts()
    }

    /** The ground alone, for the moment in which the first page is read. */
    fun blank() = shell.activity.setContentView(ground())

    /** That something is done that takes its time. */
    fun working(words: Int) =
        shell.activity.setContentView(ground().apply { addView(WorkingPage(shell.parts).build(words)) })

    /** Words and nothing else, not even a key. */
    fun words(words: String) {
        val line = shell.parts.words(words, 22, bold = true)
        val gap = (24 * shell.activity.resources.displayMetrics.density).toInt()
        line.setPadding(gap, gap, gap, gap)
        shell.activity.setContentView(ground().apply { addView(line) })
    }

    /** A page, or in its place that its work goes on. */
    fun page(screen: Screen, works: Boolean) {
        val area = ground()
        val view = if (works) WorkingPage(shell.parts).build() else screen.whole()
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P) nameThePane(area, screen)
        area.addView(view)
        shell.activity.setContentView(area)
        dress.wear(screen, shell.palette)
        area.requestApplyInsets()
    }

    /** A screen reader says which page came. */
    @NewerAndroid
    private fun nameThePane(area: View, screen: Screen) {
        area.accessibilityPaneTitle = screen.paneTitle
    }
}
