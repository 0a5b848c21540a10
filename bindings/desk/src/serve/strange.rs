//! What a stranger's program may send to the page: kept requests, and requests made of them. `STRANGE_REQUESTS=20000` tries
//! more than the few that keep the tests quick.
//!
//! It stands here and not with the other fuzz targets because nothing outside this program can call its page.

mod page;
mod requests;
mod slowly;
