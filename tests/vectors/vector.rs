//! One attack, or one thing that is no attack: what a device knew, what it was shown, what it must answer.

use serde::{Deserialize, Serialize};

/// A frozen vector. Written once; a wrong expectation is mended by a new vector beside it, never in place.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vector {
    /// What is tried.
    pub about: String,
    /// The device's clock, RFC 3339.
    pub at: String,
    /// What the device received before, in this order: seals, voids, tags.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holds: Vec<String>,
    /// What the device was offered before and had to refuse.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub refuses: Vec<String>,
    /// The seal that is shown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seal: Option<String>,
    /// The tag on the load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tag: Option<String>,
    /// What must come of it.
    pub expect: Expect,
    /// Whom the device trusts.
    pub authority: Vec<Authority>,
}

/// What must come of it.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expect {
    /// `GO`, `HOLD` (what the first release called WAIT) or `NO-GO`; none where the text itself is refused.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub verdict: Option<String>,
    /// The code of the error with which the text is refused.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub refused: Option<String>,
    /// The codes of every reason, in their order.
    #[serde(default)]
    pub reasons: Vec<String>,
    /// Whether both signatures hold, read leniently and by the laxer equation of RFC 8032 §5.1.7, under an authority of the
    /// vector and in the seal's namespace.
    pub signatures: bool,
    /// Whether the message and all that is wrapped in it is deterministic CBOR (RFC 8949 §4.2.1).
    pub deterministic: bool,
}

/// An authority.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Authority {
    /// Its card.
    pub card: String,
    /// Its rosters, in the order in which they are received.
    pub rosters: Vec<String>,
}
