//! The day that an account is closed on, played by four desks that meet at a server alone, and the server is killed again and
//! again: all are equal in the end, nothing is lost, nothing lies there twice.

use std::time::Duration;

use slingseal_app::{CloseRequest, PieceReport, RefusalCause, ReportRequest};
use slingseal_exchange::{Exchange, ExchangeError, Followed, follow};
use slingseal_tests::scripted::PIN;

use crate::late::{have, words_of};
use crate::proxy::{Lie, Proxy};
use crate::server::Server;
use crate::zone::{Device, Ends, WORDS, Zone};

const LIST: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,rigger,equipment,links\n";

fn line(load: u32) -> String {
    format!(
        "KM-{load},Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,45.0 7.0,Alder Bridge,Mason 5,sling set | SS-{load} | 5 t | data plate | 2030-01-01,1:3\n"
    )
}

fn event(word: &str, load: Option<&str>) -> ReportRequest {
    ReportRequest { load: load.map(str::to_owned), ..ReportRequest::of(word.parse().unwrap()) }
}

/// Pushes and pulls as a person would: again until it works.
fn meet(server: &Server, device: &Device, mut on_the_way: impl FnMut()) -> u32 {
    for tries in 0..6 {
        let met = server.connect().and_then(|mut exchange| {
            exchange.push(&device.app, true, &mut |_| on_the_way())?;
            exchange.pull(&device.app, false, &mut |_| on_the_way())
        });
        match met {
            Ok(pulled) => {
                assert_eq!((pulled.set_aside, pulled.spoiled, pulled.gone), (0, 0, 0), "{:?}", pulled.report);
                return tries;
            }
            Err(error) => {
                assert!(error.may_pass(), "{error:?}");
                server.start();
            }
        }
    }
    panic!("the server is up and nothing goes through");
}

#[test]
fn four_desks_close_one_day_through_a_server_that_is_killed_twice() {
    let server = Server::new();
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let desk = zone.device("desk", 0).credentialed(&relief, "Lantern 1", "planner,leader");
    let second = zone.device("second desk", 40).credentialed(&relief, "Lantern 2", "leader");
    let anvil = zone.device("anvil", 3).credentialed(&relief, "Anvil 3", "inspector");
    let hook = zone.device("hook", 7).credentialed(&relief, "Thistle 7", "hookup");
    let desks = [&desk, &second, &anvil, &hook];

    let none = |_: &str| Err("none".into());
    let list: String = std::iter::once(LIST.to_owned()).chain((201..=212).map(line)).collect();
    let tags: Vec<String> = desk
        .app
        .write_tags(&list, &none, Some(PIN))
        .unwrap()
        .into_iter()
        .map(|made| made.code.text)
        .collect();
    for device in desks {
        meet(&server, device, || {});
    }
    zone.pass(60);
    let seals: Vec<_> = tags.iter().map(|tag| zone.inspect(&anvil, tag, Ends::Fit)).collect();

    // It dies once while words go in, and once while they come out: right behind a transaction.
    let mut kills = 2;
    let tries = meet(&server, &anvil, || {
        if kills == 2 {
            kills = 1;
            server.kill();
        }
    });
    assert!(tries > 0);
    zone.pass(600);
    for (number, (seal, tag)) in (201..).zip(seals.iter().zip(&tags)) {
        let (word, reasons) = hook.told(Some(seal), Some(tag));
        assert_eq!(word, "GO", "{number}: {reasons:?}");
        let lifted = event(if number == 201 { "refused" } else { "lifted" }, None);
        let request = ReportRequest { cause: (number == 201).then_some(RefusalCause::Rigging), ..lifted };
        hook.app.report(&request, Some(PIN)).unwrap();
        zone.pass(30);
    }
    hook.app.report(&event("lost", Some("KM-204")), Some(PIN)).unwrap();
    zone.pass(900);
    let mut pushed = false;
    let tries = meet(&server, &hook, || {
        if kills == 1 && pushed {
            kills = 0;
            server.kill();
        }
        pushed = true;
    });
    assert!(tries > 0 && kills == 0);
    let tries = meet(&server, &second, || {});
    assert_eq!(tries, 0);
    for number in (202..=212).filter(|number| *number != 204) {
        let load = format!("KM-{number}");
        second.app.report(&event("set-down", Some(&load)), Some(PIN)).unwrap();
        second.app.report(&event("derigged", Some(&load)), Some(PIN)).unwrap();
        if number != 207 {
            let piece = PieceReport { serial: format!("SS-{number}"), back: true, damaged: false };
            let request = ReportRequest { pieces: vec![piece], ..event("returned", Some(&load)) };
            second.app.report(&request, Some(PIN)).unwrap();
        }
        zone.pass(20);
    }
    // The line breaks after ever more bytes, in the middle of whatever is said.
    let mut broken = 0;
    for most in (200..6_000).step_by(400) {
        let proxy = Proxy::new(&server.socket(), Lie::Cut(most));
        let through = Exchange::connect(&proxy.address()).and_then(|mut exchange| {
            exchange.push(&second.app, true, &mut |_| {})?;
            exchange.pull(&second.app, false, &mut |_| {})
        });
        if let Err(error) = through {
            assert!(matches!(error, ExchangeError::Unreachable { .. }), "{error:?}");
            broken += 1;
        }
    }
    assert!(broken > 1, "the line was never broken");
    // Twice round, and everyone has everything.
    for _ in 0..2 {
        for device in desks {
            meet(&server, device, || {});
        }
    }

    let everything = CloseRequest { name: Some("Kestrel".into()), ..CloseRequest::default() };
    let view = desk.app.close_account(&everything).unwrap();
    assert_eq!((view.loads, view.inspections, view.lifted, view.set_down, view.lost), (12, 12, 11, 10, 1));
    let mut told: Vec<(&str, &str)> =
        view.points.iter().map(|point| (point.kind.word(), point.subject.as_str())).collect();
    told.sort_unstable();
    assert_eq!(
        told,
        [("lost", "load KM-204"), ("piece_out", "piece SS-207"), ("refused_at_hook", "load KM-201")],
        "{view:#?}"
    );
    for device in desks {
        assert_eq!(device.app.close_account(&everything).unwrap(), view);
        assert_eq!(have(device), have(&desk));
        device.sound();
    }
    // By hand it comes to the same.
    let by_hand = zone.device("by hand", 0);
    by_hand.meet(&relief);
    [&desk, &anvil, &hook, &second].iter().for_each(|device| drop(by_hand.take(&device.bundle(None))));
    assert_eq!(have(&by_hand), have(&desk));

    let there = server.number("SELECT count(*) FROM slingseal.word");
    assert_eq!(there, server.number("SELECT count(DISTINCT key) FROM slingseal.word"));
    let words = words_of(&desk.app);
    let keys: Vec<String> = words
        .iter()
        .map(|word| {
            format!("'\\x{}'", word.key().iter().map(|byte| format!("{byte:02x}")).collect::<String>())
        })
        .collect();
    let found =
        server.number(&format!("SELECT count(*) FROM slingseal.word WHERE key IN ({})", keys.join(",")));
    assert_eq!(found, words.len() as u64, "every word of the day lies there");
    let gaps = "SELECT count(*) FROM (SELECT max(number) - count(*) AS gap FROM slingseal.word GROUP BY source) AS each WHERE gap > 0";
    assert_eq!(server.number(gaps), 0, "no number was left out");
}

/// A follower waits for a server that is away, says so once, and goes on.
#[test]
fn a_follower_waits_for_its_server() {
    let server = Server::new();
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let lantern = zone.device("lantern", 0).credentialed(&relief, "Lantern 1", "planner");
    let other = zone.device("other", 0).credentialed(&relief, "Lantern 2", "planner");
    lantern.plan("KM-301");
    let (mut rounds, mut told) = (0, Vec::new());
    let mut wait = |_: Duration| {
        rounds += 1;
        match rounds {
            2 => server.kill(),
            4 => {
                server.start();
                other.plan("KM-302");
                server.connect().unwrap().push(&other.app, false, &mut |_| {}).unwrap();
            }
            _ => {}
        }
        rounds < 8
    };
    let mut tell = |said: &Followed| {
        told.push(match said {
            Followed::Moved(pushed, pulled) => format!("{} {}", pushed.words > 0, pulled.report.papers),
            Followed::Away(_) => "away".into(),
            Followed::Back => "back".into(),
        });
    };
    follow(&server.address(), &lantern.app, false, Duration::from_millis(1), &mut wait, &mut tell).unwrap();
    let away = told.iter().filter(|one| *one == "away").count();
    assert_eq!((away, told.iter().filter(|one| *one == "back").count()), (1, 1), "{told:?}");
    assert!(told[0].starts_with("true"), "{told:?}");
    assert!(told.len() <= 5, "nothing is said where nothing moves: {told:?}");
    assert_eq!(have(&lantern), {
        server.connect().unwrap().pull(&other.app, false, &mut |_| {}).unwrap();
        have(&other)
    });
}
