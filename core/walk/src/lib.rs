//! The inspection of a load, from a procedure's text to a decision, and the examination of those who inspect.
//! Commands in, events or a refusal out; the same events give the same state on every machine.
#![forbid(unsafe_code)]

pub mod drawing;
pub mod exam;
pub mod procedure;
pub mod walk;

// Numbers are the same in every language.
slingseal_catalogue::argument_by_display!(procedure::CardNo, walk::FindingNo);
