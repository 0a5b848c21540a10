//! The program is killed (SIGKILL) at random moments of whole walks, from the tag to the seal.
//!
//! `KILLED_WALKS=500` says how many walks; without it a few, so that the tests stay quick.

use std::io::{BufRead, BufReader};
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use slingseal_tests::scripted::{Scripted, open, set_up};
use slingseal_words::Digest;

/// So many scripts; the walks take turns.
const SCRIPTS: u64 = 8;

/// How one script goes when nobody disturbs it: what is seen before the first step and after each.
struct Undisturbed {
    seen: Vec<Digest>,
}

fn copy(home: &Path, to: PathBuf) -> PathBuf {
    std::fs::create_dir_all(&to).unwrap();
    for entry in std::fs::read_dir(home).unwrap() {
        let entry = entry.unwrap();
        std::fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
    to
}

fn undisturbed(home: &Path, tag: &str, seed: u64) -> Undisturbed {
    let (app, clock) = open(home, "inspector").unwrap();
    let script = Scripted { app: &app, clock: &clock, tag, seed };
    let mut seen = vec![script.look(0).unwrap()];
    for number in 0.. {
        if !script.step(number).unwrap() {
            break;
        }
        seen.push(script.look(0).unwrap());
        assert!(number < 2_000, "the script does not come to an end");
    }
    assert_eq!(app.records(None, 10).unwrap().len(), 1, "the script ends with a seal");
    assert_eq!(app.audit().unwrap().faults, [""; 0]);
    Undisturbed { seen }
}

fn child(home: &Path, tag: &str, seed: u64, from: usize) -> Child {
    Command::new(env!("CARGO_BIN_EXE_walker"))
        .arg(home)
        .args([tag, &seed.to_string(), &from.to_string()])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap()
}

/// Kills the child after a while; answers the number of the last step that it acknowledged, and whether it had ended.
fn kill(mut child: Child, after: Duration) -> (Option<usize>, bool) {
    let lines = BufReader::new(child.stdout.take().unwrap());
    let id = child.id();
    let (gone, waits) = std::sync::mpsc::channel::<()>();
    let killer = std::thread::spawn(move || {
        let _ = waits.recv_timeout(after);
        child.kill().unwrap();
        child.wait().unwrap()
    });
    let (mut last, mut ended) = (None, false);
    for line in lines.lines().map_while(Result::ok) {
        match line.parse() {
            Ok(number) => last = Some(number),
            Err(_) => ended = line == "end",
        }
    }
    drop(gone);
    let status = killer.join().unwrap();
    assert!(ended || status.signal() == Some(9), "child {id} stopped by itself: {status}");
    (last, ended)
}

#[test]
fn a_killed_program_goes_on_at_the_same_card() {
    let walks: u64 = std::env::var("KILLED_WALKS").ok().and_then(|text| text.parse().ok()).unwrap_or(8);
    let folder = tempfile::tempdir().unwrap();
    let (template, tag) = set_up(folder.path());
    let scripts: Vec<Undisturbed> = (0..SCRIPTS)
        .map(|seed| undisturbed(&copy(&template, folder.path().join(format!("calm-{seed}"))), &tag, seed))
        .collect();
    let steps: usize = scripts.iter().map(|script| script.seen.len() - 1).sum();
    let (mut kills, mut ahead, mut acknowledged, mut ends) = (0, 0, 0, 0);
    for walk in 0..walks {
        let seed = walk % SCRIPTS;
        let seen = &scripts[seed as usize].seen;
        let home = copy(&template, folder.path().join(format!("walk-{walk}")));
        let (mut at, mut stuck) = (0, 0);
        for turn in 0u64.. {
            // From before the home is open to after the seal, by a drawn delay. Where three kills in a row let nothing be done,
            // the machine is slow today: the next child has its time, or kills within the PIN's check would lock the PIN.
            let chance = Digest::of_parts(&[&walk.to_be_bytes(), &turn.to_be_bytes()]);
            let drawn = u64::from(u16::from_be_bytes([chance.as_bytes()[0], chance.as_bytes()[1]]));
            let after = Duration::from_micros(if stuck < 3 { 4_000 + drawn } else { 60_000_000 });
            let (last, ended) = kill(child(&home, &tag, seed, at), after);
            kills += u64::from(!ended);
            let told = last.map_or(at, |number| number + 1);
            acknowledged += told - at;
            let (app, clock) = open(&home, "inspector").unwrap();
            assert_eq!(app.start().unwrap().notices, [""; 0], "walk {walk} turn {turn}");
            let script = Scripted { app: &app, clock: &clock, tag: &tag, seed };
            let now = script.look(0).unwrap();
            // What was told is there, and at most the one step that was being done beside it.
            let before = at;
            if seen.get(told + 1) == Some(&now) && seen[told] != now {
                ahead += 1;
                at = told + 1;
            } else {
                assert!(seen[told] == now, "walk {walk} turn {turn}: not as after step {told}");
                at = told;
            }
            stuck = if at == before { stuck + 1 } else { 0 };
            assert_eq!(app.audit().unwrap().faults, [""; 0], "walk {walk} turn {turn}");
            if ended || at + 1 >= seen.len() {
                ends += 1;
                break;
            }
        }
        std::fs::remove_dir_all(&home).unwrap();
    }
    assert_eq!(ends, walks);
    assert!(kills >= walks, "{kills} kills are too few");
    println!(
        "{walks} walks of {} steps: {kills} kills, {acknowledged} answers acknowledged and found again, \
         {ahead} times the step under way was there too",
        steps as u64 / SCRIPTS
    );
}
