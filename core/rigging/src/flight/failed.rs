//! A load under two hooks, one of which lets go: the rest that it would come to on the other. What happens on the way is no
//! statics: the jerk of it is larger than anything here.

use slingseal_words::{Name, Newtons};

use crate::assess::assess;
use crate::{Assessment, RiggedLoad};

/// The load with a hook gone.
#[derive(Clone, Debug, PartialEq)]
pub struct FailedHook {
    /// The hook that failed.
    pub failed: Name,
    /// The hook that holds.
    pub holds: Name,
    /// What that one carries at rest: the whole weight.
    pub carries: Newtons,
    /// How the load would hang by the legs that are left.
    pub assessment: Assessment,
    /// The load with what is left of its rigging.
    pub left: RiggedLoad,
}

pub(super) fn failed_hooks(load: &RiggedLoad) -> Vec<FailedHook> {
    let [first, second] = load.hooks.as_slice() else { return Vec::new() };
    [(first, second), (second, first)]
        .into_iter()
        .filter_map(|(failed, holds)| {
            let mut left = load.clone();
            left.hooks.retain(|hook| hook.name == holds.name);
            left.legs.retain(|leg| leg.hook.as_ref() == Some(&holds.name));
            left.parts.retain(|part| part.hook.as_ref() != Some(&failed.name));
            if left.legs.is_empty() {
                return None;
            }
            let assessment = assess(&left);
            let carries = assessment.weight;
            Some(FailedHook {
                failed: failed.name.clone(),
                holds: holds.name.clone(),
                carries,
                assessment,
                left,
            })
        })
        .collect()
}
