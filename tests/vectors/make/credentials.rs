//! Seals whose signer is not whom the credential says, or whose credential is not what its authority issued.

use slingseal_message::envelope::{Header, Kind, assemble, to_be_signed, wrap};
use slingseal_message::trust::{Authority, DEFAULT_VALIDITY, KeyRequest, Role};
use slingseal_words::{CallSign, Name};

use super::parts::*;
use crate::vector::Vector;

fn under(what: &str, credential: &[u8], seed: u8) -> Vector {
    about(what, &sign_seal(&seal(), credential, seed))
}

fn refused(what: &str, credential: &[u8]) -> Vector {
    under(what, credential, ANVIL).expect("NO-GO", &["unreadable"])
}

fn forged(what: &str, credential: &[u8]) -> Vector {
    under(what, credential, ANVIL).expect("NO-GO", &["bad_signature"]).signatures(false)
}

/// The inspector's credential with its claims changed and the authority's old signature kept.
fn altered(change: impl FnOnce(&mut Pairs)) -> Vec<u8> {
    let old = anvil();
    let mut pairs = anvil_pairs();
    assert_eq!(credential_with(&pairs, SELA), old, "the parts build what the authority issued");
    change(&mut pairs);
    let header = Header { key_id: Some(key(SELA).public().id()), credential: None };
    let signature: [u8; 64] = old[old.len() - 64..].try_into().expect("64 bytes");
    assemble(header, &map(&pairs), &signature)
}

fn anvil_pairs() -> Pairs {
    credential_pairs("Anvil 3", after(365 * 86_400), &key(ANVIL).public().to_bytes(), &[1])
}

/// Issued by the authority with whatever claims: an authority's own mistake, or a newer program's.
fn issued(change: impl FnOnce(&mut Pairs)) -> Vec<u8> {
    let mut pairs = anvil_pairs();
    change(&mut pairs);
    credential_with(&pairs, SELA)
}

/// A credential whose key id is the trusted authority's, signed by somebody else.
fn self_issued(key_id: u8, signer: u8) -> Vec<u8> {
    let payload = map(&anvil_pairs());
    let header = Header { key_id: Some(key(key_id).public().id()), credential: None };
    let signature = key(signer).sign(&to_be_signed(Kind::Credential, header, &payload));
    assemble(header, &payload, &signature)
}

pub fn all() -> Vec<(String, Vector)> {
    let request =
        KeyRequest::sign(&CallSign::new("Anvil 3").expect("a call sign"), after(-9_000), &key(ANVIL));
    let card = Authority::sign(&Name::new("Sela Relief").expect("a name"), after(-86_400), &key(SELA));
    let roster =
        slingseal_message::envelope::unwrap(&first_roster(SELA, 1, 0, 86_400, &[])).expect("our own").1;
    let raw = Raw::good();
    let mut all: Vec<(&str, Vector)> = vec![
        ("credential_swapped", forged("The seal is signed by one inspector under another's credential.", &credential(SELA, "Lantern 1", &[Role::Inspector], LANTERN))),
        ("credential_stretched", forged("The expiry on the credential was moved a year.", &altered(|pairs| pairs[1].1 = int(after(730 * 86_400).unix())))),
        ("credential_role_added", forged("A hookup wrote the inspector's role into the credential.", &{
            let old = credential(SELA, "Anvil 3", &[Role::Hookup], ANVIL);
            let header = Header { key_id: Some(key(SELA).public().id()), credential: None };
            assemble(header, &map(&anvil_pairs()), &old[old.len() - 64..].try_into().expect("64 bytes"))
        })),
        ("credential_renamed", forged("Another name in the credential.", &altered(|pairs| pairs[0].1 = text("Lantern 1")))),
        ("credential_rekeyed", forged("Another key in the credential, which signs the seal.", &altered(|pairs| {
            let public = key(STRANGER).public().to_bytes();
            pairs[2] = credential_pairs("Anvil 3", after(0), &public, &[1])[2].clone();
        }))),
        ("credential_self_issued", forged("The inspector signed the credential, with the authority's key id in it.", &self_issued(SELA, ANVIL))),
        ("credential_self_issued_by_name", under("The inspector is an authority of his own.", &self_issued(ANVIL, ANVIL), ANVIL).expect("NO-GO", &["unknown_authority"]).signatures(false)),
        ("credential_of_unknown_authority", under("An authority that this device does not trust.", &credential(ALDER, "Anvil 3", &[Role::Inspector], ANVIL), ANVIL).expect("NO-GO", &["unknown_authority"]).signatures(false)),
        ("credential_of_the_other_authority", {
            let mut vector = forged("Issued by one trusted authority, with the other's key id in it.", &self_issued(SELA, ALDER));
            vector.authority.push(alder());
            vector
        }),
        ("credential_signed_by_an_inspector", forged("An inspector credentials a friend.", &{
            let pairs = credential_pairs("Mason 5", after(86_400), &key(STRANGER).public().to_bytes(), &[1]);
            let header = Header { key_id: Some(key(SELA).public().id()), credential: None };
            let signature = key(ANVIL).sign(&to_be_signed(Kind::Credential, header, &map(&pairs)));
            assemble(header, &map(&pairs), &signature)
        })),
        ("credential_signed_as_a_roster", forged("The authority's signature is one in the namespace of rosters.", &{
            let payload = map(&anvil_pairs());
            let header = Header { key_id: Some(key(SELA).public().id()), credential: None };
            assemble(header, &payload, &key(SELA).sign(&to_be_signed(Kind::Roster, header, &payload)))
        })),
        // Another kind of message where the credential belongs.
        ("credential_is_a_key_request", refused("The inspector's own key request in the credential's place.", &request).signatures(false)),
        ("credential_is_an_authority_card", refused("The authority's card in the credential's place.", &card).signatures(false)),
        ("credential_is_a_roster", refused("A roster in the credential's place.", &roster).signatures(false)),
        ("credential_is_a_seal", refused("A seal in the credential's place.", &good()).signatures(false)),
        ("credential_is_a_number", refused("A number in the credential's place.", &[0x01]).signatures(false)),
        ("credential_in_a_byte_string", refused("The credential wrapped once more.", &bytes(&anvil())).signatures(false)),
        ("credential_tagged", refused("COSE's tag on the credential.", &[vec![0xd2], anvil()].concat()).signatures(false)),
        // Claims that an authority should not issue.
        ("credential_with_unknown_role", refused("A role that is not known here.", &issued(|pairs| pairs[3].1 = bytes(&[33])))),
        ("credential_with_long_roles", refused("Roles in two bytes.", &issued(|pairs| pairs[3].1 = bytes(&[0, 1])))),
        ("credential_without_expiry", refused("A credential without an end.", &issued(|pairs| { pairs.remove(1); }))),
        ("credential_without_roles", refused("A credential that does not speak of roles.", &issued(|pairs| { pairs.remove(3); }))),
        ("credential_without_key", refused("A credential without a key.", &issued(|pairs| { pairs.remove(2); })).signatures(false)),
        ("credential_for_another_curve", refused("The key is one for agreement and not for signing.", &issued(|pairs| {
            let public = key(ANVIL).public().to_bytes();
            let cose_key = map(&vec![(int(1), int(1)), (int(-1), int(4)), (int(-2), bytes(&public))]);
            pairs[2].1 = map(&vec![(int(1), cose_key)]);
        })).signatures(false)),
        ("credential_with_private_key", refused("The key's secret part stands beside it.", &issued(|pairs| {
            let public = key(ANVIL).public().to_bytes();
            let cose_key = map(&vec![(int(1), int(1)), (int(-1), int(6)), (int(-2), bytes(&public)), (int(-4), bytes(&[2; 32]))]);
            pairs[2].1 = map(&vec![(int(1), cose_key)]);
        }))),
        ("credential_with_duplicated_role", refused("Two sets of roles.", &issued(|pairs| pairs.insert(3, (int(9), bytes(&[4]))))).deterministic(false)),
        ("credential_with_usual_validity_told", refused("The usual validity written out: a second spelling with another id, past a revocation.", &issued(|pairs| {
            pairs.push((int(slingseal_message::envelope::OURS), int(DEFAULT_VALIDITY.0)));
        }))),
        ("credential_with_no_validity", refused("A validity of nothing.", &issued(|pairs| {
            pairs.push((int(slingseal_message::envelope::OURS), int(0)));
        }))),
        ("credential_wide", refused("The credential's list is written wide: a second spelling with another id, past a revocation.", &[&[0x98, 0x04], &anvil()[1..]].concat()).deterministic(false)),
        // Its place in the message.
        ("no_credential", about("No credential travels along, and no key id.", &Raw { protected: map(&vec![(int(1), int(-19))]), ..raw.clone() }.signed()).expect("NO-GO", &["unreadable"]).signatures(false)),
        ("key_id_alone", about("A key id in the credential's place.", &{
            let id = key(ANVIL).public().id().0;
            Raw { protected: map(&vec![(int(1), int(-19)), (int(4), bytes(&id))]), ..raw.clone() }.signed()
        }).expect("NO-GO", &["unreadable"]).signatures(false)),
        ("key_id_beside_credential", about("A key id beside the credential: two answers to who signed.", &{
            let id = key(LANTERN).public().id().0;
            let mut pairs = header_pairs(&anvil());
            pairs.insert(1, (int(4), bytes(&id)));
            Raw { protected: map(&pairs), ..raw.clone() }.signed()
        }).expect("NO-GO", &["unreadable"])),
        ("credential_unprotected", about("The credential stands where nobody signs it.", &Raw {
            protected: map(&vec![(int(1), int(-19))]),
            unprotected: map(&vec![(int(13), anvil())]),
            ..raw.clone()
        }.signed()).expect("NO-GO", &["unreadable"]).signatures(false)),
        ("credential_in_credential", refused("A credential under a credential: an inspector who would be an authority.", &{
            let header = Header { key_id: None, credential: Some(&anvil()) };
            let payload = map(&anvil_pairs());
            assemble(header, &payload, &key(ANVIL).sign(&to_be_signed(Kind::Credential, header, &payload)))
        }).signatures(false)),
    ];
    let mut revoked = under(
        "The revoked credential's list written wide, so that its id is another.",
        &[&[0x98, 0x04], &anvil()[1..]].concat(),
        ANVIL,
    );
    revoked.authority[0].rosters.push(roster_of_revoked());
    all.push(("credential_wide_and_revoked", revoked.expect("NO-GO", &["unreadable"]).deterministic(false)));
    all.into_iter().map(|(name, vector)| (format!("invalid/{name}"), vector)).collect()
}

fn roster_of_revoked() -> String {
    let text = first_roster(SELA, 2, 60, 7 * 86_400, &[&anvil()]);
    assert!(text.starts_with(&wrap(Kind::Roster, &[])));
    text
}
