//! How each inspection of a load stands, and the load with them: what the board, the account, its exports and its pages show.

use std::collections::BTreeMap;

use slingseal_message::movement::MovementEvent;
use slingseal_words::{Digest, LoadNumber, Time};

use super::evidence::Evidence;
use super::facts::{Asked, Facts};
use super::known::Known;
use super::load_state::LoadState;
use super::reason::{Grade, Reason};
use super::verdict::{Verdict, facts_of_held};
use super::word::LoadWord;

/// How a seal stands at the time of asking.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// It is the load's latest inspection, and the hook would say GO.
    Fit,
    /// It found the load not fit.
    NotFit,
    /// A later inspection takes it over.
    Superseded {
        /// SHA-256 of that inspection's seal.
        by: Digest,
        /// What that one found.
        fit: bool,
    },
    /// Somebody credentialed took it back.
    Voided,
    /// It ran out.
    Expired,
    /// The hook would say NO-GO for this reason.
    Refused(Reason),
    /// The hook would say WAIT for this reason.
    Waits(Reason),
    /// It is no inspection, for this reason: signed by somebody who may not inspect, or whose credential had run out. It takes
    /// nothing over, refuses nothing, and stands in no list of inspections.
    NoInspection(Reason),
}

impl Standing {
    /// The word by which a database or an export knows it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Fit => "fit",
            Self::NotFit => "not_fit",
            Self::Superseded { .. } => "superseded",
            Self::Voided => "voided",
            Self::Expired => "expired",
            Self::Refused(_) => "refused",
            Self::Waits(_) => "wait",
            Self::NoInspection(_) => "no_inspection",
        }
    }

    /// The reason that it names.
    pub fn reason(&self) -> Option<&Reason> {
        match self {
            Self::Refused(reason) | Self::Waits(reason) | Self::NoInspection(reason) => Some(reason),
            _ => None,
        }
    }

    /// One state of all reasons. Taken back comes first, then taken over, then what the inspector found, then what else is wrong.
    fn of_reasons<'r>(reasons: impl IntoIterator<Item = &'r Reason>, counts: bool) -> Self {
        let (mut superseded, mut voided, mut not_fit, mut expired) = (None, false, false, false);
        let (mut refused, mut waits, mut not_counting) = (None, None, None);
        for reason in reasons {
            match (reason, reason.grade()) {
                // A refusal at the hook is a void.
                (Reason::Voided { .. } | Reason::Moved { event: MovementEvent::Refused(_), .. }, _) => {
                    voided = true
                }
                (Reason::Superseded { by, fit, .. }, _) => {
                    superseded = superseded.or(Some(Self::Superseded { by: *by, fit: *fit }));
                }
                (Reason::NotFit, _) => not_fit = true,
                (Reason::Expired { .. }, _) => expired = true,
                (
                    Reason::NotAnInspector(_)
                    | Reason::CredentialExpired { .. }
                    | Reason::UnknownAuthority
                    | Reason::BadSignature
                    | Reason::Unreadable(_),
                    _,
                ) => not_counting = not_counting.or(Some(reason)),
                (_, Grade::NoGo) => refused = refused.or(Some(reason)),
                (_, Grade::Wait) => waits = waits.or(Some(reason)),
                (_, Grade::Note) => {}
            }
        }
        if !counts {
            return Self::NoInspection(not_counting.cloned().unwrap_or(Reason::NoInspectionKnown));
        }
        match (voided, superseded, not_fit, expired, refused, waits) {
            (true, ..) => Self::Voided,
            (_, Some(superseded), ..) => superseded,
            (_, _, true, ..) => Self::NotFit,
            (_, _, _, true, ..) => Self::Expired,
            (_, _, _, _, Some(reason), _) => Self::Refused(reason.clone()),
            (_, _, _, _, _, Some(reason)) => Self::Waits(reason.clone()),
            _ => Self::Fit,
        }
    }
}

/// What is found of every seal of a load: what may be kept, since it holds at any time until a word comes or somebody is trusted
/// or revoked anew.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadFacts {
    /// By SHA-256 of each seal's own bytes.
    pub seals: BTreeMap<Digest, SealFacts>,
    /// The latest inspection.
    pub latest: Option<Digest>,
}

/// What is found of one seal, with the tag that is held for it.
#[derive(Clone, Debug, PartialEq)]
pub struct SealFacts {
    /// Whether it is an inspection.
    pub counts: bool,
    /// Until when it may be relied on.
    pub valid_until: Time,
    /// What was found.
    pub facts: Facts,
}

impl SealFacts {
    /// The part of the standing that no clock changes: what a database may keep. [`Standing::Fit`] and [`Standing::Waits`] say
    /// that nothing but time is against it; [`Standing::settled`] says what time makes of the others.
    pub fn lasting(&self) -> Standing {
        Standing::of_reasons(self.facts.fixed(), self.counts)
    }

    /// The standing at the time of asking.
    pub fn at(&self, asked: &Asked<'_>) -> Standing {
        Standing::of_reasons(&self.facts.reasons(asked), self.counts)
    }
}

impl Standing {
    /// The standing at a time, of a lasting one and the seal's validity; `None` where it depends on more, and the words must be
    /// asked: what is fit or waits, and has not run out.
    pub fn settled(self, valid_until: Time, now: Time) -> Option<Self> {
        match self {
            Self::Voided | Self::Superseded { .. } | Self::NotFit | Self::NoInspection(_) => Some(self),
            _ if now > valid_until => Some(Self::Expired),
            Self::Refused(_) | Self::Expired => Some(self),
            Self::Fit | Self::Waits(_) => None,
        }
    }
}

/// How everything that is known of a load stands at the time of asking.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadJudgement {
    /// The standing of every seal of the load, by SHA-256 of its own bytes; seals that are no inspections among them.
    pub seals: BTreeMap<Digest, Standing>,
    /// The latest inspection, by SHA-256 of its own bytes.
    pub latest: Option<Digest>,
    /// Why the latest inspection stands as it does with the tag that is held for it, the gravest first.
    pub reasons: Vec<Reason>,
}

impl LoadJudgement {
    /// The standing of the latest inspection.
    pub fn latest(&self) -> Option<&Standing> {
        self.latest.as_ref().and_then(|latest| self.seals.get(latest))
    }

    /// What the hook would say of the load.
    pub fn verdict(&self) -> Verdict {
        if self.latest.is_none() { Verdict::NoGo } else { Verdict::of(&self.reasons) }
    }

    /// Where the load stands; none where nobody has inspected it.
    pub fn state(&self) -> Option<LoadState> {
        self.latest.as_ref().map(|_| LoadState::of(&self.reasons))
    }

    /// The inspections of the load, with their standings.
    pub fn inspections(&self) -> impl Iterator<Item = (&Digest, &Standing)> {
        self.seals.iter().filter(|(_, standing)| !matches!(standing, Standing::NoInspection(_)))
    }
}

/// What is found of every seal of a load.
pub fn facts_of_load(load: &LoadNumber, evidence: &Evidence<'_>) -> LoadFacts {
    let known = Known::of(evidence, load);
    let latest = known.latest().map(LoadWord::digest);
    let facts = |word: &LoadWord| {
        Some(SealFacts {
            counts: word.counts(),
            valid_until: word.seal()?.valid_until,
            facts: facts_of_held(word, None, &known, evidence),
        })
    };
    let seals = known.seals.iter().filter_map(|(digest, word)| Some((*digest, facts(word)?)));
    LoadFacts { seals: seals.collect(), latest }
}

impl LoadFacts {
    /// How they stand at the time of asking.
    pub fn at(&self, asked: &Asked<'_>) -> LoadJudgement {
        let seals = self.seals.iter().map(|(digest, facts)| (*digest, facts.at(asked))).collect();
        let latest = self.latest.as_ref().and_then(|latest| self.seals.get(latest));
        let reasons = latest.map(|latest| latest.facts.reasons(asked)).unwrap_or_default();
        LoadJudgement { seals, latest: self.latest, reasons }
    }
}

/// How each inspection of a load stands at the time of the evidence, and which is the latest.
pub fn standing_of_load(load: &LoadNumber, evidence: &Evidence<'_>) -> LoadJudgement {
    facts_of_load(load, evidence).at(&evidence.asked(&[]))
}
