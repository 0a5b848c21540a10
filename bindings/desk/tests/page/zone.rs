//! The pages of a day with twelve loads, asked by their addresses alone: the board and its filters, the manifest and its order.

use std::io::{BufRead, BufReader};
use std::process::Stdio;

use crate::{Demo, Served};

/// The leader's desk of the demo's day, served, and asked by whoever opened its link.
pub struct Day {
    pub served: Served,
    cookie: String,
}

impl Day {
    pub fn new(demo: &Demo) -> Self {
        let mut child =
            demo.command("day/desk", &["serve", "--port", "0"]).stdout(Stdio::piped()).spawn().unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(|line| line.unwrap());
        let link = lines.find(|line| line.trim().starts_with("http://127.0.0.1:")).expect("a link");
        let link = link.trim().to_owned();
        let base = link.split("/open").next().unwrap().to_owned();
        let served = Served { child, link, base };
        let cookie = served.cookie();
        Self { served, cookie }
    }

    /// The status and the body of an address.
    pub fn get(&self, path: &str) -> (String, String) {
        let host = self.served.base.trim_start_matches("http://");
        let answer =
            self.served.raw(&format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nCookie: {}\r\n", self.cookie));
        let (head, body) = answer.split_once("\r\n\r\n").unwrap();
        (head.lines().next().unwrap().to_owned(), body.to_owned())
    }

    /// A form of the desk's own page, sent; the whole answer.
    pub fn post(&self, path: &str, fields: &[(&str, &str)]) -> String {
        let (base, host) = (&self.served.base, self.served.base.trim_start_matches("http://"));
        let form = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish();
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {host}\r\nOrigin: {base}\r\nCookie: {}\r\n\
             Content-Type: application/x-www-form-urlencoded\r\n",
            self.cookie
        );
        self.served.sent(&head, &form)
    }
}

#[test]
fn the_board_and_the_manifest_are_chosen_by_their_addresses() {
    let demo = Demo::new();
    let zone = Day::new(&demo);
    let get = |path: &str| zone.get(path);
    let loads = |path: &str| {
        let (status, body) = get(path);
        assert!(status.contains(" 200 "), "{path}: {status}");
        body.matches("href=\"/load/").count()
    };
    assert_eq!(loads("/"), 12);
    assert_eq!(loads("/?zone=Kestrel+Meadow"), 12);
    assert_eq!(loads("/?zone=Elsewhere"), 0);
    assert_eq!(loads("/?to=Alder+Bridge&aircraft=Heron+M2"), 12);
    assert_eq!(loads("/?aircraft=Drover+H4"), 0);
    assert_eq!(loads("/?date=2020-01-01"), 0);
    assert_eq!(loads("/?state=wait"), 1);
    assert_eq!(loads("/?state=fit&page=1"), 0, "eleven are one page");
    assert!(get("/?state=flying").0.contains(" 400 "));
    // What was chosen stays in every further address; the zones are drawn.
    let body = get("/?zone=Kestrel+Meadow&state=fit").1;
    assert!(body.contains("zone=Kestrel+Meadow\"") && body.contains("<figure class=\"map\">"), "{body}");

    let day = demo.run("day/desk", &["--json", "account", "manifest"], "");
    let day: serde_json::Value = serde_json::from_slice(&day.stdout).unwrap();
    let day = day["day"].as_str().unwrap().to_owned();
    let order = || {
        let body = get(&format!("/manifest?day={day}")).1;
        let rows = body.split("href=\"/load/").skip(1);
        rows.map(|row| row.split('"').next().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let (first, all) = (order(), order().len());
    assert_eq!((first[0].as_str(), first[1].as_str(), all), ("KM-109", "KM-101", 12));
    let post = |path: &str, fields: &[(&str, &str)]| zone.post(path, fields);
    assert!(
        post("/manifest/put", &[("day", &day), ("load", "KM-112"), ("place", "1")])
            .starts_with("HTTP/1.1 303")
    );
    assert_eq!(order()[..2], ["KM-112", "KM-109"]);
    assert!(post("/manifest/put", &[("day", &day), ("load", "KM-999"), ("place", "1")]).contains(" 404 "));
    let csv = get(&format!("/manifest/{day}.csv")).1;
    assert!(csv.contains("1,\"KM-112\",") && csv.contains("12,\"KM-111\","), "{csv}");
    assert!(get(&format!("/manifest/{day}.pdf")).1.starts_with("%PDF"));
    assert!(
        post("/manifest/order", &[("day", &day), ("table", "load\nKM-103\nKM-104")])
            .starts_with("HTTP/1.1 303")
    );
    assert_eq!(order()[..2], ["KM-103", "KM-104"]);
    assert!(post("/manifest/planned", &[("day", &day)]).starts_with("HTTP/1.1 303"));
    assert_eq!(order()[0], "KM-101");
}
