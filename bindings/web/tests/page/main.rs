//! The page in a real browser, from a file and without a network: the demo's photographs and camera, a page past its day, attack
//! vectors, every screen in three sizes and three palettes; and that nothing is asked of any network, by the browser's own log.
//! `tests/web/run` builds what is wanted here and says where: `DEMO`.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a test fails by panicking, and measures"
)]

#[path = "../../../desk/tests/page/browser.rs"]
mod browser;
#[allow(dead_code, reason = "each test asks for a part of it")]
#[path = "../support/cast.rs"]
mod cast;
#[allow(dead_code, reason = "each test asks for a part of it")]
#[path = "../support/mod.rs"]
mod support;

mod look;
mod report;

use std::path::{Path, PathBuf};

use browser::Browser;
use cast::{Cast, at, base64};
use serde_json::{Value, json};
use slingseal_qr::write;
use support::{now, read};

/// Nothing of the browser's own goes out either, and no name is found.
const QUIET: &[&str] = &[
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--no-pings",
    "--host-resolver-rules=MAP * ~NOTFOUND",
    "--autoplay-policy=no-user-gesture-required",
];

fn demo(name: &str) -> PathBuf {
    let folder = std::env::var("DEMO").expect("DEMO names the demo's folder; run tests/web/run");
    Path::new(&folder).join(name)
}

fn web(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/web").join(name)
}

/// A page with contents, in a file.
fn page(folder: &Path, contents: &[u8]) -> PathBuf {
    let shell = std::fs::read_to_string(web("check.html")).expect("bindings/web/build makes it");
    let filled = shell.replacen("id=\"contents\"><", &format!("id=\"contents\">{}<", base64(contents)), 1);
    let file = folder.join("hook.html");
    std::fs::write(&file, filled).expect("a file");
    file
}

fn url(file: &Path) -> String {
    format!("file://{}", file.canonicalize().expect("it is there").display())
}

/// Opens a page and waits until it may be begun.
fn opened(browser: &mut Browser, file: &Path) {
    browser.go(&url(file));
    browser.until("document.getElementById('begin')?.disabled === false");
}

fn begun(browser: &mut Browser, file: &Path) {
    opened(browser, file);
    browser.js("document.getElementById('begin').click()");
    browser.until("!document.getElementById('scan').hidden");
}

/// Chooses photographs, one after the other; the verdict's word and line.
fn photographed(browser: &mut Browser, pictures: &[PathBuf]) -> (String, String) {
    for picture in pictures {
        let before = browser
            .js("state.shown.length + state.taken.length + document.querySelectorAll('#taken li').length");
        browser.choose("#photo", picture);
        browser.until(&format!(
            "state.shown.length + state.taken.length + document.querySelectorAll('#taken li').length > {before}"
        ));
    }
    // Seal and tag end the scan by themselves.
    browser.js("if (!state.verdict && !(has('SL') && has('LT')) && !has('XK') && !has('XR')) judge()");
    verdict(browser)
}

fn verdict(browser: &mut Browser) -> (String, String) {
    browser.until("!document.getElementById('verdict').hidden && state.verdict !== null");
    let text = |browser: &mut Browser, id: &str| {
        browser.js(&format!("document.getElementById('{id}').textContent")).as_str().expect("text").to_owned()
    };
    (text(browser, "word"), text(browser, "first"))
}

fn next(browser: &mut Browser) {
    browser.js("document.getElementById('next').click()");
    browser.until("!document.getElementById('scan').hidden && state.verdict === null");
}

/// A photograph of a text's code.
fn code(folder: &Path, name: &str, text: &str) -> Option<PathBuf> {
    let file = folder.join(format!("{name}.png"));
    std::fs::write(&file, write(text).ok()?.to_png(6, 4)).expect("a file");
    Some(file)
}

#[test]
fn the_demos_photographs_get_their_verdicts() {
    let mut browser = Browser::start(QUIET);
    opened(&mut browser, &demo("hook.html"));
    let story = std::fs::read_to_string(web("demo.txt")).expect("the demo's story");
    let thumbprint = browser
        .js("[...document.querySelectorAll('#thumbprint span')].map(one => one.textContent).join(' ')");
    assert!(
        story.contains(thumbprint.as_str().expect("groups")),
        "{thumbprint} is not what the leader was told: {story}"
    );
    browser.js("document.getElementById('begin').click()");
    browser.until("!document.getElementById('scan').hidden");
    let (seal, tag, other) = (demo("seal-km-014.png"), demo("tag-km-014.png"), demo("tag-km-015.png"));
    let cases = [
        (vec![seal.clone(), tag.clone()], "GO", "KM-014"),
        (vec![demo("forged.png"), tag.clone()], "NO-GO", "forged"),
        (vec![demo("stranger.png"), tag], "NO-GO", "does not trust"),
        (vec![seal, other], "NO-GO", "KM-015"),
    ];
    for (pictures, word, line) in cases {
        let found = photographed(&mut browser, &pictures);
        assert!(found.0 == word && found.1.contains(line), "{pictures:?}: {found:?}");
        next(&mut browser);
    }
}

/// A camera that sees seal and tag in turn, a second each.
#[test]
fn the_camera_reads_seal_and_tag() {
    let folder = tempfile::tempdir().expect("a folder");
    let film = folder.path().join("film.y4m");
    let texts = ["seal-km-014.txt", "tag-km-014.txt"]
        .map(|name| std::fs::read_to_string(demo(name)).expect("the demo's text").trim().to_owned());
    std::fs::write(&film, look::film(&texts)).expect("a film");
    let capture = format!("--use-file-for-fake-video-capture={}", film.display());
    let more = ["--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", &capture];
    let mut browser = Browser::start(&[QUIET, &more[..]].concat());
    begun(&mut browser, &demo("hook.html"));
    let found = verdict(&mut browser);
    assert_eq!(found.0, "GO", "{found:?}");
    // How long a frame takes: of a scene in which a code stands, with nothing accepted, so that it does not end.
    browser.js("took = async () => {}; clear(); show('scan')");
    browser.until("state.looked > 60");
    let mut took: Vec<f64> = serde_json::from_value(browser.js("state.took")).expect("numbers");
    took.sort_by(f64::total_cmp);
    println!(
        "RESULT frames at 1280 x 720: {} frames, median {:.1} ms, 95th percentile {:.1} ms",
        took.len(),
        took[took.len() / 2],
        took[took.len() * 95 / 100]
    );
    println!("RESULT page: {} bytes", std::fs::metadata(demo("hook.html")).expect("it is there").len());
}

/// Pages that tests sign stand at another time than the machine's clock.
fn set_clock(browser: &mut Browser, unix: i64) {
    let source = format!("Date.now = () => {unix}000");
    browser.call("Page.addScriptToEvaluateOnNewDocument", &json!({ "source": source }));
}

#[test]
fn a_page_past_its_day_says_wait_and_a_torn_one_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let cast = Cast::new();
    let seal = code(folder.path(), "seal", &cast.seal(at(-600), true)).expect("a code");
    let tag = code(folder.path(), "tag", &cast.tag()).expect("a code");
    for (hours, word, line) in [(24, "GO", "KM-014"), (1, "WAIT", "new file")] {
        let mut browser = Browser::start(QUIET);
        set_clock(&mut browser, at(0).unix());
        let file = page(folder.path(), &cast.page(at(-7_200), hours, &[]));
        begun(&mut browser, &file);
        let found = photographed(&mut browser, &[seal.clone(), tag.clone()]);
        assert!(found.0 == word && found.1.contains(line), "{hours} h: {found:?}");
    }
    // A refusal that is scanned is remembered for the next load that is checked.
    let mut browser = Browser::start(QUIET);
    set_clock(&mut browser, at(0).unix());
    begun(&mut browser, &page(folder.path(), &cast.page(at(-7_200), 24, &[])));
    let void = code(folder.path(), "void", &cast.void(at(-30))).expect("a code");
    browser.choose("#photo", &void);
    browser.until("document.querySelector('#taken li')?.textContent.includes('Thistle 7')");
    assert_eq!(photographed(&mut browser, &[seal, tag]).0, "NO-GO");
    let mut torn = cast.page(at(-7_200), 24, &[]);
    let last = torn.len() - 1;
    torn[last] ^= 1;
    browser.go(&url(&page(folder.path(), &torn)));
    browser.until("document.getElementById('trouble')?.textContent.length > 20");
    assert_eq!(browser.js("document.getElementById('begin').disabled"), json!(true));
}

/// Attacks as photographs: the page says what is frozen.
#[test]
fn attack_vectors_get_their_verdicts() {
    const WANTED: usize = 40;
    let folder = tempfile::tempdir().expect("a folder");
    let mut browser = Browser::start(QUIET);
    let cast = Cast::new();
    set_clock(&mut browser, at(0).unix());
    begun(&mut browser, &page(folder.path(), &cast.page(at(-7_200), 24, &[])));
    let (mut shown, mut wrong) = (0, Vec::new());
    for (name, vector) in read("invalid") {
        let Some(expected) = vector.expect.verdict.clone() else { continue };
        let pictures: Option<Vec<PathBuf>> = [("seal", &vector.seal), ("tag", &vector.tag)]
            .into_iter()
            .filter_map(|(kind, text)| text.as_ref().map(|text| code(folder.path(), kind, text)))
            .collect();
        // A text that fits no code cannot be photographed; a damaged one is passed over by the reader.
        let Some(pictures) = pictures else { continue };
        let texts: Vec<&String> = vector.seal.iter().chain(&vector.tag).collect();
        if texts.iter().any(|text| !slingseal_judgement::plausible(text)) || vector.seal.is_none() {
            continue;
        }
        let call = support::calls(&vector)[0].clone();
        browser.js(&format!(
            "Date.now = () => {}000; ask('call', {{ call: {call} }}).then(() => true, (error) => String(error))",
            now(&vector)
        ));
        let found = photographed(&mut browser, &pictures);
        let codes = browser.js("state.verdict.reasons.map((one) => one.code)");
        let expected = if expected == "HOLD" { "WAIT".to_owned() } else { expected };
        if found.0 != expected || codes != json!(vector.expect.reasons) {
            wrong
                .push(format!("{name}: {found:?} {codes}, frozen is {expected} {:?}", vector.expect.reasons));
        }
        next(&mut browser);
        shown += 1;
        if shown == WANTED {
            break;
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(shown, WANTED);
}

/// Every screen at three sizes and in three palettes: nothing is wider than the screen, every text has 7:1 (WCAG 2.2 AAA), also
/// with letters of twice the size; keys are for gloves. The pictures lie in target/web/screens.
#[test]
fn every_screen_fits_and_reads() {
    let folder = tempfile::tempdir().expect("a folder");
    let screens = web("screens");
    std::fs::create_dir_all(&screens).expect("a folder");
    let cast = Cast::new();
    let mut browser = Browser::start(QUIET);
    set_clock(&mut browser, at(0).unix());
    let file = page(folder.path(), &cast.page(at(-7_200), 24, &[]));
    let seals = [
        ("go", vec![cast.seal(at(-600), true), cast.tag()]),
        ("wait", vec![cast.seal(at(900), true), cast.tag()]),
        ("no-go", vec![cast.seal(at(-60), false), cast.tag()]),
    ];
    for (width, height) in [(390, 844), (768, 1024), (1280, 800)] {
        let size =
            json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 1000 });
        browser.call("Emulation.setDeviceMetricsOverride", &size);
        opened(&mut browser, &file);
        for palette in ["day", "sun", "night"] {
            browser.js(&format!(
                "state.palette = '{palette}'; state.language = '{}'; dress(); show('start')",
                if palette == "sun" { "es" } else { "en" }
            ));
            let name = |screen: &str| screens.join(format!("{screen}-{palette}-{width}.png"));
            look::fits(&mut browser, &name("start"));
            browser.js("show('refused')");
            look::fits(&mut browser, &name("refused"));
            browser.js("show('scan'); state.shown = ['SL1:']; wanted(); told(filled(words().roster, { authority: 'Sela Relief', sequence: 4, revoked: 2 }))");
            browser.until("document.getElementById('eye-says').textContent.includes('.')");
            look::fits(&mut browser, &name("scan"));
            browser.js("clear()");
            for (screen, texts) in &seals {
                // Each anew: a refusal that was kept would answer for the next.
                browser.js("ask('begin', { bytes: bytesOf(at('contents').textContent.trim()) })");
                browser.js(&format!("state.verdict = null; state.shown = {}; judge()", json!(texts)));
                let found = verdict(&mut browser);
                assert_eq!(found.0.to_lowercase(), *screen, "{found:?}");
                look::fits(&mut browser, &name(screen));
                if *screen == "go" {
                    browser.js("document.querySelector('[data-event=refused]').click()");
                    look::fits(&mut browser, &name("why-not"));
                    browser.js("document.querySelectorAll('#causes .key')[1].click()");
                    browser.until("!document.getElementById('report').hidden");
                    look::fits(&mut browser, &name("report"));
                }
                browser.js("clear(); show('start')");
            }
        }
    }
}

/// The browser's own log names no address of a network; beside it a page that asks for one, which the log must name.
#[test]
fn nothing_is_asked_of_any_network() {
    let folder = tempfile::tempdir().expect("a folder");
    let cast = Cast::new();
    let seal = code(folder.path(), "seal", &cast.seal(at(-600), true)).expect("a code");
    let tag = code(folder.path(), "tag", &cast.tag()).expect("a code");
    let asks = folder.path().join("asks.html");
    std::fs::write(&asks, "<h1>asks</h1><img src=\"http://127.0.0.1:9/asked-for\">").expect("a file");
    for asking in [false, true] {
        let log = folder.path().join(format!("net-{asking}.json"));
        let logging = format!("--log-net-log={}", log.display());
        let mut browser = Browser::start(&[QUIET, &[logging.as_str()]].concat());
        if asking {
            browser.open(&url(&asks), "asks");
        } else {
            set_clock(&mut browser, at(0).unix());
            begun(&mut browser, &page(folder.path(), &cast.page(at(-7_200), 24, &[])));
            assert_eq!(photographed(&mut browser, &[seal.clone(), tag.clone()]).0, "GO");
            // What a script of ours cannot do even if it wanted to.
            let tried =
                browser.js("fetch('http://127.0.0.1:9/by-script').then(() => 'went', () => 'refused')");
            assert_eq!(tried, json!("refused"));
        }
        browser.close();
        let urls = look::asked(&log);
        let own: Vec<&Value> =
            urls.iter().filter(|url| url.as_str().is_some_and(|url| !url.starts_with("file:"))).collect();
        if asking {
            assert!(
                own.iter().any(|url| url.as_str().is_some_and(|url| url.ends_with("/asked-for"))),
                "the log is blind: {urls:?}"
            );
        } else {
            assert!(own.is_empty(), "{own:?}");
        }
    }
}
