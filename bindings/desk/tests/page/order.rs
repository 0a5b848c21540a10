//! Rows in order, stretches of time and weeks: all of them have addresses, which are asked here without a browser.

use crate::{Demo, Served};

/// The status and the body of an address.
fn get(served: &Served, cookie: &str, path: &str) -> (String, String) {
    let host = served.base.trim_start_matches("http://");
    let answer = served.raw(&format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n"));
    let (head, body) = answer.split_once("\r\n\r\n").unwrap();
    (head.lines().next().unwrap().to_owned(), body.to_owned())
}

#[test]
fn rows_ranges_and_weeks_have_addresses() {
    let demo = Demo::new();
    let (served, cookie) = crate::zone::served(&demo);
    let names = |path: &str| {
        let (status, body) = get(&served, &cookie, path);
        assert!(status.contains(" 200 "), "{path}: {status}");
        let rows = body.split("<a href=\"/search?inspector=").skip(1);
        rows.map(|row| row.split('"').next().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let (up, down) = (names("/people?sort=people.name"), names("/people?sort=people.name.down"));
    assert!(up.len() > 1, "{up:?}");
    let mut sorted = up.clone();
    sorted.sort_by_key(|name| name.to_lowercase());
    assert_eq!(up, sorted);
    sorted.reverse();
    assert_eq!(down, sorted);
    // What is no column orders nothing; the head says which way it stands and turns it round.
    assert_eq!(names("/people?sort=people.nothing"), names("/people"));
    let body = get(&served, &cookie, "/people?sort=people.name").1;
    assert!(body.contains("aria-sort=\"ascending\"") && body.contains("sort=people.name.down"), "{body}");

    let points = |path: &str| {
        let body = get(&served, &cookie, path).1;
        let body = body.split("</table>").next().unwrap().to_owned();
        assert!(body.contains("aria-sort=\"descending\"") || !path.contains(".down"), "{path}: {body}");
        let cells = body.split("<td class=\"num\">").skip(1);
        let cells: Vec<u32> = cells.filter_map(|cell| cell.split('<').next()?.parse().ok()).collect();
        cells.chunks(2).map(|row| row[1]).collect::<Vec<_>>()
    };
    let lists = points("/procedures?sort=lists.points.down");
    assert!(lists.len() > 3 && lists.windows(2).all(|two| two[0] >= two[1]), "{lists:?}");

    // From a day to a day, both within; the days stay in further addresses.
    let records = |path: &str| get(&served, &cookie, path).1.matches("href=\"/record/").count();
    let all = records("/search?q=KM");
    assert!(all > 5, "{all}");
    assert_eq!(records("/search?q=KM&from=2001-01-01&until=2001-12-31"), 0);
    assert_eq!(records("/search?q=KM&from=2001-01-01"), all);
    assert!(get(&served, &cookie, "/search?q=KM&from=2026-02-30").0.contains(" 400 "));
    assert!(get(&served, &cookie, "/deficiencies?from=2026-03-02&until=2026-03-01").0.contains(" 400 "));
    let counted = |path: &str| {
        let body = get(&served, &cookie, path).1;
        body.matches("class=\"share\"").count()
    };
    assert!(counted("/deficiencies") > 0);
    assert_eq!(counted("/deficiencies?from=2001-01-01&until=2001-12-31"), 0);
    assert_eq!(counted("/deficiencies?from=2001-01-01"), counted("/deficiencies"));

    // Weeks from Monday to Sunday, the first and the last cut to the days that were asked for.
    let (status, body) = get(&served, &cookie, "/weeks?from=2001-01-03&until=2001-01-16");
    assert!(status.contains(" 200 "), "{status}");
    for week in ["2001-01-03 – 2001-01-07", "2001-01-08 – 2001-01-14", "2001-01-15 – 2001-01-16"] {
        assert!(body.contains(week), "{week}: {body}");
    }
    assert_eq!(body.matches("<tr>").count(), 4);
    let now = get(&served, &cookie, "/weeks").1;
    assert!(now.contains("<line class=\"whisker\""), "an interval is drawn: {now}");
    assert!(get(&served, &cookie, "/weeks?from=1990-01-01").0.contains(" 400 "), "more weeks than are told");
    assert!(get(&served, &cookie, "/weeks?procedure=nothing").0.contains(" 200 "));
}
