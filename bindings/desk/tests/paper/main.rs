//! The printed pages, judged by veraPDF: archived for good (PDF/A-2a) and read aloud in order (PDF/UA-1).

#![allow(clippy::unwrap_used, clippy::panic, clippy::string_slice, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};
use std::process::Command;

/// What checks, fetched once by Maven and kept beside what is built.
fn validator() -> PathBuf {
    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join("verapdf");
    if !kept.join("done").exists() {
        let pom = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/paper/pom.xml");
        let fetched = Command::new("mvn")
            .args(["-q", "-B", "-f"])
            .arg(pom)
            .arg("dependency:copy-dependencies")
            .arg(format!("-DoutputDirectory={}", kept.display()))
            .status()
            .expect("mvn is needed (Debian package maven)");
        assert!(fetched.success(), "Maven could not fetch veraPDF");
        std::fs::write(kept.join("done"), "").unwrap();
    }
    kept
}

fn validate(files: &[PathBuf]) -> (bool, String) {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/paper/Validate.java");
    let output = Command::new("java")
        .arg("-cp")
        .arg(validator().join("*"))
        .arg(source)
        .args(files)
        .output()
        .expect("java is needed (Debian package default-jdk-headless)");
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    (output.status.success(), said + &String::from_utf8_lossy(&output.stderr))
}

#[test]
fn sheets_and_records_are_archived_and_read_aloud() {
    let folder = tempfile::tempdir().unwrap();
    let demo = folder.path().join("demo");
    let played = Command::new(env!("CARGO_BIN_EXE_slingseal"))
        .args(["--json", "demo", "--out"])
        .arg(&demo)
        .output()
        .unwrap();
    assert!(played.status.success(), "{played:?}");
    let pages =
        ["sheet-km-014.pdf", "record-km-014.pdf", "day/manifest.pdf", "day/closing-kestrel-meadow.pdf"];
    let pages = pages.map(|name| demo.join(name));
    let (holds, said) = validate(&pages);
    assert!(holds && said.matches(" passes, ").count() == 2 * pages.len(), "{said}");
    println!("{said}");

    // The day's loads, in the order that the leader set.
    let text = Command::new("pdftotext").args(["-layout"]).arg(&pages[2]).arg("-").output().unwrap();
    let text = String::from_utf8(text.stdout).unwrap();
    let loads: Vec<&str> = text.split_whitespace().filter(|word| word.starts_with("KM-1")).collect();
    let wanted = ["109", "101", "102", "103", "104", "105", "106", "107", "108", "110", "111", "112"];
    assert_eq!(loads, wanted.map(|number| format!("KM-{number}")), "{text}");

    // A reader that goes by the structure hears the load first and every value behind its label.
    let text = Command::new("pdfinfo").args(["-struct-text"]).arg(&pages[1]).output();
    let text =
        String::from_utf8(text.expect("pdfinfo is needed (Debian package poppler-utils)").stdout).unwrap();
    let order = [
        "INSPECTION RECORD",
        "KM-014",
        "FIT",
        "INSPECTOR",
        "Anvil 3",
        "Deficiencies",
        "What happened",
        "SHA-256",
    ];
    let mut from = 0;
    for wanted in order {
        let at =
            text[from..].find(wanted).unwrap_or_else(|| panic!("{wanted} is not read in its place:\n{text}"));
        from += at;
    }

    // The sheets of a rigging, in two languages.
    let lift = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../core/rigging/examples/planned-lift.toml");
    for language in ["en", "es"] {
        let (sheet, aircrew) = (demo.join("rigging.pdf"), demo.join("aircrew.pdf"));
        let printed = Command::new(env!("CARGO_BIN_EXE_slingseal"))
            .args(["--language", language, "rigging"])
            .arg(&lift)
            .arg("--sheet")
            .arg(&sheet)
            .arg("--aircrew")
            .arg(&aircrew)
            .output()
            .unwrap();
        assert!(printed.status.code() == Some(0), "{printed:?}");
        let (holds, said) = validate(&[sheet.clone(), aircrew.clone()]);
        assert!(holds && said.matches(" passes, ").count() == 4, "{language}: {said}");
        let text = |file: &Path| {
            let output = Command::new("pdftotext").args(["-layout"]).arg(file).arg("-").output().unwrap();
            String::from_utf8(output.stdout).unwrap()
        };
        let (sheet, aircrew) = (text(&sheet), text(&aircrew));
        let (link, head, leg, caution) = match language {
            "en" => ("3 of 110", "AIRCREW DATA SHEET", "leg 1", "The governing manual rules"),
            _ => ("3 de 110", "DATOS PARA LA TRIPULACIÓN", "ramal 1", "Manda el manual aplicable"),
        };
        assert!(sheet.contains(link) && sheet.contains("12 ft") && sheet.contains(caution), "{sheet}");
        assert!(aircrew.contains(head) && aircrew.contains(leg) && aircrew.contains("kt"), "{aircrew}");
    }

    // The test can fail: a page that lost its structure does.
    let mut torn = std::fs::read(&pages[0]).unwrap();
    let tag = b"/StructTreeRoot";
    let at = torn.windows(tag.len()).position(|bytes| bytes == tag).unwrap();
    torn[at + 1] = b'X';
    let broken = folder.path().join("broken.pdf");
    std::fs::write(&broken, torn).unwrap();
    assert!(!validate(&[broken]).0);
}
