<<<<<<< HEAD
fn main() {}
=======
//! Keys: against published vectors, in the vault, in memory.

mod ed25519;
>>>>>>> main
