//! Two programs work side by side on one home.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Stdio};

use crate::bag::sound;
use crate::day::{Day, text};

pub struct Served {
    child: Child,
    place: String,
    link: String,
    cookie: String,
}

impl Served {
    pub fn new(day: &Day) -> Self {
        Self::in_language(day, "en")
    }

    pub fn in_language(day: &Day, language: &str) -> Self {
        let serve = ["--language", language, "serve", "--port", "0"];
        let mut child = day.command(&serve).stdout(Stdio::piped()).spawn().unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let link = lines.find_map(|line| line.unwrap().trim().strip_prefix("http://").map(str::to_owned));
        let link = link.expect("a link is printed");
        let (place, link) = link.split_once('/').unwrap();
        let mut served = Self { child, place: place.into(), link: format!("/{link}"), cookie: String::new() };
        let opened = served.get(&served.link.clone());
        let cookie = opened.lines().find_map(|line| line.strip_prefix("Set-Cookie: "));
        served.cookie = cookie.unwrap().split(';').next().unwrap().to_owned();
        served
    }

    pub fn get(&self, path: &str) -> String {
        let mut stream = TcpStream::connect(&self.place).unwrap();
        let head = format!(
            "GET {path} HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n",
            self.place, self.cookie
        );
        stream.write_all(head.as_bytes()).unwrap();
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

#[test]
fn verbs_work_while_the_leaders_page_is_served_and_the_page_shows_what_they_did() {
    let day = Day::new();
    let served = Served::new(&day);
    assert!(served.get("/load/KM-015").contains("200 OK"));
    assert!(day.done(&["records", "list"]).contains("KM-015"));
    day.done(&["void", &day.only("seals", "txt"), "--cause", "load-moved", "--out", &day.at("v")]);
    let page = served.get("/load/KM-015");
    assert!(page.contains("Taken back by Anvil 3"), "{page}");
    // And the other way round, again and again.
    for _ in 0..3 {
        assert!(served.get("/").contains("200 OK"));
        day.done(&["records", "verify"]);
    }
    // A walk that is killed in its turn loses nothing and blocks nobody.
    drop(served);
    assert!(day.done(&["records", "verify"]).contains("every chain and every signature holds"));
}

#[test]
fn a_walk_and_the_page_and_verbs_go_on_beside_each_other() {
    let day = Day::new();
    let served = Served::new(&day);
    let mut walk = day
        .command(&["inspect", &day.at("tags/tag-km-015.txt")])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let (mut into, mut from) = (walk.stdin.take().unwrap(), BufReader::new(walk.stdout.take().unwrap()));
    let lines = sound(1);
    for (at, line) in lines.iter().map(String::as_str).chain(["fit", "seal"]).enumerate() {
        writeln!(into, "{line}").unwrap();
        into.flush().unwrap();
        let mut said = String::new();
        from.read_line(&mut said).unwrap();
        assert!(said.starts_with("ok") || said.starts_with("sealed"), "{line}: {said}");
        if at % 30 == 0 {
            assert!(served.get("/").contains("200 OK"));
            assert!(day.done(&["records", "list"]).contains("KM-015"));
        }
    }
    drop(into);
    assert!(walk.wait().unwrap().success());
    let audit = day.done(&["records", "verify"]);
    assert!(audit.starts_with("2 records") && audit.contains("every chain"), "{audit}");
}

#[test]
fn a_person_who_is_asked_for_a_secret_keeps_the_home_from_nobody() {
    // A terminal is wanted for a prompt; `script` gives one.
    let day = Day::new();
    let mut child = std::process::Command::new("script")
        .args([
            "-qec",
            &format!(
                "{} --home {} void {} --cause load-moved",
                env!("CARGO_BIN_EXE_slingseal"),
                day.at("home"),
                day.only("seals", "txt")
            ),
            "/dev/null",
        ])
        .env_remove("SLINGSEAL_PIN")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("script is needed (Debian package bsdutils)");
    let mut said = [0; 4];
    let mut from = child.stdout.take().unwrap();
    from.read_exact(&mut said).unwrap();
    assert_eq!(text(&said), "PIN:");
    assert!(day.done(&["records", "list"]).contains("KM-015"));
    child.kill().unwrap();
    child.wait().unwrap();
}
