//! A common place of many desks: Debian's PostgreSQL on a socket of its own, started here, killed here, and made to lie.

mod catching_up;
mod day;
mod doors;
mod hostile;
mod late;
mod proxy;
mod questions;
#[allow(dead_code, reason = "the desks' test kills it in more ways")]
mod server;
#[path = "../journeys/zone.rs"]
#[allow(dead_code, reason = "the journeys use all of it")]
mod zone;
