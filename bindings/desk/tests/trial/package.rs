//! The Debian package, made by one command and installed.

use std::path::Path;
use std::process::Command;

use crate::day::{Day, text};

#[cfg(target_os = "linux")]
#[test]
fn the_package_is_made_by_one_command_and_installs_all_of_it() {
    let day = Day::empty();
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("package/debian");
    let package = day.at("slingseal.deb");
    let made = Command::new("bash")
        .arg(script)
        .args([&package, env!("CARGO_BIN_EXE_slingseal")])
        .output()
        .expect("bash is needed");
    assert!(made.status.success(), "{}", text(&made.stderr));
    // Into a root of its own: nothing of this machine is touched.
    let root = day.at("root");
    for folder in ["var/lib/dpkg/info", "var/lib/dpkg/updates", "var/log"] {
        std::fs::create_dir_all(format!("{root}/{folder}")).unwrap();
    }
    std::fs::write(format!("{root}/var/lib/dpkg/status"), "").unwrap();
    let installed = Command::new("dpkg")
        .args([
            &format!("--root={root}"),
            "--force-not-root",
            "--force-depends",
            "--force-bad-path",
            "-i",
            &package,
        ])
        .output()
        .expect("dpkg is needed");
    assert!(installed.status.success(), "{}", text(&installed.stderr));
    let told = Command::new(format!("{root}/usr/bin/slingseal")).arg("--version").output().unwrap();
    assert!(text(&told.stdout).starts_with("slingseal "));
    for file in [
        "man/man1/slingseal.1.gz",
        "man/man1/slingseal-tag-write.1.gz",
        "bash-completion/completions/slingseal",
        "zsh/vendor-completions/_slingseal",
        "fish/vendor_completions.d/slingseal.fish",
        "doc/slingseal/schemas/verify.json",
        "doc/slingseal/demo/loads.csv",
    ] {
        assert!(Path::new(&format!("{root}/usr/share/{file}")).exists(), "{file}");
    }
    // A shell takes the completions, and they know a verb under a verb.
    let asked = "source \"$1\"; COMP_WORDS=(slingseal tag wr); COMP_CWORD=2; _slingseal slingseal wr tag; echo \"${COMPREPLY[@]}\"";
    let script = format!("{root}/usr/share/bash-completion/completions/slingseal");
    let completed = Command::new("bash").args(["-c", asked, "bash", &script]).output().unwrap();
    assert_eq!(text(&completed.stdout).trim(), "write", "{}", text(&completed.stderr));
    let page = day.done(&["manual", "--out", &day.at("man")]);
    assert!(page.lines().count() > 40, "{page}");
    let whole = std::fs::read_to_string(day.at("man/slingseal.1")).unwrap();
    assert!(whole.contains("NO\\-GO") && whole.contains("141"), "{whole}");
}

#[test]
fn a_pin_is_changed_and_the_old_one_opens_nothing() {
    let day = Day::new();
    let changed = day.command(&["key", "change-pin"]).env("SLINGSEAL_NEW_PIN", "902856").output().unwrap();
    assert!(changed.status.success(), "{changed:?}");
    let said = day.refused(&["void", "KM-015", "--cause", "load-moved"]);
    assert!(said.contains("the PIN is wrong"), "{said}");
    let mut voided = day.command(&["void", "KM-015", "--cause", "load-moved"]);
    assert!(voided.env("SLINGSEAL_PIN", "902856").status().unwrap().success());
}
