use crate::tests::SAMPLE;
use crate::{assess, png, read, svg};

use super::lettering::{Lettering, Weight};

/// Both faces parse, and a text has a width and an outline.
#[test]
fn letters_are_built_in() {
    let letters = Lettering::new();
    for weight in [Weight::Medium, Weight::Bold] {
        assert!(letters.width("1360 lb", 30.0, weight) > 80.0);
        assert!(letters.outline("é", 30.0, weight, 0.0, 0.0).starts_with('M'));
        // A letter that the face lacks takes room all the same.
        assert!(letters.width("\u{4e00}", 30.0, weight) > 0.0);
    }
}

/// The picture of a load that hangs and of one that does not: well-formed, PNG by its signature (RFC 2083 §3.1), and
/// with ink on it.
#[test]
fn both_kinds_of_picture() {
    let hanging = read(&format!("rule = \"rest\"\n{SAMPLE}")).unwrap();
    let unsaid = read(SAMPLE).unwrap();
    let torn = read(&SAMPLE.replace("length = \"12 ft\"", "length = \"3 ft\"")).unwrap();
    for (load, word) in [(hanging, "within limits"), (unsaid, "at rest only"), (torn, "does not hang")] {
        let assessment = assess(&load);
        let drawn = svg(&load, &assessment);
        assert!(drawn.starts_with("<svg ") && drawn.contains(&format!("<title>Rigged load, {word}</title>")));
        assert!(!drawn.contains("NaN") && !drawn.contains("inf"));
        assert_eq!(drawn, svg(&load, &assessment));
        let pixels = png(&load, &assessment).unwrap();
        assert!(pixels.starts_with(b"\x89PNG\r\n\x1a\n"));
        // Green is for a load that holds by every rule that counts.
        assert_eq!(drawn.contains("#0a5522"), word == "within limits");
        assert_eq!(drawn.contains("#ffb000"), word == "at rest only");
        let picture = image::load_from_memory(&pixels).unwrap().to_rgb8();
        assert_eq!(picture.width(), 1080);
        let inked = picture.pixels().filter(|pixel| pixel.0.iter().all(|part| *part < 100)).count();
        assert!(inked > 10_000, "{inked}");
    }
}

/// A name that would be markup, or would not fit, does not spoil the picture.
#[test]
fn hostile_names_are_drawn_as_they_are() {
    let text = SAMPLE
        .replace("name = \"main\"", "name = \"<b>&\\\"'\"")
        .replace("name = \"1\"", "name = \"WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW\"");
    let load = read(&text).unwrap();
    assert!(png(&load, &assess(&load)).is_ok());
}
