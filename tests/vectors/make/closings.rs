//! Closing statements.

use slingseal_message::closing::{ClosingStatement, Explained, MOST_EXPLAINED, account_digest};
use slingseal_message::envelope::{Kind, OURS, unwrap, wrap};
use slingseal_message::trust::Role;
use slingseal_words::{Description, Digest, Note};

use super::parts::*;
use crate::closing::Closing;

fn leader() -> Vec<u8> {
    credential(SELA, "Rook 8", &[Role::Leader], HERALD)
}

fn words() -> Vec<String> {
    vec![wrap(Kind::Seal, &good()), wrap(Kind::Tag, &tag())]
}

fn point(kind: &str, subject: &str, note: &str) -> Explained {
    Explained {
        kind: kind.into(),
        subject: Description::new(subject).expect("a subject"),
        note: Note::new(note).expect("a note"),
    }
}

fn statement() -> ClosingStatement {
    let digests = words().iter().map(|text| Digest::of(&unwrap(text).expect("ours").1)).collect::<Vec<_>>();
    let (account, words) = account_digest(digests);
    ClosingStatement {
        issued: after(7_200),
        name: Description::new("Kestrel, day 1").expect("a name"),
        days: Some((after(-86_400), after(86_400))),
        account,
        words,
        counts: [1, 1, 1, 0, 1],
        explained: vec![
            point("lifted_without_go", "load KM-014", "crew took it on the leader's word"),
            point("lost", "load KM-014", "jettisoned over water, nobody hurt"),
        ],
    }
}

fn sign(said: &ClosingStatement, credential: &[u8], seed: u8) -> String {
    let unsigned = said.prepare(credential);
    wrap(Kind::Closing, &unsigned.finish(&key(seed).sign(&unsigned.to_be_signed())))
}

fn taken(about: &str, said: &ClosingStatement) -> Closing {
    Closing {
        about: about.into(),
        at: after(8_000).rfc3339(),
        statement: sign(said, &leader(), HERALD),
        words: words(),
        taken: true,
        by: Some("Rook 8".into()),
        account: Some(said.account.to_string()),
        counts: said.counts.to_vec(),
        kinds: said.explained.iter().map(|one| one.kind.clone()).collect(),
        authority: vec![sela()],
    }
}

fn refused(about: &str, statement: String) -> Closing {
    Closing {
        about: about.into(),
        at: after(8_000).rfc3339(),
        statement,
        words: Vec::new(),
        taken: false,
        by: None,
        account: None,
        counts: Vec::new(),
        kinds: Vec::new(),
        authority: vec![sela()],
    }
}

/// A statement whose content is written as it is given.
fn raw(content: &[u8]) -> String {
    let claims = vec![(int(6), int(after(7_200).unix())), (int(OURS), content.to_vec())];
    let parts = Raw {
        protected: map(&header_pairs(&leader())),
        unprotected: vec![0xa0],
        payload: map(&claims),
        aad: Kind::Closing.namespace(),
    };
    wrap(Kind::Closing, &parts.with(&key(HERALD).sign(&parts.to_be_signed())))
}

/// Every closing statement with its name below `closing/`.
pub fn all() -> Vec<(String, Closing)> {
    let with = |change: fn(&mut ClosingStatement)| {
        let mut said = statement();
        change(&mut said);
        said
    };
    let many = with(|said| {
        said.explained = vec![point("piece_out", "piece SL-1", "on the next flight"); MOST_EXPLAINED];
    });
    let head_of = |name: &str, days: Vec<u8>, counts: usize| {
        let counts = [head(4, counts), int(0).repeat(counts)].concat();
        let account = bytes(Digest::of(b"account").as_bytes());
        [head(4, 6), text(name), days, account, int(0), counts, head(4, 0)].concat()
    };
    let null = vec![0xf6];
    let backwards = [head(4, 2), int(100), int(100)].concat();
    [
        ("whole", taken("All that a statement may say.", &statement())),
        (
            "of_no_day_and_nothing_open",
            taken(
                "Chosen by loads, and everything adds up.",
                &with(|said| {
                    said.days = None;
                    said.explained.clear();
                }),
            ),
        ),
        ("of_the_most_points", taken("As many points as a statement holds.", &many)),
        ("by_a_planner", refused("A planner closes nothing.", sign(&statement(), &planner(), LANTERN))),
        (
            "by_a_stranger",
            refused(
                "A leader of nobody who is known here.",
                sign(&statement(), &credential(STRANGER, "Rook 8", &[Role::Leader], STRANGER), STRANGER),
            ),
        ),
        ("forged", refused("Another key than the credential's.", sign(&statement(), &leader(), STRANGER))),
        (
            "after_the_credential_ran_out",
            refused("The credential had run out.", {
                let mut paper = credential_of(SELA, "Rook 8", &[Role::Leader], HERALD);
                paper.expires = after(7_199);
                sign(&statement(), &paper.issue(&key(SELA)), HERALD)
            }),
        ),
        (
            "with_a_point_too_many",
            refused("One point more than a statement holds.", {
                let mut said = many.clone();
                said.explained.push(point("lost", "load KM-014", "one more"));
                sign(&said, &leader(), HERALD)
            }),
        ),
        (
            "with_capitals_in_a_kind",
            refused(
                "No word of a kind.",
                sign(
                    &with(|said| {
                        said.explained[0].kind = "Lost".into();
                    }),
                    &leader(),
                    HERALD,
                ),
            ),
        ),
        ("of_days_that_end_where_they_begin", refused("No time at all.", raw(&head_of("A", backwards, 5)))),
        ("of_four_counts", refused("A count is missing.", raw(&head_of("A", null.clone(), 4)))),
        ("without_a_name", refused("A name of nothing.", raw(&head_of("", null, 5)))),
    ]
    .into_iter()
    .map(|(name, closing)| (name.to_owned(), closing))
    .collect()
}
