//! Rigging files of a load list: given at the page by their names, drawn before any tag is made.

use serde_json::json;

use crate::access::{WIDTHS, axe, picture, violations};
use crate::zone::Day;
use crate::{Demo, Served};

const HEAD: &str =
    "load,description,procedure,gross,aircraft,allowable,pickup,destination,links,rigging,weight_source\n";
const RIGGING: &str = include_str!("../../demo/vehicle-rigging.toml");

/// A list of so many vehicles, each with the rigging file of its number.
fn list(files: &[&str]) -> String {
    let line = |(at, file): (usize, &&str)| {
        format!(
            "QV-{at:03},Light vehicle,vehicle,5000 lb,Heron M2,7000 lb,Meadow,Bridge,1:3; 2:3; 3:3; 4:3,{file},weighed\n"
        )
    };
    std::iter::once(HEAD.to_owned()).chain(files.iter().enumerate().map(line)).collect()
}

/// What the page asks to be sent back with the pictures that were shown.
fn shown(page: &str) -> String {
    let field = page.split("name=\"shown\" value=\"").nth(1).unwrap_or_else(|| panic!("{page}"));
    field.split('"').next().unwrap().to_owned()
}

#[test]
fn no_tag_of_a_list_is_made_before_its_rigging_was_shown() {
    let demo = Demo::new();
    let page = Day::new(&demo);
    let plan = list(&["front.toml", "far/rear.toml", "front.toml"]);
    let none =
        |when: &str| assert!(!page.get("/?state=planned").1.contains("QV-000"), "{when}: a tag was made");

    // Each file that the list names is asked for once, by its name.
    let asked = page.post("/plan/list", &[("list", &plan)]);
    assert!(asked.starts_with("HTTP/1.1 400"), "{asked}");
    for name in ["front.toml", "far/rear.toml"] {
        assert_eq!(asked.matches(&format!("name=\"file.{name}\"")).count(), 1, "{asked}");
    }
    none("without its files");

    // One of them is wrong: told at its field; the other is drawn.
    let bad = RIGGING.replace("5000 lb", "5000");
    let fields = [("list", plan.as_str()), ("file.front.toml", RIGGING), ("file.far/rear.toml", &bad)];
    let wrong = page.post("/plan/list/rigging", &fields);
    assert!(wrong.starts_with("HTTP/1.1 400"), "{wrong}");
    assert_eq!(wrong.matches("<figure class=\"rigging").count(), 1, "{wrong}");
    let field = wrong.split("name=\"file.far/rear.toml\"").nth(1).unwrap().split('>').next().unwrap();
    assert!(field.contains("aria-invalid=\"true\""), "{field}");

    // Both are right, but nobody has seen them yet.
    let fields = [("list", plan.as_str()), ("file.front.toml", RIGGING), ("file.far/rear.toml", RIGGING)];
    let first = page.post("/plan/list", &fields);
    assert!(first.starts_with("HTTP/1.1 200"), "{first}");
    assert_eq!(first.matches("<figure class=\"rigging").count(), 2, "{first}");
    none("before it was shown");

    // What was shown is not what is sent now.
    let other = RIGGING.replace("rope = \"12 ft\"", "rope = \"13 ft\"");
    let seen = shown(&first);
    let changed = [
        ("list", plan.as_str()),
        ("file.front.toml", &other),
        ("file.far/rear.toml", RIGGING),
        ("shown", &seen),
    ];
    let again = page.post("/plan/list", &changed);
    assert!(again.starts_with("HTTP/1.1 200") && shown(&again) != seen, "{again}");
    none("of what was changed since");

    let fields = [fields[0], fields[1], fields[2], ("shown", &seen)];
    let made = page.post("/plan/list", &fields);
    assert!(made.starts_with("HTTP/1.1 303"), "{made}");
    for load in 0..3 {
        assert!(page.get(&format!("/load/QV-{load:03}/rigging.svg")).1.contains("<svg"), "{load}");
    }

    // A page draws so many and no more; the terminal takes them all.
    let names: Vec<String> = (0..33).map(|at| format!("r{at}.toml")).collect();
    let many = list(&names.iter().map(String::as_str).collect::<Vec<_>>());
    let refused = page.post("/plan/list/rigging", &[("list", &many)]);
    assert!(refused.starts_with("HTTP/1.1 400") && refused.contains("32 rigging files"), "{refused}");
}

#[test]
fn a_list_s_rigging_is_given_and_looked_at_by_everybody() {
    let axe = axe();
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    browser.open(&format!("{}/plan", served.base), "Plan and print");
    let plan = list(&["front.toml", "rear.toml"]);
    browser.js(&format!(
        "document.querySelector('#list').value = {}; document.querySelector(\"[formaction='/plan/list/rigging']\").click(); true",
        json!(plan)
    ));
    // Files that are chosen together find their fields by their names.
    browser.until("document.querySelectorAll('textarea[data-file]').length === 2");
    for (name, text) in [("front.toml", RIGGING), ("rear.toml", RIGGING), ("other.toml", "x")] {
        std::fs::write(demo.at(name), text).unwrap();
    }
    for name in ["front.toml", "other.toml", "rear.toml"] {
        browser.choose("#files-of-list", &demo.at(name));
        if name == "other.toml" {
            browser.until("document.querySelector('#not-named').innerText.includes('other.toml')");
        } else {
            browser.until(&format!(
                "document.querySelector(\"textarea[data-file='{name}']\").value.includes('[load]')"
            ));
        }
    }
    browser.js("document.querySelector(\"[formaction='/plan/list/rigging']\").click(); true");
    browser.until("document.querySelectorAll('figure.rigging svg').length === 2");
    let mut faults = Vec::new();
    for theme in ["light", "dark"] {
        let media = json!({ "features": [{ "name": "prefers-color-scheme", "value": theme }] });
        browser.call("Emulation.setEmulatedMedia", &media);
        for width in WIDTHS {
            let size = json!({ "width": width, "height": 844, "deviceScaleFactor": 1, "mobile": false });
            browser.call("Emulation.setDeviceMetricsOverride", &size);
            let wide = browser.js("document.documentElement.scrollWidth").as_u64().unwrap();
            if wide > u64::from(width) {
                faults.push(format!("{width}: {wide} px wide"));
            }
            let found = violations(&mut browser, &axe);
            faults.extend(found.iter().map(|one| format!("{width}, {theme}: {one}")));
            picture(&mut browser, &format!("listed-{width}-{theme}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    // The tags, by the same form.
    browser
        .js("document.querySelector(\"form[action='/plan/list'] button:not([formaction])\").click(); true");
    browser
        .until("location.pathname === '/plan/made' && document.querySelectorAll('.made > li').length === 2");
}
