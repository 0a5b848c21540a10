//! The script of a day of trial, typed verb by verb by those who have a part in it, in each language; and the walk in a terminal of
//! three sizes. What they saw is kept and was looked at: `journey/*.txt`. The page's words, at three widths and in both themes,
//! are kept by the page's own tests (`page/screens`).

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::bag;
use crate::day::{Day, PASSPHRASE, PIN, copy, text};
use crate::readme;
use crate::terminal::{Cell, Screen};

/// A phone's terminal, the terminal of old, a window.
const SIZES: [(u16, u16); 3] = [(40, 24), (80, 24), (120, 40)];

struct Journey {
    day: Day,
    language: &'static str,
    told: String,
}

impl Journey {
    fn command(&self, who: &str, line: &str) -> Command {
        self.command_at(&self.day.at(""), who, line)
    }

    /// A line as it is typed at a shell in a folder, by one of those who have a part.
    fn command_at(&self, folder: &str, who: &str, line: &str) -> Command {
        let mut command = Command::new("sh");
        let program = Path::new(env!("CARGO_BIN_EXE_slingseal")).parent().unwrap();
        command
            .args(["-c", &format!("exec {line}")])
            .current_dir(folder)
            .env("PATH", format!("{}:{}", program.display(), std::env::var("PATH").unwrap()))
            .env("SLINGSEAL_HOME", Path::new(folder).join("homes").join(who))
            .env("SLINGSEAL_LANGUAGE", self.language)
            .env("SLINGSEAL_PIN", PIN)
            .env("SLINGSEAL_PASSPHRASE", PASSPHRASE)
            .env_remove("NO_COLOR")
            .stdin(Stdio::null());
        command
    }

    /// Types a line; what it says is told, and how it ended where that is not well.
    fn types(&mut self, who: &str, line: &str) -> String {
        self.feeds(who, line, None)
    }

    /// The same, with what it is given on standard input; what it says there is for machines and is not told.
    fn feeds(&mut self, who: &str, line: &str, lines: Option<&str>) -> String {
        let mut command = self.command(who, line);
        if let Some(lines) = lines {
            let file = self.day.at("lines");
            std::fs::write(&file, lines).unwrap();
            command.stdin(std::fs::File::open(file).unwrap());
        }
        let output = command.output().unwrap();
        let (said, complained) = (text(&output.stdout), text(&output.stderr));
        let _ = writeln!(self.told, "{who}$ {line}");
        match lines {
            Some(_) => {
                let last = said.lines().last().unwrap_or_default().split(" seal=").next().unwrap();
                let _ = writeln!(self.told, "{last}");
            }
            None => self.told.push_str(&said),
        }
        self.told.push_str(&complained);
        match output.status.code() {
            Some(0) => {}
            code => {
                let _ = writeln!(self.told, "[{}]", code.unwrap());
            }
        }
        self.told.push('\n');
        said
    }
}

/// What lasts of a screen or of what was said: times, digests, groups that are drawn and numbers of the machine are masked, letter by
/// letter, so that what stands where stays.
fn lasting(text: &str, folder: &str) -> String {
    const MONTHS: &str = "JAN FEB MAR APR MAY JUN JUL AUG SEP OCT NOV DEC ENE ABR AGO DIC";
    let text = text.replace(folder, "/");
    let mut out = String::new();
    let mut month = false;
    let words = |line: &str| line.split_inclusive(' ').map(str::to_owned).collect::<Vec<_>>();
    for line in text.split_inclusive('\n') {
        if let Some((prefix, _)) = line.split_once(':').filter(|(prefix, _)| is_prefix(prefix)) {
            let _ = writeln!(out, "{prefix}:#");
            continue;
        }
        // A code's picture is another each time.
        if line.contains(['█', '▀', '▄']) {
            let end = line.trim_end().chars().count();
            let at = |letter: char| matches!(letter, '█' | '▀' | '▄');
            let last = line.chars().take(end).enumerate().filter(|(_, letter)| at(*letter)).last().unwrap().0;
            let from = line.chars().position(at).unwrap();
            let masked =
                |(place, letter): (usize, char)| if (from..=last).contains(&place) { '▒' } else { letter };
            let masked: String = line.chars().enumerate().map(masked).collect();
            out.push_str(
                &masked
                    .split_inclusive('\n')
                    .map(|rest| mask_words(&words(rest), &mut month, MONTHS))
                    .collect::<String>(),
            );
            continue;
        }
        out.push_str(&mask_words(&words(line), &mut month, MONTHS));
    }
    out
}

/// What stands before a code's text.
fn is_prefix(text: &str) -> bool {
    text.len() == 3
        && text.ends_with(['1', '2'])
        && text.bytes().take(2).all(|letter| letter.is_ascii_uppercase())
}

fn mask_words(words: &[String], month: &mut bool, months: &str) -> String {
    let bare = |word: &str| word.trim().trim_matches(|letter: char| !letter.is_alphanumeric()).to_owned();
    let three = |word: Option<&String>| {
        word.is_some_and(|word| {
            let word = bare(word);
            word.len() == 3 && word.bytes().all(|byte| byte.is_ascii_digit())
        })
    };
    let mut out = String::new();
    for (at, word) in words.iter().enumerate() {
        let plain = bare(word);
        let is_month = months.split(' ').any(|name| name == plain);
        let digits = plain.bytes().filter(u8::is_ascii_digit).count();
        let hexadecimal = plain.len() >= 8 && plain.chars().all(|letter| letter.is_ascii_hexdigit());
        let time = plain.len() == 7 && digits == 6 && plain.ends_with('Z');
        let date = plain.len() >= 10 && plain.starts_with("20") && plain.matches('-').count() == 2;
        let group =
            plain.len() == 4 && digits == 3 && plain.starts_with(|first: char| first.is_ascii_uppercase());
        let drawn = three(Some(word)) && (three(words.get(at + 1)) || at > 0 && three(words.get(at - 1)));
        let year = *month && plain.len() == 2 && digits == 2;
        // A code's text, however it is broken; a record's digest in a line for machines; how long a walk took.
        let named = word.trim().rsplit('=').next().unwrap_or_default();
        let digest = named.len() == 64 && named.bytes().all(|byte| byte.is_ascii_hexdigit());
        let took = plain.len() >= 4
            && plain.contains(':')
            && plain.bytes().all(|byte| byte.is_ascii_digit() || byte == b':');
        if digest {
            let _ =
                write!(out, "{}{}", word.split_at(word.rfind('=').map_or(0, |at| at + 1)).0, "#".repeat(64));
            out.push_str(&word[word.trim_end().len()..]);
        } else if took || is_month || hexadecimal || time || date || group || drawn || year {
            out.extend(word.chars().map(|letter| if letter.is_alphanumeric() { '#' } else { letter }));
        } else {
            out.push_str(word);
        }
        if !plain.is_empty() {
            *month = is_month;
        }
    }
    out
}

/// What people looked at. `SLINGSEAL_WRITE_SCREENS=1` writes what is missing, never others.
fn is_kept(name: &str, shown: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/trial/journey/{name}.txt"));
    match std::fs::read_to_string(&path) {
        Ok(kept) => {
            for (number, (shown, kept)) in shown.lines().zip(kept.lines()).enumerate() {
                assert_eq!(shown, kept, "{}: line {} changed", path.display(), number + 1);
            }
            assert_eq!(shown.len(), kept.len(), "{}: a screen came or went", path.display());
        }
        Err(_) if std::env::var_os("SLINGSEAL_WRITE_SCREENS").is_some() => {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, shown).unwrap();
        }
        Err(error) => panic!("{}: {error}\n{shown}", path.display()),
    }
}

/// The sixteen colours as xterm has them (XTerm-col.ad), and a terminal's own ink and ground: light and dark.
const COLOURS: [u32; 16] = [
    0x00_0000, 0xcd_0000, 0x00_cd00, 0xcd_cd00, 0x00_00ee, 0xcd_00cd, 0x00_cdcd, 0xe5_e5e5, 0x7f_7f7f,
    0xff_0000, 0x00_ff00, 0xff_ff00, 0x5c_5cff, 0xff_00ff, 0x00_ffff, 0xff_ffff,
];
const THEMES: [(&str, u32, u32); 2] = [("light", 0x00_0000, 0xff_ffff), ("dark", 0xe5_e5e5, 0x00_0000)];

/// The contrast of two colours (WCAG 2.2, "contrast ratio").
fn contrast(one: u32, other: u32) -> f64 {
    let light = |colour: u32| {
        let part = |shift: u32| {
            let share = f64::from(colour >> shift & 0xff) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(16) + 0.7152 * part(8) + 0.0722 * part(0)
    };
    let (high, low) = (light(one).max(light(other)), light(one).min(light(other)));
    (high + 0.05) / (low + 0.05)
}

/// What cannot be read on a light or on a dark terminal: WCAG's level AA asks 4.5 to 1.
fn unreadable(cells: &[Cell]) -> Vec<String> {
    let mut faults = Vec::new();
    for (theme, ink, ground) in THEMES {
        let of = |number: Option<u8>, own: u32| number.map_or(own, |number| COLOURS[usize::from(number)]);
        for cell in cells.iter().filter(|cell| cell.letter != ' ') {
            let ratio = contrast(of(cell.ink, ink), of(cell.ground, ground));
            if ratio < 4.5 {
                faults.push(format!("{theme}: {:?} on {:?}: {ratio:.1}", cell.ink, cell.ground));
            }
        }
    }
    faults.sort();
    faults.dedup();
    faults
}

struct Walk {
    screen: Screen,
    size: (u16, u16),
    folder: String,
    kept: String,
    faults: Vec<String>,
}

impl Walk {
    fn begin(journey: &Journey, folder: &str, line: &str, size: (u16, u16)) -> Self {
        let screen = Screen::start(journey.command_at(folder, "inspector", line), size);
        Self { screen, size, folder: folder.to_owned(), kept: String::new(), faults: Vec::new() }
    }

    fn again(&mut self, journey: &Journey, line: &str) {
        self.screen = Screen::start(journey.command_at(&self.folder, "inspector", line), self.size);
    }

    /// Presses, waits for what is said then, and keeps the screen; what a small one has no room for is read on, before anything
    /// else is pressed.
    fn sees(&mut self, keys: &str, words: &str) {
        self.screen.press(keys);
        self.screen.until(words);
        self.keep(keys);
        while [": + show", ": + la"].iter().any(|more| self.screen.cells.text().contains(more)) {
            self.screen.press("+");
            self.keep("+");
        }
    }

    /// A text page by page, until the first comes again.
    fn reads(&mut self) {
        let first = self.screen.cells.text();
        loop {
            self.screen.press("+");
            if self.screen.cells.text() == first {
                return;
            }
            self.keep("+");
        }
    }

    fn keep(&mut self, keys: &str) {
        let shown = self.screen.cells.text();
        let head = format!("{:=<1$}", format!("== {} ", keys.replace('\n', "⏎")), usize::from(self.size.0));
        let _ = write!(self.kept, "{head}\n{}", lasting(&shown, &self.folder));
        let cells: Vec<Cell> = self.screen.cells.all().copied().collect();
        self.faults.extend(unreadable(&cells));
    }

    /// Ctrl-C: what is said on the ordinary screen.
    fn leaves(&mut self) {
        let (code, said) = std::mem::replace(&mut self.screen, Screen::nothing()).leave('\u{3}');
        assert_eq!(code, 0, "{said}");
        let said = said.replace("\u{1b}[?25h", "");
        let _ =
            writeln!(self.kept, "== Ctrl-C\n{}", lasting(said.replace('\r', "").trim_end(), &self.folder));
    }
}

/// The inspector's walk of a rigged load on a screen of one size, from the first page to the seal: what is awaited, in each language.
fn walk(journey: &Journey, folder: &str, size: (u16, u16), whole: &str) {
    let word = |english: &'static str, spanish: &'static str| {
        if journey.language == "en" { english } else { spanish }
    };
    let name = format!("walk-{}-{}x{}", journey.language, size.0, size.1);
    let mut walk = Walk::begin(journey, folder, "slingseal inspect tags/tag-km-014.png", size);
    walk.screen.until("KM-014");
    walk.sees("", word("is this the load?", "¿es esta la carga?"));
    walk.sees("1", word("NOT ANSWERED", "SIN RESPUESTA"));
    walk.sees("0", word("Pause the inspection", "Pausar la inspección"));
    walk.sees("2", word("Cautions and statics", "Advertencias y estática"));
    walk.reads();
    walk.sees("-", word("Pause the inspection", "Pausar la inspección"));
    walk.sees("3", word("All keys", "Todas las teclas"));
    walk.reads();
    walk.sees("--", word("NOT ANSWERED", "SIN RESPUESTA"));
    walk.sees("+", word("Card 1 is good", "Tarjeta 1 bien"));
    walk.sees(".", word("Go to which card?", "¿A qué tarjeta"));
    // A link that was counted otherwise than planned: told with what it does to the load, and taken back.
    walk.sees("12\n", word("Here is card 12", "Esta es la tarjeta 12"));
    walk.sees("1", word("enter what you counted", "lo que contó"));
    walk.sees("9\n", word("is recorded", "anotado"));
    walk.sees("2", word("the plan wants 3", "3"));
    walk.sees("*", word("taken back", "deshecha"));
    // A deficiency that is corrected where the load stands.
    walk.sees(".11\n", word("Here is card 11", "Esta es la tarjeta 11"));
    walk.sees("-", word("at which point?", "¿en qué punto?"));
    walk.sees("1", word("what is wrong?", "¿qué está mal?"));
    walk.sees("1", word("Note to the deficiency", "Nota a la deficiencia"));
    walk.sees("twice\n", word("is recorded", "anotado"));
    walk.sees("2", word("DEFICIENT", "DEFICIENTE"));
    walk.sees("/", word("Findings", "Hallazgos"));
    walk.sees("2", word("The riggers corrected it", "Los eslingadores lo corrigieron"));
    walk.sees("1", word("Mason 5, who rigged the load", "Mason 5, que eslingó la carga"));
    walk.sees("1", word("REINSPECT", "REINSPECCIONE"));
    walk.sees("1", word("is closed: reinspected, good", "queda cerrado: reinspeccionado, bien"));
    walk.leaves();

    // The rest by lines, as a program would; what is left is the decision.
    let rest: String = whole
        .lines()
        .filter(|line| *line != "fit" && *line != "seal")
        .map(|line| format!("{line}\n"))
        .collect();
    let output = {
        let file = Path::new(folder).join("lines");
        std::fs::write(&file, format!("go 1\n{rest}")).unwrap();
        let mut command = journey.command_at(folder, "inspector", "slingseal inspect --walk KM-014");
        command.stdin(std::fs::File::open(file).unwrap()).output().unwrap()
    };
    assert!(output.status.success(), "{output:?}");
    walk.again(journey, "slingseal inspect");
    walk.screen.until("KM-014");
    walk.sees("", word("Which load?", "¿Qué carga?"));
    walk.sees("1", word("Nothing stands in the way of FIT", "Nada impide que sea APTA"));
    walk.sees("+", word("Decide FIT?", "¿Decidir APTA?"));
    walk.screen.until(word("NOT in the worst case", "NO en el peor caso"));
    walk.sees("1", word("Now seal it", "Ahora séllelo"));
    walk.sees("+", "PIN");
    walk.sees(&format!("{PIN}\n"), "KM-014");
    walk.sees(".", word("FIT, SEALED", "APTA, SELLADA"));
    walk.leaves();
    assert!(walk.faults.is_empty(), "{name}: {}", walk.faults.join("\n"));
    is_kept(&name, &walk.kept);
}

fn day(language: &'static str) {
    let mut all = Journey { day: Day::empty(), language, told: String::new() };
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap();
    std::os::unix::fs::symlink(root.join("bindings"), all.day.at("bindings")).unwrap();

    // The desk: an authority, and whom it gives credentials to.
    all.types("authority", "slingseal authority init --name 'Sela Relief' --approve all --out card");
    let card = all.types("authority", "slingseal authority show");
    let shown = all.command("authority", "slingseal --json authority show").output().unwrap();
    let shown: serde_json::Value = serde_json::from_slice(&shown.stdout).unwrap();
    let heard = shown["fingerprint"].as_str().unwrap().to_owned();
    assert!(card.contains(&heard), "{card}");
    for (who, holder, roles) in [
        ("planner", "Lantern 1", "planner"),
        ("inspector", "Anvil 3", "inspector"),
        ("hookup", "Hook 2", "hookup"),
        ("leader", "Reed 1", "leader"),
    ] {
        all.types(who, &format!("slingseal key request --holder '{holder}' --out {who}"));
        all.types(
            "authority",
            &format!("slingseal authority issue {who}/key-request.png --roles {roles} --expires 2099-06-01 --out {who}"),
        );
        all.types(who, &format!("slingseal authority trust card/authority.png --fingerprint '{heard}'"));
        all.types(who, &format!("slingseal receive card/roster-1.png {who}/credential.png"));
    }
    all.types("authority", "slingseal authority list");
    all.types("inspector", "slingseal key show");

    // The planner.
    all.types("planner", "slingseal rigging bindings/desk/demo/vehicle-rigging.toml");
    all.types("planner", "slingseal tag write bindings/desk/demo/vehicle.toml --out tags");
    all.types("planner", "slingseal tag write bindings/desk/demo/bag.toml --out tags");
    all.types("planner", "slingseal tag read tags/tag-km-014.png");
    all.types("planner", "slingseal tag write bindings/desk/demo/bag.txt --out tags");

    // The inspector: the vehicle at the terminal, in each size on a home of its own; the bag one answer a line.
    let tag = text(&std::fs::read(all.day.at("tags/tag-km-014.txt")).unwrap());
    let whole = readme::sound(tag.trim(), Path::new(&all.day.at("shadow")));
    let folders = SIZES.map(|_| tempfile::tempdir().unwrap());
    for folder in &folders {
        for part in ["homes", "tags"] {
            let to = folder.path().join(part);
            std::fs::create_dir_all(&to).unwrap();
            copy(Path::new(&all.day.at(part)), &to);
        }
    }
    std::thread::scope(|threads| {
        for (size, folder) in SIZES.into_iter().zip(&folders) {
            let (all, whole) = (&all, &whole);
            threads.spawn(move || walk(all, &format!("{}/", folder.path().display()), size, whole));
        }
    });
    all.feeds("inspector", "slingseal inspect tags/tag-km-014.png --out seals", Some(&whole));
    let sound = format!("{}\nfit\nseal\n", bag::sound(1).join("\n"));
    all.feeds("inspector", "slingseal inspect tags/tag-km-015.png --out seals", Some(&sound));
    all.types("inspector", "slingseal records list KM-014");

    // The hook.
    all.types("hookup", "slingseal verify seals/seal-km-014.png --tag tags/tag-km-014.png");
    all.types("hookup", "slingseal verify seals/seal-km-014.png --tag tags/tag-km-015.png");
    all.types("hookup", "slingseal report lifted KM-014");
    all.types("hookup", "slingseal report sunk KM-014");
    all.types("hookup", "slingseal arrival KM-014");
    all.types("hookup", "slingseal report set-down KM-014");
    all.types("inspector", "slingseal void KM-015 --cause load-moved --out voids");
    all.types("hookup", "slingseal receive voids/void-km-015.png");
    all.types("hookup", "slingseal verify seals/seal-km-015.png --tag tags/tag-km-015.png");
    all.types("hookup", "slingseal verify nothing.png");

    // The leader.
    for who in ["planner", "inspector", "hookup"] {
        all.types(who, &format!("slingseal bundle write --out {who}.bundle"));
        all.types("leader", &format!("slingseal bundle read {who}.bundle"));
    }
    all.types("leader", "slingseal bundle read hookup.bundle");
    all.types("leader", "slingseal records list KM-015");
    all.types("leader", "slingseal records show KM-014");
    all.types("leader", "slingseal records verify");
    all.types("leader", "slingseal account manifest");
    all.types("leader", "slingseal account equipment");
    all.types("leader", "slingseal account close");
    all.types("leader", "slingseal records export account.csv");
    all.types("leader", "slingseal exam class");
    all.types("leader", "slingseal account close --sign");
    all.types("leader", "slingseal backup --out home.backup");
    all.types("leader", "slingseal");
    let told = lasting(&all.told, &all.day.at(""));
    is_kept(&format!("day-{language}"), &told);
}

#[test]
fn a_day_typed_verb_by_verb_and_walked_in_three_sizes_and_two_languages() {
    std::thread::scope(|threads| {
        for language in ["en", "es"] {
            threads.spawn(move || day(language));
        }
    });
}
