//! How fast the leader's page answers, beside a bare server of the same library in the same run.
//!
//!     cargo run -p slingseal --example page_speed -- HOME PROGRAM...
//!
//! Each PROGRAM serves HOME, once plainly and once over TLS; the board and the style are asked for two seconds each, by one who takes
//! a new connection (over TLS with a whole handshake) each time and by one who keeps it where the server does. The bare server
//! answers with as many bytes as the board has, in the same way.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a measurement reads the clock and fails by panicking"
)]

#[path = "../tests/page/anyone.rs"]
#[allow(dead_code, reason = "the tests ask which certificate it was")]
mod anyone;

use std::convert::Infallible;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

use hyper::service::service_fn;
use hyper_util::rt::TokioIo;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::client::Resumption;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::pem::PemObject;
use tokio_rustls::rustls::pki_types::{PrivateKeyDer, ServerName};
use tokio_rustls::rustls::{ClientConfig, ClientConnection, ServerConfig, StreamOwned};

use anyone::Anyone;

const WHILE: Duration = Duration::from_secs(2);

/// A connection, plain or not.
trait Stream: Read + Write {}
impl<T: Read + Write> Stream for T {}

/// How a server is spoken with.
#[derive(Clone, Copy)]
struct Way<'a> {
    place: &'a str,
    /// What whoever asks over TLS is set up with.
    tls: Option<&'a Arc<ClientConfig>>,
}

impl Way<'_> {
    fn connected(self) -> Box<dyn Stream> {
        let stream = TcpStream::connect(self.place).unwrap();
        stream.set_nodelay(true).unwrap();
        let Some(config) = self.tls else { return Box::new(stream) };
        let name = ServerName::try_from("127.0.0.1").unwrap();
        let client = ClientConnection::new(Arc::clone(config), name).unwrap();
        Box::new(StreamOwned::new(client, stream))
    }
}

/// One answer on a connection: the bytes of its body, the time to its first byte, and whether the connection is kept.
fn asked(stream: &mut dyn Stream, request: &str) -> Option<(usize, Duration, bool)> {
    let begun = Instant::now();
    stream.write_all(request.as_bytes()).ok()?;
    let (mut bytes, mut part) = (Vec::new(), [0; 1 << 16]);
    let mut first = None;
    loop {
        let read = stream.read(&mut part).ok().filter(|read| *read > 0)?;
        first.get_or_insert_with(|| begun.elapsed());
        bytes.extend_from_slice(&part[..read]);
        let Some(end) = bytes.windows(4).position(|window| window == b"\r\n\r\n") else { continue };
        let head = String::from_utf8_lossy(&bytes[..end]).to_lowercase();
        assert!(head.starts_with("http/1.1 200"), "{head}");
        let length: usize =
            head.lines().find_map(|line| line.strip_prefix("content-length: ")).unwrap().parse().unwrap();
        while bytes.len() < end + 4 + length {
            let read = stream.read(&mut part).ok().filter(|read| *read > 0)?;
            bytes.extend_from_slice(&part[..read]);
        }
        return Some((length, first?, !head.contains("connection: close")));
    }
}

/// Asks for a while; requests a second, and the median time to the first byte.
fn measured(way: Way<'_>, request: &str, keeps: bool) -> (f64, Duration, usize) {
    let (begun, mut firsts, mut size) = (Instant::now(), Vec::new(), 0);
    let mut kept: Option<Box<dyn Stream>> = None;
    while begun.elapsed() < WHILE {
        let opened = Instant::now();
        let fresh = kept.is_none();
        let mut stream = kept.take().unwrap_or_else(|| way.connected());
        let connected = if fresh { opened.elapsed() } else { Duration::ZERO };
        let (length, first, stays) = asked(&mut *stream, request).expect("an answer");
        firsts.push(connected + first);
        size = length;
        if keeps && stays {
            kept = Some(stream);
        }
    }
    let rate = firsts.len() as f64 / begun.elapsed().as_secs_f64();
    firsts.sort();
    (rate, firsts[firsts.len() / 2], size)
}

fn told(name: &str, way: Way<'_>, request: &str) -> usize {
    let mut bytes = 0;
    for keeps in [false, true] {
        let (rate, first, size) = measured(way, request, keeps);
        let how = if keeps { "one connection" } else { "a connection each" };
        println!("{name:<44} {how:<18} {size:>7} bytes {rate:>8.0} /s   first byte {first:>9.1?}");
        bytes = size;
    }
    bytes
}

/// A server of the library and nothing else, over TLS where it has a certificate.
fn bare(bytes: usize, tls: Option<TlsAcceptor>) -> String {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let place = listener.local_addr().unwrap().to_string();
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        listener.set_nonblocking(true).unwrap();
        runtime.block_on(async {
            let listener = tokio::net::TcpListener::from_std(listener).unwrap();
            loop {
                let (stream, _) = listener.accept().await.unwrap();
                stream.set_nodelay(true).unwrap();
                let service = service_fn(move |_| async move {
                    Ok::<_, Infallible>(hyper::Response::new("x".repeat(bytes)))
                });
                let tls = tls.clone();
                tokio::spawn(async move {
                    let http = hyper::server::conn::http1::Builder::new();
                    match tls {
                        None => http.serve_connection(TokioIo::new(stream), service).await,
                        Some(tls) => {
                            let stream = tls.accept(stream).await.unwrap();
                            http.serve_connection(TokioIo::new(stream), service).await
                        }
                    }
                });
            }
        });
    });
    place
}

struct Served(Child);

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A certificate of the kind that a desk makes itself.
fn acceptor() -> TlsAcceptor {
    let key = rcgen::KeyPair::generate().unwrap();
    let mut asked = rcgen::CertificateParams::new(Vec::<String>::new()).unwrap();
    asked.subject_alt_names = vec![rcgen::SanType::IpAddress([127, 0, 0, 1].into())];
    let certificate = asked.self_signed(&key).unwrap();
    let key = PrivateKeyDer::from_pem_slice(key.serialize_pem().as_bytes()).unwrap();
    let config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_no_client_auth()
        .with_single_cert(vec![certificate.into()], key)
        .unwrap();
    TlsAcceptor::from(Arc::new(config))
}

/// Takes whatever certificate is shown, as a browser whose user has compared its fingerprint; no session is resumed, so that
/// each connection pays for its handshake.
fn client() -> Arc<ClientConfig> {
    let mut config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .unwrap()
        .dangerous()
        .with_custom_certificate_verifier(Arc::new(Anyone::default()))
        .with_no_client_auth();
    config.resumption = Resumption::disabled();
    Arc::new(config)
}

/// One desk, asked in one way, beside the bare library in the same way.
fn serve(program: &str, home: &str, client: Option<&Arc<ClientConfig>>) {
    let mut child = Command::new(program)
        .args(["--home", home, "serve", "--port", "0"])
        .args(client.map(|_| "--tls"))
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
    let served = Served(child);
    let scheme = if client.is_some() { "https://" } else { "http://" };
    let link = lines.find(|line| line.trim().starts_with(scheme)).unwrap().trim().to_owned();
    let place = link.trim_start_matches(scheme).split('/').next().unwrap().to_owned();
    let way = Way { place: &place, tls: client };
    let mut stream = way.connected();
    let open = &link[scheme.len() + place.len()..];
    stream
        .write_all(format!("GET {open} HTTP/1.1\r\nHost: {place}\r\nConnection: close\r\n\r\n").as_bytes())
        .unwrap();
    let mut answer = Vec::new();
    // A server that closes without TLS's own word of it has answered all the same.
    let _ = stream.read_to_end(&mut answer);
    let answer = String::from_utf8_lossy(&answer).into_owned();
    let cookie = answer.lines().find_map(|line| line.strip_prefix("Set-Cookie: ")).unwrap();
    let cookie = cookie.split(';').next().unwrap();
    let request = |path: &str| format!("GET {path} HTTP/1.1\r\nHost: {place}\r\nCookie: {cookie}\r\n\r\n");
    println!("{program}{}", if client.is_some() { ", over TLS" } else { "" });
    told("  the style", way, &request("/desk.css"));
    let bytes = told("  the board", way, &request("/"));
    let bare = bare(bytes, client.map(|_| acceptor()));
    let way = Way { place: &bare, tls: client };
    told("  the bare library, as many bytes", way, "GET / HTTP/1.1\r\nHost: x\r\n\r\n");
    drop(served);
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    let home = arguments.next().expect("a home");
    let client = client();
    for program in arguments {
        serve(&program, &home, None);
        serve(&program, &home, Some(&client));
    }
}
