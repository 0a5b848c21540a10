//! A home with a day's work in it, made once and copied for each test.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use crate::bag::sound;

pub const PIN: &str = "417293";
pub const PASSPHRASE: &str = "a meadow by the river where herons wade";

pub struct Day {
    folder: tempfile::TempDir,
}

impl Day {
    /// An authority that is planner, inspector, leader and instructor as well; a bag sealed FIT; a vehicle's tag with rigging.
    pub fn new() -> Self {
        static MADE: OnceLock<Day> = OnceLock::new();
        let made = MADE.get_or_init(Self::make);
        let day = Self::empty();
        copy(made.folder.path(), day.folder.path());
        day
    }

    pub fn empty() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    fn make() -> Self {
        let day = Self::empty();
        day.done(&[
            "authority",
            "init",
            "--name",
            "Sela Relief",
            "--approve",
            "all",
            "--out",
            &day.at("card"),
        ]);
        day.done(&["key", "request", "--holder", "Anvil 3", "--out", &day.at("me")]);
        day.issue(&day.only("me", "txt"), "inspector,planner,leader,instructor", "cred");
        day.done(&["receive", &day.only("cred", "txt")]);
        for plan in ["bag.toml", "vehicle.toml"] {
            let plan = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(plan);
            day.done(&["tag", "write", plan.to_str().unwrap(), "--out", &day.at("tags")]);
        }
        day.seal_the_bag();
        day
    }

    pub fn issue(&self, request: &str, roles: &str, out: &str) {
        let out = self.at(out);
        self.done(&[
            "authority",
            "issue",
            request,
            "--roles",
            roles,
            "--expires",
            "2099-01-01",
            "--out",
            &out,
        ]);
    }

    pub fn seal_the_bag(&self) -> String {
        let lines = format!("{}\nfit\nseal\n", sound(1).join("\n"));
        let said =
            self.fed(&["inspect", &self.at("tags/tag-km-015.txt"), "--out", &self.at("seals")], &lines);
        assert!(said.status.success(), "{said:?}");
        text(&said.stdout)
    }

    pub fn at(&self, name: &str) -> String {
        self.folder.path().join(name).display().to_string()
    }

    /// The names in a folder, sorted.
    pub fn names(&self, folder: &str) -> Vec<String> {
        let entries = std::fs::read_dir(self.at(folder)).into_iter().flatten();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    /// The first file of an ending in a folder.
    pub fn only(&self, folder: &str, ending: &str) -> String {
        let names = self.names(folder);
        let name = names.iter().find(|name| name.ends_with(&format!(".{ending}")));
        self.at(&format!("{folder}/{}", name.unwrap_or_else(|| panic!("no {ending} in {names:?}"))))
    }

    pub fn command_at(&self, home: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
        command
            .args(["--home", &self.at(home)])
            .args(arguments)
            .current_dir(self.folder.path())
            .env("SLINGSEAL_PIN", PIN)
            .env("SLINGSEAL_PASSPHRASE", PASSPHRASE)
            .env("LANG", "C")
            .env_remove("SLINGSEAL_LANGUAGE")
            .stdin(Stdio::null());
        command
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        self.command_at("home", arguments)
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().unwrap()
    }

    /// What it says on standard output; it must do what it is told.
    pub fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        text(&output.stdout)
    }

    /// The one line in which it refuses.
    pub fn refused(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert_eq!(output.status.code(), Some(1), "{arguments:?}: {output:?}");
        text(&output.stderr)
    }

    pub fn json(&self, arguments: &[&str]) -> serde_json::Value {
        let output = self.run(&[&["--json"], arguments].concat());
        let said = text(&output.stdout);
        serde_json::from_str(&said)
            .unwrap_or_else(|error| panic!("{arguments:?}: {error} in {said}{output:?}"))
    }

    /// Gives all lines at once.
    pub fn fed(&self, arguments: &[&str], lines: &str) -> Output {
        let mut child = self
            .command(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        let lines = lines.to_owned();
        let writer = std::thread::spawn(move || {
            // A program that ends early reads no further.
            let _ = input.write_all(lines.as_bytes());
        });
        let output = child.wait_with_output().unwrap();
        writer.join().unwrap();
        output
    }
}

pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// Everything in a folder, to another that is there.
pub fn copy(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).unwrap() {
        let path: PathBuf = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            std::fs::create_dir(&target).unwrap();
            copy(&path, &target);
        } else {
            std::fs::copy(&path, &target).unwrap();
        }
    }
}
