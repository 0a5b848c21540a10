//! A server that lies: each lie costs one line, what is good comes in, and nothing grows.

use std::io::{Read, Write};
use std::net::TcpListener;
use std::sync::atomic::Ordering;

use slingseal_app::ExchangeWord;
use slingseal_exchange::{Address, Exchange, ExchangeError};
use slingseal_words::Digest;

use crate::late::{have, rows, words_of};
use crate::proxy::{Lie, Proxy};
use crate::server::Server;
use crate::zone::{Device, Ends, WORDS, Zone};

/// What a word of one part goes by, by the rule as it is written down: a digest over the kind and the digest of the part.
fn key_of(kind: u8, body: &[u8]) -> String {
    Digest::of_parts(&[&[kind], Digest::of(body).as_bytes()]).to_string()
}

fn zone_with_a_record(zone: &Zone, server: &Server) -> (Device, Device) {
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let lantern = zone.device("lantern", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    zone.inspect(&anvil, &lantern.plan("KM-301"), Ends::Fit);
    server.connect().unwrap().push(&anvil.app, true, &mut |_| {}).unwrap();
    let reader = zone.device("reader", 0);
    reader.meet(&relief);
    (anvil, reader)
}

#[test]
fn what_is_no_good_costs_a_line_and_what_is_good_comes_in() {
    let server = Server::new();
    let zone = Zone::new();
    let (anvil, reader) = zone_with_a_record(&zone, &server);
    // A stranger's authority and its words: well made, and nobody's here.
    let strange = zone.device("strange", 0);
    strange.app.authority_init("Nobody Known", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let stranger = zone.device("stranger", 0).credentialed(&strange, "Cinder 9", "inspector,planner");
    zone.inspect(&stranger, &stranger.plan("KM-666"), Ends::Fit);

    let mut number = 0;
    let mut put = |key: &str, kind: u8, body: &str| {
        number += 1;
        server.sql(&format!(
            "INSERT INTO slingseal.word VALUES ('\\x{}', {number}, '\\x{key}', {kind}, {body})",
            "66".repeat(16)
        ));
    };
    server.sql(&format!("INSERT INTO slingseal.source VALUES ('\\x{}')", "66".repeat(16)));
    // Noise under its right key, for every kind there is; noise under another's; a kind of tomorrow; what no word of its kind is
    // as long as; a body that is not what was listed.
    for kind in 1..=15 {
        put(&key_of(kind, b"noise"), kind, "'noise'");
    }
    put(&key_of(3, b"noise of another"), 3, "'noise'");
    put(&key_of(99, b"x"), 99, "'x'");
    put(&"ab".repeat(32), 3, "decode(repeat('00', 70000), 'hex')");
    put(&"cd".repeat(32), 7, "decode(repeat('00', 16777216), 'hex')");

    let mut line = server.connect().unwrap();
    let pulled = line.pull(&reader.app, false, &mut |_| {}).unwrap();
    // A record and an inspection of noise have no key: 13 of 15 are tried, two are spoiled, and so are three others.
    assert_eq!((pulled.newer, pulled.report.new), (1, 1), "{pulled:?}");
    assert_eq!(pulled.spoiled, 5, "{pulled:?}");
    assert_eq!(pulled.set_aside, 13, "{pulled:?}");
    for line in &pulled.report.set_aside {
        assert!(!line.reason.is_empty() && !line.reason.contains('\n'), "{line:?}");
    }
    assert_eq!(
        line.pull(&reader.app, false, &mut |_| {}).unwrap().looked_at,
        0,
        "and it is not asked for again"
    );

    let before = have(&reader);
    server
        .sql(&format!("INSERT INTO slingseal.source VALUES ('\\x{}')", hex(&stranger.app.exchange_source())));
    server.sql(&rows(&stranger.app, &words_of(&stranger.app), 1));
    let pulled = line.pull(&reader.app, false, &mut |_| {}).unwrap();
    assert!(pulled.set_aside >= 2 && pulled.report.new == 0, "{pulled:?}");
    assert!(
        pulled
            .report
            .set_aside
            .iter()
            .any(|line| line.reason.contains("Cinder 9") || line.reason.contains("trust"))
    );
    drop(before);
    reader.sound();

    // Somebody spends this desk's numbers.
    server.sql(&format!(
        "INSERT INTO slingseal.word VALUES ('\\x{}', 9223372036854775807, '\\x{}', 3, 'z')",
        hex(&anvil.app.exchange_source()),
        "ef".repeat(32)
    ));
    anvil.app.receive(&stranger.plan("KM-667")).unwrap();
    zone.inspect(&anvil, &stranger.plan("KM-668"), Ends::Fit);
    let spent = line.push(&anvil.app, false, &mut |_| {}).unwrap_err();
    assert!(spent.to_string().contains("numbers of this desk are spent"), "{spent}");
    let pulled = server.connect().unwrap().pull(&reader.app, false, &mut |_| {}).unwrap();
    assert!(pulled.gone > 1 << 40 && pulled.spoiled == 1, "{pulled:?}");
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[test]
fn words_without_end_are_not_read_to_their_end() {
    let server = Server::new();
    let zone = Zone::new();
    let (_, reader) = zone_with_a_record(&zone, &server);
    server.sql(&format!("INSERT INTO slingseal.source VALUES ('\\x{}')", "66".repeat(16)));
    server.sql(&format!(
        "INSERT INTO slingseal.word SELECT '\\x{}', n, sha256(n::text::bytea), 3, n::text::bytea \
         FROM generate_series(1, 30000) AS n",
        "66".repeat(16)
    ));
    let mut line = server.connect().unwrap();
    let stopped = line.pull(&reader.app, false, &mut |_| {}).unwrap_err();
    assert!(matches!(stopped, ExchangeError::InVain { count } if count < 20_000), "{stopped:?}");
    assert!(stopped.to_string().contains("ask who keeps it"), "{stopped}");
    assert_eq!(reader.account().len(), i32::from(reader.account().len() == 1) as usize);
    // The next goes on behind them, and comes to the end.
    let mut rounds = 0;
    while line.pull(&reader.app, false, &mut |_| {}).is_err() {
        rounds += 1;
        assert!(rounds < 4);
    }
    assert_eq!(reader.account().len(), 1);
}

#[test]
fn a_server_that_does_not_keep_to_what_it_was_asked_is_left() {
    let server = Server::new();
    let zone = Zone::new();
    let (_, reader) = zone_with_a_record(&zone, &server);
    for (lie, said) in [
        (Lie::Endless(1), "cannot be read"),
        (Lie::Endless(2), "more than was asked for"),
        (Lie::Endless(4), "out of their order"),
        (Lie::Huge, "longer than any word"),
        (Lie::Noise, "not"),
    ] {
        let proxy = Proxy::new(&server.socket(), lie);
        let error = Exchange::connect(&proxy.address())
            .and_then(|mut line| line.pull(&reader.app, false, &mut |_| {}))
            .unwrap_err();
        let told = error.to_string();
        assert!(matches!(error, ExchangeError::Strange { .. }), "{lie:?}: {error:?}");
        assert!(told.contains(said) && !told.contains('\n'), "{lie:?}: {told}");
        assert!(proxy.sent.load(Ordering::Relaxed) < 8 << 20, "{lie:?} was read on and on");
    }
    assert_eq!(reader.account().len(), 0);
    server.connect().unwrap().pull(&reader.app, false, &mut |_| {}).unwrap();
    assert_eq!(reader.account().len(), 1);
}

/// What answers, and is no PostgreSQL.
fn answering(first: &'static [u8], with: &'static [u8]) -> Address {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = listener.local_addr().unwrap().port();
    std::thread::spawn(move || {
        for line in listener.incoming() {
            let mut line = line.unwrap();
            std::thread::spawn(move || {
                let _ = line.read(&mut [0; 1024]);
                let _ = line.write_all(first);
                while !with.is_empty() && line.write_all(with).is_ok() {}
                std::thread::sleep(std::time::Duration::from_secs(60));
            });
        }
    });
    Address::new(&format!("postgresql://lantern@127.0.0.1:{port}/slingseal"), None, None).unwrap()
}

#[test]
fn what_is_no_server_is_told_in_one_line() {
    let welcome = b"R\0\0\0\x08\0\0\0\0";
    for (first, with, slow) in [
        (&b"HTTP/1.1 400 Bad Request\r\n\r\n"[..], &b""[..], false),
        (b"", &[0xff; 64], false),
        // notices and settings without end, before it is ready
        (welcome, b"N\0\0\0\x05\0", false),
        (welcome, b"S\0\0\0\x08a\0b\0", false),
        // and behind it, while it is asked for the steps
        (b"R\0\0\0\x08\0\0\0\0Z\0\0\0\x05I", b"N\0\0\0\x17SNOTICE\0C00000\0Mx\0\0", true),
        // it says nothing
        (b"", b"", true),
    ] {
        let error = Exchange::connect(&answering(first, with)).unwrap_err();
        let told = error.to_string();
        assert!(!told.contains('\n') && told.len() < 300, "{told}");
        assert_eq!(error == ExchangeError::Slow, slow, "{told}");
    }
}

/// Words cannot be made whose key is not their own.
#[test]
fn a_key_that_does_not_fit_is_no_word() {
    assert_eq!(ExchangeWord::received(3, [0; 32], b"x".to_vec()), None);
    assert_eq!(ExchangeWord::received(-1, [0; 32], Vec::new()), None);
    assert_eq!(ExchangeWord::received(300, [0; 32], Vec::new()), None);
    let key: [u8; 32] = *Digest::of_parts(&[&[3], Digest::of(b"x").as_bytes()]).as_bytes();
    assert!(ExchangeWord::received(3, key, b"x".to_vec()).is_some());
    assert_eq!(ExchangeWord::received(4, key, b"x".to_vec()), None, "another kind, another word");
}
