//! The facade of Slingseal for Kotlin.
uniffi::setup_scaffolding!();
