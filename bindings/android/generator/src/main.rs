//! The generator of the Kotlin bindings: apart from the library, so that a phone carries none of it.

fn main() {
    uniffi::uniffi_bindgen_main();
}
