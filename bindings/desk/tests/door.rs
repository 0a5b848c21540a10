//! What strangers write must not reach the terminal as it came: codes, file names, bundles, lists, plans, notes.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Clears the screen, paints a verdict, turns letters round, begins a line.
const EVIL: &str = "x\u{1b}[2J\u{1b}[42m  GO  \u{9b}0m\u{202e}\u{200b}\u{7}\r\n  \u{25cf} GO  all holds";

struct Zone {
    folder: tempfile::TempDir,
}

impl Zone {
    fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        std::fs::write(self.at(name), bytes).unwrap();
        self.at(name)
    }

    /// Runs the program, and holds all that it says against the door. What it said on standard output, and on the other.
    fn run(&self, arguments: &[&str]) -> (String, String) {
        let output = Command::new(env!("CARGO_BIN_EXE_slingseal"))
            .arg("--home")
            .arg(self.at("home"))
            .args(arguments)
            .env("SLINGSEAL_PIN", "417293")
            .env("SLINGSEAL_PASSPHRASE", "a meadow by the river where herons wade")
            .env("LANG", "C")
            .stdin(Stdio::null())
            .output()
            .unwrap();
        let said = [output.stdout, output.stderr].map(|bytes| String::from_utf8(bytes).unwrap());
        for text in &said {
            let hidden = |letter: char| {
                letter.is_control() && !matches!(letter, '\n' | '\t')
                    || matches!(letter, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            };
            assert!(!text.contains(hidden), "{arguments:?} said {text:?}");
            let painted = text.lines().any(|line| line.trim_start().starts_with("\u{25cf} GO"));
            assert!(!painted, "{arguments:?} began a line for a stranger: {text:?}");
        }
        let [out, complaints] = said;
        (out, complaints)
    }
}

fn path(path: &Path) -> &str {
    path.to_str().unwrap()
}

fn code(text: &str) -> Vec<u8> {
    let code = qrcode::QrCode::new(text.as_bytes()).unwrap();
    let (side, scale, quiet) = (code.width(), 6, 4);
    let pixels = (side + 2 * quiet) * scale;
    let colours = code.to_colors();
    let mut grey = vec![255u8; pixels * pixels];
    for (at, pixel) in grey.iter_mut().enumerate() {
        let (x, y) = (at % pixels / scale, at / pixels / scale);
        let inside = (quiet..quiet + side).contains(&x) && (quiet..quiet + side).contains(&y);
        if inside && colours[(y - quiet) * side + x - quiet] == qrcode::Color::Dark {
            *pixel = 0;
        }
    }
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, pixels as u32, pixels as u32);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.write_header().unwrap().write_image_data(&grey).unwrap();
    bytes
}

fn item(kind: u8, body: &[u8]) -> Vec<u8> {
    let length = u32::try_from(body.len()).unwrap().to_be_bytes();
    let check = hmac_sha256::Hash::hash(&[&[kind], length.as_slice(), body].concat());
    [&[0xA5, b'S', b'B', 0x1A, kind], length.as_slice(), &check[..8], body].concat()
}

#[test]
fn a_foreign_code_in_a_picture_of_a_strange_name_is_one_line() {
    let zone = Zone::new();
    let picture = zone.put("a\u{1b}[31m\n\u{202e}.png", code(EVIL));
    let nothing = zone.put("b\u{1b}]0;x\u{7}.png", code("").split_off(1));
    let (out, complaints) = zone.run(&["read", path(&picture), path(&nothing)]);
    let lines: Vec<&str> = out.lines().collect();
    assert_eq!(lines.len(), 2, "{out:?}");
    let (name, text) = lines[0].split_once('\t').unwrap();
    assert!(name.ends_with("a\\u{1b}[31m\\u{a}\\u{202e}.png"), "{name}");
    assert_eq!(
        text,
        "x\\u{1b}[2J\\u{1b}[42m  GO  \\u{9b}0m\\u{202e}\\u{200b}\\u{7}\\u{d}\\u{a}  \u{25cf} GO  all holds"
    );
    assert!(lines[1].ends_with("b\\u{1b}]0;x\\u{7}.png\t-"), "{out:?}");
    assert!(complaints.contains("b\\u{1b}]0;x"), "{complaints:?}");
    // In JSON the text is the code's own.
    let (out, _) = zone.run(&["--json", "read", path(&picture)]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(value[0]["texts"][0], EVIL);
    // Where the file's name comes first and its code is not ours, in a complaint.
    zone.run(&["verify", path(&picture)]);
    zone.run(&["receive", path(&picture)]);
    zone.run(&["verify", EVIL]);
}

#[test]
fn a_procedure_in_a_bundle_says_nothing_of_its_own() {
    let zone = Zone::new();
    let key: String = EVIL.chars().map(|letter| format!("\\u{:04x}", letter as u32)).collect();
    let procedure = format!("\"{key}\" = 1\n{}", include_str!("../../../core/walk/procedures/bag.toml"));
    let bundle = [
        b"SLINGSEAL BUNDLE 1\n".to_vec(),
        item(8, procedure.as_bytes()),
        item(8, format!("{EVIL} = ").as_bytes()),
        item(3, EVIL.as_bytes()),
    ]
    .concat();
    let file = zone.put("day.slb", bundle);
    let (out, _) = zone.run(&["bundle", "read", path(&file)]);
    assert_eq!(out.lines().filter(|line| line.contains("SET ASIDE")).count(), 3, "{out}");
    assert!(out.contains("\\u{1b}[2J"), "the key is named: {out}");
    zone.run(&["--json", "bundle", "read", path(&file)]);
    let file = zone.put("evil.toml", &procedure);
    let (_, complaints) = zone.run(&["procedure", "check", path(&file)]);
    assert!(complaints.lines().all(|line| line.starts_with("slingseal: ")), "{complaints}");
    assert!(complaints.contains("\\u{1b}[2J"), "{complaints}");
    zone.run(&["procedure", "add", path(&file)]);
    zone.run(&["procedure", "list"]);
}

#[test]
fn lists_plans_and_notes_are_quoted_harmlessly() {
    let zone = Zone::new();
    let out = zone.at("out");
    let cell = EVIL.replace('"', "");
    let list = format!(
        "load,description,procedure,gross,aircraft,allowable,pickup,destination\n\"{cell}\",\"{cell}\",bag,\"{cell}\",\"{cell}\",7000 lb,\"{cell}\",Alder Bridge\n"
    );
    let heads =
        format!("load,\"{cell}\",description,procedure,gross,aircraft,allowable,pickup,destination\n");
    for (name, text) in [("list.csv", &list), ("heads.csv", &heads)] {
        let file = zone.put(name, text);
        let (_, complaints) = zone.run(&["tag", "write", path(&file), "--unsigned", "--out", path(&out)]);
        assert!(complaints.lines().all(|line| line.starts_with("slingseal: ")), "{complaints}");
        assert!(complaints.contains("\\u{1b}"), "{complaints}");
    }
    let evil: String = EVIL.chars().map(|letter| format!("\\u{:04x}", letter as u32)).collect();
    let plan = include_str!("../demo/bag.toml");
    let described = plan.replacen("description = \"", &format!("description = \"{evil}"), 1);
    assert_ne!(described, plan);
    let rigged = plan.replacen("description", &format!("rigging = \"{evil}\"\ndescription"), 1);
    for text in [described, rigged] {
        let file = zone.put("plan.toml", text);
        zone.run(&["tag", "write", path(&file), "--unsigned", "--out", path(&out)]);
    }
    let file = zone.put("load.toml", format!("name = \"{evil}\"\n\"{evil}\" = 3\n"));
    zone.run(&["rigging", path(&file)]);
    zone.run(&["--json", "rigging", path(&file)]);
    zone.run(&["authority", "init", "--name", EVIL]);
    zone.run(&["key", "request", "--holder", EVIL]);
    zone.run(&["void", &"0".repeat(64), "--cause", EVIL, "--note", EVIL]);
    zone.run(&["records", "show", EVIL]);
    zone.run(&["inspect", "--walk", EVIL]);
}

/// An answer that could not be written is no answer: said so, in a line, and no panic.
#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_told() {
    let zone = Zone::new();
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_slingseal"))
        .arg("--home")
        .arg(zone.at("home"))
        .args(["procedure", "list"])
        .stdout(full)
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(said.starts_with("slingseal: standard output: no space left on device; "), "{said}");
}
