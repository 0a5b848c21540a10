use crate::tests::SAMPLE;
use crate::{assess, png, read, svg};

use slingseal_catalogue::Language;

use super::lettering::{Lettering, Weight};

const EN: Language = Language::English;

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
    for (load, word) in [(hanging, "WITHIN LIMITS"), (unsaid, "AT REST ONLY"), (torn, "DOES NOT HANG")] {
        let assessment = assess(&load);
        let drawn = svg(&load, &assessment, EN);
        assert!(drawn.starts_with("<svg ") && drawn.contains(&format!("<title>Rigged load: {word}</title>")));
        assert!(!drawn.contains("NaN") && !drawn.contains("inf"));
        assert_eq!(drawn, svg(&load, &assessment, EN));
        let pixels = png(&load, &assessment, EN).unwrap();
        assert!(pixels.starts_with(b"\x89PNG\r\n\x1a\n"));
        // Green is for a load that holds by every rule that counts.
        assert_eq!(drawn.contains("#0a5522"), word == "WITHIN LIMITS");
        assert_eq!(drawn.contains("#ffb000"), word == "AT REST ONLY");
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
    assert!(png(&load, &assess(&load), EN).is_ok());
}

/// In dots, too: as wide as asked at the most, the slings meeting at the hook and apart at the load, a slack one left out.
#[test]
fn a_load_in_dots_hangs_from_its_hook() {
    use super::side_cells;
    let load = read(SAMPLE).unwrap();
    let hang = assess(&load).hang.unwrap();
    let ends = |row: &str| {
        let inked: Vec<usize> =
            row.chars().enumerate().filter(|(_, sign)| *sign != ' ').map(|(at, _)| at).collect();
        (inked.first().copied().unwrap(), inked.last().copied().unwrap())
    };
    for columns in [4, 20, 40, 200] {
        let rows = side_cells(&load, &hang, columns);
        assert!(rows.len() <= columns / 2 && rows.len() >= columns / 4, "{rows:#?}");
        assert!(rows.iter().all(|row| row.chars().count() <= columns));
        if columns >= 20 {
            let wide = |row: &str| ends(row).1 - ends(row).0;
            assert!(wide(&rows[0]) <= 1, "{rows:#?}");
            assert!(wide(&rows[rows.len() / 2]) > wide(&rows[1]), "{rows:#?}");
        }
    }
    let mut slack = hang.clone();
    slack.legs.iter_mut().for_each(|leg| leg.slack = true);
    let dots = |hang| side_cells(&load, hang, 40).concat().chars().filter(|sign| *sign != ' ').count();
    assert!(dots(&slack) < dots(&hang) / 2);
}
