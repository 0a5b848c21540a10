//! The house as it must be: directions, the facade, documents. Reads our own sources and texts.

mod direction;
mod documents;
mod doors;
mod facade;
mod order;
mod rings;
mod sources;
mod stairs;
mod states;
mod words;
