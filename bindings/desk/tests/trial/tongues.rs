//! A day typed in another language: what a person reads comes from the catalogue, all of it.
//!
//! In the pseudo-language every word of the catalogue has an accent. What stays plain is data, a verb or flag that is typed as it
//! stands, or a word that nobody can translate: that is what this test finds.

use std::collections::BTreeSet;
use std::path::Path;

use crate::bag::sound;
use crate::day::{Day, text};
use crate::readme;
use crate::turns::Served;

/// What is the same in every language: verbs and words that are typed as they stand, roles and causes as flags take them, and how
/// a system names its files.
const TYPED: &str = "slingseal authority approve trust issue request show list roster revoke withdraw receive verify records \
    bundle write read have frames play void inspect kept sign walk account close equipment explain point note arrival \
    report procedure exam keys class lock reveal tag home inspector planner leader hookup instructor REQUEST CARD roles expires \
    load moved other fingerprint serve page check find within time plant false calls restore backup";

fn words(text: &str) -> BTreeSet<String> {
    text.split(|letter: char| !letter.is_alphabetic()).map(str::to_owned).collect()
}

/// Words of a line that are plain, are no path and are not among the data.
fn plain<'l>(line: &'l str, data: &BTreeSet<String>) -> Vec<&'l str> {
    line.split_whitespace()
        .filter(|token| !token.contains('/') && !token.starts_with("--"))
        .flat_map(|token| token.split(|letter: char| !letter.is_alphabetic()))
        .filter(|word| {
            word.chars().count() > 3
                && word.chars().all(|letter| letter.is_ascii_alphabetic())
                && word.chars().any(|letter| letter.is_ascii_lowercase())
                // A digest's letters are no word.
                && !word.chars().all(|letter| letter.is_ascii_hexdigit())
                && !data.contains(*word)
        })
        .collect()
}

#[test]
fn a_day_in_the_pseudo_language_has_no_plain_word_but_data() {
    let day = Day::new();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut data = words(TYPED);
    for file in ["demo/bag.toml", "demo/vehicle.toml", "demo/vehicle-rigging.toml"] {
        data.extend(words(&std::fs::read_to_string(root.join(file)).unwrap()));
    }
    for list in std::fs::read_dir(root.join("../../core/walk/procedures")).unwrap() {
        let path = list.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "toml") {
            data.extend(words(&std::fs::read_to_string(path).unwrap()));
        }
    }
    data.extend(words("Anvil Sela Relief Mason Pupil Heron"));
    // What was typed wrong is told as it was typed, beside what could have been.
    data.extend(words("sunk nowhere undone lifted refused lost derigged returned"));
    let (seal, tag) = (day.only("seals", "txt"), day.at("tags/tag-km-014.txt"));
    let plan = root.join("demo/vehicle.toml").display().to_string();
    let request = day.only("me", "txt");
    let (bundle, sheet) = (day.at("day.bundle"), day.at("kept"));
    let typed: &[&[&str]] = &[
        &["authority", "show"],
        &["authority", "list"],
        &["authority", "roster"],
        &["authority", "issue", &request, "--roles", "hookup", "--expires", "2098-01-01", "--out", &sheet],
        &["key", "show"],
        &["key", "request", "--out", &sheet],
        &["tag", "read", &tag],
        &["tag", "write", &plan, "--out", &sheet],
        &["verify", &seal],
        &["verify", &seal, "--tag", &tag],
        &["receive", &seal, &request],
        &["records", "list"],
        &["records", "show", "KM-015"],
        &["records", "verify"],
        &["records", "export", &day.at("a.csv")],
        &["bundle", "write", "--out", &bundle],
        &["bundle", "read", &bundle],
        &["bundle", "have", "--out", &sheet],
        &["procedure", "list"],
        &["inspect", "--kept"],
        &[
            "exam",
            "lock",
            &tag,
            "--draw",
            "2",
            "--find",
            "1",
            "--within",
            "2:00",
            "--false-calls",
            "0",
            "--out",
            &sheet,
        ],
        &["exam", "keys"],
        &["exam", "class"],
        &["report", "lifted", "KM-015", "--out", &sheet],
        &["arrival", "KM-015"],
        &["account", "close"],
        &["account", "equipment"],
        &["backup", "--out", &day.at("home.backup")],
        &["void", "KM-015", "--cause", "load-moved", "--out", &sheet],
        // What is refused.
        &["void", "KM-099", "--cause", "load-moved"],
        &["tag", "read", "LT1:NOTHING"],
        &["tag", "write", &day.at("none.toml"), "--out", &sheet],
        &["records", "show", "ffffffff"],
        &["records", "export", &day.at("a.txt")],
        &["report", "sunk", "KM-015"],
        &["receive", &day.at("a.csv")],
        &["exam", "run", "--run", "ffff"],
    ];
    let mut wrong = Vec::new();
    for arguments in typed {
        let output = day.run(&[&["--language", "en-XA"], *arguments].concat());
        let said = format!("{}{}", text(&output.stdout), text(&output.stderr));
        for line in said.lines() {
            let plain = plain(line, &data);
            if !plain.is_empty() {
                wrong.push(format!("{arguments:?}: {plain:?}\n    {line}"));
            }
        }
    }
    // A line a word: what is refused there is for a person.
    let lines = format!("{}\nvalue 9 9\ngood nowhere\nundone\nfit\n", sound(1)[0]);
    let output = day.fed(&["--language", "en-XA", "inspect", &day.at("tags/tag-km-014.txt")], &lines);
    for line in text(&output.stdout).lines() {
        let Some((_, why)) = line.split_once(" why=") else { continue };
        let plain = plain(why, &data);
        if !plain.is_empty() {
            wrong.push(format!("inspect: {plain:?}\n    {why}"));
        }
    }
    assert!(wrong.is_empty(), "{} lines have words of their own:\n{}", wrong.len(), wrong.join("\n"));
}

/// Every verb as it is typed; the manual has a page a verb, and so names them all.
fn verbs(day: &Day) -> Vec<Vec<String>> {
    day.done(&["manual", "--out", &day.at("pages")]);
    let pages: Vec<String> = day
        .names("pages")
        .iter()
        .filter_map(|name| Some(name.strip_prefix("slingseal-")?.strip_suffix(".1")?.to_owned()))
        .collect();
    let verbs = pages.iter().map(|page| {
        let mut groups: Vec<&String> =
            pages.iter().filter(|other| page.starts_with(&format!("{other}-"))).collect();
        groups.sort_by_key(|group| group.len());
        let typed = match (groups.first(), groups.get(1)) {
            (Some(outer), Some(inner)) => {
                vec![outer.as_str(), &inner[outer.len() + 1..], &page[inner.len() + 1..]]
            }
            (Some(outer), None) => vec![outer.as_str(), &page[outer.len() + 1..]],
            _ => vec![page.as_str()],
        };
        typed.into_iter().map(str::to_owned).collect()
    });
    verbs.collect()
}

/// Each verb's help begins in the reader's language.
#[test]
fn the_help_of_every_verb_is_in_the_reader_s_language() {
    let day = Day::new();
    let all = verbs(&day);
    let mut wrong = Vec::new();
    for verbs in &all {
        let verbs: Vec<&str> = verbs.iter().map(String::as_str).collect();
        let said = day.done(&[&["--language", "en-XA"], verbs.as_slice(), &["--help"]].concat());
        let told = said.lines().next().unwrap_or_default();
        if told.is_ascii() {
            wrong.push(format!("{verbs:?}: {told}"));
        }
    }
    assert!(all.len() > 60, "{all:?}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // And the heads, arguments and exit codes with it.
    let spanish = day.done(&["--language", "es", "--help"]);
    for wanted in ["Uso: slingseal", "Órdenes", "Opciones", "Códigos de salida:", "Recorrer una carga"] {
        assert!(spanish.contains(wanted), "{wanted} in {spanish}");
    }
    for foreign in ["Usage", "Commands", "Options", "Print help", "Exit codes"] {
        assert!(!spanish.contains(foreign), "{foreign} in {spanish}");
    }
}

#[test]
fn a_spanish_reader_gets_the_trade_s_words() {
    let day = Day::new();
    let said = |arguments: &[&str]| {
        let output = day.run(&[&["--language", "es"], arguments].concat());
        format!("{}{}", text(&output.stdout), text(&output.stderr))
    };
    assert!(said(&["records", "list"]).contains("apta"));
    let tag = said(&["tag", "read", &day.at("tags/tag-km-014.txt")]);
    assert!(tag.contains("Peso bruto") && tag.contains("Eslingador"), "{tag}");
    let refused = said(&["void", "KM-099", "--cause", "other"]);
    assert!(refused.contains("no hay carga «KM-099»"), "{refused}");
    let pdf = day.at("ficha.pdf");
    said(&["records", "print", "KM-015", "--out", &pdf]);
    let shown = std::process::Command::new("pdftotext").args(["-layout", &pdf, "-"]).output().unwrap();
    let shown = text(&shown.stdout);
    assert!(shown.contains("REGISTRO DE INSPECCIÓN") && shown.contains("APTA"), "{shown}");
}

/// A backup is checked from end to end, and a home that begins from it is another device.
#[test]
fn a_home_is_backed_up_and_restored_as_another_device() {
    let day = Day::new();
    let file = day.at("home.backup");
    let made = day.json(&["backup", "--out", &file]);
    let restored = |home: &str, file: &str| {
        let output = day.command_at(home, &["--json", "restore", file]).output().unwrap();
        let value: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        (output.status.code(), value)
    };
    let (code, back) = restored("spare", &file);
    assert_eq!(code, Some(0), "{back}");
    assert_eq!((&back["before"], &back["digest"]), (&made["device"], &made["digest"]));
    assert_ne!(back["device"], made["device"]);
    // Everything is there, the key under the same PIN too; the audit holds and tells nothing of a fork.
    let records = day.command_at("spare", &["records", "list"]).output().unwrap();
    assert!(text(&records.stdout).contains("KM-015"), "{records:?}");
    let audit = day.command_at("spare", &["records", "verify"]).output().unwrap();
    assert!(audit.status.success(), "{audit:?}");
    // The two go on side by side, and neither finds that the other forked it.
    day.done(&["void", "KM-015", "--cause", "load-moved", "--out", &day.at("v")]);
    let bundle = day.at("a.bundle");
    day.done(&["bundle", "write", "--out", &bundle]);
    let read = day.command_at("spare", &["--json", "bundle", "read", &bundle]).output().unwrap();
    let read: serde_json::Value = serde_json::from_slice(&read.stdout).unwrap();
    assert_eq!(read["warnings"], serde_json::json!([]), "{read}");
    // What came after the backup may be missing: nothing is GO before a newer roster has come.
    let verdict = day.command_at("spare", &["verify", &day.only("seals", "txt")]).output().unwrap();
    assert_ne!(verdict.status.code(), Some(0), "{verdict:?}");
    // A home that is there stays; one letter changed, or the end cut off, is refused and begins nothing.
    assert_eq!(restored("spare", &file).0, Some(1));
    let bytes = std::fs::read(&file).unwrap();
    for bad in [bytes[..bytes.len() - 7].to_vec(), {
        let mut changed = bytes.clone();
        let middle = changed.len() / 2;
        changed[middle] ^= 1;
        changed
    }] {
        let other = day.at("bad.backup");
        std::fs::write(&other, bad).unwrap();
        let (code, refused) = restored("third", &other);
        assert_eq!((code, &refused["error"]["code"]), (Some(1), &"bad_input".into()), "{refused}");
        assert!(!Path::new(&day.at("third/slingseal.db")).exists());
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    }
}

/// What stands behind a flag is a word like any other; and so is what `inspect` and `exam run` say of one answer a line.
#[test]
fn every_placeholder_of_the_help_is_in_the_reader_s_language() {
    // Called so in every language.
    const NAMES: &[&str] = &["URL", "MGRS"];
    let day = Day::new();
    let mut wrong = BTreeSet::new();
    for verbs in verbs(&day) {
        let verbs: Vec<&str> = verbs.iter().map(String::as_str).collect();
        let said = day.done(&[&["--language", "en-XA"], verbs.as_slice(), &["--help"]].concat());
        for inside in said.split('<').skip(1).filter_map(|rest| rest.split_once('>')) {
            let words = inside.0.split(|letter: char| !letter.is_alphabetic());
            let plain = words.filter(|word| {
                word.len() > 2
                    && word.bytes().all(|letter| letter.is_ascii_uppercase())
                    && !NAMES.contains(word)
            });
            wrong.extend(plain.map(|word| format!("{verbs:?}: <{}>: {word}", inside.0)));
        }
    }
    let wrong: Vec<String> = wrong.into_iter().collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for (verbs, wanted) in
        [(&["inspect"][..], "una respuesta por línea"), (&["exam", "run"], "una respuesta por línea")]
    {
        let said = day.done(&[&["--language", "es"], verbs, &["--help"]].concat());
        assert!(said.contains(wanted), "{said}");
        for foreign in ["At a terminal", "end the run", "the whole card is good", "FILE", "DIR"] {
            assert!(!said.contains(foreign), "{foreign} in {said}");
        }
    }
}

/// What the tag, a walk and a record keep in English is told in the reader's language wherever this program knows what it says.
#[test]
fn what_is_kept_in_english_is_told_in_the_reader_s_language() {
    let day = Day::new();
    let spanish = |arguments: &[&str]| day.done(&[&["--language", "es"], arguments].concat());
    // How the weight is known, on the sheet that hangs on the load.
    let plan = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/vehicle.toml");
    let plan = std::fs::read_to_string(plan).unwrap().replace("KM-014", "KM-019");
    std::fs::copy(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/vehicle-rigging.toml"),
        day.at("vehicle-rigging.toml"),
    )
    .unwrap();
    std::fs::write(day.at("plan.toml"), plan).unwrap();
    spanish(&["tag", "write", &day.at("plan.toml"), "--out", &day.at("es")]);
    let shown =
        std::process::Command::new("pdftotext").args(["-layout", &day.only("es", "pdf"), "-"]).output();
    let shown = text(&shown.unwrap().stdout);
    assert!(shown.contains("PESADA") && !shown.contains("WEIGHED"), "{shown}");

    // How far a walk is.
    let tag = day.at("tags/tag-km-014.txt");
    assert!(day.fed(&["inspect", &tag], "good\n").status.success());
    let served = Served::in_language(&day, "es");
    let page = served.get("/load/KM-014");
    drop(served);
    assert!(page.contains("está en ello: en curso") && !page.contains(": walking"), "{page}");

    // How it hung with each count, counts that were taken back among them.
    let text_of_tag = std::fs::read_to_string(&tag).unwrap();
    let whole = readme::sound(text_of_tag.trim(), Path::new(&day.at("shadow")));
    let counts: Vec<&str> = whole.lines().filter(|line| line.ends_with(".links 3")).collect();
    assert_eq!(counts.len(), 4, "{whole}");
    let cards: Vec<usize> = counts
        .iter()
        .map(|count| {
            1 + whole.lines().take_while(|line| line != count).filter(|line| *line == "good").count()
        })
        .collect();
    let mut lines = String::new();
    for (at, link) in [(0, 9), (1, 7)] {
        let point = counts[at].split(' ').nth(1).unwrap();
        lines += &format!("go {}\nvalue {point} {link}\nundo\n", cards[at]);
    }
    lines += "go 1\n";
    let said = day.fed(&["inspect", &tag, "--out", &day.at("seals")], &format!("{lines}{whole}"));
    assert!(said.status.success(), "{said:?}");
    let story = spanish(&["records", "show", "KM-014"]);
    assert!(story.matches("es el que más tira").count() >= 4, "{story}");
    for english in ["pulls most", "pitch", "leg 1", "leg 2"] {
        assert!(!story.contains(english), "{english} in {story}");
    }
}

/// A class of nobody is one line, and no heads over nothing.
#[test]
fn a_class_without_a_result_is_told_in_one_line() {
    let day = Day::new();
    let said = day.done(&["exam", "class"]);
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(said.contains("no result") && said.contains("bundle read"), "{said}");
}

/// What the page's script says comes with the page, in the reader's language.
#[test]
fn the_script_of_the_page_has_no_words_of_its_own() {
    /// What stands in selectors, and how a script begins.
    const PARTS: &[&str] = &["table", "thead", "tbody", "th", "output", "use", "strict"];
    let script = include_str!("../../src/serve/page/desk.js");
    let mut wrong = Vec::new();
    for (number, line) in script.lines().enumerate().filter(|(_, line)| !line.trim_start().starts_with("//"))
    {
        for literal in line.split(['"', '`']).skip(1).step_by(2) {
            // Selectors and addresses are no sentences; what is put in stands for itself.
            let words = literal.split(' ').filter(|word| {
                let word = word.trim_end_matches([',', '.', '?', '…']);
                word.len() > 1 && word.chars().all(char::is_alphabetic) && !PARTS.contains(&word)
            });
            if words.count() > 1 || literal.contains('…') {
                wrong.push(format!("desk.js:{}: {literal}", number + 1));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The manual's caution stands once where a rigging is drawn: at the foot of the page.
#[test]
fn the_caution_stands_once_beside_a_rigging() {
    let day = Day::new();
    let served = Served::new(&day);
    let page = served.get("/rigging");
    let words = page.split("<svg").map(|part| part.split_once("</svg>").map_or(part, |(_, rest)| rest));
    let words: String = words.collect();
    assert_eq!(words.matches("governing manual rules").count(), 1, "{words}");
}
