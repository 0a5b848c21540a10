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

#[test]
fn a_load_is_rigged_level_by_keyboard_alone() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = Browser::start(&[]);
    browser.go(&served.link);
    browser.until("location.pathname === '/'");
    browser.open(&format!("{}/rigging", served.base), "Rigging");
    browser.until("document.querySelector('#hangs figure.rigging svg') !== null");

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
