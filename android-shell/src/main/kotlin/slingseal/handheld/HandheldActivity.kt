package slingseal.handheld

import android.app.Activity
import android.os.Bundle

class HandheldActivity : Activity() {
    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
    }
}
