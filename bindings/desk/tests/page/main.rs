//! The leader's page in a real browser: plan a load, print its sheet, receive by file and by a camera that sees a moving code,
//! find the load, read its story, export; and what is turned away.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

mod access;
mod acts;
mod anyone;
#[path = "../support/bag.rs"]
mod bag;
mod browser;
mod html;
mod listed;
mod live;
mod order;
mod rigging;
mod search;
mod tls;
mod zone;

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};

use bag::sound;
use browser::Browser;

/// The demo's PIN.
const PIN: &str = "417293";

struct Demo(tempfile::TempDir);

impl Demo {
    /// The homes that the demo leaves: a desk that is authority and planner, and an inspector.
    fn new() -> Self {
        let demo = Self(tempfile::tempdir().unwrap());
        let output = Command::new(env!("CARGO_BIN_EXE_slingseal"))
            .args(["demo", "--out", demo.at("").to_str().unwrap()])
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        demo
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.path().join("demo").join(name)
    }

    fn command(&self, home: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_slingseal"));
        command.arg("--home").arg(self.at(home)).args(arguments).env("SLINGSEAL_PIN", PIN).env("LANG", "C");
        command
    }

    fn run(&self, home: &str, arguments: &[&str], lines: &str) -> Output {
        let mut command = self.command(home, arguments);
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
        child.wait_with_output().unwrap()
    }

    /// Walks a bag card by card and seals it fit.
    fn inspect(&self, tag: &Path) {
        let goods = sound(1).join("\n");
        let output =
            self.run("inspector", &["inspect", tag.to_str().unwrap()], &format!("{goods}\nfit\nseal\n"));
        let said = String::from_utf8(output.stdout).unwrap();
        assert!(said.lines().last().unwrap().starts_with("sealed "), "{said}");
    }
}

struct Served {
    child: Child,
    link: String,
    base: String,
}

impl Served {
    fn new(demo: &Demo) -> Self {
        Self::in_language(demo, "en")
    }

    fn in_language(demo: &Demo, language: &str) -> Self {
        // The page without contents, as far as the desk minds.
        let shell = demo.at("shell.html");
        std::fs::write(&shell, "<script type=\"application/octet-stream\" id=\"contents\"></script>")
            .unwrap();
        let serve = ["--language", language, "serve", "--port", "0", "--page", shell.to_str().unwrap()];
        let mut child = demo.command("desk", &serve).stdout(Stdio::piped()).spawn().unwrap();
        let lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let link = lines
            .map(|line| line.unwrap().trim().to_owned())
            .find(|line| line.starts_with("http://127.0.0.1:"))
            .expect("a link is printed");
        let base = link.split("/open").next().unwrap().to_owned();
        Self { child, link, base }
    }

    /// A browser with more switches that opened the link, and shows the zone.
    fn browser(&self, more: &[&str]) -> Browser {
        let mut browser = Browser::start(more);
        browser.go(&self.link);
        browser.until("location.pathname === '/' && !!document.querySelector('#board')");
        browser
    }

    /// The cookie of whoever opens the link.
    fn cookie(&self) -> String {
        let host = self.base.trim_start_matches("http://");
        let opened = self.raw(&format!("GET {} HTTP/1.1\r\nHost: {host}\r\n", &self.link[self.base.len()..]));
        let cookie = opened.split("Set-Cookie: ").nth(1).expect("a cookie");
        cookie.split(';').next().unwrap().to_owned()
    }

    /// One request by hand; the whole answer.
    fn raw(&self, head: &str) -> String {
        self.sent(head, "")
    }

    /// The same with a body.
    fn sent(&self, head: &str, body: &str) -> String {
        let mut stream = TcpStream::connect(self.base.trim_start_matches("http://")).unwrap();
        let length = body.len();
        let request = format!("{head}Connection: close\r\nContent-Length: {length}\r\n\r\n{body}");
        stream.write_all(request.as_bytes()).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Pictures as a film for the fake camera (YUV4MPEG2, luminance from the picture, grey), each shown for half a second, on a
/// grey ground: what a camera before a screen sees.
fn film(frames: &Path, film: &Path) {
    const SIDE: usize = 800;
    let mut pictures: Vec<PathBuf> =
        std::fs::read_dir(frames).unwrap().map(|entry| entry.unwrap().path()).collect();
    pictures.sort();
    let mut out = format!("YUV4MPEG2 W{SIDE} H{SIDE} F4:1 Ip A1:1 C420jpeg\n").into_bytes();
    for picture in pictures {
        let decoder = png::Decoder::new(BufReader::new(std::fs::File::open(picture).unwrap()));
        let mut reader = decoder.read_info().unwrap();
        let mut bytes = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut bytes).unwrap();
        let (width, height) = (info.width as usize, info.height as usize);
        let dark = |x: usize, y: usize| match info.bit_depth {
            png::BitDepth::One => (bytes[y * info.line_size + x / 8] >> (7 - x % 8)) & 1 == 0,
            _ => bytes[y * info.line_size + x * info.color_type.samples()] < 128,
        };
        out.extend_from_slice(b"FRAME\n");
        for y in 0..SIDE {
            for x in 0..SIDE {
                // To the nearest point, the picture filling all but a margin.
                let at =
                    |place: usize, size: usize| place.checked_sub(20).map(|place| place * size / (SIDE - 40));
                let inside = at(x, width).zip(at(y, height)).filter(|(x, y)| *x < width && *y < height);
                out.push(inside.map_or(128, |(x, y)| if dark(x, y) { 30 } else { 225 }));
            }
        }
        out.extend(std::iter::repeat_n(128u8, SIDE * SIDE / 2));
    }
    std::fs::write(film, out).unwrap();
}

#[test]
fn a_leader_plans_prints_receives_finds_reads_and_exports() {
    let demo = Demo::new();
    // The inspector walks a load that the desk planned before; it will come by camera.
    demo.inspect(&demo.at("tag-km-015.txt"));
    let frames = demo.at("frames");
    let shown = ["bundle", "write", "--frames", "--spare", "20", "--out", frames.to_str().unwrap()];
    assert!(demo.run("inspector", &shown, "").status.success());
    let y4m = demo.at("film.y4m");
    film(&frames, &y4m);

    let mut served = Served::new(&demo);
    strangers_are_turned_away(&served);

    let mut browser = served.browser(&[]);
    assert_eq!(browser.js("document.cookie"), "", "no script sees the cookie");
    // The script of the page runs, and nothing that is written into the page would.
    browser.js("document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=\"window.taken = 1\">')");

    // Plan and print. A fault first: it is told in place, and what was typed is still there.
    browser.open(&format!("{}/plan", served.base), "Plan and print");
    let fill = |gross: &str| {
        format!(
            "for (const [name, value] of Object.entries({{load: 'km-055', description: 'Rations <b>& tea</b>', gross: '{gross}', \
             aircraft: 'Heron M2', allowable: '7000 lb', rigger: 'Mason 5', pickup: 'Kestrel Meadow', pickup_grid: '47.4825 15.2934', \
             destination: 'Alder Bridge', links: '1:3', procedure: 'bag', pin: '{PIN}', \
             equipment: 'bag | CB-55 | 5000 lb | data plate'}})) \
             document.querySelector(`form[action='/plan'] [name=${{name}}]`).value = value; \
             document.querySelector(\"form[action='/plan'] button\").click(); true"
        )
    };
    browser.js(&fill("1800"));
    browser
        .until("document.querySelector('.fault')?.innerText.includes('Gross weight: \"1800\" has no unit')");
    assert_eq!(browser.js("document.querySelector('[name=description]').value"), "Rations <b>& tea</b>");
    assert_eq!(browser.js("document.querySelector('[name=pin]').value"), "", "a PIN is never sent back");
    browser.js(&fill("1800 lb"));
    browser.until("location.pathname === '/plan/made'");
    browser.until("document.querySelector('.made')?.innerText.includes('Signed by Lantern 1')");
    assert_eq!(browser.js("document.querySelector('.made b') === null"), true, "what people write is text");
    let pdf = browser.js(
        "fetch(document.querySelector('a.act').href).then(r => r.arrayBuffer()).then(b => Array.from(new Uint8Array(b)))",
    );
    let pdf: Vec<u8> = pdf.as_array().unwrap().iter().map(|byte| byte.as_u64().unwrap() as u8).collect();
    let sheet = demo.at("sheet.pdf");
    std::fs::write(&sheet, &pdf).unwrap();
    let text = Command::new("pdftotext").args(["-layout", sheet.to_str().unwrap(), "-"]).output().unwrap();
    let text = String::from_utf8(text.stdout).unwrap();
    for part in ["KM-055", "1800 lb", "Mason 5", "33T WN 2210 5882"] {
        assert!(text.contains(part), "{part} in {text}");
    }
    let tag = browser.js("document.querySelector('.made .digest').textContent");
    let file = demo.at("tag.txt");
    std::fs::write(&file, tag.as_str().unwrap()).unwrap();

    // The load is walked elsewhere; its bundle comes as a file.
    demo.inspect(&file);
    let bundle = demo.at("evening.slb");
    assert!(
        demo.run("inspector", &["bundle", "write", "--out", bundle.to_str().unwrap()], "").status.success()
    );
    // Damage in a copy: it is refused by name, and nothing else suffers.
    let mut torn = std::fs::read(&bundle).unwrap();
    let middle = torn.len() / 2;
    torn[middle] ^= 0x55;
    let torn_file = demo.at("torn.slb");
    std::fs::write(&torn_file, torn).unwrap();
    let receive = format!("{}/receive", served.base);
    browser.open(&receive, "Receive");
    browser.choose("#files", &torn_file);
    browser.until("document.querySelector('.receipts li.bad')?.innerText.includes('set aside')");
    browser.choose("#files", &bundle);
    browser.until("document.querySelector('.receipts li.good')?.innerText.includes('evening.slb')");
    let bad = "{method: 'POST', headers: {'Content-Type': 'application/x-www-form-urlencoded'}, body: 'text=SL1:NOTHING'}";
    browser.js(&format!("fetch('/receive/text', {bad}).then(r => r.status)"));
    browser.open(&receive, "Receive");
    browser.until("document.querySelectorAll('.receipts li.bad').length === 2");

    // Find it and read its story.
    browser.js("document.querySelector('[name=q]').value = 'cb-55'; document.querySelector('.find button').click(); true");
    browser.until(
        "location.pathname === '/search' && !!document.querySelector('main a[href=\"/load/KM-055\"]')",
    );
    browser.js("document.querySelector('main a[href=\"/load/KM-055\"]').click(); true");
    browser.until("document.querySelector('h1')?.innerText === 'Load KM-055'");
    browser.until("document.querySelector('.moments .sealed')?.innerText.includes('Sealed fit by Anvil 3')");
    assert_eq!(browser.js("window.taken === undefined"), true, "no script but ours ran");
    browser.until("Array.from(document.images).every(image => image.complete && image.naturalWidth > 0)");
    drop(browser);

    // Another browser has a camera, before which the inspector's screen shows its moving code.
    let camera = format!("--use-file-for-fake-video-capture={}", y4m.display());
    let mut browser =
        served.browser(&["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", &camera]);
    browser.open(&receive, "Receive");
    let before = browser.js("document.querySelectorAll('.receipts li').length").as_u64().unwrap();
    browser.js("document.querySelector('#look').click(); true");
    browser.until(&format!("document.querySelectorAll('.receipts li').length > {before}"));
    let came = browser.js("document.querySelector('.receipts li').innerText");
    assert!(came.as_str().unwrap().contains("Taken in: moving code"), "{came}");
    browser.open(&format!("{}/load/KM-015", served.base), "Load KM-015");
    browser.until("document.querySelector('.stamp strong')?.innerText === 'Fit'");

    // The class: nobody was examined here, and no inspection passes for an examination.
    browser.open(&format!("{}/class", served.base), "The class");
    browser.until("document.querySelector('main').innerText.includes('No result is here yet')");
    assert_eq!(browser.js("fetch('/export/class-missed.csv').then(r => r.status)"), 200);
    assert_eq!(browser.js("fetch('/export/class-nothing.csv').then(r => r.status)"), 404);

    // Export.
    let csv = browser.js("fetch('/export/records.csv').then(r => r.text())");
    let mut reader = csv::ReaderBuilder::new().from_reader(csv.as_str().unwrap().as_bytes());
    let loads: Vec<String> = reader.records().map(|record| record.unwrap()[1].to_owned()).collect();
    for load in ["KM-014", "KM-015", "KM-055"] {
        assert_eq!(loads.iter().filter(|known| *known == load).count(), 1, "{loads:?}");
    }
    let account = browser.js("fetch('/export/account.json').then(r => r.json())");
    assert_eq!(account["schema"], "slingseal.account/1");

    // The hook check for any phone: a wrong PIN, then the five groups and the file.
    let export = format!("{}/export", served.base);
    for (pin, heading) in [("000000", "That did not work"), (PIN, "Hook check")] {
        browser.open(&export, "Export");
        browser.js(&format!(
            "document.querySelector(\"form[action='/hook-check'] [name=pin]\").value = '{pin}'; \
             document.querySelector(\"form[action='/hook-check'] button\").click(); true"
        ));
        browser.until(&format!("document.querySelector('h1')?.innerText === '{heading}'"));
    }
    let groups = browser.js("document.querySelector('.thumbprint').innerText.split(' ').length");
    assert_eq!(groups, 5);
    let file = browser.js("fetch('/hook-check/hook.html').then(r => r.text())");
    assert!(file.as_str().unwrap().len() > 1_000, "{file}");

    // Ctrl-C ends it in order.
    let id = rustix::process::Pid::from_child(&served.child);
    rustix::process::kill_process(id, rustix::process::Signal::INT).unwrap();
    assert!(served.child.wait().unwrap().success());
}

fn strangers_are_turned_away(served: &Served) {
    let host = served.base.trim_start_matches("http://");
    let opened = served
        .raw(&format!("GET {} HTTP/1.1\r\nHost: {host}\r\n", served.link.trim_start_matches(&served.base)));
    assert!(opened.starts_with("HTTP/1.1 200"), "{opened}");
    for head in
        ["Content-Security-Policy: default-src 'none'", "X-Frame-Options: DENY", "Cache-Control: no-store"]
    {
        assert!(opened.contains(head), "{head}: {opened}");
    }
    let cookie = opened.split("Set-Cookie: ").nth(1).unwrap().split(';').next().unwrap();
    let forbidden = |head: String| {
        let answer = served.raw(&head);
        assert!(answer.starts_with("HTTP/1.1 403"), "{head}: {answer}");
        assert!(!answer.contains("Sela Relief"), "nothing of the home is told");
    };
    forbidden(format!("GET / HTTP/1.1\r\nHost: {host}\r\n"));
    forbidden(format!("GET /open?token=0000 HTTP/1.1\r\nHost: {host}\r\n"));
    // A name of somebody else's that was made to point here.
    forbidden(format!("GET / HTTP/1.1\r\nHost: example.org\r\nCookie: {cookie}\r\n"));
    // Another site's page that sends a form here.
    forbidden(format!(
        "POST /receive/text HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\nOrigin: http://example.org\r\n"
    ));
    forbidden(format!("POST /receive/text HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"));
    let own = served.raw(&format!("GET / HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"));
    assert!(own.starts_with("HTTP/1.1 200") && own.contains("Sela Relief"), "{own}");
    // More than a form holds is refused before it is read.
    let large = served.raw_long(&format!(
        "POST /receive/text HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\nOrigin: {}\r\nContent-Length: 99999999999\r\n",
        served.base
    ));
    assert!(large.starts_with("HTTP/1.1 400"), "{large}");
}

impl Served {
    /// A request that tells of a body and never sends it: the front of the answer.
    fn raw_long(&self, head: &str) -> String {
        let mut stream = TcpStream::connect(self.base.trim_start_matches("http://")).unwrap();
        stream.write_all(format!("{head}\r\n").as_bytes()).unwrap();
        let mut front = [0; 64];
        let read = stream.read(&mut front).unwrap();
        String::from_utf8_lossy(&front[..read]).into_owned()
    }
}
