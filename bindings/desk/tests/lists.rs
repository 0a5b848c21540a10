//! Every list, walked line by line in both languages, as a screen reader would drive it.

use std::io::Write;
use std::process::{Command, Stdio};
use std::sync::Arc;

use slingseal_app::{
    App, Clock, Entropy, Language, Outside, PointKind, PointState, Stretch, Time, WalkRequest, WalkView,
    sound_answer,
};

struct Standing;

impl Clock for Standing {
    fn now(&self) -> Time {
        Time::from_unix(1_800_000_000)
    }
}

impl Entropy for Standing {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

fn shadow(folder: &std::path::Path) -> App {
    let outside = Outside {
        clock: Arc::new(Standing),
        entropy: Arc::new(Standing),
        device_secret: zeroize::Zeroizing::new(b"shadow".to_vec()),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    App::open(folder, outside).expect("a home opens")
}

/// The lines that find it sound: each value that is asked for, and each card good.
fn lines(app: &App, mut view: WalkView) -> Vec<String> {
    let mut lines = Vec::new();
    while let Some(card) = view.card.clone() {
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match open {
            Some(point) => {
                let value = match &point.kind {
                    PointKind::Serial => view.load.clone(),
                    _ => sound_answer(&view, point),
                };
                lines.push(format!("value {} {value}", point.id));
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
            }
            None => {
                lines.push("good".into());
                WalkRequest::CardGood { card: card.number }
            }
        };
        view = app.do_walk(&view.walk, &request).expect("it is answered");
        assert_eq!(view.refused, None, "{} card {}", view.procedure, card.number);
    }
    lines
}

#[test]
fn every_list_is_walked_line_by_line_in_both_languages() {
    let folder = tempfile::tempdir().unwrap();
    let app = shadow(&folder.path().join("shadow"));
    app.make_key("Anvil 3", "417293").unwrap();
    let run = |home: &str, arguments: &[&str], input: &str| {
        let mut child = Command::new(env!("CARGO_BIN_EXE_slingseal"))
            .arg("--home")
            .arg(folder.path().join(home))
            .args(arguments)
            .env("SLINGSEAL_PIN", "417293")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    };
    for home in ["en", "es"] {
        std::fs::create_dir_all(folder.path().join(home)).unwrap();
        run(home, &["key", "request", "--holder", "Anvil 3"], "");
    }
    let plan = include_str!("../demo/bag.toml");
    let (mut lists, mut loads) = (0, 0);
    for procedure in app.procedures().unwrap() {
        let links: String = (2..=4).map(|leg| format!("\n[[link]]\nleg = \"{leg}\"\nlink = 3\n")).collect();
        let plan = plan
            .replace("\"bag\"", &format!("\"{}\"", procedure.id))
            .replace("KM-015", &format!("L-{lists}"))
            + &links;
        // A load by its tag; anything else by its name.
        let tag = app.write_tag(&plan, &|_| Err("none".into()), None).unwrap().code.text;
        let file = folder.path().join("tag.txt");
        std::fs::write(&file, &tag).unwrap();
        let file = file.display().to_string();
        let (view, arguments) = match app.begin_walk(&tag) {
            Ok(view) => {
                loads += 1;
                (view, vec!["inspect", &file])
            }
            Err(_) => {
                let view = app.begin_inspection(&procedure.id, "SN-1").unwrap();
                (view, vec!["inspect", "--list", &procedure.id, "--of", "SN-1"])
            }
        };
        let input = lines(&app, view).join("\n") + "\nfit\n";
        let mut titles = Vec::new();
        for home in ["en", "es"] {
            let mut all = vec!["--language", home];
            all.extend(&arguments);
            let said = run(home, &all, &input);
            let last = said.lines().last().unwrap();
            assert!(
                last.starts_with("ok ") && last.contains("stage=decided"),
                "{} {home}: {last}",
                procedure.id
            );
            titles.push(said.lines().next().unwrap().split_once("title=").unwrap().1.to_owned());
        }
        assert_ne!(titles[0], titles[1], "{}: the first card is in two languages", procedure.id);
        lists += 1;
    }
    assert_eq!((lists, loads), (17, 5));
    let kept = run("en", &["inspect", "--kept"], "");
    assert_eq!(kept.lines().count(), 12, "{kept}");
    assert!(kept.contains("gear-chain") && kept.contains("fit until"), "{kept}");
    let table = run("en", &["procedure", "table", "gear-hook"], "");
    assert!(table.contains("**published** WAC 296-155-55800 table 12: 10 per cent"), "{table}");
    let spoken = run("es", &["--language", "es", "procedure", "show", "hookup"], "");
    assert!(spoken.contains("Ponga a tierra") || spoken.contains("pértiga"), "{spoken}");
}
