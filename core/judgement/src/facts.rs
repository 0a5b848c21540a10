use std::cmp::Reverse;

use slingseal_message::trust::{PublicKey, Trusted};
use slingseal_words::{CallSign, Name, Seconds, Serial, Time};

use super::reason::Reason;
use super::time::{LatestTrusted, Memory};
use super::{CLOCK_SLACK, SOON};

/// One thing that is found of a seal and its tag: as it always is, or with the time at which it turns.
///
/// Facts hold as long as no word comes and nobody is trusted or revoked anew; the time of asking makes reasons of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fact {
    /// A reason at any time.
    Fixed(Reason),
    /// The seal holds until then.
    Validity {
        /// The last second.
        until: Time,
    },
    /// The seal was signed then: held against this clock, the latest trusted time and the device's memory.
    Issued(Time),
    /// Whether the newest roster of this authority may still be relied on.
    Roster(PublicKey),
    /// A piece of equipment is good until then.
    Equipment {
        /// What it is.
        kind: Name,
        /// Which.
        serial: Serial,
        /// The last second of the day on which its next inspection is due.
        good_until: Time,
    },
    /// The planner's signature counts until then.
    Planner {
        /// Who.
        planner: CallSign,
        /// When the credential runs out.
        expired: Time,
        /// The last second in which the signature counts.
        until: Time,
    },
}

/// When is asked, and what is known of time.
#[derive(Clone, Debug)]
pub struct Asked<'e> {
    /// Whom the device trusts, with the newest roster of each.
    pub trusted: &'e Trusted,
    /// The time by the device's clock.
    pub now: Time,
    /// The latest time that is proven past.
    pub latest: Option<LatestTrusted>,
    /// Whether the device's memory is whole.
    pub memory: Memory,
}

/// Everything that is found of one seal with its tag, or of a tag without a seal.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Facts(pub(super) Vec<Fact>);

impl Facts {
    /// The reasons at the time of asking, the gravest first, each once.
    pub fn reasons(&self, asked: &Asked<'_>) -> Vec<Reason> {
        let mut reasons: Vec<Reason> = Vec::with_capacity(self.0.len());
        for reason in self.0.iter().flat_map(|fact| fact.at(asked)) {
            if !reasons.contains(&reason) {
                reasons.push(reason);
            }
        }
        // Stable: reasons of one grade stay in the order in which they were found.
        reasons.sort_by_key(|reason| Reverse(reason.grade()));
        reasons
    }

    /// The reasons that hold at any time.
    pub fn fixed(&self) -> impl Iterator<Item = &Reason> {
        self.0.iter().filter_map(|fact| match fact {
            Fact::Fixed(reason) => Some(reason),
            _ => None,
        })
    }
}

impl Fact {
    pub(super) fn at(&self, asked: &Asked<'_>) -> Vec<Reason> {
        match self {
            Self::Fixed(reason) => vec![reason.clone()],
            Self::Validity { until } => validity(*until, asked.now).into_iter().collect(),
            Self::Issued(issued) => clock(*issued, asked),
            Self::Roster(authority) => roster(authority, asked).into_iter().collect(),
            Self::Equipment { kind, serial, good_until } if asked.now > *good_until => {
                let (kind, serial) = (kind.clone(), serial.clone());
                vec![Reason::EquipmentOverdue { kind, serial, since: *good_until }]
            }
            Self::Planner { planner, expired, until } if asked.now > *until => {
                vec![Reason::PlannerExpired { planner: planner.clone(), expired: *expired }]
            }
            Self::Equipment { .. } | Self::Planner { .. } => Vec::new(),
        }
    }
}

fn validity(until: Time, now: Time) -> Option<Reason> {
    let left = until.since(now);
    if left < Seconds(0) {
        Some(Reason::Expired { at: until })
    } else {
        (left < SOON).then_some(Reason::ExpiresSoon(left))
    }
}

fn clock(issued: Time, asked: &Asked<'_>) -> Vec<Reason> {
    let mut reasons = Vec::new();
    let ahead = issued.since(asked.now);
    let from_the_future = ahead > CLOCK_SLACK;
    if from_the_future {
        reasons.push(Reason::FromTheFuture { ahead });
    }
    if let Some(LatestTrusted { time, by }) = &asked.latest {
        let behind = time.since(asked.now);
        // The seal's own time, told already, is no second witness.
        let told = from_the_future && *time <= issued;
        if behind > CLOCK_SLACK && !told {
            reasons.push(Reason::ClockBehind { by: by.clone(), time: *time, behind });
        }
    }
    match asked.memory {
        Memory::PutBack { since } => reasons.push(Reason::MemoryPutBack { since }),
        Memory::Copied { until } if asked.now > until => reasons.push(Reason::CopyOutOfDate { until }),
        Memory::Copied { .. } | Memory::Whole => {}
    }
    reasons
}

/// Whether this device can know whom an authority has revoked.
fn roster(authority: &PublicKey, asked: &Asked<'_>) -> Option<Reason> {
    let authority = asked.trusted.authority(authority)?;
    let name = authority.name.clone();
    match &authority.roster {
        None => Some(Reason::NoRoster { authority: name }),
        Some(roster) if asked.now > roster.expires => {
            Some(Reason::RosterTooOld { authority: name, since: roster.expires })
        }
        Some(_) => None,
    }
}
