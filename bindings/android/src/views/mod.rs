//! The facade's types as Kotlin sees them. Each is written down again only for the generator: a field that is added,
//! renamed or of another type there is a compile error here.

mod codes;
mod exam;
mod kinds;
pub(crate) mod movement;
pub(crate) mod moving;
mod record;
mod trust;
mod walk;
