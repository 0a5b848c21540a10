//! Numbers that are given in order commit out of order: a pull must miss nothing that commits late.

use std::collections::HashSet;

use slingseal_app::{App, ExchangeWord};

use crate::server::Server;
use crate::zone::{Device, WORDS, Zone};

fn hex(bytes: &[u8]) -> String {
    let digits: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    format!("'\\x{digits}'")
}

/// The rows of a desk's words as the keeper would write them, from a number on.
pub fn rows(app: &App, words: &[ExchangeWord], from: usize) -> String {
    let source = hex(&app.exchange_source());
    let row = |(number, word): (usize, &ExchangeWord)| {
        let (key, kind, body) = (hex(&word.key()), word.kind(), hex(word.body()));
        format!("({source}, {number}, {key}, {kind}, {body})")
    };
    let all: Vec<String> = (from..).zip(words).map(row).collect();
    format!("INSERT INTO slingseal.word (source, number, key, kind, body) VALUES {};", all.join(", "))
}

pub fn words_of(app: &App) -> Vec<ExchangeWord> {
    let here = app.exchange_here(true, &HashSet::new()).unwrap();
    app.exchange_words(&here, 0..here.keys().len()).unwrap()
}

pub fn have(device: &Device) -> String {
    device.app.have_code().unwrap().text
}

#[test]
fn what_commits_late_is_not_missed() {
    let server = Server::new();
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let slow = zone.device("slow", 0).credentialed(&relief, "Lantern 1", "planner");
    let quick = zone.device("quick", 0).credentialed(&relief, "Lantern 2", "planner");
    let third = zone.device("third", 0);
    third.meet(&relief);
    let pull = |again| {
        zone.pass(1);
        server.connect().unwrap().pull(&third.app, again, &mut |_| {}).unwrap()
    };

    // The first desk has its numbers and its transaction stays open.
    (301..304).for_each(|load| drop(slow.plan(&format!("KM-{load}"))));
    let words = words_of(&slow.app);
    let mut held = server.session();
    held.say("BEGIN;");
    held.say(&format!(
        "INSERT INTO slingseal.source (id) VALUES ({}) ON CONFLICT DO NOTHING;",
        hex(&slow.app.exchange_source())
    ));
    held.say(&rows(&slow.app, &words, 1));
    // The second begins later and is done earlier; and what it has is pulled.
    quick.plan("KM-401");
    let pushed = server.connect().unwrap().push(&quick.app, false, &mut |_| {}).unwrap();
    assert!(pushed.words > 0);
    // What both have and the open transaction holds is not waited for without end.
    assert!(pushed.waiting > 0 && pushed.waiting < 4, "{pushed:?}");
    assert_eq!(pull(false).looked_at, pushed.words);
    assert_eq!(pull(false).looked_at, 0);

    // A second program of the slow desk's home wants the same numbers meanwhile: it waits, and then goes on behind them.
    std::thread::scope(|scope| {
        let second = scope.spawn(|| server.connect().unwrap().push(&slow.app, false, &mut |_| {}).unwrap());
        std::thread::sleep(std::time::Duration::from_millis(300));
        assert_eq!(pull(false).looked_at, 0, "nothing of it is committed");
        held.say("COMMIT;");
        let second = second.join().unwrap();
        assert!(second.words <= 1, "only the head of its journal is new: {second:?}");
    });
    let late = pull(false);
    assert!(late.looked_at >= words.len() as u64, "{late:?}");
    assert_eq!((late.set_aside, late.spoiled, late.gone), (0, 0, 0), "{:?}", late.report);
    assert_eq!(pull(false).looked_at, 0);
    let again = server.connect().unwrap().push(&quick.app, false, &mut |_| {}).unwrap();
    assert_eq!((again.words, again.waiting), (0, 0));

    // Everything is here, as by hand.
    let by_hand = zone.device("by hand", 0);
    by_hand.meet(&relief);
    by_hand.take(&slow.bundle(None));
    by_hand.take(&quick.bundle(None));
    assert_eq!(have(&third), have(&by_hand));
    let all = server.number("SELECT count(*) FROM slingseal.word");
    assert_eq!(
        all,
        server.number(
            "SELECT sum(m) FROM (SELECT max(number) AS m FROM slingseal.word GROUP BY source) AS each"
        )
    );
}
