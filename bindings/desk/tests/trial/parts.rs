//! A part of the account, and the moving code in a terminal.

use std::process::{Command, Stdio};

use crate::day::{Day, text};

#[test]
fn a_part_of_the_account_goes_by_load_and_by_time() {
    let day = Day::new();
    let records = |arguments: &[&str]| {
        let out = day.at("part.bundle");
        let made = day.json(&[&["bundle", "write", "--out", &out], arguments].concat());
        made["records"].as_u64().unwrap()
    };
    assert_eq!(records(&[]), 1);
    assert_eq!(records(&["--load", "KM-015"]), 1);
    assert_eq!(records(&["--load", "KM-014"]), 0);
    assert_eq!(records(&["--since", "2020-01-01"]), 1);
    assert_eq!(records(&["--since", "2098-01-01"]), 0);
    let said = day.refused(&["bundle", "write", "--out", &day.at("x"), "--since", "yesterday"]);
    assert!(said.contains("--since: "), "{said}");
    // What is of one load alone is enough for a desk that trusts the authority to take it in.
    day.done(&["bundle", "write", "--out", &day.at("one.bundle"), "--load", "KM-015"]);
    let desk = |arguments: &[&str]| {
        let output = day.command_at("desk", arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        text(&output.stdout)
    };
    let card = day.json(&["authority", "show"]);
    let (card, heard) = (card["card"]["text"].as_str().unwrap(), card["fingerprint"].as_str().unwrap());
    desk(&["authority", "trust", card, "--fingerprint", heard]);
    desk(&["receive", &day.at("card/roster-1.txt")]);
    assert!(desk(&["bundle", "read", &day.at("one.bundle")]).starts_with("1 record new"));
    assert!(desk(&["records", "list"]).contains("KM-015"));
}

#[cfg(unix)]
#[test]
fn a_moving_code_plays_in_a_terminal_and_a_camera_reads_it() {
    let day = Day::new();
    assert!(day.refused(&["bundle", "play"]).contains("bundle write --frames"));
    let play = format!(
        "{} --home {} bundle play --rounds 1 --pace 15",
        env!("CARGO_BIN_EXE_slingseal"),
        day.at("home")
    );
    let played = Command::new("script")
        .args(["-qec", &play, "/dev/null"])
        .stdin(Stdio::null())
        .output()
        .expect("script is needed (Debian package bsdutils)");
    let said = text(&played.stdout);
    assert!(said.contains("Part 1 of 1, frame 1 of about "), "{said}");
    let frames: Vec<&str> = said.split("\u{1b}[H").filter(|frame| frame.contains("Part 1 of 1")).collect();
    assert!(frames.len() > 1);
    let mut texts: Vec<String> = frames.iter().map(|frame| read(frame)).collect();
    assert!(texts.iter().all(|text| text.starts_with("BF1:")), "{texts:?}");
    let all = texts.len();
    texts.sort();
    texts.dedup();
    assert_eq!(texts.len(), all, "no frame comes twice");
}

/// A terminal of old, and a phone's: a code that scrolls away would be read by nobody, and that is told.
#[cfg(unix)]
#[test]
fn a_window_that_is_too_small_for_a_moving_code_is_told_so() {
    let day = Day::new();
    for (columns, rows, fits) in [(80, 24, false), (40, 24, false), (80, 60, true)] {
        let play = format!(
            "stty cols {columns} rows {rows}; {} --home {} bundle play --rounds 1 --pace 15",
            env!("CARGO_BIN_EXE_slingseal"),
            day.at("home")
        );
        let played = Command::new("script")
            .args(["-qec", &play, "/dev/null"])
            .stdin(Stdio::null())
            .output()
            .expect("script is needed (Debian package bsdutils)");
        let said = text(&played.stdout);
        assert_eq!(played.status.success(), fits, "{columns} x {rows}: {said}");
        let told = said.contains(&format!("{columns} columns and {rows} rows")) && said.contains("--frames");
        assert_eq!(told, !fits, "{columns} x {rows}: {said}");
    }
}

/// What a camera sees of a frame: black letters on white, two rows of modules a line.
fn read(frame: &str) -> String {
    const SQUARE: usize = 4;
    let mut rows: Vec<Vec<bool>> = Vec::new();
    for line in frame.lines().filter(|line| line.starts_with("\u{1b}[38")) {
        let line = line.trim_end_matches('\r');
        let letters: String = line.split('m').skip(1).collect::<Vec<_>>().join("m");
        let letters = letters.split('\u{1b}').next().unwrap();
        let dark = |upper: bool| {
            letters.chars().map(move |letter| match letter {
                '█' => true,
                '▀' => upper,
                '▄' => !upper,
                _ => false,
            })
        };
        rows.push(dark(true).collect());
        rows.push(dark(false).collect());
    }
    let width = rows[0].len();
    let mut image =
        rqrr::PreparedImage::prepare_from_greyscale(width * SQUARE, rows.len() * SQUARE, |x, y| {
            if rows[y / SQUARE].get(x / SQUARE).copied().unwrap_or(false) { 0 } else { 255 }
        });
    let grids = image.detect_grids();
    grids.first().unwrap_or_else(|| panic!("no code in {frame}")).decode().unwrap().1
}
