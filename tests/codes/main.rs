//! Codes: what we write is read by a reader that is not ours, and hostile pictures are refused with a clear line.

mod damaged;
mod pictures;
mod written;
