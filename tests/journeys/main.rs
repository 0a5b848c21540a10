<<<<<<< HEAD
fn main() {}
=======
//! Whole days, through the facade alone.
>>>>>>> main
