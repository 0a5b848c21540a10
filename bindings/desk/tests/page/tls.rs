//! The page over TLS: its own certificate, whose fingerprint is told; and what is refused where nothing is encrypted.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Stdio};
use std::sync::Arc;

use sha2::{Digest, Sha256};
use tokio_rustls::rustls::client::danger::ServerCertVerifier;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, ClientConnection, StreamOwned};

use crate::anyone::Anyone;
use crate::browser::Browser;
use crate::{Demo, PIN};

/// A desk that speaks TLS, and what it printed.
struct Encrypted {
    child: Child,
    link: String,
    place: String,
    fingerprint: String,
}

impl Drop for Encrypted {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Encrypted {
    fn new(demo: &Demo) -> Self {
        let serve = ["--language", "en", "serve", "--port", "0", "--tls"];
        let mut child = demo.command("desk", &serve).stdout(Stdio::piped()).spawn().unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(|line| line.unwrap());
        let link = lines.find(|line| line.trim().starts_with("https://127.0.0.1:")).expect("a link");
        let link = link.trim().to_owned();
        assert!(lines.next().unwrap().contains("SHA-256 fingerprint"));
        let fingerprint = lines.next().unwrap().trim().to_owned();
        let place = link.trim_start_matches("https://").split('/').next().unwrap().to_owned();
        Self { child, link, place, fingerprint }
    }

    /// One request; the whole answer, and the certificate that was shown.
    fn ask(&self, request: &str) -> (String, Vec<u8>) {
        let anyone = Arc::new(Anyone::default());
        let config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()
            .unwrap()
            .dangerous()
            .with_custom_certificate_verifier(Arc::clone(&anyone) as Arc<dyn ServerCertVerifier>)
            .with_no_client_auth();
        let name = ServerName::try_from("127.0.0.1").unwrap();
        let client = ClientConnection::new(Arc::new(config), name).unwrap();
        let mut stream = StreamOwned::new(client, TcpStream::connect(&self.place).unwrap());
        stream.write_all(request.as_bytes()).unwrap();
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        let shown = anyone.shown().unwrap();
        (String::from_utf8_lossy(&answer).into_owned(), shown)
    }
}

#[test]
fn the_page_speaks_tls_with_a_certificate_whose_fingerprint_is_told() {
    let demo = Demo::new();
    let served = Encrypted::new(&demo);
    let (host, path) = (&served.place, &served.link[8 + served.place.len()..]);
    let (opened, shown) =
        served.ask(&format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"));
    assert!(opened.starts_with("HTTP/1.1 200"), "{opened}");
    let cookie = opened.split("Set-Cookie: ").nth(1).unwrap().split("\r\n").next().unwrap();
    assert!(cookie.ends_with("; HttpOnly; SameSite=Strict; Secure"), "{cookie}");
    let thumbprint: Vec<String> = Sha256::digest(&shown).iter().map(|byte| format!("{byte:02X}")).collect();
    assert_eq!(served.fingerprint, thumbprint.join(":"));

    // Whoever speaks in the clear, or greets and says nothing, gets nothing.
    let mut plain = TcpStream::connect(host).unwrap();
    plain.write_all(format!("GET / HTTP/1.1\r\nHost: {host}\r\n\r\n").as_bytes()).unwrap();
    let mut answer = Vec::new();
    let _ = plain.read_to_end(&mut answer);
    assert!(!String::from_utf8_lossy(&answer).contains("HTTP/1.1"), "{answer:?}");

    // A browser whose user went on; what changes something comes from this page, encrypted.
    let mut browser = Browser::start(&["--ignore-certificate-errors"]);
    browser.go(&served.link);
    browser.until("location.pathname === '/' && document.querySelector('h1')?.innerText === 'The zone'");
    assert_eq!(browser.js("isSecureContext"), true, "so that a camera works");
    assert_eq!(browser.js("fetch('/receive/text', {method: 'POST', headers: {'Content-Type': 'application/x-www-form-urlencoded'}, body: 'text=SL1:NOTHING'}).then(r => r.status)"), 200);
    drop(browser);

    // The next start shows the same certificate: a browser that knows it does not warn again.
    let told = served.fingerprint.clone();
    drop(served);
    let again = Encrypted::new(&demo);
    assert_eq!(again.fingerprint, told);
}

/// An address of this machine that is no loopback, if it has one.
fn own_address() -> Option<String> {
    // Nothing is sent: the system chooses the address that it would send from.
    let socket = std::net::UdpSocket::bind("0.0.0.0:0").ok()?;
    socket.connect("192.0.2.1:9").ok()?;
    let ip = socket.local_addr().ok()?.ip();
    (!ip.is_loopback() && !ip.is_unspecified()).then(|| ip.to_string())
}

/// Over a network that reads along no PIN is taken, and the one line says what to do; with TLS it is.
#[test]
fn no_pin_is_taken_where_nothing_is_encrypted() {
    let Some(ip) = own_address() else {
        panic!("this machine has no address but its own: nothing can be opened")
    };
    let demo = Demo::new();
    let serve = ["--language", "en", "serve", "--port", "0", "--open-to-network", &ip];
    let mut child =
        demo.command("desk", &serve).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(|line| line.unwrap());
    let link = lines.find(|line| line.trim().starts_with("http://")).expect("a link").trim().to_owned();
    let base = link.split("/open").next().unwrap().to_owned();
    let served = crate::Served { child, link: link.clone(), base: base.clone() };
    let host = base.trim_start_matches("http://").to_owned();
    let opened = served.raw(&format!("GET {} HTTP/1.1\r\nHost: {host}\r\n", &link[base.len()..]));
    let cookie = opened.split("Set-Cookie: ").nth(1).unwrap().split(';').next().unwrap().to_owned();
    let post = |path: &str, body: &str| {
        let head = format!("POST {path} HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\nOrigin: {base}\r\n");
        served.sent(&head, body)
    };
    for path in ["/hook-check", "/close/sign", "/equipment/SS-0417"] {
        let answer = post(path, &format!("pin={PIN}&why=x"));
        assert!(answer.starts_with("HTTP/1.1 400"), "{path}: {answer}");
        assert!(
            answer.contains("nothing is encrypted on this network") && answer.contains("--tls"),
            "{path}: {answer}"
        );
    }
}
