//! What is said of gear, beside a history of a load: of the pieces that its tag names, of others, of what is no piece.

use proptest::prelude::*;
use slingseal_message::seal::{InspectedSubject, Outcome, SignedInspection};
use slingseal_message::trust::Edition;
use slingseal_words::{Digest, Note, ProcedureId, Serial};

use crate::words::{LEADER, at, finish, paper, time};

/// An inspection of what is no load before it is signed.
#[derive(Clone, Debug)]
pub struct Look {
    /// One of the seven of a history, or the leader.
    by: u8,
    at: i64,
    fit: bool,
    /// So long it is fit, where that is told.
    holds: Option<i64>,
    subject: InspectedSubject,
    name: &'static str,
    /// Whether it names the list that the roster speaks of, or another one.
    listed: bool,
    number: u8,
}

impl Look {
    pub fn sign(&self) -> Vec<u8> {
        let edition = Edition {
            procedure: ProcedureId::new("bag").expect("an id"),
            version: 1,
            thumbprint: if self.listed { [3; 16] } else { [4; 16] },
        };
        let said = SignedInspection {
            subject: self.subject,
            name: Serial::new(self.name).expect("a serial number"),
            issued: at(self.at),
            fit_until: self.holds.filter(|_| self.fit).map(|holds| at(self.at + holds)),
            outcome: if self.fit { Outcome::Fit } else { Outcome::NotFit },
            edition,
            found: u16::from(!self.fit),
            corrected: 0,
            why: (!self.fit).then(|| Note::new("cut").expect("a note")),
            record: Digest::of(&[self.number]),
        };
        let (credential, seed) = paper(self.by);
        finish(&said.prepare(&credential), seed)
    }
}

/// Of the tag's three pieces (one of them in other letters), of a piece that hangs elsewhere; mostly of pieces.
pub fn look() -> impl Strategy<Value = Look> {
    let by = prop_oneof![5 => 0u8..7, 1 => Just(LEADER)];
    let name = prop::sample::select(vec!["SL-1", "sl-1", "NT-2", "SL-3", "SL-9", "KM-014"]);
    let subject = prop_oneof![
        8 => Just(InspectedSubject::Piece),
        1 => prop::sample::select(InspectedSubject::ALL.to_vec()),
    ];
    let holds = prop::option::of(prop_oneof![0i64..1_200, Just(86_400)]);
    (by, time(), any::<bool>(), holds, subject, name, prop::bool::weighted(0.8), 0u8..4).prop_map(
        |(by, at, fit, holds, subject, name, listed, number)| Look {
            by,
            at,
            fit,
            holds,
            subject,
            name,
            listed,
            number,
        },
    )
}
