//! Rigging against what stands outside it: statics, published tables, another solver, and the rules that any answer
//! must keep to.

mod bad_input;
mod examples;
mod flying;
mod handbooks;
mod properties;
mod shares;
mod solving;
mod support;
mod textbooks;
mod warnings;
mod weighing;
