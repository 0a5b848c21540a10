//! What is known of a piece of gear: fit until, or withdrawn. The only place that asks.

use slingseal_message::envelope::Kind;
use slingseal_message::seal::{InspectedSubject, Outcome, ReceivedInspection, SealError, SignedInspection};
use slingseal_message::tag::Tag;
use slingseal_message::trust::{Edition, EditionStanding, Role, Signer, Trusted};
use slingseal_words::{CallSign, Digest, Name, ProcedureId, Serial, Time};

use super::facts::Fact;
use super::order::{Inspection, takes_over};
use super::reason::Reason;
use super::word::Author;

/// A signed inspection of what is no load, opened once. Its identity is the SHA-256 of its bytes as received.
#[derive(Clone, Debug, PartialEq)]
pub struct InspectionWord {
    inspection: SignedInspection,
    author: Author,
    digest: Digest,
}

impl InspectionWord {
    /// Opens one and asks who signed it.
    ///
    /// # Errors
    /// Bytes that are not an inspection in its only spelling. A signature that does not hold is no error: see [`Self::author`].
    pub fn open(bytes: &[u8], trusted: &Trusted) -> Result<Self, SealError> {
        let received = ReceivedInspection::open(bytes)?;
        let author = Author::of(Kind::Inspection, Some(&received.message), trusted);
        Ok(Self { inspection: received.inspection, author, digest: Digest::of(bytes) })
    }

    /// What it says.
    pub fn inspection(&self) -> &SignedInspection {
        &self.inspection
    }

    /// Who stands behind it.
    pub fn author(&self) -> &Author {
        &self.author
    }

    /// SHA-256 of its bytes.
    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// Its author, where both signatures pass under a trusted authority.
    pub fn signer(&self) -> Option<&Signer> {
        match &self.author {
            Author::Known(signer) => Some(signer),
            _ => None,
        }
    }

    /// Its author, where it counts: an inspector, in time; a leader too, who takes a piece out of service. Whether revoked since
    /// is another question.
    pub fn counts(&self) -> Option<&Signer> {
        let withdraws =
            self.inspection.subject == InspectedSubject::Piece && self.inspection.outcome == Outcome::NotFit;
        self.signer().filter(|signer| {
            let roles = signer.credential.roles;
            (roles.has(Role::Inspector) || withdraws && roles.has(Role::Leader))
                && self.inspection.issued <= signer.credential.expires
        })
    }

    fn place(&self) -> Option<Inspection> {
        Some(Inspection {
            issued: self.inspection.issued,
            refusal: self.inspection.outcome == Outcome::NotFit,
            digest: self.digest,
            key: self.counts()?.credential.key.to_bytes(),
        })
    }
}

/// How a piece of gear stands by the inspections of it that are known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PieceState {
    /// Found fit; until when, where that was said.
    Fit {
        /// When it was inspected.
        at: Time,
        /// The last second in which it is fit.
        until: Option<Time>,
        /// Whether its inspector's authority stood behind the list by which it was found so.
        list: ListStanding,
    },
    /// Out of service, until an inspector finds it fit.
    Withdrawn {
        /// When.
        at: Time,
        /// What was found.
        why: String,
        /// Who says so.
        by: CallSign,
    },
}

/// Whether an authority stood behind the list by which a piece was found fit, by its newest roster here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ListStanding {
    /// It had approved it.
    Approved,
    /// It had not, or had withdrawn it before: a list of one card finds nothing.
    NotApproved {
        /// Whose approval is missing.
        authority: Name,
        /// Which procedure.
        procedure: ProcedureId,
        /// Which edition.
        version: u32,
    },
}

/// Whether the list of an inspection was approved when it was signed. Without a roster nothing was.
fn standing_of_list(said: &SignedInspection, signer: &Signer, trusted: &Trusted) -> Option<ListStanding> {
    let Edition { procedure, version, thumbprint } = &said.edition;
    let authority = trusted.authority(&signer.authority)?;
    let roster = authority.roster.as_ref();
    Some(match roster.map(|roster| roster.edition(procedure, *version, thumbprint, said.issued)) {
        Some(EditionStanding::Approved) => ListStanding::Approved,
        _ => ListStanding::NotApproved {
            authority: authority.name.clone(),
            procedure: procedure.clone(),
            version: *version,
        },
    })
}

/// Whether two serial numbers are one piece's: letters may be large or small.
pub fn same_serial(one: &str, other: &str) -> bool {
    one.eq_ignore_ascii_case(other)
}

/// How a piece stands; none where no inspection of it counts. A refusal keeps its force when its inspector is revoked later, a fit
/// one does not. The order of the words never matters.
pub fn state_of_piece(serial: &Serial, words: &[InspectionWord], trusted: &Trusted) -> Option<PieceState> {
    let of_piece = |word: &&InspectionWord| {
        let said = &word.inspection;
        let fit = said.outcome == Outcome::Fit;
        said.subject == InspectedSubject::Piece
            && same_serial(said.name.as_str(), serial.as_str())
            && word.counts().is_some_and(|signer| !(fit && trusted.revoked(signer)))
    };
    let mut places: Vec<(Inspection, &InspectionWord)> =
        words.iter().filter(of_piece).filter_map(|word| Some((word.place()?, word))).collect();
    places.sort_by_key(|(place, _)| *place);
    let (last, _) = places.last()?;
    // A refusal within the slack of clocks takes the last one over, as it does of a load.
    let over = places.iter().rev().find(|(place, _)| takes_over(place, last));
    let (_, word) = over.or(places.last())?;
    let said = &word.inspection;
    Some(match said.outcome {
        Outcome::Fit => {
            let list = standing_of_list(said, word.signer()?, trusted)?;
            PieceState::Fit { at: said.issued, until: said.fit_until, list }
        }
        Outcome::NotFit => {
            let why = said.why.as_ref().map(ToString::to_string).unwrap_or_default();
            let by = word.counts()?.credential.holder.clone();
            PieceState::Withdrawn { at: said.issued, why, by }
        }
    })
}

/// The pieces that a tag names, each serial once: its equipment, then the legs that stand apart from it.
pub fn pieces_of(tag: &Tag) -> Vec<(Name, Serial)> {
    let mut pieces: Vec<(Name, Serial)> =
        tag.equipment.iter().map(|piece| (piece.kind.clone(), piece.serial.clone())).collect();
    for one in &tag.basis.leg_serials {
        if !pieces.iter().any(|(_, serial)| same_serial(serial.as_str(), one.serial.as_str())) {
            pieces.push((one.leg.clone(), one.serial.clone()));
        }
    }
    pieces
}

/// What is known of the pieces that a tag names.
pub(super) fn facts_of_pieces(tag: &Tag, words: &[InspectionWord], trusted: &Trusted, facts: &mut Vec<Fact>) {
    for (kind, serial) in pieces_of(tag) {
        match state_of_piece(&serial, words, trusted) {
            Some(PieceState::Withdrawn { at, why, .. }) => {
                facts.push(Fact::Fixed(Reason::EquipmentWithdrawn { kind, serial, at, why }));
            }
            Some(PieceState::Fit { until, list, .. }) => {
                if let ListStanding::NotApproved { authority, procedure, version } = list {
                    let (kind, serial) = (kind.clone(), serial.clone());
                    facts.push(Fact::Fixed(Reason::EquipmentListNotApproved {
                        kind,
                        serial,
                        authority,
                        procedure,
                        version,
                    }));
                }
                if let Some(good_until) = until {
                    facts.push(Fact::Equipment { kind, serial, good_until });
                }
            }
            None => {}
        }
    }
}
