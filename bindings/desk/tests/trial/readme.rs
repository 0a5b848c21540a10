//! The day that README tells, typed as it stands there.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;

use slingseal_app::{
    App, Clock, Entropy, Language, Outside, PointState, Stretch, Time, WalkRequest, WalkView, sound_answer,
};

use crate::day::{Day, PASSPHRASE, PIN, text};

struct Still;

impl Clock for Still {
    fn now(&self) -> Time {
        Time::from_unix(1_800_000_000)
    }
}

impl Entropy for Still {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

/// What an inspector who finds everything right answers, line by line.
pub fn sound(tag: &str, folder: &Path) -> String {
    let outside = Outside {
        clock: Arc::new(Still),
        entropy: Arc::new(Still),
        device_secret: zeroize::Zeroizing::new(b"shadow".to_vec()),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    let app = App::open(folder, outside).unwrap();
    app.make_key("Shadow", PIN).unwrap();
    let mut view: WalkView = app.begin_walk(tag).unwrap();
    let mut lines = String::new();
    while let Some(card) = view.card.clone() {
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match open {
            Some(point) => {
                let value = sound_answer(&view, point);
                lines += &format!("value {} {value}\n", point.id);
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
            }
            None => {
                lines += "good\n";
                WalkRequest::CardGood { card: card.number }
            }
        };
        view = app.do_walk(&view.walk, &request).unwrap();
    }
    lines + "fit\nseal\n"
}

#[cfg(unix)]
#[test]
fn the_day_of_the_readme_can_be_typed_as_it_stands() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap();
    let readme = std::fs::read_to_string(root.join("README.md")).unwrap();
    let day_in_verbs = readme.split("## The day in verbs").nth(1).unwrap().split("\n## ").next().unwrap();
    let lines: Vec<&str> = day_in_verbs.lines().filter(|line| line.starts_with("slingseal ")).collect();
    assert!(lines.len() > 10, "{lines:?}");
    let day = Day::empty();
    std::os::unix::fs::symlink(root.join("bindings"), day.at("bindings")).unwrap();
    let program = Path::new(env!("CARGO_BIN_EXE_slingseal")).parent().unwrap();
    let path = format!("{}:{}", program.display(), std::env::var("PATH").unwrap());
    let shell = |line: &str, home: &str| {
        let mut command = Command::new("sh");
        command
            .args(["-c", line])
            .current_dir(day.at(""))
            .env("PATH", &path)
            .env("HOME", day.at(home))
            .env_remove("XDG_DATA_HOME")
            .env("SLINGSEAL_PIN", PIN)
            .env("SLINGSEAL_PASSPHRASE", PASSPHRASE)
            .env("LANG", "C")
            .stdin(Stdio::null());
        command
    };
    for line in lines {
        let line = line.split(" # ").next().unwrap().trim();
        if line.contains(" check-page ") {
            // It wants the page that `bindings/web/build` makes, and a leader; its own tests play it.
            continue;
        }
        let output = if line.contains(" inspect ") {
            let tag = std::fs::read_to_string(day.at("tags/tag-km-014.txt")).unwrap();
            let answers = day.at("answers.txt");
            std::fs::write(&answers, sound(tag.trim(), Path::new(&day.at("shadow")))).unwrap();
            shell(line, "me").stdin(std::fs::File::open(answers).unwrap()).output().unwrap()
        } else if line.contains("authority trust") {
            let shown = shell("slingseal --json authority show", "me").output().unwrap();
            let shown: serde_json::Value = serde_json::from_slice(&shown.stdout).unwrap();
            let heard = shown["fingerprint"].as_str().unwrap().to_owned();
            shell(&format!("{line} --fingerprint '{heard}'"), "another").output().unwrap()
        } else if line.ends_with(" serve") {
            let mut child =
                shell(&format!("exec {line} --port 0"), "me").stdout(Stdio::piped()).spawn().unwrap();
            let said = BufReader::new(child.stdout.take().unwrap()).lines().nth(1).unwrap().unwrap();
            assert!(said.trim().starts_with("http://127.0.0.1:"), "{said}");
            child.kill().unwrap();
            child.wait().unwrap();
            continue;
        } else {
            shell(line, "me").output().unwrap()
        };
        assert!(output.status.success(), "{line}: {}{}", text(&output.stdout), text(&output.stderr));
    }
    let account = std::fs::read_to_string(day.at("account.csv")).unwrap();
    assert_eq!(account.lines().count(), 2, "{account}");
    // The home lies where the system keeps a program's data, and an earlier one is found.
    assert!(Path::new(&day.at("me/.local/share/slingseal/slingseal.db")).exists());
    std::fs::create_dir_all(day.at("old/.slingseal")).unwrap();
    assert!(shell("slingseal key show", "old").status().unwrap().success());
    assert!(Path::new(&day.at("old/.slingseal/slingseal.db")).exists());
}
