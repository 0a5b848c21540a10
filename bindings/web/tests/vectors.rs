//! The surface, natively, gives every frozen vector the verdict that is frozen with it.

mod support;

use slingseal_web::Surface;
use support::{calls, native, read, told};

#[test]
fn every_vector_is_answered_as_it_is_frozen() {
    let (mut wrong, mut count) = (Vec::new(), 0);
    for folder in ["valid", "invalid"] {
        for (name, vector) in read(folder) {
            count += 1;
            let answer = native(&mut Surface::default(), &calls(&vector));
            let verdict = vector.expect.verdict.clone().map(|word| if word == "HOLD" { "WAIT".into() } else { word });
            let expect = (verdict, vector.expect.reasons.clone());
            let found = told(&answer);
            // A text of the wrong kind in the wrong place is refused by a program that asks for seal and tag apart; the page takes
            // whatever is shown, and a seal is a seal wherever it stands.
            if vector.expect.refused.is_none() && found != expect {
                wrong.push(format!("{folder}/{name}: {found:?}, frozen is {expect:?}"));
            }
            if vector.expect.refused.is_some() {
                assert_ne!(found.0.as_deref(), Some("GO"), "{folder}/{name}");
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {count}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(count >= 200, "{count} vectors were found");
}

#[test]
fn a_bad_call_is_told_in_one_line() {
    let mut surface = Surface::default();
    for call in ["", "[]", "{}", "{\"call\":\"judge\"}", "{\"call\":\"judge\",\"shown\":[1],\"now\":1}", "\u{0}"] {
        let answer = surface.call(call.as_bytes());
        assert!(answer.starts_with("{\"error\":\"") && !answer.contains('\n'), "{call}: {answer}");
    }
    assert!(surface.begin(b"junk").starts_with("{\"error\""));
    assert!(surface.frame(3, 3, &[0; 7]).starts_with("{\"error\""));
    assert!(surface.picture(b"GIF89a").starts_with("{\"error\""));
}
