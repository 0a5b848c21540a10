//! The board as it changes: server-sent events tell a page that it is another, so many may listen, and the end of the desk ends
//! them; and long work that says how far it is.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

use crate::{Demo, Served};

#[test]
fn a_board_that_is_looked_at_shows_what_comes_in() {
    let demo = Demo::new();
    demo.inspect(&demo.at("tag-km-015.txt"));
    let bundle = demo.at("later.slb");
    assert!(
        demo.run("inspector", &["bundle", "write", "--out", bundle.to_str().unwrap()], "").status.success()
    );
    let mut served = Served::new(&demo);
    let (mut browser, cookie) = (served.browser(&[]), served.cookie());
    browser.until("document.querySelector('#live').textContent === 'Kept up to date'");
    // This very page is kept: what is drawn anew is the board alone, and whoever stands on a load stands on it still.
    browser.js("window.mark = 1; document.querySelector('a.load[href=\"/load/KM-014\"]').focus(); true");
    assert!(browser.js("!document.querySelector('.shelf.fit a[href=\"/load/KM-015\"]')").as_bool().unwrap());
    assert!(demo.run("desk", &["bundle", "read", bundle.to_str().unwrap()], "").status.success());
    browser.until("!!document.querySelector('.shelf.fit a[href=\"/load/KM-015\"]')");
    assert_eq!(browser.js("window.mark"), 1);
    assert_eq!(browser.js("document.activeElement.getAttribute('href')"), "/load/KM-014");

    // A load that is planned at the terminal, and one whose walk begins there, come by themselves too.
    let plan = demo.at("plan-088.toml");
    std::fs::write(&plan, include_str!("../../demo/bag.toml").replace("KM-015", "KM-088")).unwrap();
    let (plan, out) = (plan.to_str().unwrap().to_owned(), demo.at("tags-088"));
    assert!(demo.run("desk", &["tag", "write", &plan, "--out", out.to_str().unwrap()], "").status.success());
    browser.until("!!document.querySelector('.shelf.planned a[href=\"/load/KM-088\"]')");
    let tag = std::fs::read_dir(&out).unwrap().map(|entry| entry.unwrap().path());
    let tag = tag.into_iter().find(|path| path.extension().is_some_and(|ending| ending == "txt")).unwrap();
    demo.run("desk", &["inspect", tag.to_str().unwrap()], "good\n");
    browser.until("!!document.querySelector('.shelf.walking a[href=\"/load/KM-088\"]')");
    assert_eq!(browser.js("window.mark"), 1, "without the page being loaded anew");

    // Arrow keys go from load to load.
    let second = browser.js("document.querySelectorAll('a.load')[1].getAttribute('href')");
    browser.js("document.querySelector('a.load').focus(); true");
    let key = serde_json::json!({ "type": "keyDown", "key": "ArrowDown", "code": "ArrowDown" });
    browser.call("Input.dispatchKeyEvent", &key);
    assert_eq!(browser.js("document.activeElement.getAttribute('href')"), second);
    drop(browser);

    // So many listen and no more; each holds a connection, and other pages are answered all the same.
    let host = served.base.trim_start_matches("http://").to_owned();
    let listen = || {
        let mut stream = TcpStream::connect(&host).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
        stream
            .write_all(format!("GET /events HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\r\n").as_bytes())
            .unwrap();
        let mut reader = BufReader::new(stream);
        let mut line = String::new();
        reader.read_line(&mut line).unwrap();
        (line, reader)
    };
    let mut listening = Vec::new();
    let refused = loop {
        let (status, reader) = listen();
        if !status.contains(" 200 ") {
            break status;
        }
        listening.push(reader);
        assert!(listening.len() <= 16, "nobody was turned away");
    };
    assert!(refused.contains(" 503 "), "{refused}");
    assert!(listening.len() >= 15, "{}", listening.len());
    let own = served.raw(&format!("GET / HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"));
    assert!(own.starts_with("HTTP/1.1 200"), "{own}");
    // A stranger hears nothing.
    let stranger = served.raw(&format!("GET /events HTTP/1.1\r\nHost: {host}\r\n"));
    assert!(stranger.starts_with("HTTP/1.1 403"), "{stranger}");

    // Ctrl-C ends it in order, whoever listens.
    let id = rustix::process::Pid::from_child(&served.child);
    rustix::process::kill_process(id, rustix::process::Signal::INT).unwrap();
    for mut reader in listening {
        let mut rest = String::new();
        let _ = reader.read_to_string(&mut rest);
        assert!(rest.contains("text/event-stream"), "{rest}");
    }
    assert!(served.child.wait().unwrap().success());
}

/// Whoever goes away in the middle of an answer ends nothing but that answer: the system's signal for it must not reach the
/// program, which takes it for the end of its own output.
#[test]
fn who_goes_away_in_the_middle_ends_nothing() {
    let demo = Demo::new();
    let mut served = Served::new(&demo);
    let host = served.base.trim_start_matches("http://").to_owned();
    let cookie = served.cookie();
    for path in ["/", "/face/regular.ttf", "/export/everything.slb", "/events"] {
        for _ in 0..10 {
            let mut stream = TcpStream::connect(&host).unwrap();
            let one = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\r\n");
            stream.write_all(one.repeat(20).as_bytes()).unwrap();
            // What was sent to it and not read makes the system answer further bytes with a refusal.
            let mut first = [0; 1];
            let _ = stream.read(&mut first);
        }
    }
    let own = served.raw(&format!("GET / HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"));
    assert!(own.starts_with("HTTP/1.1 200"), "{own}");
    assert!(served.child.try_wait().unwrap().is_none(), "it goes on");
}

#[test]
fn long_work_says_how_far_it_is_and_its_file_is_taken() {
    let demo = Demo::new();
    let served = Served::new(&demo);
    let mut browser = served.browser(&[]);
    let export = format!("{}/export", served.base);
    browser.open(&export, "Export");
    browser.js("document.querySelector('form[action=\"/job/audit\"] button').click(); true");
    browser.until("location.pathname === '/job' && document.querySelector('main').innerText.includes('Everything holds')");
    browser.open(&export, "Export");
    browser.js("document.querySelector('form[action=\"/job/export\"] [value=\"account.json\"]').form.requestSubmit(); true");
    browser.until("location.pathname === '/job' && !!document.querySelector('#work-2 a.act')");
    let same = browser.js(
        "Promise.all([fetch(document.querySelector('#work-2 a.act').href), fetch(document.querySelector('#work-2 a.act').href)]) \
         .then(both => Promise.all(both.map(one => one.json()))).then(([a, b]) => a.schema === 'slingseal.account/1' && JSON.stringify(a) === JSON.stringify(b))",
    );
    assert_eq!(same, true, "it is taken more than once");
    assert_eq!(browser.js("fetch('/job/99/account.json').then(answer => answer.status)"), 404);
    assert_eq!(browser.js("fetch('/job/2/records.csv').then(answer => answer.status)"), 404);
}
