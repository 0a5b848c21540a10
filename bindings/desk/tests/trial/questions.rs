//! What is typed wrong is told in the reader's language, in one place, with the way out.

use crate::day::{Day, text};

#[test]
fn a_command_line_that_cannot_be_read_is_told_in_the_reader_s_language() {
    let day = Day::empty();
    let wrong: &[(&[&str], &str)] = &[
        (&["verfy"], "slingseal: no hay ninguna orden «verfy»\n  ¿quería decir verify?"),
        (&["verify", "--nope"], "slingseal: aquí no se admite «--nope»"),
        (&["void", "KM-015"], "slingseal: falta esto: --cause <PALABRA>"),
        (&["tag", "write", "a", "--out"], "slingseal: --out <CARPETA> pide un valor"),
        (&["records", "list", "--most", "x"], "slingseal: --most <N> pide un número, y no «x»"),
        (&["bundle", "play", "--pace", "99"], "slingseal: --pace <N> admite de 1 a 15, y no «99»"),
        (&["inspect", "a", "--walk", "b"], "no van juntos"),
        (
            &["records", "export", "x", "--of", "nix"],
            "no admite «nix», sino uno de: records, deficiencies, equipment",
        ),
    ];
    for (arguments, told) in wrong {
        let output = day.run(&[&["--language", "es"], *arguments].concat());
        let said = text(&output.stderr);
        assert!(output.status.code() == Some(2) && said.contains(told), "{arguments:?}: {said}");
        for english in ["error:", "Usage", "COMMAND", "OPTIONS", "For more"] {
            assert!(!said.contains(english), "{arguments:?}: {english}: {said}");
        }
    }
    let said = text(&day.run(&["void", "KM-015"]).stderr);
    assert_eq!(
        said,
        "slingseal: this is missing: --cause <WORD>\nUsage: slingseal void [OPTIONS] --cause <WORD> <SEAL>\nMore with --help.\n"
    );
    // What a stranger wrote moves nothing here, either.
    let said = text(&day.run(&["\u{1b}[2Jverify"]).stderr);
    assert!(!said.contains('\u{1b}') && said.contains("\\u{1b}"), "{said:?}");
}

/// In the pseudo-language no word of the help is plain but names that are typed as they stand.
#[test]
fn nothing_of_the_help_is_left_to_the_parser() {
    let day = Day::empty();
    for arguments in
        [&["--help"][..], &["serve", "--help"], &["records", "export", "--help"], &["completions", "--help"]]
    {
        let said = day.done(&[&["--language", "en-XA"], arguments].concat());
        for english in
            ["Usage", "[env", "[default", "possible values", "Possible values", "[OPTIONS]", "<COMMAND>"]
        {
            assert!(!said.contains(english), "{arguments:?}: {english}: {said}");
        }
    }
}

/// What can be planted is listed with the point's id, as the flag takes it; whoever names nothing is told so.
#[test]
fn what_can_be_planted_is_listed_as_it_is_typed() {
    let day = Day::new();
    let tag = day.at("tags/tag-km-014.txt");
    let listed = day.done(&["exam", "lock", &tag, "--preview"]);
    let line = listed.lines().find_map(|line| line.trim().strip_prefix("--plant ")).unwrap();
    let picked = line.trim_matches('\'').to_owned();
    let lock = |more: &[&str]| {
        let standard = ["--find", "1", "--within", "2:00", "--false-calls", "0", "--out"];
        day.run(&[&["exam", "lock", &tag], more, &standard, &[&day.at("key")]].concat())
    };
    assert!(lock(&["--plant", &picked]).status.success(), "{picked}");
    let said = text(&lock(&[]).stderr);
    assert!(said.contains("--preview lists all that can be planted"), "{said}");
    let said = text(&lock(&["--plant", "no.such=thing"]).stderr);
    assert!(said.contains("has no point no.such; exam lock --preview lists"), "{said}");
}

/// An inspection that is no load's says what it is of: a serial number alone does not.
#[test]
fn a_received_inspection_names_its_subject() {
    let day = Day::new();
    let signed = |list: &str, name: &str| {
        day.fed(&["inspect", "--list", list, "--of", name], "good\nnotfit seen\n");
        let folder = day.at(name);
        day.done(&["inspect", "--kept", "--sign", name, "--out", &folder]);
        day.done(&["receive", &day.only(name, "txt")])
    };
    let zone = signed("zone", "KESTREL");
    assert!(zone.contains("Inspection of zone KESTREL by Anvil 3: not fit"), "{zone}");
    assert!(!zone.contains("withdrawn"), "{zone}");
    let piece = signed("gear-web", "CB-0932");
    assert!(piece.contains("Inspection of piece of gear CB-0932 by Anvil 3: not fit, withdrawn"), "{piece}");
}

/// An account without a name of its own is named in the leader's language.
#[test]
fn an_account_s_name_is_in_the_leader_s_language() {
    let day = Day::new();
    assert!(day.done(&["account", "close"]).contains("everything: "));
    let said = day.done(&["--language", "es", "account", "close"]);
    assert!(said.contains("todo lo que hay aquí: ") && !said.contains("everything"), "{said}");
}

/// A file that a plan names is named once where it is wrong, and with one way out.
#[test]
fn a_file_s_name_stands_once_in_a_fault() {
    let day = Day::empty();
    std::fs::create_dir_all(day.at("plans")).unwrap();
    let plan = include_str!("../../demo/vehicle.toml").replace("vehicle-rigging.toml", "nowhere.toml");
    std::fs::write(day.at("plans/v.toml"), plan).unwrap();
    let said = day.refused(&["tag", "write", &day.at("plans/v.toml"), "--unsigned", "--out", &day.at("t")]);
    assert_eq!(said.matches("nowhere.toml").count(), 1, "{said}");
    assert!(!said.contains("os error") && said.contains("mend that file, or leave the line out"), "{said}");
}
