package slingseal.handheld

/** Marks code that uses an API above the oldest one we serve, and asks `SDK_INT` before it does. */
@Retention(AnnotationRetention.BINARY)
@Target(AnnotationTarget.FUNCTION, AnnotationTarget.CLASS)
annotation class NewerAndroid
