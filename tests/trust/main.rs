//! Keys: against published vectors, in the vault, in memory.

mod ed25519;
