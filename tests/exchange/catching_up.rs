//! A desk that was away for a week, a server that was put back, words that nobody trusted here stood behind until now.

use crate::late::have;
use crate::server::Server;
use crate::zone::{Ends, WORDS, Zone};

#[test]
fn a_week_away_costs_what_came_in_that_week() {
    let server = Server::new();
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let lantern = zone.device("lantern", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let away = zone.device("away", 0);
    away.meet(&relief);
    let push = |device: &crate::zone::Device| {
        server.connect().unwrap().push(&device.app, true, &mut |_| {}).unwrap()
    };
    let pull = |device: &crate::zone::Device| {
        server.connect().unwrap().pull(&device.app, false, &mut |_| {}).unwrap()
    };

    zone.inspect(&anvil, &lantern.plan("KM-301"), Ends::Fit);
    push(&lantern);
    push(&anvil);
    let first = pull(&away);
    assert_eq!((first.report.new, first.set_aside), (1, 0), "{first:?}");
    assert_eq!(push(&anvil).words, 0, "a word goes in once, and the end of a journal not by itself");

    let mut came = 0;
    for day in 1..=7 {
        zone.pass(86_400);
        zone.inspect(&anvil, &lantern.plan(&format!("KM-31{day}")), Ends::Fit);
        came += push(&lantern).words + push(&anvil).words;
    }
    let week = pull(&away);
    assert_eq!((week.looked_at, week.report.new), (came, 7), "no more is looked at than came");
    assert_eq!(pull(&away).looked_at, 0);
    assert_eq!(away.account().len(), 8);
    pull(&lantern);
    pull(&anvil);
    for device in [&lantern, &anvil] {
        assert_eq!(have(device), have(&away));
        device.sound();
    }
    away.sound();

    // The server is put back by three days, and goes on from there: what was lost is pushed again, and nobody misses what came
    // under the numbers that were given twice.
    let lost = server.number(
        "WITH gone AS (DELETE FROM slingseal.word WHERE number > 9 RETURNING kind) SELECT count(*) FROM gone WHERE kind <> 6",
    );
    assert!(lost > 3);
    zone.inspect(&anvil, &lantern.plan("KM-320"), Ends::NotFit);
    let back = push(&anvil).words + push(&lantern).words;
    assert!(back > lost, "{back} of {lost}");
    let anew = pull(&away);
    assert!(anew.anew > 0 && anew.report.new == 1, "{anew:?}");
    assert_eq!(pull(&away).anew, 0);
    pull(&anvil);
    assert_eq!(have(&anvil), have(&away));
}

#[test]
fn who_comes_to_trust_somebody_reads_again_what_was_refused() {
    let server = Server::new();
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let lantern = zone.device("lantern", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    zone.inspect(&anvil, &lantern.plan("KM-301"), Ends::Fit);
    let mut line = server.connect().unwrap();
    line.push(&anvil.app, true, &mut |_| {}).unwrap();
    let guest = zone.device("guest", 0);
    let before = line.pull(&guest.app, false, &mut |_| {}).unwrap();
    assert!(before.set_aside > 0 && before.report.new == 0, "{before:?}");
    assert_eq!(line.pull(&guest.app, false, &mut |_| {}).unwrap().looked_at, 0);
    guest.meet(&relief);
    let after = line.pull(&guest.app, false, &mut |_| {}).unwrap();
    assert_eq!((after.report.new, after.set_aside), (1, 0), "{after:?}");
    let aside = guest.app.set_aside(10).unwrap();
    assert!(
        aside.iter().all(|line| line.reason.contains("this roster")),
        "the roster was shown by hand: {aside:?}"
    );
}
