//! Searching for a state: the shelf that is shown among what was found, and the board behind its link.

use std::path::Path;
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

use slingseal_app::{App, Clock, Entropy, Language, Outside, Stretch, Time};

use crate::Demo;
use crate::zone::Day;

const PLAN: &str = include_str!("../../demo/bag.toml");
const SECRET: [u8; 32] = [7; 32];

struct DaysAgo(i64);

impl Clock for DaysAgo {
    #[expect(clippy::disallowed_methods, reason = "the program that serves the home reads the same clock")]
    fn now(&self) -> Time {
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs();
        Time::from_unix(i64::try_from(now).unwrap() - self.0 * 86_400)
    }
}

struct Same;

impl Entropy for Same {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

/// Plans loads at a home, so many days ago.
fn planned(home: &Path, days: i64, loads: std::ops::Range<u32>) {
    let outside = Outside {
        clock: Arc::new(DaysAgo(days)),
        entropy: Arc::new(Same),
        device_secret: SECRET.to_vec().into(),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    let app = App::open(home, outside).unwrap();
    for load in loads {
        let plan = PLAN.replace("KM-015", &format!("QV-{load:03}"));
        app.write_tag(&plan, &|_| Err("none".into()), None).unwrap();
    }
}

/// How many loads the shelf of what is planned says that there are.
fn counted(page: &str) -> u32 {
    let shelf = page.split("<section class=\"shelf planned\"").nth(1).unwrap_or_else(|| panic!("{page}"));
    let count = shelf.split("<span class=\"count\">").nth(1).unwrap().split('<').next().unwrap();
    count.parse().unwrap()
}

#[test]
fn a_state_that_is_searched_for_counts_what_its_link_shows() {
    let demo = Demo(tempfile::tempdir().unwrap());
    let home = demo.at("day/desk");
    std::fs::create_dir_all(&home).unwrap();
    std::fs::write(home.join("device.secret"), SECRET).unwrap();
    // One more of this week than a shelf has room for; and one that was planned long before.
    planned(&home, 40, 0..1);
    planned(&home, 0, 1..26);
    let zone = Day::new(&demo);
    assert_eq!(counted(&zone.get("/?state=planned&days=3650").1), 26, "the old one is known");
    let found = zone.get("/search?q=Planned").1;
    let shelf = found.split("<section class=\"shelf planned\"").nth(1).unwrap_or_else(|| panic!("{found}"));
    let more = shelf.split("<p class=\"more\"><a href=\"").nth(1).unwrap();
    let (link, more) = more.split_once('"').unwrap();
    let (status, board) = zone.get(link);
    assert!(status.contains(" 200 ") && link.contains("state=planned"), "{link}: {status}");
    assert_eq!(counted(&board), 25);
    assert_eq!(counted(&found), 25, "{link} shows as many");
    assert!(more.starts_with(">all 25<"), "{more}");
}
