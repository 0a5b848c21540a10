//! Every page as the Nu HTML checker reads it, which shares nothing with us.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

use crate::{Demo, Served};

const CHECKER: &str = "vnu-jar@26.9.27";

/// The checker, fetched once by npm and kept beside what is built.
fn checker() -> PathBuf {
    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join("vnu");
    let jar = kept.join("node_modules/vnu-jar/build/dist/vnu.jar");
    if !jar.exists() {
        std::fs::create_dir_all(&kept).unwrap();
        let fetched = Command::new("npm")
            .args(["install", "--no-audit", "--no-fund", "--silent", "--prefix"])
            .arg(&kept)
            .arg(CHECKER)
            .status()
            .expect("npm is needed (Debian package npm)");
        assert!(fetched.success(), "npm could not fetch {CHECKER}");
    }
    jar
}

/// Every error of every file, a line each.
fn errors(files: &[PathBuf]) -> Vec<String> {
    let output = Command::new("java")
        .args(["-Xmx400m", "-jar"])
        .arg(checker())
        .args(["--format", "json", "--stdout", "--exit-zero-always", "--skip-non-html"])
        .args(files)
        .output()
        .expect("java is needed (Debian package default-jdk-headless)");
    let said: Value = serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|error| panic!("{error}: {}", String::from_utf8_lossy(&output.stderr)));
    let messages = said["messages"].as_array().unwrap().iter();
    messages
        .filter(|message| message["type"] == "error")
        .map(|message| {
            let file = message["url"].as_str().unwrap_or_default();
            format!(
                "{}: {} {}",
                file.rsplit('/').next().unwrap_or(file),
                message["message"],
                message["extract"]
            )
        })
        .collect()
}

#[test]
fn every_page_is_html_by_a_checker_that_is_not_ours() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    let paths = [
        "/",
        "/load/KM-014",
        "/plan",
        "/rigging",
        "/receive",
        "/deficiencies",
        "/people",
        "/equipment",
        "/equipment/SS-0417",
        "/close",
        "/procedures",
        "/class",
        "/export",
        "/search?q=KM",
        "/?state=fit&sort=board.load.down",
        "/search?sort=records.load",
        "/weeks",
        "/people?sort=people.name",
        "/act/void?record=0",
        "/act/issue",
        "/act/revoke",
        "/act/approve",
        "/act/withdraw",
        "/act/distrust",
        "/job",
        "/nothing",
    ];
    let mut files = Vec::new();
    for (number, path) in paths.iter().enumerate() {
        let text = browser.js(&format!("fetch({}).then(answer => answer.text())", json!(path)));
        let text = text.as_str().unwrap();
        assert!(text.starts_with("<!DOCTYPE html>"), "{path}: {text}");
        let file = demo.at(&format!("{number:02}{}.html", path.replace(['/', '?', '='], "-")));
        std::fs::write(&file, text).unwrap();
        files.push(file);
    }
    assert_eq!(errors(&files), Vec::<String>::new());

    // The checker does check.
    let broken = demo.at("broken.html");
    std::fs::write(&broken, "<!DOCTYPE html><title>x</title><p><ul><li>a</ul></p><img src=x>").unwrap();
    assert!(!errors(&[broken]).is_empty());
}
