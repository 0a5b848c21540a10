use slingseal_message::seal::{Seal, TagPrint};
use slingseal_message::tag::Tag;
use slingseal_message::trust::{Role, Signer, Trusted};
use slingseal_words::same_person;

use super::evidence::Evidence;
use super::facts::Fact;
use super::piece::facts_of_pieces;
use super::reason::Reason;
use super::word::{Author, LoadWord};

/// Whether someone who may plan has signed a tag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TagSignature {
    /// A planner of a trusted authority.
    Planner,
    /// Nobody: it is marked unsigned.
    Unsigned,
    /// Someone whom this device does not trust as a planner.
    Unknown,
    /// The signature does not match.
    Forged,
}

impl TagSignature {
    /// A stable word for JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Planner => "signed",
            Self::Unsigned => "unsigned",
            Self::Unknown => "unknown",
            Self::Forged => "forged",
        }
    }

    /// Of a tag and who stands behind it. Whether a planner's credential has run out *since* is a matter of the time of asking.
    pub fn of(tag: &Tag, author: &Author, trusted: &Trusted) -> Self {
        match author {
            Author::Nobody | Author::ThisDevice => Self::Unsigned,
            Author::Unknown => Self::Unknown,
            Author::Refused(_) => Self::Forged,
            Author::Known(signer) => {
                let credential = &signer.credential;
                let planner = credential.roles.has(Role::Planner)
                    && tag.planned <= credential.expires
                    && !trusted.revoked(signer);
                if planner { Self::Planner } else { Self::Unknown }
            }
        }
    }
}

/// What a tag says against the lift, whatever the seal says.
pub(super) fn facts_of_tag(word: &LoadWord, tag: &Tag, evidence: &Evidence<'_>, facts: &mut Vec<Fact>) {
    match TagSignature::of(tag, word.author(), evidence.trusted) {
        TagSignature::Planner => facts.extend(word.signer().into_iter().flat_map(facts_of_planner)),
        TagSignature::Unsigned => facts.push(Fact::Fixed(Reason::TagUnsigned)),
        TagSignature::Unknown => facts.push(Fact::Fixed(Reason::TagPlannerUnknown)),
        TagSignature::Forged => facts.push(Fact::Fixed(Reason::TagForged)),
    }
    if tag.over_allowable() {
        let (mass, allowable) = (tag.gross, tag.allowable);
        facts.push(Fact::Fixed(Reason::MassOverAllowable { mass, allowable }));
    }
    for piece in &tag.equipment {
        let (kind, serial) = (piece.kind.clone(), piece.serial.clone());
        if let Some(rating) = piece.rating.as_ref().filter(|_| piece.overloaded(tag.gross)) {
            let (kind, serial, rating) = (kind.clone(), serial.clone(), rating.value);
            let gross = tag.gross;
            facts.push(Fact::Fixed(Reason::EquipmentRatedBelow { kind, serial, rating, gross }));
        }
        if let Some(good_until) = piece.good_until() {
            facts.push(Fact::Equipment { kind, serial, good_until });
        }
    }
    facts_of_pieces(tag, evidence.pieces, evidence.trusted, facts);
}

/// A tag outlives its planner's credential by as long as a seal of that day could hold; later it must be signed anew, or a planner
/// who left could date tags back for ever.
fn facts_of_planner(signer: &Signer) -> [Fact; 2] {
    let credential = &signer.credential;
    [
        Fact::Planner {
            planner: credential.holder.clone(),
            expired: credential.expires,
            until: credential.expires.plus(credential.longest_validity),
        },
        Fact::Roster(signer.authority),
    ]
}

/// Whether the tag is the one that the seal is of.
pub(super) fn is_of(word: &LoadWord, tag: &Tag, seal: &Seal) -> bool {
    tag.load == seal.load && TagPrint::of(&word.digest()) == seal.tag && tag.gross == seal.mass
}

/// What a seal says beside the tag that was scanned.
pub(super) fn facts_of_match(word: &LoadWord, tag: &Tag, seal: &Seal, facts: &mut Vec<Fact>) {
    if tag.load != seal.load {
        let (sealed, tag) = (seal.load.clone(), tag.load.clone());
        facts.push(Fact::Fixed(Reason::OtherLoad { sealed, tag }));
    } else if !is_of(word, tag, seal) {
        facts.push(Fact::Fixed(Reason::TagChanged));
    } else if let Some(ordered) = otherwise_than_ordered(tag, seal) {
        let print: String = seal.procedure_print.iter().map(|byte| format!("{byte:02x}")).collect();
        let walked = format!("{} {} ({print})", seal.procedure, seal.version);
        facts.push(Fact::Fixed(Reason::ProcedureNotOrdered { ordered, walked }));
    }
}

/// What the tag orders, where the seal says that something else was walked. A seal has fewer bytes of a text's digest than a tag:
/// all that it has must agree.
fn otherwise_than_ordered(tag: &Tag, seal: &Seal) -> Option<String> {
    if tag.procedure != seal.procedure {
        return Some(tag.procedure.to_string());
    }
    let ordered = tag.basis.edition.as_ref()?;
    let walked = ordered.version == seal.version && ordered.thumbprint.starts_with(&seal.procedure_print);
    (!walked).then(|| {
        // Two texts of one version are told apart by their thumbprints alone.
        let print: String = ordered.thumbprint.iter().take(4).map(|byte| format!("{byte:02x}")).collect();
        format!("{} {} ({print})", ordered.procedure, ordered.version)
    })
}

/// Who rigged a load never inspects it.
pub(super) fn fact_of_rigger(tag: &Tag, signer: Option<&Signer>) -> Option<Fact> {
    let inspector = &signer?.credential.holder;
    match &tag.rigger {
        None => Some(Fact::Fixed(Reason::RiggerNotKnown)),
        Some(rigger) if same_person(rigger, inspector) => {
            Some(Fact::Fixed(Reason::OwnWork(inspector.clone())))
        }
        Some(_) => None,
    }
}
