//! Who comes in, and to what: logins, steps of the schema, TLS.

use std::net::TcpListener;
use std::process::Command;

use slingseal_exchange::{Address, Exchange, ExchangeError, ROLES, SCHEMA};

use crate::server::Server;
use crate::zone::{WORDS, Zone};

#[test]
fn a_database_that_is_not_set_up_a_newer_one_and_a_stranger() {
    let server = Server::empty("");
    server.sql("CREATE ROLE lantern LOGIN; CREATE ROLE stranger LOGIN;");
    assert_eq!(server.connect().unwrap_err(), ExchangeError::NotSetUp);
    server.sql(SCHEMA);
    server.sql(ROLES);
    let refused = server.connect().unwrap_err();
    assert!(matches!(refused, ExchangeError::Login { .. }), "{refused:?}");
    assert!(refused.to_string().contains("slingseal_desk"), "{refused}");
    server.sql("GRANT slingseal_desk TO lantern");
    drop(server.connect().unwrap());
    let nobody = Exchange::connect(&server.address_of("nobody")).unwrap_err();
    assert!(matches!(nobody, ExchangeError::Login { .. }), "{nobody:?}");
    server.sql("INSERT INTO slingseal.step VALUES (2)");
    let newer = server.connect().unwrap_err();
    assert_eq!(newer, ExchangeError::TooNew { found: 2 });
    assert!(newer.to_string().contains("bring this program up to date"), "{newer}");
    server.kill();
    let away = server.connect().unwrap_err();
    assert!(matches!(away, ExchangeError::Unreachable { .. }) && away.may_pass(), "{away:?}");
}

/// A desk's login can add and read, and change nothing.
#[test]
fn a_desk_can_change_nothing_that_lies_there() {
    let server = Server::new();
    for act in [
        "DELETE FROM slingseal.word",
        "UPDATE slingseal.word SET kind = 2",
        "TRUNCATE slingseal.word",
        "INSERT INTO slingseal.step VALUES (9)",
        "UPDATE slingseal.place SET id = gen_random_uuid()",
        "CREATE TABLE slingseal.other (x int)",
        "DROP TABLE slingseal.word",
    ] {
        let done = Command::new("psql")
            .arg("-h")
            .arg(server.socket())
            .args(["-U", "lantern", "-d", "slingseal", "-X", "-c", act])
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&done.stderr).into_owned();
        assert!(
            !done.status.success() && (said.contains("permission denied") || said.contains("must be owner")),
            "{act}: {said}"
        );
    }
}

fn openssl(folder: &std::path::Path, name: &str) {
    let done = Command::new("openssl")
        .current_dir(folder)
        .args([
            "req",
            "-x509",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:prime256v1",
            "-nodes",
            "-days",
            "2",
        ])
        .args(["-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost"])
        .args(["-addext", "basicConstraints=critical,CA:FALSE"])
        .args(["-keyout", &format!("{name}.key"), "-out", &format!("{name}.pem")])
        .output()
        .unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
}

#[test]
fn by_network_it_is_tls_under_the_named_certificate_alone() {
    let folder = tempfile::Builder::new().prefix("ca").tempdir_in("/tmp").unwrap();
    let at = folder.path();
    openssl(at, "server");
    openssl(at, "other");
    let own = |command: &str| {
        let done = Command::new("sh").arg("-c").arg(command).current_dir(at).output().unwrap();
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    };
    own("chmod 755 . && chmod 600 server.key && if [ $(id -u) = 0 ]; then chown postgres server.key; fi");
    let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
    let server = Server::empty(&format!(
        "-c listen_addresses=localhost -c port={port} -c ssl=on -c ssl_cert_file={0}/server.pem -c ssl_key_file={0}/server.key",
        at.display()
    ));
    // psql and this test's own socket go by the port's number.
    server.sql_on(port, SCHEMA);
    server.sql_on(port, ROLES);
    server.sql_on(port, "CREATE ROLE lantern LOGIN PASSWORD 'by the river' IN ROLE slingseal_desk");
    // By network only with TLS, and only with a password.
    server.hosts(port, "hostssl all all 127.0.0.1/32 scram-sha-256\nhostssl all all ::1/128 scram-sha-256\n");
    let to = |ca: &str, password: &str| {
        let url = format!("postgresql://lantern@localhost:{port}/slingseal");
        Exchange::connect(&Address::new(&url, Some(password), Some(&at.join(ca))).unwrap())
    };
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let lantern = zone.device("lantern", 0).credentialed(&relief, "Lantern 1", "planner");
    lantern.plan("KM-301");
    let pushed = to("server.pem", "by the river").unwrap().push(&lantern.app, false, &mut |_| {}).unwrap();
    assert!(pushed.words > 0);
    let wrong = to("server.pem", "hunter2").unwrap_err();
    assert!(
        matches!(wrong, ExchangeError::Login { .. }) && !wrong.to_string().contains("hunter2"),
        "{wrong:?}"
    );
    let other = to("other.pem", "by the river").unwrap_err();
    assert!(matches!(other, ExchangeError::Certificate { .. }), "{other:?}");
    let plain =
        Address::new(&format!("postgresql://lantern@127.0.0.1:{port}/slingseal"), None, None).unwrap();
    assert!(
        matches!(Exchange::connect(&plain).unwrap_err(), ExchangeError::Login { .. }),
        "no TLS, no entry"
    );
}
