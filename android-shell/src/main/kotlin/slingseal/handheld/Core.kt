package slingseal.handheld

import android.content.Context
import java.io.File
import java.util.Locale
import java.util.concurrent.ConcurrentHashMap
import java.util.concurrent.Executor
import java.util.concurrent.Executors
import slingseal.core.Handheld
import slingseal.core.HandheldException

/** The core of this process: one, however often the activity is made anew. */
object Core {
    @Volatile private var open: Handheld? = null

    /**
     * What stands between the pages and the core: nothing, but in a test that watches who calls it, and from
     * where.
     */
    internal var watched: (Handheld) -> Handheld = { it }

    /** Where work of more than a moment is done: stretching a PIN is made to be slow. */
    var slow: Executor = Executors.newSingleThreadExecutor()

    /**
     * Where a page is read and a press is written down, one after the other. Not behind what is slow: the
     * next page does not wait until a picture is drawn.
     */
    var quick: Executor = Executors.newSingleThreadExecutor()

    /** The language that the core speaks here: Spanish where the phone does, English everywhere else. */
    fun language(context: Context): Locale =
        context.resources.configuration.locales[0].takeIf { it.language == "es" } ?: Locale.ENGLISH

    /** The core, if it is open already: to ask costs nothing. */
    fun opened(context: Context): Handheld? = open?.also { speak(it, tag(context)) }

    /** Before the next page is read, and by whoever reads it. */
    private fun speak(core: Handheld, language: String) {
        if (language != spoken) quick.execute { core.speak(language) }
        spoken = language
    }

    private fun tag(context: Context) = context.resources.configuration.locales[0].toLanguageTag()

    /**
     * The core, opened where it is not. That takes a moment, for a store is read and a key of the platform's
     * is asked: off the main thread.
     */
    @Synchronized
    fun of(context: Context): Handheld {
        val language = tag(context)
        opened(context)?.let {
            return it
        }
        // outside every backup and every transfer to another phone: a copy would be a second device that says
        // it is this one
        val home = File(context.noBackupFilesDir, "home").apply { mkdirs() }
        val secret = DeviceSecret.bytes()
        return watched(Handheld.open(home.path, secret, language)).also {
            open = it
            spoken = language
            for (name in CHOICES) choices[name] = it.preference(name).orEmpty()
            keyLost =
                SecretWitness.differs(
                    File(context.noBackupFilesDir, "witness"),
                    secret,
                    keyMade = it.setUp().fingerprint != null,
                )
        }
    }

    /**
     * Whether the keystore's key is another than the one under which this phone's own key was put away: the
     * platform drops keys, as when the phone was reset or its data carried over. No PIN opens the vault then,
     * and none is worth a try.
     */
    var keyLost = false
        private set

    private var spoken = ""
    private val choices = ConcurrentHashMap<String, String>()

    /** What each page wants to know, read with the opening. */
    const val HARD_KEYS = "hard keys"
    const val PALETTE = "palette"
    const val VOICE = "voice"

    /** Whether the person was asked for the camera. */
    const val ASKED = "camera asked"

    /** The part of an authority's copy that this phone keeps. */
    const val KEPT = "authority part"
    private const val ON = "on"
    private const val OFF = "off"
    private val CHOICES = listOf(HARD_KEYS, PALETTE, VOICE, ASKED, KEPT)

    /** What was chosen under a name, empty where nothing was; asks nobody. */
    fun choice(name: String): String = choices[name].orEmpty()

    /** Whether what is either on or off is on; off where nobody chose. */
    fun isOn(name: String): Boolean = choice(name) == ON

    /** How a choice of on or off is written down. */
    fun switched(on: Boolean): String = if (on) ON else OFF

    /** A choice holds at once, and is written down beside the main thread. */
    fun choose(name: String, value: String, refused: (String) -> Unit = {}) {
        choices[name] = value
        quick.execute {
            try {
                open?.prefer(name, value)
            } catch (e: HandheldException) {
                refused(e.words)
            }
        }
    }

    /** One file holds everything, for whoever copies it: the phone is put away. Beside the main thread. */
    fun settle() = quick.execute(::settleNow)

    /** Not while the core is closed: the next opening would find the home in use. */
    @Synchronized
    private fun settleNow() {
        open?.settle()
    }

    /** Closes the core, as the end of the process does. */
    @Synchronized
    fun close() {
        choices.clear()
        spoken = ""
        open?.close()
        open = null
    }
}

/** The one line that says what is wrong and what to do. */
val HandheldException.words: String
    get() =
        when (this) {
            is HandheldException.Refused -> words
            is HandheldException.NotFound -> words
            is HandheldException.StorageFull -> words
            is HandheldException.StorageDamaged -> words
            is HandheldException.TooNew -> words
            is HandheldException.BadInput -> words
            is HandheldException.Internal -> words
        }
