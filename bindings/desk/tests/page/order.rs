//! Rows in order, stretches of time and weeks: all of them have addresses, which are asked here without a browser.

use crate::Demo;
use crate::zone::Day;

#[test]
fn rows_ranges_and_weeks_have_addresses() {
    let demo = Demo::new();
    let zone = Day::new(&demo);
    let names = |path: &str| {
        let (status, body) = zone.get(path);
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
    let body = zone.get("/people?sort=people.name").1;
    assert!(body.contains("aria-sort=\"ascending\"") && body.contains("sort=people.name.down"), "{body}");

    let points = |path: &str| {
        let body = zone.get(path).1;
        let body = body.split("</table>").next().unwrap().to_owned();
        assert!(body.contains("aria-sort=\"descending\"") || !path.contains(".down"), "{path}: {body}");
        let cells = body.split("<td class=\"num\">").skip(1);
        let cells: Vec<u32> = cells.filter_map(|cell| cell.split('<').next()?.parse().ok()).collect();
        cells.chunks(2).map(|row| row[1]).collect::<Vec<_>>()
    };
    let lists = points("/procedures?sort=lists.points.down");
    assert!(lists.len() > 3 && lists.windows(2).all(|two| two[0] >= two[1]), "{lists:?}");

    // From a day to a day, both within; the days stay in further addresses.
    let records = |path: &str| zone.get(path).1.matches("href=\"/record/").count();
    let all = records("/search?q=KM");
    assert!(all > 5, "{all}");
    assert_eq!(records("/search?q=KM&from=2001-01-01&until=2001-12-31"), 0);
    assert_eq!(records("/search?q=KM&from=2001-01-01"), all);
    assert!(zone.get("/search?q=KM&from=2026-02-30").0.contains(" 400 "));
    assert!(zone.get("/deficiencies?from=2026-03-02&until=2026-03-01").0.contains(" 400 "));
    let counted = |path: &str| {
        let body = zone.get(path).1;
        body.matches("class=\"share\"").count()
    };
    assert!(counted("/deficiencies") > 0);
    assert_eq!(counted("/deficiencies?from=2001-01-01&until=2001-12-31"), 0);
    assert_eq!(counted("/deficiencies?from=2001-01-01"), counted("/deficiencies"));

    // Weeks from Monday to Sunday, the first and the last cut to the days that were asked for.
    let (status, body) = zone.get("/weeks?from=2001-01-03&until=2001-01-16");
    assert!(status.contains(" 200 "), "{status}");
    for week in ["2001-01-03 – 2001-01-07", "2001-01-08 – 2001-01-14", "2001-01-15 – 2001-01-16"] {
        assert!(body.contains(week), "{week}: {body}");
    }
    assert_eq!(body.matches("<tr>").count(), 4);
    let now = zone.get("/weeks").1;
    assert!(now.contains("<line class=\"whisker\""), "an interval is drawn: {now}");
    assert!(zone.get("/weeks?from=1990-01-01").0.contains(" 400 "), "more weeks than are told");
    assert!(zone.get("/weeks?procedure=nothing").0.contains(" 200 "));
}

/// The cells of a column, row by row.
fn column(body: &str, at: usize) -> Vec<String> {
    let rows = body.split("<tbody>").nth(1).unwrap_or_default().split("</tbody>").next().unwrap_or_default();
    let text = |cell: &str| {
        let mut text = String::new();
        let mut tag = false;
        for letter in cell.chars() {
            match letter {
                '<' => tag = true,
                '>' => tag = false,
                letter if !tag => text.push(letter),
                _ => {}
            }
        }
        text
    };
    let cell = |row: &str| {
        let cell = row.split("<td").nth(at + 1)?;
        Some(text(cell.split_once('>')?.1.split("</td>").next()?))
    };
    rows.split("<tr").skip(1).filter_map(cell).collect()
}

/// Every row of every page of a table, as its address leads from one to the next.
fn all_pages(zone: &Day, path: &str, pages: usize, at: usize) -> Vec<String> {
    let mut all = Vec::new();
    for page in 0..pages {
        let (status, body) = zone.get(&format!("{path}&page={page}"));
        assert!(status.contains(" 200 "), "{path}: {status}");
        let order = if path.contains(".down") { "descending" } else { "ascending" };
        assert!(
            body.contains(&format!("aria-sort=\"{order}\"><a href=\"?")),
            "{path}: a link in its head: {body}"
        );
        if page + 1 < pages {
            assert!(body.contains("sort=") && body.contains(&format!("page={}", page + 1)), "{path}: {body}");
        }
        all.extend(column(&body, at));
    }
    all
}

/// What is on another page counts as much as what is on this one.
#[test]
fn tables_are_ordered_across_all_their_pages() {
    let demo = Demo::new();
    let zone = Day::new(&demo);
    let mut list =
        String::from("load,description,procedure,gross,aircraft,allowable,pickup,destination,equipment\n");
    for number in 0..60 {
        let (craft, piece) = ((number * 7) % 60, (number * 11) % 60);
        list += &format!(
            "QX-{number:03},x,bag,1800 lb,Type {craft:02},7000 lb,Field {piece:02},B,bag | ZB-{piece:03} | 3000 lb | plate\n"
        );
    }
    let made = zone.post("/plan/list", &[("list", &list)]);
    assert!(made.starts_with("HTTP/1.1 303"), "{made}");

    let sorted = |found: &[String], down: bool| {
        let mut sorted = found.to_vec();
        sorted.sort();
        if down {
            sorted.reverse();
        }
        assert_eq!(found, sorted);
    };
    for (column, at) in [("load", 0), ("aircraft", 3), ("from", 4)] {
        for (down, ending) in [(false, ""), (true, ".down")] {
            let path = format!("/?state=planned&sort=board.{column}{ending}");
            let found = all_pages(&zone, &path, 3, at);
            assert_eq!(found.len(), 60, "{path}: {found:?}");
            sorted(&found, down);
        }
    }
    // Without an order the newest come first, as on the board; what is no column orders nothing.
    let plain = column(&zone.get("/?state=planned").1, 0);
    assert_eq!(column(&zone.get("/?state=planned&sort=board.nothing").1, 0), plain);

    // Pieces of a plan that nobody inspected have no life yet: the day's own. Over pages: the facade's tests.
    for (column, at) in [("serial", 0), ("kind", 1)] {
        for (down, ending) in [(false, ""), (true, ".down")] {
            let path = format!("/equipment?words=&sort=equipment.{column}{ending}");
            let found = all_pages(&zone, &path, 1, at);
            assert!(found.len() > 3, "{path}: {found:?}");
            sorted(&found, down);
        }
    }

    // Records: every column with an index where all are listed, the time of sealing wherever no words are asked for.
    let records = |path: &str, at: usize| {
        let (status, body) = zone.get(path);
        assert!(status.contains(" 200 "), "{path}: {status}");
        let found = column(&body, at);
        assert!(found.len() > 5, "{path}: {found:?}");
        found
    };
    sorted(&records("/search?sort=records.load", 0), false);
    sorted(&records("/search?sort=records.load.down", 0), true);
    sorted(&records("/search?sort=records.rigger", 6), false);
    let mut first = records("/search?sort=records.sealed", 0);
    first.reverse();
    assert_eq!(first, records("/search?sort=records.sealed.down", 0));
    let whose = zone.get("/search?rigger=Mason+5&sort=records.load").1;
    assert!(whose.contains("sort=records.sealed") && !whose.contains("sort=records.load"), "{whose}");
    assert!(!zone.get("/search?q=KM&sort=records.sealed").1.contains("aria-sort"));
}
