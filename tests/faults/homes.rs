//! What can happen to a home's files, and two programs on one home.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use slingseal_store::StoreError;
use slingseal_tests::full_home::{fill, open, read_all};
use slingseal_tests::scripted;
use slingseal_words::Digest;

/// What is not an index: what a person relies on.
const EVIDENCE: [&str; 16] = [
    "journal",
    "walk",
    "walks",
    "records",
    "deficiencies",
    "equipment",
    "tags",
    "voids",
    "authorities",
    "rosters",
    "credentials",
    "quarantine",
    "photo",
    "vault",
    "setting",
    "foreign",
];

/// One bit of the file flips, anywhere. Either it is told, at the opening or by the check, or everything is as it was; and
/// a piece of evidence that can be read is the one that was put there.
#[test]
fn one_flipped_bit_is_told_or_does_nothing() {
    let flips: u64 = std::env::var("FLIPPED_BITS").ok().and_then(|text| text.parse().ok()).unwrap_or(400);
    let folder = tempfile::tempdir().unwrap();
    let (mut store, _) = open(folder.path(), 1).unwrap();
    fill(&mut store).unwrap();
    let whole = read_all(&store);
    assert!(whole.values().all(Option::is_some), "{whole:?}");
    drop(store);
    let sound = std::fs::read(folder.path().join("home.db")).unwrap();
    let seen = std::fs::read(folder.path().join("home.db-seen")).unwrap();
    let (mut told_at_opening, mut told_by_check, mut harmless) = (0, 0, 0);
    for flip in 0..flips {
        let left = tempfile::tempdir().unwrap();
        let drawn = u64::from_be_bytes(Digest::of(&flip.to_be_bytes()).as_bytes()[..8].try_into().unwrap());
        let bit = drawn % (sound.len() as u64 * 8);
        let mut rotten = sound.clone();
        rotten[bit as usize / 8] ^= 1 << (bit % 8);
        std::fs::write(left.path().join("home.db"), &rotten).unwrap();
        std::fs::write(left.path().join("home.db-seen"), &seen).unwrap();
        let (store, opened) = match open(left.path(), 100) {
            Ok(opened) => opened,
            // A flipped bit in the two numbers that say whose file it is and how new.
            Err(StoreError::TooNew { .. } | StoreError::Foreign { .. }) => {
                told_at_opening += 1;
                continue;
            }
            Err(error) => panic!("flip {flip} of bit {bit}: {error}"),
        };
        if let Some(aside) = opened.set_aside {
            assert!(std::fs::read(aside.path).unwrap() == rotten, "flip {flip} of bit {bit}");
            told_at_opening += 1;
            continue;
        }
        let now = read_all(&store);
        for question in EVIDENCE {
            let (now, whole) = (&now[question], &whole[question]);
            assert!(now.is_none() || now == whole, "flip {flip} of bit {bit}: {question} was changed unseen");
        }
        match store.read().check() {
            Ok(faults) if faults.is_empty() => {
                // The search index holds no text to be held against: a decayed one may miss a hit, and only that.
                for (question, answer) in whole.iter().filter(|(question, _)| **question != "by words") {
                    let same = &now[question] == answer;
                    assert!(same, "flip {flip} of bit {bit}: {question} changed and the check is content");
                }
                harmless += 1;
            }
            _ => told_by_check += 1,
        }
    }
    println!(
        "{flips} flips: {told_at_opening} told at the opening, {told_by_check} by the check, {harmless} harmless"
    );
    assert!(told_at_opening > 0 && told_by_check > 0);
}

fn walker(home: &Path, tag: &str) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_walker"));
    command.arg(home).args([tag, "1", "0"]).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

#[test]
fn a_second_program_on_the_same_home_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let (home, tag) = scripted::set_up(folder.path());
    let (app, clock) = scripted::open(&home, "inspector").unwrap();
    let second = walker(&home, &tag).output().unwrap();
    let said = String::from_utf8_lossy(&second.stderr).into_owned();
    assert!(said.contains("is open in another program that keeps it; close that one first"), "{said}");
    // Nothing happened to the first, and when it ends the second may.
    let script = scripted::Scripted { app: &app, clock: &clock, tag: &tag, seed: 1 };
    assert!(script.step(0).unwrap() && script.step(1).unwrap());
    drop(app);
    assert!(walker(&home, &tag).output().unwrap().status.success());
}

/// Runs a shell script with a file system of its own; `None`, with a word why, where the system does not allow it.
fn with_mounts(script: &str, words: &[&Path]) -> Option<std::process::Output> {
    let allowed = Command::new("unshare").args(["-rm", "true"]).output();
    if !allowed.is_ok_and(|output| output.status.success()) {
        let _ = writeln!(std::io::stderr(), "not tried: this system does not let a test mount a file system");
        return None;
    }
    let mut command = Command::new("unshare");
    command.args(["-rm", "sh", "-euc", script, "sh"]).args(words);
    Some(command.output().unwrap())
}

#[test]
fn a_read_only_home_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (home, tag) = scripted::set_up(folder.path());
    let script = "mount --bind \"$1\" \"$1\"; mount -o remount,ro,bind \"$1\"; exec \"$2\" \"$1\" \"$3\" 1 0";
    let words = [home.as_path(), Path::new(env!("CARGO_BIN_EXE_walker")), Path::new(&tag)];
    let Some(output) = with_mounts(script, &words) else { return };
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("cannot be written; give this program the right to write there"), "{said}");
    assert!(said.contains("StorageFull"), "{said}");
    assert!(walker(&home, &tag).output().unwrap().status.success());
}

/// A real file system with no room left; then there is room again, and the same walk goes on to its end.
#[test]
fn a_disk_that_fills_up_and_gets_room_again() {
    let folder = tempfile::tempdir().unwrap();
    let (home, tag) = scripted::set_up(folder.path());
    let disk = folder.path().join("disk");
    std::fs::create_dir(&disk).unwrap();
    let script = r#"
        mount -t tmpfs -o size=8m none "$1"
        cp -r "$2" "$1/home"
        head -c 8m /dev/zero > "$1/rubbish" 2>/dev/null || true
        if "$3" "$1/home" "$4" 1 0 > "$1/../told" 2> "$1/../said"; then exit 3; fi
        rm "$1/rubbish"
        "$3" "$1/home" "$4" 1 "$(wc -l < "$1/../told")" > "$1/../rest"
    "#;
    let walker = Path::new(env!("CARGO_BIN_EXE_walker"));
    let Some(output) = with_mounts(script, &[&disk, &home, walker, Path::new(&tag)]) else { return };
    assert!(output.status.success(), "{output:?}");
    let said = std::fs::read_to_string(folder.path().join("said")).unwrap();
    assert!(said.contains("the storage is full and nothing of the last step was kept"), "{said}");
    let rest = std::fs::read_to_string(folder.path().join("rest")).unwrap();
    assert_eq!(rest.lines().last(), Some("end"));
}

/// The clock is set a day back and a year forward in the middle of a walk: nothing is lost and the journal holds.
#[test]
fn a_clock_that_jumps_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (home, tag) = scripted::set_up(folder.path());
    for (round, jump) in [0i64, -86_400, 365 * 86_400].into_iter().enumerate() {
        let (app, clock) = scripted::open(&home, "inspector").unwrap();
        assert_eq!(app.start().unwrap().notices, [""; 0]);
        let script = scripted::Scripted { app: &app, clock: &clock, tag: &tag, seed: 2 };
        for number in 0..5u64 {
            clock.to((2 * 86_400 + jump) as u64 + number);
            assert!(script.step_now(round as u64 * 5 + number).unwrap());
        }
    }
    let (app, _) = scripted::open(&home, "inspector").unwrap();
    assert_eq!(app.audit().unwrap().faults, [""; 0]);
    assert_eq!(app.start().unwrap().in_hand.len(), 1);
}
