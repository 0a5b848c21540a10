//! The house is a staircase: reads our own sources and fails on a mention of a room above or beside.

mod direction;
mod doors;
mod facade;
mod sources;
