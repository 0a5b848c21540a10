//! The program itself, one answer a line: a whole walk, refusals, and kill -9 at any moment.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

#[path = "support/bag.rs"]
mod bag;
#[allow(dead_code, reason = "the journey's own tests use the rest of it")]
#[path = "support/terminal.rs"]
mod terminal;

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Output, Stdio};
use std::time::Duration;

use bag::sound;

const PIN: &str = "417293";

struct Zone {
    folder: tempfile::TempDir,
}

impl Zone {
    /// A home that is authority and inspector, and an unsigned tag of the practice plan.
    fn new() -> Self {
        let zone = Self { folder: tempfile::tempdir().unwrap() };
        zone.done(&[
            "authority",
            "init",
            "--name",
            "Sela Relief",
            "--approve",
            "all",
            "--out",
            &zone.at("a"),
        ]);
        zone.done(&["key", "request", "--holder", "Anvil 3", "--out", &zone.at("k")]);
        let request = zone.file("k", "txt");
        let issue =
            ["authority", "issue", &request, "--roles", "inspector", "--expires", "2099-01-01", "--out"];
        zone.done(&[issue.as_slice(), &[&zone.at("c")]].concat());
        zone.done(&["receive", &zone.file("c", "txt")]);
        let plan = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/bag.toml");
        zone.done(&["tag", "write", plan.to_str().unwrap(), "--unsigned", "--out", &zone.at("t")]);
        zone
    }

    fn at(&self, name: &str) -> String {
        self.folder.path().join(name).display().to_string()
    }

    /// The first file in a folder with an ending.
    fn file(&self, folder: &str, ending: &str) -> String {
        let mut files: Vec<PathBuf> =
            std::fs::read_dir(self.at(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.sort();
        let file = files.into_iter().find(|path| path.extension().is_some_and(|is| is == ending));
        file.expect("a file with that ending").display().to_string()
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
        command
            .args(["--home", &self.at("home")])
            .args(arguments)
            .env("SLINGSEAL_PIN", PIN)
            .env("SLINGSEAL_PASSPHRASE", "a meadow by the river")
            .env("LANG", "C");
        command
    }

    fn done(&self, arguments: &[&str]) -> Output {
        let output = self.command(arguments).stdin(Stdio::null()).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        output
    }

    /// Gives all lines at once; what was printed, and the exit code.
    fn inspect(&self, arguments: &[&str], lines: &str) -> (Vec<String>, i32) {
        let mut child = self.walk(arguments);
        child.0.write_all(lines.as_bytes()).unwrap();
        drop(child.0);
        let printed = child.1.lines().map(|line| line.unwrap()).collect();
        (printed, child.2.wait().unwrap().code().unwrap())
    }

    fn walk(&self, arguments: &[&str]) -> (ChildStdin, BufReader<ChildStdout>, Child) {
        let mut command = self.command(&[&["inspect"], arguments].concat());
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()), child)
    }
}

fn field<'l>(line: &'l str, name: &str) -> &'l str {
    let from = line.find(&format!(" {name}=")).unwrap_or_else(|| panic!("{name} in {line}"));
    line[from + name.len() + 2..].split(' ').next().unwrap()
}

#[test]
fn a_whole_walk_line_by_line_with_a_deficiency_and_refusals() {
    let zone = Zone::new();
    let tag = zone.file("t", "txt");
    let (said, code) = zone.inspect(
        &[&tag],
        "# a comment, and an empty line\n\ngo 9\ndeficient 3 1 by hand\nfit\nflap\ndeficient 9 1\nundo\ndeficient 3 1\n",
    );
    let words: Vec<&str> = said.iter().map(|line| line.split(' ').next().unwrap()).collect();
    assert_eq!(words, ["ok", "ok", "ok", "refused", "refused", "refused", "ok", "ok"], "{said:#?}");
    assert_eq!(code, 1, "a refused line is told by the exit code");
    assert_eq!((field(&said[2], "open"), field(&said[6], "open"), field(&said[7], "open")), ("1", "0", "1"));
    assert!(said[5].contains("why=card 9 has no point \"9\"; name 1 to 3 or an id"), "{}", said[5]);

    // Goes on without a tag: one load is in hand.
    let goods = format!("go 1\n{}\n", sound(1).join("\n"));
    let (said, _) = zone.inspect(&[], &goods);
    let last = said.iter().rfind(|line| line.starts_with("ok")).unwrap();
    assert_eq!((field(last, "next"), field(last, "open")), ("look_again", "1"), "{last}");
    let number = field(last, "findings").trim_end_matches('!');
    let rest = format!("right {number} Mason 5\nagain {number} good\nfit\nseal\n");
    let (said, code) = zone.inspect(&["--out", &zone.at("out")], &rest);
    assert_eq!(code, 0, "{said:#?}");
    let sealed = said.last().unwrap();
    assert!(sealed.starts_with("sealed load=KM-015 outcome=fit verdict="), "{sealed}");
    let text = std::fs::read_to_string(zone.file("out", "txt")).unwrap();
    assert!(text.starts_with("SL1:") && sealed.ends_with(text.trim_end_matches('\n')), "{text}");
    // Read back from the picture that was written: the tag is unsigned, so that the hook is told to wait.
    let verdict = zone.command(&["verify", &zone.file("out", "png"), "--tag", &tag]).output().unwrap();
    assert_eq!(verdict.status.code(), Some(10), "{verdict:?}");
}

#[test]
fn json_is_one_view_a_line() {
    let zone = Zone::new();
    let output = {
        let mut child = zone
            .command(&["--json", "inspect", &zone.file("t", "txt")])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(b"good\nflap\npause\n").unwrap();
        child.wait_with_output().unwrap()
    };
    assert_eq!(output.status.code(), Some(1));
    let lines: Vec<serde_json::Value> = String::from_utf8(output.stdout)
        .unwrap()
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(lines.len(), 4);
    assert_eq!(lines[1]["card"]["number"], 2);
    assert_eq!(lines[2]["error"]["code"], "bad_input");
    assert_eq!(lines[3]["stage"], "paused");
}

/// Kills the program at moments spread over its work, some while an answer is being written, and goes on: it stands
/// where the last told answer left it, or one further where the answer was on disk and not told yet.
#[test]
fn killed_at_any_moment_it_goes_on_at_the_same_card() {
    let zone = Zone::new();
    let tag = zone.file("t", "txt");
    let corrected =
        ["go 9", "deficient 3 1", "right 1 Mason 5", "again 1 good", "undo", "again 1 good", "go 1"];
    let mut answers: Vec<String> = corrected.map(str::to_owned).into();
    answers.extend(sound(1).into_iter().take(12));
    answers.extend(["go 3", "pause", "resume"].map(str::to_owned));
    answers.extend(sound(3).into_iter().take(1));
    answers.extend(sound(10));

    // The same answers without a kill, in a home of their own: what must be told at each step.
    let calm = Zone::new();
    let (told, _) = calm.inspect(&[&tag], &format!("{}\n", answers.join("\n")));
    let steps: Vec<&String> = told.iter().take_while(|line| !line.starts_with("refused")).collect();
    assert!(steps.len() > 35, "{}", steps.len());
    assert_eq!(field(steps[steps.len() - 1], "next"), "decide");

    let mut at = 0;
    let mut kills = 0;
    let mut ahead = 0;
    // A linear congruence spreads the moments; the same ones every run.
    let mut chance: u64 = 20_260_725;
    while at + 1 < steps.len() {
        let (mut to, from, mut child) = zone.walk(&[&tag]);
        let mut from = from.lines();
        let first = from.next().expect("it starts").unwrap();
        if kills > 0 && first != *steps[at] {
            assert_eq!(
                first,
                *steps[at + 1],
                "after {kills} kills it stands neither at the last told answer nor one further"
            );
            at += 1;
            ahead += 1;
        }
        chance = chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        for _ in 0..(chance >> 33) % 4 {
            if at + 1 >= steps.len() {
                break;
            }
            writeln!(to, "{}", answers[at]).unwrap();
            let line = from.next().expect("an answer").unwrap();
            at += 1;
            assert_eq!(line, *steps[at]);
        }
        if at + 1 < steps.len() {
            // Dies somewhere in the next answer, told or not.
            writeln!(to, "{}", answers[at]).unwrap();
            std::thread::sleep(Duration::from_micros((chance >> 40) % 3_000));
        }
        child.kill().unwrap();
        child.wait().unwrap();
        kills += 1;
    }
    println!("{kills} kills, {ahead} of them after the answer was on disk and before the next was given");
    assert!(kills > 8, "{kills}");
    let (said, code) = zone.inspect(&[&tag], "fit\nseal\n");
    assert_eq!(code, 0, "{said:#?}");
    assert!(said.last().unwrap().starts_with("sealed "));
    zone.done(&["records", "verify"]);
}

#[test]
fn without_a_load_it_says_what_to_do() {
    let zone = Zone::new();
    let (said, code) = zone.inspect(&[], "");
    assert_eq!((said.len(), code), (0, 1));
    let output = zone.command(&["inspect", "--walk", "ffff"]).stdin(Stdio::null()).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    let told = String::from_utf8(output.stderr).unwrap();
    assert_eq!(told, "slingseal: no inspection in hand fits ffff; see inspect without --walk\n");
    let help = zone.done(&["inspect", "--help"]);
    let help = String::from_utf8(help.stdout).unwrap();
    for word in ["deficient POINT NAME", "na POINT REASON", "again N good", "why=REASON", "seal=TEXT"] {
        assert!(help.contains(word), "{word} in {help}");
    }
}

/// Does not outlive a test that failed.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A terminal of the test's own, 80 by 24, and what the program drew on it.
struct Screen {
    keys: std::fs::File,
    drawn: std::sync::mpsc::Receiver<Vec<u8>>,
    seen: String,
    child: Running,
    /// The far end, kept open so that its state can be asked for.
    far: std::fs::File,
}

impl Screen {
    fn open(zone: &Zone, arguments: &[&str]) -> Self {
        let (keys, far) = terminal::open(80, 24);
        let child = zone
            .command(&[&["inspect"], arguments].concat())
            .env("TERM", "xterm-256color")
            .stdin(far.try_clone().unwrap())
            .stdout(far.try_clone().unwrap())
            .stderr(far.try_clone().unwrap())
            .spawn()
            .unwrap();
        let child = Running(child);
        let drawn = terminal::listen(&keys);
        Self { keys, drawn, seen: String::new(), child, far }
    }

    /// Waits until a word stands somewhere in what was drawn since the last key.
    fn until(&mut self, word: &str) {
        while !self.seen.contains(word) {
            let bytes = self.drawn.recv_timeout(Duration::from_secs(20));
            let bytes = bytes.unwrap_or_else(|_| panic!("no {word:?} in {:?}", self.seen));
            self.seen.push_str(&String::from_utf8_lossy(&bytes));
        }
    }

    fn press(&mut self, keys: &str) {
        // Longer than the screen takes to settle.
        std::thread::sleep(Duration::from_millis(300));
        self.seen.clear();
        self.keys.write_all(keys.as_bytes()).unwrap();
    }

    fn raw(&self) -> bool {
        let modes = rustix::termios::tcgetattr(&self.far).unwrap().local_modes;
        !modes.intersects(rustix::termios::LocalModes::ICANON | rustix::termios::LocalModes::ECHO)
    }

    fn ended(&mut self) -> i32 {
        for _ in 0..400 {
            if let Some(status) = self.child.0.try_wait().unwrap() {
                return status.code().unwrap_or_else(|| panic!("it ends by itself, not so: {status}"));
            }
            std::thread::sleep(Duration::from_millis(25));
        }
        panic!("it does not end: {:?}", self.seen);
    }
}

/// Ctrl-C, a signal and a closed terminal: the screen is given back where there is one, the home is free, the walk stands.
#[test]
fn the_terminal_is_given_back_and_a_closed_one_loses_nothing() {
    let zone = Zone::new();
    let tag = zone.file("t", "txt");
    let stands_at = |card: &str| {
        let (said, code) = zone.inspect(&[], "");
        assert_eq!((said.len(), code), (1, 0), "{said:?}");
        assert_eq!(field(&said[0], "card"), card);
    };

    let mut screen = Screen::open(&zone, &[&tag]);
    screen.until("KM-015: is this the load?");
    assert!(screen.raw());
    screen.press("1");
    screen.until("ANSWERED");
    screen.press("+");
    screen.until("Read the tag");
    screen.press("\u{3}");
    screen.until("stands at card 2 of 38");
    assert!(!screen.raw(), "the terminal is as it was");
    assert_eq!(screen.ended(), 0);
    stands_at("2/38");
    zone.inspect(&[], "go 3\n");

    let mut screen = Screen::open(&zone, &["--walk", "KM-015"]);
    screen.until("Apex");
    screen.press("+");
    screen.until("Sling");
    let program = rustix::process::Pid::from_child(&screen.child.0);
    rustix::process::kill_process(program, rustix::process::Signal::TERM).unwrap();
    assert_eq!(screen.ended(), 0);
    assert!(!screen.raw(), "the terminal is as it was");
    stands_at("4/38");

    let mut screen = Screen::open(&zone, &["--walk", "KM-015"]);
    screen.until("Sling");
    screen.press("+");
    screen.until("Grab");
    // Both ends are let go; the reading thread's as soon as nobody listens and the program draws once more.
    let Screen { keys, drawn, child, far, .. } = screen;
    drop(drawn);
    let mut keys = keys;
    std::thread::sleep(Duration::from_millis(300));
    keys.write_all(b".").unwrap();
    drop((keys, far));
    let (tell, none) = std::sync::mpsc::channel();
    drop(tell);
    let null = || std::fs::File::options().read(true).write(true).open("/dev/null").unwrap();
    let mut screen = Screen { keys: null(), drawn: none, seen: String::new(), child, far: null() };
    assert_eq!(screen.ended(), 0);
    stands_at("5/38");
}
