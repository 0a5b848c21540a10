//! One desk: the program `slingseal` on a home of its own, killed again and again.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use serde_json::Value;

/// A verb that takes longer hangs.
const HANGS: Duration = Duration::from_secs(1_800);
/// What a verb is taken to last before one was seen to its end.
const GUESSED: Duration = Duration::from_millis(400);
/// So often is something tried that must come to its end.
const TRIES: u32 = 500;

/// The three things that are done, and killed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    Read,
    Push,
    Pull,
}

pub const ACTS: [Act; 3] = [Act::Read, Act::Push, Act::Pull];

/// Numbers that look drawn, the same for the same seed.
pub struct Chance(pub u64);

impl Chance {
    /// Below one.
    pub fn draw(&mut self) -> f64 {
        // SplitMix64 (Steele, Lea, Flood 2014).
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^= mixed >> 31;
        (mixed >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// What ends a verb.
enum Ended {
    Done(Output),
    Killed,
    /// The server was away for a part of it.
    Away,
}

/// What happened to a desk.
#[derive(Clone, Copy, Debug, Default)]
pub struct Figures {
    /// Kills that met it at work: bringing in, pushing, pulling.
    pub killed: [u32; 3],
    /// Verbs that ended with one line since the server was away.
    pub away: u32,
    /// Verbs that came to their end.
    pub done: u32,
}

pub struct Desk<'d> {
    pub home: PathBuf,
    program: &'d Path,
    address: &'d str,
    /// Odd while the server is away; another number than before where it was.
    outages: &'d AtomicU32,
    chance: Chance,
    usual: [Duration; 3],
    pub figures: Figures,
}

impl<'d> Desk<'d> {
    pub fn new(
        home: PathBuf,
        program: &'d Path,
        address: &'d str,
        outages: &'d AtomicU32,
        seed: u64,
    ) -> Self {
        let figures = Figures::default();
        Self { home, program, address, outages, chance: Chance(seed), usual: [GUESSED; 3], figures }
    }

    /// A verb that nobody kills; its standard output.
    pub fn say(&self, words: &[&str]) -> String {
        let output = self.command(words).output().unwrap();
        let told = String::from_utf8(output.stderr).unwrap();
        let said = String::from_utf8(output.stdout).unwrap();
        let fine = output.status.success() && told.is_empty();
        assert!(fine, "{words:?} in {:?}: {told}{said}", self.home);
        said
    }

    fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(self.program);
        command.arg("--home").arg(&self.home).args(words);
        command.env("LC_ALL", "C.UTF-8").env_remove("SLINGSEAL_LANGUAGE").stdin(Stdio::null());
        command
    }

    /// The desk's day: its lots one after the other, each pushed and others' pulled; then on until as many kills as are wanted met
    /// each act, and the server has had its own.
    pub fn work(&mut self, lots: &[PathBuf], kills: [u32; 3], server_done: &AtomicU32) {
        for lot in lots {
            self.insist(Act::Read, &["--json", "bundle", "read", lot.to_str().unwrap()], kills[0]);
            self.meet(kills);
        }
        for _ in 0..TRIES {
            let missing = |act: Act| self.figures.killed[act as usize] < kills[act as usize];
            let [read, push, pull] = ACTS.map(missing);
            if !read && !push && !pull && server_done.load(Ordering::SeqCst) > 0 {
                return;
            }
            if read {
                // What is known is read and judged as well.
                self.insist(Act::Read, &["--json", "bundle", "read", lots[0].to_str().unwrap()], kills[0]);
            }
            self.meet(kills);
        }
        panic!("{:?}: the kills miss it: {:?}", self.home, self.figures);
    }

    fn meet(&mut self, kills: [u32; 3]) {
        let address = self.address;
        self.insist(Act::Push, &["--json", "account", "push", address], kills[1]);
        // From the beginning where everything may be here already: there is more of it to be killed in.
        let again = self.chance.draw() < 0.3;
        let words: &[&str] = &["--json", "account", "pull", address, "--again"];
        self.insist(Act::Pull, if again { words } else { &words[..4] }, kills[2]);
    }

    /// Pushes and pulls once, with nobody to disturb it.
    pub fn push(&self) -> Value {
        serde_json::from_str(&self.say(&["--json", "account", "push", self.address])).unwrap()
    }

    pub fn pull(&self) -> Value {
        let said = self.say(&["--json", "account", "pull", self.address]);
        let pulled: Value = serde_json::from_str(&said).unwrap();
        sound(&pulled);
        pulled
    }

    /// Tries again until it is done, as a person would; killed on the way while kills are left.
    fn insist(&mut self, act: Act, words: &[&str], kills: u32) {
        for _ in 0..TRIES {
            let left = kills.saturating_sub(self.figures.killed[act as usize]);
            let wanted = left > 0 && self.chance.draw() < 0.7;
            let after = wanted.then(|| self.usual[act as usize].mul_f64(self.chance.draw()));
            match self.run(act, words, after) {
                Ended::Killed => self.figures.killed[act as usize] += 1,
                Ended::Away => {
                    self.figures.away += 1;
                    std::thread::sleep(Duration::from_millis(250));
                }
                Ended::Done(output) => {
                    self.figures.done += 1;
                    let told = String::from_utf8(output.stderr).unwrap();
                    assert_eq!(told, "", "{act:?} in {:?}", self.home);
                    let said: Value = serde_json::from_slice(&output.stdout).unwrap();
                    if act == Act::Pull {
                        sound(&said);
                    }
                    return;
                }
            }
        }
        panic!("{act:?} in {:?} does not come to its end: {:?}", self.home, self.figures);
    }

    #[expect(clippy::disallowed_methods, reason = "a kill is at a moment")]
    fn run(&mut self, act: Act, words: &[&str], kill: Option<Duration>) -> Ended {
        let outages = self.outages.load(Ordering::SeqCst);
        let begun = Instant::now();
        let mut child = self.command(words).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let mut killed = false;
        while child.try_wait().unwrap().is_none() {
            assert!(begun.elapsed() < HANGS, "{words:?} in {:?} hangs", self.home);
            if !killed && kill.is_some_and(|after| begun.elapsed() >= after) {
                killed = true;
                child.kill().unwrap();
            }
            let left = kill.map_or(HANGS, |after| after.saturating_sub(begun.elapsed()));
            std::thread::sleep(left.clamp(Duration::from_millis(1), Duration::from_millis(10)));
        }
        let lasted = begun.elapsed();
        let output = child.wait_with_output().unwrap();
        if std::os::unix::process::ExitStatusExt::signal(&output.status) == Some(9) {
            assert!(killed, "{words:?} in {:?} was killed by somebody else", self.home);
            return Ended::Killed;
        }
        if output.status.success() {
            self.usual[act as usize] = lasted;
            return Ended::Done(output);
        }
        // It may give up for one reason alone, and says so in one line.
        let told = String::from_utf8(output.stderr).unwrap();
        let now = self.outages.load(Ordering::SeqCst);
        let away = act != Act::Read && (outages % 2 == 1 || now != outages);
        assert!(away && output.status.code() == Some(1), "{act:?} in {:?}: {told}", self.home);
        assert_eq!(told.lines().count(), 1, "{told}");
        Ended::Away
    }
}

/// Whatever happened to a desk or to the server: no word of this account is refused, spoiled, of another program or gone.
fn sound(said: &Value) {
    let pulled = &said["pulled"];
    for what in ["set_aside", "spoiled", "newer", "gone", "anew"] {
        assert_eq!(pulled[what], 0, "{what}: {said}");
    }
}
