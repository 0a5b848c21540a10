package slingseal.handheld.places

import kotlin.reflect.KClass

/** The places whose pages lie open, the one in front last. Once begun it is never empty: the first stays. */
internal class PlaceStack {
    private val places = ArrayList<Place>()

    val isEmpty
        get() = places.isEmpty()

    val all: List<Place>
        get() = places

    val last
        get() = places.last()

    fun begin(there: List<Place>) {
        places += there
    }

    fun push(place: Place) {
        places += place
    }

    /** Another place in front, without a way back to the one that was there. */
    fun keep(place: Place) {
        places[places.lastIndex] = place
    }

    /** Takes the one in front away; false where it is the first. */
    fun pop(): Boolean {
        if (places.size > 1) {
            places.removeAt(places.lastIndex)
            return true
        }
        return false
    }

    /** To the nearest of this kind, or to the first. */
    fun backTo(page: KClass<out Place>) {
        while (!page.isInstance(places.last()) && pop()) Unit
    }

    fun lies(page: KClass<out Place>) = places.any(page::isInstance)
}
