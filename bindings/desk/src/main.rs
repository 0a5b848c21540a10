//! The program `slingseal`.
fn main() {}
