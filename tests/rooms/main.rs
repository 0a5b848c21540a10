//! The house as it must be: directions, the facade, documents. Reads our own sources and texts.

mod cargo;
mod commands;
mod direction;
mod documents;
mod doors;
mod facade;
mod kotlin;
mod maven;
mod order;
mod rings;
mod sources;
mod stairs;
mod states;
mod words;
