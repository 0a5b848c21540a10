//! `check-page`: what a leader signs gets into the page that was named, and nothing is written where something is missing.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

use std::path::Path;
use std::process::{Command, Output};

const PIN: &str = "417293";
const PLACE: &str = "<script type=\"application/octet-stream\" id=\"contents\"></script>";

fn slingseal(home: &Path, arguments: &[&str], pin: &str) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
    command.arg("--home").arg(home).args(arguments).env("SLINGSEAL_PIN", pin).env("LANG", "C");
    command.env_remove("SLINGSEAL_CHECK_PAGE").output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

#[test]
fn the_leaders_words_get_into_the_page() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).display().to_string();
    std::fs::write(at("shell.html"), format!("<h1>page</h1>{PLACE}<p>end</p>")).unwrap();
    std::fs::write(at("strange.html"), "<h1>no place</h1>").unwrap();
    let demo = Command::new(env!("CARGO_BIN_EXE_slingseal"))
        .args(["demo", "--out", &at("demo")])
        .env("SLINGSEAL_CHECK_PAGE", at("shell.html"))
        .output()
        .unwrap();
    assert!(demo.status.success(), "{demo:?}");
    assert!(text(&demo.stdout).contains("hook.html"), "{demo:?}");
    let desk = folder.path().join("demo/desk");

    let (shell, strange, out) = (at("shell.html"), at("strange.html"), at("hook.html"));
    let made = slingseal(&desk, &["check-page", "--page", &shell, "--out", &out, "--hours", "6"], PIN);
    assert!(made.status.success(), "{made:?}");
    let page = std::fs::read_to_string(&out).unwrap();
    let (before, after) = page.split_once("id=\"contents\">").unwrap();
    assert!(before.starts_with("<h1>page</h1>") && after.ends_with("</script><p>end</p>"), "{page}");
    assert!(after.len() > 1_000 && !page.contains(PLACE));
    // Five groups of a letter and three digits.
    let groups = text(&made.stdout).lines().nth(1).unwrap().trim().to_owned();
    let is_group = |group: &str| group.len() == 4 && group[1..].bytes().all(|digit| digit.is_ascii_digit());
    assert!(groups.split(' ').count() == 5 && groups.split(' ').all(is_group), "{groups}");

    // Nothing is written, and one line says what to do.
    let hookup = folder.path().join("demo/hookup");
    let inside = cfg!(feature = "check-page");
    let bad: [(&Path, Vec<&str>, &str, &str); 5] = [
        (&desk, vec!["--page", &strange], PIN, "no check page"),
        (&desk, vec!["--page", &shell], "000000", "PIN"),
        (&desk, vec!["--page", &shell, "--hours", "500"], PIN, "168"),
        (&desk, vec!["--page", &shell, "--authority", "Nobody"], PIN, "authority"),
        (&hookup, vec!["--page", &shell], PIN, "credential"),
    ];
    for (home, more, pin, said) in bad {
        let none = at("none.html");
        let refused = slingseal(home, &[vec!["check-page", "--out", &none], more.clone()].concat(), pin);
        assert_eq!(refused.status.code(), Some(1), "{more:?}: {refused:?}");
        let line = text(&refused.stderr);
        assert!(line.contains(said) && line.lines().count() == 1, "{more:?}: {line}");
        assert!(!Path::new(&none).exists(), "{more:?}");
    }
    if inside {
        let made = slingseal(&desk, &["check-page", "--out", &out], PIN);
        assert!(made.status.success(), "{made:?}");
        let page = std::fs::read_to_string(&out).unwrap();
        assert!(page.starts_with("<!doctype html>") && !page.contains(PLACE));
        assert!((800_000..1_500_000).contains(&page.len()), "{} bytes", page.len());
    } else {
        let none = slingseal(&desk, &["check-page", "--out", &out], PIN);
        assert!(text(&none.stderr).contains("bindings/web/build"), "{none:?}");
    }
}
