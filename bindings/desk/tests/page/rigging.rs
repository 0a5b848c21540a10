//! The rigging editor with the keyboard alone: a field, a point, a link, level, and what is wrong.

use serde_json::{Value, json};

use crate::browser::Browser;
use crate::{Demo, Served};

fn key(browser: &mut Browser, name: &str, code: u32, modifiers: u32) {
    for kind in ["rawKeyDown", "keyUp"] {
        let event = json!({ "type": kind, "key": name, "code": name, "windowsVirtualKeyCode": code, "modifiers": modifiers });
        browser.call("Input.dispatchKeyEvent", &event);
    }
}

fn enter(browser: &mut Browser) {
    let down = json!({ "type": "keyDown", "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13, "text": "\r" });
    browser.call("Input.dispatchKeyEvent", &down);
    let up = json!({ "type": "keyUp", "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13 });
    browser.call("Input.dispatchKeyEvent", &up);
}

/// Goes on by the tabulator until what has the focus is wanted.
fn tab_to(browser: &mut Browser, wanted: &str) {
    for _ in 0..400 {
        key(browser, "Tab", 9, 0);
        if browser.js(&format!("document.activeElement?.matches({}) ?? false", json!(wanted))) == json!(true)
        {
            return;
        }
    }
    panic!("no tabulator reaches {wanted}");
}

fn value(browser: &mut Browser, field: &str) -> Value {
    browser.js(&format!("document.getElementById('rig').elements[{}].value", json!(field)))
}

/// A browser that shows the editor with its example drawn.
fn editor(served: &Served) -> Browser {
    let mut browser = served.browser(&[]);
    browser.open(&format!("{}/rigging", served.base), "Rigging");
    browser.until("document.querySelector('#hangs figure.rigging svg') !== null");
    browser
}

#[test]
fn a_load_is_rigged_level_by_keyboard_alone() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = editor(&served);

    // A link more by plus: the drawing and the words are the desk's, and the button keeps the focus.
    let before = browser.js("document.querySelector('#hangs h2').innerText");
    tab_to(&mut browser, "button[value='more.0']");
    for _ in 0..6 {
        let seated = value(&mut browser, "leg.0.seated").as_str().unwrap().parse::<u32>().unwrap();
        enter(&mut browser);
        browser.until(&format!(
            "document.getElementById('rig').elements['leg.0.seated'].value === '{}'",
            seated + 1
        ));
    }
    browser.until(&format!("document.querySelector('#hangs h2').innerText !== {before}"));
    assert_eq!(browser.js("document.activeElement.value"), "more.0");
    assert_eq!(browser.js("document.querySelector('.links output').innerText"), "Link 9");

    // A point by arrow keys; it keeps the focus while the drawing is made anew.
    let centre = value(&mut browser, "centre.x");
    tab_to(&mut browser, "#at-top-centre");
    key(&mut browser, "ArrowRight", 39, 0);
    browser.until(&format!("document.getElementById('rig').elements['centre.x'].value !== {centre}"));
    key(&mut browser, "ArrowUp", 38, 8);
    browser.until("document.getElementById('rig').elements['centre.y'].value === '10.5 in'");
    browser.until("document.activeElement?.id === 'at-top-centre'");
    let said = browser.js("document.activeElement.getAttribute('aria-label')");
    assert!(said.as_str().unwrap().contains("10.5 in"), "{said}");

    // What is wrong is told, and its field is marked.
    tab_to(&mut browser, "[name='mass']");
    browser.call("Input.insertText", &json!({ "text": "heavy" }));
    enter(&mut browser);
    browser.until("document.querySelector('#hangs .fault') !== null");
    assert_eq!(
        browser.js("document.getElementById('rig').elements.mass.getAttribute('aria-invalid')"),
        "true"
    );
    browser.js("document.getElementById('rig').elements.mass.select(); true");
    browser.call("Input.insertText", &json!({ "text": "5000 lb" }));
    enter(&mut browser);
    browser.until("document.querySelector('#hangs .fault') === null");

    // Level, found by the desk.
    tab_to(&mut browser, "button[value='level']");
    enter(&mut browser);
    browser.until("document.querySelector('#hangs .note')?.innerText.includes('Wanted: level')");
    browser.until("document.querySelector('#hangs h2').innerText.startsWith('WITHIN LIMITS') || document.querySelector('#hangs h2').innerText.startsWith('AT REST ONLY')");
    let links = value(&mut browser, "leg.0.seated");
    assert_ne!(links, "9");

    // Out as a file, and in again.
    let file = browser.js(
        "fetch('/rigging/file', {method: 'POST', body: new URLSearchParams(new FormData(document.getElementById('rig')))}).then(r => r.text())",
    );
    assert!(file.as_str().unwrap().contains(&format!("seated = {}", links.as_str().unwrap())), "{file}");
    browser.js(&format!(
        "document.getElementById('toml').value = {}; document.querySelector(\"form[action='/rigging/open'] button\").click(); true",
        json!(file.as_str().unwrap().replace("5000 lb", "4321 lb"))
    ));
    browser.until("document.getElementById('rig')?.elements.mass.value === '4321 lb'");

    // Nothing leaves the window at any width.
    for width in [390, 768, 1280] {
        let size = json!({ "width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false });
        browser.call("Emulation.setDeviceMetricsOverride", &size);
        let wide = browser.js("document.documentElement.scrollWidth").as_u64().unwrap();
        assert!(wide <= width, "{wide} px wide at {width}");
    }
}

fn mouse(browser: &mut Browser, kind: &str, (x, y): (f64, f64)) {
    let pressed = u32::from(kind != "mouseReleased");
    let event =
        json!({ "type": kind, "x": x, "y": y, "button": "left", "buttons": pressed, "clickCount": 1 });
    browser.call("Input.dispatchMouseEvent", &event);
}

/// Where the middle of a handle is in the window.
fn middle(browser: &mut Browser, handle: &str) -> (f64, f64) {
    let place = browser.js(&format!(
        "(() => {{ const at = document.getElementById({0}); at.scrollIntoView({{ block: 'center' }}); \
         const box = at.querySelector('circle').getBoundingClientRect(); \
         return [box.x + box.width / 2, box.y + box.height / 2]; }})()",
        json!(handle)
    ));
    (place[0].as_f64().unwrap(), place[1].as_f64().unwrap())
}

/// Presses on a handle, drags it by so many pixels in three steps, lets go.
fn drag(browser: &mut Browser, handle: &str, (right, down): (f64, f64)) {
    let (x, y) = middle(browser, handle);
    mouse(browser, "mousePressed", (x, y));
    for step in 1..=3 {
        let share = f64::from(step) / 3.0;
        mouse(browser, "mouseMoved", (x + right * share, y + down * share));
    }
    mouse(browser, "mouseReleased", (x + right, y + down));
}

fn inches(value: &Value) -> f64 {
    value.as_str().unwrap().strip_suffix(" in").unwrap().parse().unwrap()
}

/// A centre and a lift point that are really dragged: the field follows by as much as the plan's scale says, and what is drawn and
/// told with it.
#[test]
fn centre_and_lift_points_are_dragged() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = editor(&served);
    for (handle, field, (right, down), across) in [
        ("at-top-centre", "centre", (40.0, 0.0), "x"),
        ("at-top-leg.0", "leg.0", (0.0, 30.0), "y"),
        ("at-side-leg.3", "leg.3", (0.0, -25.0), "z"),
        ("at-side-centre", "centre", (0.0, 20.0), "z"),
    ] {
        // The inches of a pixel: metres by the plan's scale, its pixels by those of the window.
        let share = browser.js(&format!(
            "(() => {{ const svg = document.getElementById({}).closest('svg'); \
             return svg.viewBox.baseVal.width / svg.getBoundingClientRect().width / Number(svg.dataset.scale) / 0.0254; }})()",
            json!(handle)
        ));
        let share = share.as_f64().unwrap();
        let name = format!("{field}.{across}");
        let (before, told) =
            (value(&mut browser, &name), browser.js("document.querySelector('#hangs p').innerText"));
        drag(&mut browser, handle, (right, down));
        browser
            .until(&format!("document.getElementById('rig').elements[{}].value !== {before}", json!(name)));
        let moved = inches(&value(&mut browser, &name)) - inches(&before);
        let wanted = if across == "x" { right } else { -down } * share;
        assert!((moved - wanted).abs() <= 0.02 + share, "{handle}: {moved} in, wanted {wanted}");
        browser.until(&format!("document.querySelector('#hangs p').innerText !== {told}"));
    }
}

/// A load weighed on the page by keyboard alone: scales are entered, what they give is taken over, and what is wrong is marked.
#[test]
fn a_load_is_weighed_by_keyboard_alone() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = editor(&served);
    tab_to(&mut browser, "#weighing > summary");
    enter(&mut browser);
    browser.until("document.getElementById('weighing').open");
    for at in 0..4 {
        tab_to(&mut browser, "button[value='scale']");
        enter(&mut browser);
        browser
            .until(&format!("document.getElementById('rig')?.elements['weighed.{at}.reads'] !== undefined"));
        browser.until("document.querySelector('#hangs figure.rigging svg') !== null");
    }
    // Two axles 100 in apart, 3000 lb on the front one: 60 in forward of the rear.
    let scales = [("100", "30", "1500"), ("100", "-30", "1500"), ("0", "30", "1000"), ("0", "-30", "1000")];
    for (at, (x, y, reads)) in scales.iter().enumerate() {
        for (name, text) in [
            ("x", format!("{x} in")),
            ("y", format!("{y} in")),
            ("z", "15 in".into()),
            ("reads", format!("{reads} lb")),
            ("tolerance", "5 lb".into()),
        ] {
            tab_to(&mut browser, &format!("[name='weighed.{at}.{name}']"));
            browser.call("Input.insertText", &json!({ "text": text }));
        }
    }
    let weigh = |browser: &mut Browser| {
        tab_to(browser, "button[value='weigh']");
        enter(browser);
    };
    // Without a height there is no centre of gravity: told, and marked.
    weigh(&mut browser);
    browser.until("document.querySelector('#hangs .fault')?.innerText.includes('height')");
    tab_to(&mut browser, "[name='height']");
    browser.call("Input.insertText", &json!({ "text": "30 in" }));
    weigh(&mut browser);
    browser.until("document.querySelector('#hangs .note')?.innerText.includes('The load weighs 5000 lb')");
    assert_eq!(value(&mut browser, "mass"), "5000 lb");
    assert_eq!(
        ["x", "y", "z"].map(|axis| value(&mut browser, &format!("centre.{axis}"))),
        ["60 in", "0 in", "30 in"]
    );
    let note = browser.js("document.querySelector('#hangs .note').innerText");
    assert!(note.as_str().unwrap().contains("4980 lb to 5020 lb"), "{note}");
    browser.until("document.querySelector('#hangs figure.rigging svg') !== null");
}
