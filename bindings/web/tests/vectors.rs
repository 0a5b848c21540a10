//! The surface, natively, gives every frozen vector the verdict that is frozen with it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a test fails by panicking, and measures"
)]

#[allow(dead_code, reason = "each test asks for a part of it")]
#[path = "support/cast.rs"]
mod cast;
#[allow(dead_code, reason = "each test asks for a part of it")]
mod support;

use slingseal_web::Surface;
use support::{calls, native, read, told};

#[test]
fn every_vector_is_answered_as_it_is_frozen() {
    let (mut wrong, mut count) = (Vec::new(), 0);
    for folder in ["valid", "approved", "invalid"] {
        for (name, vector) in read(folder) {
            count += 1;
            let answer = native(&mut Surface::default(), &calls(&vector)).pop().expect("an answer");
            let verdict =
                vector.expect.verdict.clone().map(|word| if word == "HOLD" { "WAIT".into() } else { word });
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
    for call in
        ["", "[]", "{}", "{\"call\":\"judge\"}", "{\"call\":\"judge\",\"shown\":[1],\"now\":1}", "\u{0}"]
    {
        let answer = surface.call(call.as_bytes());
        assert!(answer.starts_with("{\"error\":\"") && !answer.contains('\n'), "{call}: {answer}");
    }
    assert!(surface.begin(b"junk").starts_with("{\"error\""));
    assert!(surface.frame(3, 3, &[0; 7]).starts_with("{\"error\""));
    assert!(surface.picture(b"GIF89a").starts_with("{\"error\""));
}

/// Frozen pages: what they are shown, and what they must say. The other side judges the same, `tests/independent/page.py`.
#[test]
fn every_page_is_answered_as_it_is_frozen() {
    #[derive(serde::Deserialize)]
    struct Page {
        at: String,
        page: String,
        shown: Vec<String>,
        thumbprint: String,
        expect: Expect,
    }
    #[derive(Debug, serde::Deserialize)]
    struct Expect {
        verdict: Option<String>,
        reasons: Vec<String>,
    }
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/page");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).expect("the pages are there") {
        let path = entry.expect("an entry").path();
        // A folder keeps those that a later rule made wrong.
        if path.is_dir() {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a vector is text");
        let page: Page = toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        let bytes = cast::unbase64(&page.page);
        assert_eq!(
            slingseal_message::trust::CheckPage::thumbprint(&bytes),
            page.thumbprint,
            "{}",
            path.display()
        );
        let now = slingseal_words::Time::parse(&page.at).expect("a time");
        let found = cast::answered(&bytes, now, &page.shown);
        assert_eq!(found, (page.expect.verdict, page.expect.reasons), "{}", path.display());
        count += 1;
    }
    assert!(count >= 12, "{count} pages were found");
}

/// What an earlier page trusted is no answer once a later one was refused.
#[test]
fn a_refused_beginning_trusts_nobody() {
    let cast = cast::Cast::new();
    let now = cast::at(0);
    let page = cast.page(cast::at(-7_200), 24, &[]);
    let judge = serde_json::json!({
        "call": "judge", "shown": [cast.seal(cast::at(-600), true), cast.tag()], "now": now.unix(), "language": "en",
    });
    for bad in [
        None,
        Some(serde_json::json!({ "call": "device", "authorities": [{ "card": "AU1:junk" }], "now": 1 })),
    ] {
        let mut surface = Surface::default();
        surface.begin(&page);
        assert_eq!(told(&native(&mut surface, std::slice::from_ref(&judge))[0]).0.as_deref(), Some("GO"));
        let refused = match &bad {
            None => surface.begin(&page[1..]),
            Some(call) => surface.call(call.to_string().as_bytes()),
        };
        assert!(refused.starts_with("{\"error\""), "{refused}");
        let (verdict, codes) = told(&native(&mut surface, std::slice::from_ref(&judge))[0]);
        assert_eq!((verdict.as_deref(), codes[0].as_str()), (Some("NO-GO"), "unknown_authority"), "{bad:?}");
    }
}
