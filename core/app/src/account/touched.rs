//! Which loads a change touches: of whom this home trusts, or of the inspections of a piece.

use std::collections::BTreeSet;

use super::knowledge::whole_again;
use super::standing::restand_all;
use super::trusted::trusted_of;
use super::words::{kind_of, open_inspection, open_word};
use crate::AppError;
use crate::procedures::name_approved;
use slingseal_judgement::pieces_of;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{PublicKey, Trusted, TrustedAuthority};
use slingseal_store::{AuthoredRow, Reader, Tx};

/// The loads that a change of trust touches: whose seals or tags somebody signed who is trusted or revoked otherwise than before, or
/// whose authority approves other procedures.
pub(crate) fn touched_by_trust(
    read: &Reader<'_>,
    before: &mut Trusted,
    after: &mut Trusted,
) -> Result<Vec<String>, AppError> {
    let mut loads = Vec::new();
    let is_new = |authority: &TrustedAuthority| before.authority(&authority.key).is_none();
    if after.iter().any(is_new) {
        loads.extend(read.loads_unsigned()?);
    }
    let gone: Vec<[u8; 32]> = before
        .iter()
        .filter(|authority| after.authority(&authority.key).is_none())
        .map(|authority| authority.key.to_bytes())
        .collect();
    let approved = |trusted: &Trusted, key: &PublicKey| {
        let roster = trusted.authority(key).and_then(|authority| authority.roster.as_ref());
        roster.map(|roster| roster.approved.clone())
    };
    let approving = after.iter().map(|authority| authority.key);
    let otherwise: Vec<[u8; 32]> = approving
        .filter(|key| approved(before, key) != approved(after, key))
        .map(|key| key.to_bytes())
        .collect();
    for authority in gone.iter().chain(&otherwise) {
        loads.extend(read.loads_of_authority(authority)?);
    }
    for AuthoredRow { kind, author, bytes } in read.authored()? {
        let revoked = |trusted: &mut Trusted| {
            let word = open_word(kind_of(kind, &bytes), &bytes, trusted).ok()?;
            word.signer().map(|signer| trusted.revoked(signer))
        };
        if revoked(before) != revoked(after) {
            loads.extend(read.loads_of_credential(author.credential)?);
        }
    }
    loads.extend(touched_by_inspectors(read, before, after, &otherwise)?);
    loads.sort_unstable();
    loads.dedup();
    Ok(loads)
}

/// The loads whose tags name a piece that somebody inspected who is trusted or revoked otherwise than before.
fn touched_by_inspectors(
    read: &Reader<'_>,
    before: &mut Trusted,
    after: &mut Trusted,
    otherwise: &[[u8; 32]],
) -> Result<BTreeSet<String>, AppError> {
    let mut serials = BTreeSet::new();
    for row in read.piece_inspectors()? {
        let counts = |trusted: &mut Trusted| {
            let word = open_inspection(&row.bytes, trusted).ok()?;
            word.counts().map(|signer| trusted.revoked(signer))
        };
        let lists = |trusted: &mut Trusted| {
            let word = open_inspection(&row.bytes, trusted).ok();
            word.and_then(|word| Some(otherwise.contains(&word.signer()?.authority.to_bytes())))
        };
        if (counts(before) != counts(after) || lists(after) == Some(true))
            && let Some(author) = row.author
        {
            serials.extend(read.pieces_of_credential(author.credential)?);
        }
    }
    loads_naming(read, &serials)
}

/// The loads whose tags name any of these serial numbers, in capitals.
pub(crate) fn loads_naming(
    read: &Reader<'_>,
    serials: &BTreeSet<String>,
) -> Result<BTreeSet<String>, AppError> {
    let mut loads = BTreeSet::new();
    if serials.is_empty() {
        return Ok(loads);
    }
    for serial in serials {
        loads.extend(read.loads_of_piece(serial)?);
    }
    for row in read.tags()? {
        let Ok(received) = ReceivedTag::open(&row.bytes) else { continue };
        let named = pieces_of(&received.tag);
        if named.iter().any(|(_, serial)| serials.contains(&serial.as_str().to_ascii_uppercase())) {
            loads.insert(row.load);
        }
    }
    Ok(loads)
}

/// Changes whom this home trusts, or whom they revoke: what `change` writes, and every load that it touches judged anew, in one
/// transaction.
pub(crate) fn change_trust(
    tx: &Tx<'_>,
    change: impl FnOnce(&Tx<'_>) -> Result<(), AppError>,
) -> Result<(), AppError> {
    let mut before = trusted_of(tx)?;
    change(tx)?;
    let mut after = trusted_of(tx)?;
    let loads = touched_by_trust(tx, &mut before, &mut after)?;
    restand_all(tx, &loads, &mut after)?;
    name_approved(tx, &after)?;
    whole_again(tx, &after)
}
