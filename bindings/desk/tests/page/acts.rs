//! Acts at the page, each by its form in a browser: take a seal back, issue, revoke, approve and withdraw, trust no longer, sign a
//! closing; what is wrong is marked at its field, a form that is sent twice is done once, and the terminal sees what was done.

use serde_json::{Value, json};

use crate::browser::Browser;
use crate::{Demo, PIN, Served, access};

/// The demo's authority.
const PASSPHRASE: &str = "high water at Alder Bridge";

/// Fills the form that posts to an address, and sends it.
fn send(browser: &mut Browser, action: &str, values: &[(&str, &str)]) {
    let values: Vec<Value> = values.iter().map(|(name, value)| json!([name, value])).collect();
    let sent = browser.js(&format!(
        "{{ const form = document.querySelector('form[action=\"{action}\"]'); \
           for (const [name, value] of {}) {{ \
             const field = form.querySelector(`[name=${{name}}][value=\"${{value}}\"][type=checkbox]`) ?? form.querySelector(`[name=${{name}}]`); \
             if (field.type === 'checkbox') field.checked = true; else field.value = value; }} \
           form.noValidate = true; form.requestSubmit(); true }}",
        json!(values)
    ));
    assert_eq!(sent, true, "{action} has a form");
}

/// What axe-core finds, and what leaves the window, at each width.
fn is_for_everybody(browser: &mut Browser, name: &str) {
    let axe = access::axe();
    for width in access::WIDTHS {
        let size = json!({ "width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false });
        browser.call("Emulation.setDeviceMetricsOverride", &size);
        assert_eq!(access::violations(browser, &axe), Vec::<String>::new(), "{name} at {width}");
        let wide = browser.js("document.documentElement.scrollWidth").as_u64().unwrap();
        assert!(wide <= u64::from(width), "{name} at {width}: {wide} px wide");
        access::picture(browser, &format!("{name}-{width}"));
    }
}

fn said(browser: &mut Browser) -> String {
    browser.js("document.querySelector('main').innerText").as_str().unwrap_or_default().to_owned()
}

#[test]
fn a_seal_is_taken_back_by_a_form_that_asks_what_before_the_pin() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    browser.open(&format!("{}/load/KM-014", served.base), "Load KM-014");
    browser.js("document.querySelector('a[href^=\"/act/void\"]').click(); true");
    browser.until("document.querySelector('h1')?.innerText === 'Take a seal back'");
    assert_eq!(browser.js("document.querySelectorAll('[type=password]').length"), 0, "who and what first");

    // The wrong field is marked, and no other.
    send(&mut browser, "/act/void", &[("cause", "other")]);
    browser.until("document.querySelector('[name=note]')?.getAttribute('aria-invalid') === 'true'");
    assert_eq!(browser.js("document.querySelectorAll('[aria-invalid]').length"), 1);
    assert!(said(&mut browser).contains("needs a note"));
    send(&mut browser, "/act/void", &[("cause", "load-moved")]);
    browser.until("!!document.querySelector('[name=pin]')");
    let told = said(&mut browser);
    assert!(told.contains("KM-014") && told.contains("Nothing is done yet"), "{told}");

    // A wrong PIN is told at its field; the load stands as it did. That page is for everybody too.
    send(&mut browser, "/act/void", &[("pin", "000000")]);
    browser.until("document.querySelector('[name=pin]')?.getAttribute('aria-invalid') === 'true'");
    is_for_everybody(&mut browser, "signing");
    let token = browser.js("document.querySelector('[name=token]').value");
    send(&mut browser, "/act/void", &[("pin", PIN)]);
    browser.until("location.pathname.startsWith('/act/done/')");
    assert!(said(&mut browser).contains("The seal of load KM-014 is taken back"));
    is_for_everybody(&mut browser, "done");
    browser.until("Array.from(document.images).every(image => image.complete && image.naturalWidth > 0)");

    // The same form again does nothing a second time, nor does one whose token somebody made up.
    for token in [token.as_str().unwrap(), "", "0123456789abcdef0123456789abcdef"] {
        let again = format!(
            "fetch('/act/void', {{method: 'POST', headers: {{'Content-Type': 'application/x-www-form-urlencoded'}}, \
             body: new URLSearchParams({{record: '{}', cause: 'load-moved', step: 'do', token: '{token}', pin: '{PIN}'}})}}).then(r => r.status)",
            record(&demo, "KM-014")
        );
        assert_eq!(browser.js(&again), 409, "{token}");
    }
    let shown = demo.run("desk", &["--json", "records", "list"], "");
    let shown = String::from_utf8(shown.stdout).unwrap();
    assert!(shown.to_lowercase().contains("voided"), "{shown}");
}

/// The record of a load, as the terminal tells it.
fn record(demo: &Demo, load: &str) -> String {
    let told = demo.run("desk", &["--json", "records", "list"], "");
    let told: Value = serde_json::from_slice(&told.stdout).unwrap();
    let lines = told["lines"].as_array().or(told.as_array()).unwrap().clone();
    let line = lines.iter().find(|line| line["load"] == load).unwrap();
    line["record"].as_str().unwrap().to_owned()
}

#[test]
fn an_authority_issues_revokes_approves_and_withdraws_at_its_page() {
    let demo = Demo::new();
    // Somebody asks for a credential on a device of their own.
    let asked = demo.run("newcomer", &["--json", "key", "request", "--holder", "Heron 9"], "");
    let asked = String::from_utf8(asked.stdout).unwrap();
    let request = asked.split('"').find(|part| part.starts_with("KR1:")).expect("a key request").to_owned();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);

    // Issue: each wrong field is marked by itself, what was entered stays, and the passphrase comes last.
    browser.open(&format!("{}/act/issue", served.base), "Issue a credential");
    let whole = [("request", request.as_str()), ("roles", "inspector"), ("expires", "2099-01-01")];
    for (wrong, field) in [
        ([("request", "SL1:NOTHING"), ("roles", "inspector"), ("expires", "2099-01-01")], "request"),
        ([("request", request.as_str()), ("note", ""), ("expires", "2099-01-01")], "roles"),
        ([("request", request.as_str()), ("roles", "inspector"), ("expires", "2001-01-01")], "expires"),
    ] {
        browser.open(&format!("{}/act/issue", served.base), "Issue a credential");
        let values: Vec<_> = wrong.into_iter().filter(|(name, _)| *name != "note").collect();
        send(&mut browser, "/act/issue", &values);
        browser.until(&format!("document.querySelector('[aria-invalid]')?.name === '{field}'"));
        let all =
            browser.js("[...new Set([...document.querySelectorAll('[aria-invalid]')].map(one => one.name))]");
        assert_eq!(all, json!([field]));
        assert_eq!(browser.js("document.querySelectorAll('[type=password]').length"), 0);
    }
    browser.open(&format!("{}/act/issue", served.base), "Issue a credential");
    send(&mut browser, "/act/issue", &whole);
    browser.until("!!document.querySelector('[name=pin]')");
    let told = said(&mut browser);
    assert!(told.contains("Heron 9") && told.to_lowercase().contains("inspector"), "{told}");
    send(&mut browser, "/act/issue", &[("pin", "wrong passphrase altogether")]);
    browser.until("document.querySelector('[name=pin]')?.getAttribute('aria-invalid') === 'true'");
    send(&mut browser, "/act/issue", &[("pin", PASSPHRASE)]);
    browser.until("location.pathname.startsWith('/act/done/')");
    let credential = browser.js("document.querySelector('.digest').textContent");
    assert!(credential.as_str().unwrap().starts_with("CR1:"), "{credential}");
    let listed = demo.run("desk", &["authority", "list"], "");
    assert!(String::from_utf8_lossy(&listed.stdout).contains("Heron 9"));

    // Revoke: found on the people's page, said whom before the passphrase.
    browser.open(&format!("{}/people", served.base), "People");
    browser.js("[...document.querySelectorAll('a[href^=\"/act/revoke\"]')].find(one => one.ariaLabel.includes('Heron 9')).click(); true");
    browser.until("document.querySelector('h1')?.innerText === 'Revoke a credential'");
    send(&mut browser, "/act/revoke", &[("days", "14")]);
    browser.until("!!document.querySelector('[name=pin]')");
    assert!(said(&mut browser).contains("Heron 9"));
    send(&mut browser, "/act/revoke", &[("pin", PASSPHRASE)]);
    browser.until("location.pathname.startsWith('/act/done/')");
    let roster = demo.run("desk", &["--json", "authority", "list"], "");
    let roster: Value = serde_json::from_slice(&roster.stdout).unwrap();
    let one =
        roster["issued"].as_array().unwrap().iter().find(|one| one["holder"] == "Heron 9").unwrap().clone();
    assert!(!one["key_revoked"].is_null(), "{one}");

    // Withdraw an edition, and approve it again; a text of one's own is approved by its file, and its faults are told.
    browser.open(&format!("{}/act/withdraw", served.base), "Withdraw an approval");
    let edition = browser.js("document.querySelector('[name=which] option[value^=\"bag@\"]').value");
    let edition = edition.as_str().unwrap().to_owned();
    send(&mut browser, "/act/withdraw", &[("which", &edition)]);
    browser.until("!!document.querySelector('[name=pin]')");
    send(&mut browser, "/act/withdraw", &[("pin", PASSPHRASE)]);
    browser.until("location.pathname.startsWith('/act/done/')");
    browser.open(&format!("{}/act/approve", served.base), "Approve a procedure");
    send(&mut browser, "/act/approve", &[("text", "id = nothing")]);
    browser.until("document.querySelector('[name=text]')?.getAttribute('aria-invalid') === 'true'");
    browser.open(&format!("{}/act/approve", served.base), "Approve a procedure");
    send(&mut browser, "/act/approve", &[("which", "bag")]);
    browser.until("!!document.querySelector('[name=pin]')");
    assert!(said(&mut browser).contains(&edition));
    send(&mut browser, "/act/approve", &[("pin", PASSPHRASE)]);
    browser.until("location.pathname.startsWith('/act/done/')");

    // Trust no longer: nothing is signed, and what a home is itself it cannot cease to trust.
    browser.open(&format!("{}/act/distrust", served.base), "Trust an authority no longer");
    browser.js("{ const list = document.querySelector('[name=which]'); list.selectedIndex = 1; true }");
    send(&mut browser, "/act/distrust", &[]);
    browser.until("document.querySelector('[name=which]')?.getAttribute('aria-invalid') === 'true'");
    assert!(demo.run("inspector", &["key", "show"], "").status.code().is_some());
}

/// An inspector's home trusts whom it was told to, until somebody says otherwise at its page.
#[test]
fn trust_is_taken_away_without_a_signature() {
    let demo = Demo::new();
    let mut child = demo
        .command("inspector", &["--language", "en", "serve", "--port", "0"])
        .stdout(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    use std::io::{BufRead, BufReader};
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(|line| line.unwrap());
    let link = lines.find(|line| line.trim().starts_with("http://")).expect("a link").trim().to_owned();
    let base = link.split("/open").next().unwrap().to_owned();
    let served = Served { child, link, base };
    let mut browser = served.browser(&[]);
    browser.open(&format!("{}/people", served.base), "People");
    browser.js("document.querySelector('a[href^=\"/act/distrust\"]').click(); true");
    browser.until("document.querySelector('h1')?.innerText === 'Trust an authority no longer'");
    send(&mut browser, "/act/distrust", &[]);
    browser.until("!!document.querySelector('[name=token]')");
    let told = said(&mut browser);
    assert!(told.contains("Sela Relief") && told.contains("Nothing is signed"), "{told}");
    assert_eq!(browser.js("document.querySelectorAll('[type=password]').length"), 0);
    send(&mut browser, "/act/distrust", &[]);
    browser.until("location.pathname.startsWith('/act/done/')");
    assert!(said(&mut browser).contains("Sela Relief is trusted no longer"));
    let standing = demo.run("inspector", &["--json", "key", "show"], "");
    let standing = String::from_utf8_lossy(&standing.stdout).into_owned();
    assert!(!standing.contains("Sela Relief"), "{standing}");
}

/// A load with a rigging file: its picture before anything is made, its faults at its field, and a tag that carries it.
#[test]
fn a_plan_takes_a_rigging_file_and_shows_how_it_hangs() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    let rigging = include_str!("../../demo/vehicle-rigging.toml");
    let plan = format!("{}/plan", served.base);
    browser.open(&plan, "Plan and print");
    let look = |browser: &mut Browser, text: &str| {
        browser.js(&format!(
            "document.querySelector('#rigging').value = {}; document.querySelector('[formaction=\"/plan/rigging\"]').click(); true",
            json!(text)
        ));
    };
    look(&mut browser, "nothing = 1");
    browser.until("document.querySelector('#rigging')?.getAttribute('aria-invalid') === 'true'");
    look(&mut browser, rigging);
    browser.until("!!document.querySelector('figure.rigging svg')");
    assert_eq!(browser.js("document.querySelector('#rigging').value.trim()"), rigging.trim());
    assert_eq!(browser.js("location.pathname"), "/plan/rigging");
    is_for_everybody(&mut browser, "plan-rigging");

    // Nothing was made yet. With the rest of the plan the tag carries what hangs, and the load's page draws it.
    browser.js(
        "for (const [name, value] of Object.entries({load: 'KM-077', description: 'Light vehicle', gross: '5000 lb', aircraft: 'Heron M2', \
         allowable: '7000 lb', pickup: 'Kestrel Meadow', destination: 'Alder Bridge', procedure: 'vehicle', links: '1:3; 2:3; 3:3; 4:3'})) \
         document.querySelector(`form[action='/plan'] [name=${name}]`).value = value; \
         document.querySelector(\"form[action='/plan'] button\").click(); true",
    );
    browser.until("location.pathname === '/plan/made' || !!document.querySelector('.fault')");
    assert!(
        browser.js("document.querySelector('.fault')?.innerText ?? ''").as_str().unwrap().is_empty(),
        "{}",
        said(&mut browser)
    );
    // A wrong PIN is told at its field, and all that was entered stays.
    browser.open(&plan, "Plan and print");
    browser.js(
        "for (const [name, value] of Object.entries({load: 'KM-078', description: 'x', gross: '1800 lb', aircraft: 'Heron M2', \
         allowable: '7000 lb', pickup: 'A', destination: 'B', procedure: 'bag', links: '1:3', equipment: 'bag | CB-55 | 5000 lb | data plate', \
         pin: '000000'})) \
         document.querySelector(`form[action='/plan'] [name=${name}]`).value = value; \
         document.querySelector(\"form[action='/plan'] button\").click(); true",
    );
    browser.until("document.querySelector('[aria-invalid]')?.name === 'pin'");
    assert_eq!(browser.js("document.querySelectorAll('[aria-invalid]').length"), 1);
    assert_eq!(browser.js("document.querySelector('[name=load]').value"), "KM-078");
    browser.open(&format!("{}/load/KM-077", served.base), "Load KM-077");
    browser.until("!!document.querySelector('figure.rigging img')?.naturalWidth");
}

/// A closing: every point explained, a wrong PIN told at its field, then the statement, once.
#[test]
fn a_closing_is_signed_and_a_wrong_pin_is_told_at_its_field() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    browser.open(&format!("{}/close", served.base), "Closing");
    let open = "[...document.querySelectorAll('form[action=\"/close/explain\"] [name=note]')].find(one => one.value === '')";
    for _ in 0..60 {
        if browser.js(&format!("!{open}")) == json!(true) {
            break;
        }
        browser.js(&format!("window.left = 1; const one = {open}; one.value = 'seen on the zone'; one.form.requestSubmit(); true"));
        browser.until("window.left === undefined && document.querySelector('h1')?.innerText === 'Closing'");
    }
    send(&mut browser, "/close/sign", &[("pin", "000000")]);
    browser.until("document.querySelector('[name=pin]')?.getAttribute('aria-invalid') === 'true'");
    assert_eq!(browser.js("document.querySelectorAll('[aria-invalid]').length"), 1);
    send(&mut browser, "/close/sign", &[("pin", PIN)]);
    browser.until("!!document.querySelector('a[href^=\"/close/\"][href$=\".pdf\"]')");
    // Nothing is signed for a form that was not shown.
    let made_up = format!(
        "fetch('/close/sign', {{method: 'POST', headers: {{'Content-Type': 'application/x-www-form-urlencoded'}}, body: 'pin={PIN}&token=00'}}).then(r => r.status)"
    );
    assert_eq!(browser.js(&made_up), 409);
}
