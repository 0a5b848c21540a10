//! Statics of a rigged load: how it hangs, who carries what, and what governs.
//!
//! A [`RiggedLoad`] is read from TOML ([`read`]) or built field by field; [`assess`] answers with an [`Assessment`].
//! The load is rigid and hangs from one hook or two by one to eight legs that stretch and may go slack. The answer is
//! the pose of least energy; a pose that would roll over is never reported as hanging. Ratings come from the input
//! alone: no equipment is known here. The file's shape stands in `FORMAT.md` beside this file.
//!
//! It assists a qualified inspector. The governing manual rules.
#![forbid(unsafe_code)]

mod assess;
mod assessment;
mod error;
mod json;
mod links;
mod load;
mod model;
mod picture;
mod read;
mod report;
mod rule;
mod settle;
mod shown;
mod why;
mod worst;

#[cfg(test)]
mod tests;

pub use assess::{Options, assess, assess_with};
pub use assessment::{
    Assessment, Hang, Held, HookLoad, Infeasible, LegLoad, Place, Rules, Side, Verdict, Warning,
};
pub use error::RiggingError;
pub use json::json;
pub use links::{LinkChange, LinkEffect, SeatedLink, link_effects};
pub use load::{Chain, CommonPart, Hook, Leg, LegPart, Rating, Reach, Reeved, RiggedLoad};
pub use picture::{PictureError, png, svg};
pub use read::read;
pub use report::{beyond_line, report};
pub use rule::{Beyond, Rule, State};
