//! Rosters of the second kind: keys that are revoked, procedures that are approved, and one series over both kinds.

use slingseal_message::envelope::{Claims, Header, Kind, Writer, assemble, to_be_signed, wrap};
use slingseal_message::trust::{Approval, Edition, Role, Roster};
use slingseal_words::{Digest, ProcedureId};

use super::parts::*;
use crate::vector::Vector;

/// A roster that revokes the keys of these seeds, each since a minute after the seal.
fn revoking(seed: u8, sequence: u32, keys: &[u8]) -> Roster {
    Roster {
        keys: keys.iter().map(|holder| (key(*holder).public().thumbprint(), after(60))).collect(),
        approved: approving(),
        ..Roster::new(sequence, after(if seed == SELA { 60 } else { 30 }), after(7 * 86_400))
    }
}

fn text(seed: u8, roster: &Roster) -> String {
    wrap(Kind::RosterOfKeys, &roster.sign(&key(seed)))
}

/// The good seal on a device that received these rosters of its inspector's authority, in this order.
fn with(what: &str, rosters: Vec<String>) -> Vector {
    let mut vector = about(what, &good());
    vector.authority[0].rosters = rosters;
    vector
}

/// A roster whose content is written by hand and signed by the authority.
fn by_hand(signed_as: Kind, front: Kind, write: impl FnOnce(&mut Writer)) -> String {
    let mut content = Writer::new();
    write(&mut content);
    let content = content.into_bytes();
    let claims = Claims {
        expires: Some(after(7 * 86_400)),
        issued: Some(after(60)),
        ours: Some(&content),
        ..Claims::default()
    };
    let payload = claims.to_bytes();
    let header = Header { key_id: Some(key(SELA).public().id()), credential: None };
    let signature = key(SELA).sign(&to_be_signed(signed_as, header, &payload));
    wrap(front, &assemble(header, &payload, &signature))
}

fn empty_second(content: &mut Writer) {
    content.array(4).int(9).array(0).array(0).array(0);
}

fn two_keys(content: &mut Writer, first: [u8; 8], second: [u8; 8]) {
    content.array(4).int(9).array(0).array(2);
    content.array(2).bytes(&first).int(5).array(2).bytes(&second).int(5).array(0);
}

pub fn all() -> Vec<(String, Vector)> {
    let revoked = text(SELA, &revoking(SELA, 2, &[ANVIL]));
    let mut all = vec![
        (
            "revoked_by_key",
            with("The inspector's key is revoked after the seal was signed.", vec![revoked.clone()])
                .expect("NO-GO", &["revoked"]),
        ),
        (
            "another_key_revoked",
            with(
                "The hookup's key is revoked, and not the inspector's.",
                vec![text(SELA, &revoking(SELA, 2, &[THISTLE]))],
            )
            .expect("GO", &[]),
        ),
        (
            "revoked_key_and_an_older_roster_of_the_first_kind",
            with(
                "After the roster that revokes the key, an older one of the first kind is shown.",
                vec![revoked.clone(), first_roster(SELA, 1, -3_600, 7 * 86_400, &[])],
            )
            .expect("NO-GO", &["revoked"]),
        ),
        (
            "revoked_by_id_in_a_roster_of_the_second_kind",
            with(
                "A roster of the second kind revokes the credential by its id.",
                vec![text(
                    SELA,
                    &Roster {
                        revoked: [slingseal_message::trust::CredentialId::of(&anvil())].into(),
                        approved: approving(),
                        ..Roster::new(2, after(60), after(7 * 86_400))
                    },
                )],
            )
            .expect("NO-GO", &["revoked"]),
        ),
        (
            "roster_of_the_first_kind_is_later",
            with(
                "The kinds count in one series: a later roster of the first kind revokes the credential.",
                vec![text(SELA, &revoking(SELA, 2, &[])), first_roster(SELA, 3, 60, 7 * 86_400, &[&anvil()])],
            )
            .expect("NO-GO", &["revoked", "procedure_not_approved"]),
        ),
        (
            "roster_with_approvals",
            with(
                "A roster that approves procedures and revokes nobody.",
                vec![text(
                    SELA,
                    &Roster {
                        approved: [
                            (edition(), Approval { from: after(-86_400), withdrawn: None }),
                            (
                                other_edition("net", 1),
                                Approval { from: after(-86_400), withdrawn: Some(after(-60)) },
                            ),
                        ]
                        .into(),
                        ..Roster::new(2, after(60), after(7 * 86_400))
                    },
                )],
            )
            .expect("GO", &[]),
        ),
    ];
    let mut foreign = about("Another authority revokes the inspector's key.", &good());
    let mut other = alder();
    other.rosters = vec![text(ALDER, &revoking(ALDER, 5, &[ANVIL]))];
    foreign.authority.push(other);
    all.push(("key_revoked_by_another_authority", foreign.expect("GO", &[])));
    let mut renewed =
        about("The inspector's key was revoked, and he holds a newer credential of the same key.", &{
            let mut credential = credential_of(SELA, "Anvil 33", &[Role::Inspector, Role::Leader], ANVIL);
            credential.expires = after(30 * 86_400);
            sign_seal(&seal(), &credential.issue(&key(SELA)), ANVIL)
        });
    renewed.authority[0].rosters = vec![revoked];
    all.push(("credentialed_anew_on_a_revoked_key", renewed.expect("NO-GO", &["revoked"])));
    let mut refused =
        about("Rosters that are none: crossed kinds, lists out of order, one key twice.", &good());
    refused.refuses = vec![
        by_hand(Kind::Roster, Kind::RosterOfKeys, empty_second),
        by_hand(Kind::RosterOfKeys, Kind::Roster, empty_second),
        by_hand(Kind::Roster, Kind::Roster, empty_second),
        by_hand(Kind::RosterOfKeys, Kind::RosterOfKeys, |content| {
            content.array(2).int(9).array(0);
        }),
        by_hand(Kind::RosterOfKeys, Kind::RosterOfKeys, |content| two_keys(content, [2; 8], [1; 8])),
        by_hand(Kind::RosterOfKeys, Kind::RosterOfKeys, |content| two_keys(content, [1; 8], [1; 8])),
        by_hand(Kind::RosterOfKeys, Kind::RosterOfKeys, |content| {
            content.array(4).int(9).array(0).array(0).array(1);
            content.array(5).text("bag").int(1).bytes(&[7; 16]).int(5).int(4);
        }),
    ];
    all.push(("rosters_that_are_none", refused.expect("GO", &[])));
    all.into_iter().map(|(name, vector)| (format!("valid/{name}"), vector)).collect()
}

fn other_edition(procedure: &str, version: u32) -> Edition {
    let id = ProcedureId::new(procedure).expect("a procedure's id");
    Edition::of(id, version, Digest::of(procedure.as_bytes()))
}
