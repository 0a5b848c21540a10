//! The tokens of forms that sign. Each form that is shown has one of its own, good once: another site's page cannot guess it, and
//! a form that is sent twice is done once.

use std::collections::VecDeque;
use std::sync::{Mutex, PoisonError};

use slingseal_app::Entropy;

/// How many forms may be open at a time; the oldest is forgotten.
const OPEN: usize = 256;

/// The forms that were shown and not sent yet.
#[derive(Default)]
pub(super) struct Forms(Mutex<VecDeque<(String, String)>>);

impl Forms {
    /// The token of a form that is shown now, and does one thing.
    pub(super) fn give(&self, what: &str, entropy: &dyn Entropy) -> String {
        let token = super::guard::secret(entropy);
        let mut open = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        open.push_back((token.clone(), what.to_owned()));
        if open.len() > OPEN {
            open.pop_front();
        }
        token
    }

    /// Whether a form that was shown for this is sent for the first time.
    pub(super) fn take(&self, what: &str, token: &str) -> bool {
        let mut open = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = open.iter().position(|(known, of)| super::guard::same(known, token) && of == what);
        found.and_then(|at| open.remove(at)).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::{Forms, OPEN};
    use crate::platform::SystemEntropy;

    #[test]
    fn a_token_is_good_once_and_for_its_form() {
        let forms = Forms::default();
        let token = forms.give("void", &SystemEntropy);
        assert!(!forms.take("issue", &token) && !forms.take("void", "") && !forms.take("void", "0000"));
        assert!(forms.take("void", &token));
        assert!(!forms.take("void", &token), "sent twice, done once");
        let first = forms.give("void", &SystemEntropy);
        for _ in 0..OPEN {
            forms.give("void", &SystemEntropy);
        }
        assert!(!forms.take("void", &first), "a page that lay open for ever is forgotten");
    }
}
