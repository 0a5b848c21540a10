//! The page at three widths: what axe-core finds at WCAG AAA, what leaves the window, what no keyboard reaches.

use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::{Value, json};

use crate::browser::Browser;
use crate::{Demo, Served};

const AXE: &str = "axe-core@4.14.1";
pub const WIDTHS: [u32; 3] = [390, 768, 1280];

/// The checker, fetched once by npm and kept beside what is built.
pub fn axe() -> String {
    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join("axe");
    let script = kept.join("node_modules/axe-core/axe.min.js");
    if !script.exists() {
        std::fs::create_dir_all(&kept).unwrap();
        let fetched = Command::new("npm")
            .args(["install", "--no-audit", "--no-fund", "--silent", "--prefix"])
            .arg(&kept)
            .arg(AXE)
            .status()
            .expect("npm is needed (Debian package npm)");
        assert!(fetched.success(), "npm could not fetch {AXE}");
    }
    std::fs::read_to_string(script).unwrap()
}

/// Where the pictures of this run are left, if anywhere.
fn pictures() -> Option<PathBuf> {
    std::env::var_os("SLINGSEAL_PICTURES").map(PathBuf::from)
}

pub fn picture(browser: &mut Browser, name: &str) {
    let Some(folder) = pictures() else { return };
    let shot = browser.call("Page.captureScreenshot", &json!({ "captureBeyondViewport": true }));
    let data = shot["data"].as_str().unwrap();
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(format!("{name}.png.base64")), data).unwrap();
}

/// What axe-core finds on the page that is shown, a line each.
pub fn violations(browser: &mut Browser, axe: &str) -> Vec<String> {
    browser.js(axe);
    let found = browser.js(
        "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa']}) \
         .then(found => found.violations.map(one => one.id + ': ' + one.nodes.map(node => node.html.slice(0, 160)).join(' | ')))",
    );
    let Value::Array(found) = found else { panic!("the checker did not run") };
    found.iter().map(ToString::to_string).collect()
}

/// A page's text without what differs from run to run: times, digests, fingerprints, and figures that no plan of the demo names.
fn lasting(text: &str) -> String {
    let plans = concat!(
        include_str!("../../demo/vehicle.toml"),
        include_str!("../../demo/vehicle-rigging.toml"),
        include_str!("../../demo/bag.toml")
    );
    let known: std::collections::BTreeSet<&str> =
        plans.split(|letter: char| letter.is_whitespace() || "\"'[](){},:;=".contains(letter)).collect();
    let months = "JAN FEB MAR APR MAY JUN JUL AUG SEP OCT NOV DEC";
    let line = |line: &str| {
        let words: Vec<&str> = line.split_whitespace().collect();
        let lasting = |(at, word): (usize, &&str)| {
            let is_end = |end: char| end.is_ascii_punctuation();
            let plain = word.trim_matches(is_end);
            let lasts = !word.contains(|letter: char| letter.is_ascii_digit()) || known.contains(plain);
            // How much of a time is left.
            let unit = words.get(at + 1).map(|next| next.trim_matches(is_end));
            let is_month = |word: &str| months.split(' ').any(|month| month == word);
            let year =
                at.checked_sub(1).and_then(|before| words.get(before)).is_some_and(|word| is_month(word));
            // Groups of a check word or a fingerprint are drawn, and may be a plan's number by chance.
            let group = |at: Option<usize>| {
                let word = at.and_then(|at| words.get(at)).map_or("", |word| word.trim_matches(is_end));
                if word.len() > 2 && word.bytes().all(|byte| byte.is_ascii_digit()) { word.len() } else { 0 }
            };
            let own = group(Some(at));
            let drawn = own > 0 && [at.checked_sub(1), Some(at + 1)].map(group).contains(&own);
            let passes = matches!(unit, Some("h" | "min" | "s")) || is_month(plain) || year || drawn;
            if lasts && !passes { (*word).to_owned() } else { "#".to_owned() }
        };
        words.iter().enumerate().map(lasting).collect::<Vec<_>>().join(" ")
    };
    let lines = text.lines().map(line);
    lines.filter(|line| !line.is_empty()).collect::<Vec<_>>().join("\n")
}

/// What people looked at, page by page. `SLINGSEAL_WRITE_SCREENS=1` writes what is missing, never others.
fn is_kept(language: &str, shown: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/page/screens/{language}.txt"));
    match std::fs::read_to_string(&path) {
        Ok(kept) => {
            for (number, (shown, kept)) in shown.lines().zip(kept.lines()).enumerate() {
                assert_eq!(shown, kept, "{}: line {} changed", path.display(), number + 1);
            }
            assert_eq!(shown, kept, "{}: a page changed", path.display());
        }
        Err(_) if std::env::var_os("SLINGSEAL_WRITE_SCREENS").is_some() => {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, shown).unwrap();
        }
        Err(error) => panic!("{}: {error}\n{shown}", path.display()),
    }
}

#[test]
fn every_page_is_for_everybody_at_every_width() {
    let axe = axe();
    let demo = Demo::new();
    demo.inspect(&demo.at("tag-km-015.txt"));
    let bundle = demo.at("day.slb");
    assert!(
        demo.run("inspector", &["bundle", "write", "--out", bundle.to_str().unwrap()], "").status.success()
    );
    assert!(demo.run("desk", &["bundle", "read", bundle.to_str().unwrap()], "").status.success());
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    let mut faults = Vec::new();
    let pages = [
        ("/", "The zone"),
        ("/?state=fit&sort=board.load", "The zone"),
        ("/load/KM-014", "Load KM-014"),
        ("/plan", "Plan and print"),
        ("/rigging", "Rigging"),
        ("/receive", "Receive"),
        ("/deficiencies", "Deficiencies"),
        // By name: who runs out first is a matter of seconds in the demo.
        ("/people?sort=people.name", "People"),
        ("/equipment", "Equipment"),
        ("/manifest", "Manifest of"),
        ("/close", "Closing"),
        ("/procedures", "Procedures"),
        ("/class", "The class"),
        ("/export", "Export"),
        ("/search?q=KM", "Search"),
        ("/search?q=fit", "Search"),
        ("/search?sort=records.load.down", "Every record"),
        ("/weeks?from=2026-01-05&until=2026-02-01", "By week"),
        ("/act/issue", "Issue a credential"),
        ("/act/revoke", "Revoke a credential"),
        ("/act/approve", "Approve a procedure"),
        ("/act/withdraw", "Withdraw an approval"),
        ("/act/distrust", "Trust an authority no longer"),
        ("/job", "Work"),
        ("/nothing", "That did not work"),
    ];
    for theme in ["light", "dark"] {
        let media = json!({ "features": [{ "name": "prefers-color-scheme", "value": theme }] });
        browser.call("Emulation.setEmulatedMedia", &media);
        for width in WIDTHS {
            let size = json!({ "width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false });
            browser.call("Emulation.setDeviceMetricsOverride", &size);
            for (path, heading) in pages {
                browser.open(&format!("{}{path}", served.base), heading);
                let wide = browser.js("document.documentElement.scrollWidth").as_u64().unwrap();
                if wide > u64::from(width) {
                    faults.push(format!("{path} at {width}: {wide} px wide"));
                }
                let tall = browser.js("document.querySelector('.places').offsetHeight").as_u64().unwrap();
                // One row, drawn sideways where the window is narrow.
                if tall > 75 {
                    faults.push(format!("{path} at {width}: the navigation is {tall} px high"));
                }
                // What is written in a drawing is not cut by the window's edge.
                let outside = browser.js(
                    "[...document.querySelectorAll('main svg text')].map(text => text.getBoundingClientRect()) \
                     .filter(box => box.left < 0 || box.right > innerWidth || box.height < 11).length",
                );
                if outside != json!(0) {
                    faults.push(format!("{path} at {width}: {outside} words of a drawing cut or too small"));
                }
                // A column of one word is no column.
                let narrow = browser.js(
                    "[...document.querySelectorAll('td')].filter(cell => cell.innerText.trim().length > 24 \
                     && cell.getBoundingClientRect().width < 80 && cell.getClientRects().length).length",
                );
                if narrow != json!(0) {
                    faults.push(format!("{path} at {width}: {narrow} cells of one word a line"));
                }
                let found = violations(&mut browser, &axe);
                faults.extend(found.iter().map(|one| format!("{path} at {width}, {theme}: {one}")));
                let name = path.replace(['/', '?', '='], "_");
                picture(&mut browser, &format!("{name}-{width}-{theme}"));
            }
        }
    }
    // On a laptop every place is to be seen without a hand, in each language.
    drop(browser);
    drop(served);
    for language in ["en", "es"] {
        let served = Served::in_language(&demo, language);
        let mut browser = served.browser(&[]);
        let size = json!({ "width": 1280, "height": 844, "deviceScaleFactor": 1, "mobile": false });
        browser.call("Emulation.setDeviceMetricsOverride", &size);
        let hidden = browser.js(
            "[...document.querySelectorAll('.places a')].filter(a => a.getBoundingClientRect().right > innerWidth).length",
        );
        if hidden != json!(0) {
            faults.push(format!("{language}: {hidden} places stand outside a laptop's window"));
        }
        let told = browser.js("document.documentElement.lang");
        assert_eq!(told, json!(language));
        let mut read = String::new();
        for (number, (path, _)) in pages.iter().enumerate() {
            for width in WIDTHS {
                let size = json!({ "width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false });
                browser.call("Emulation.setDeviceMetricsOverride", &size);
                browser.open(&format!("{}{path}", served.base), "");
                let wide = browser.js("document.documentElement.scrollWidth").as_u64().unwrap();
                if wide > u64::from(width) {
                    faults.push(format!("{language}: {path} at {width}: {wide} px wide"));
                }
                picture(&mut browser, &format!("{language}-{number:02}-{width}"));
            }
            let said = browser.js("document.querySelector('main').innerText");
            read.push_str(&format!("== {path}\n{}\n\n", lasting(said.as_str().unwrap())));
        }
        is_kept(language, &read);
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);

    // A state is found by its word; what is wrong with a form is told at its field.
    browser.open(&format!("{}/search?q=fit", served.base), "Search");
    browser.until("!!document.querySelector('main a[href=\"/load/KM-014\"]')");
    browser.open(&format!("{}/plan", served.base), "Plan and print");
    assert_eq!(
        browser.js("document.querySelector(\"form[action='/plan'] select\").value"),
        "",
        "nothing is chosen for anybody"
    );
    browser.js(
        "for (const [name, value] of Object.entries({load: 'KM-056', description: 'x', gross: 'many', aircraft: 'Heron M2', \
         allowable: '7000 lb', pickup: 'A', destination: 'B', procedure: 'bag'})) \
         document.querySelector(`form[action='/plan'] [name=${name}]`).value = value; \
         document.querySelector(\"form[action='/plan'] button\").click(); true",
    );
    browser.until("document.querySelector('[name=gross]')?.getAttribute('aria-invalid') === 'true'");
    let told = browser.js("document.querySelector('.fault').innerText");
    assert!(told.as_str().unwrap().contains("Gross weight: "), "{told}");
    assert_eq!(browser.js("document.querySelectorAll('[aria-invalid]').length"), 1);
}
