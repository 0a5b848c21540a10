//! How fast the leader's page answers, beside a bare server of the same library in the same run.
//!
//!     cargo run -p slingseal --example page_speed -- HOME PROGRAM...
//!
//! Each PROGRAM serves HOME; the board and the style are asked for a second each, by one who takes a new connection each time and by
//! one who keeps it where the server does. The bare server answers with as many bytes as the board has.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a measurement reads the clock and fails by panicking"
)]

use std::convert::Infallible;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use hyper::service::service_fn;

const WHILE: Duration = Duration::from_secs(2);

/// One answer on a connection: the bytes of its body, the time to its first byte, and whether the connection is kept.
fn asked(stream: &mut TcpStream, request: &str) -> Option<(usize, Duration, bool)> {
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
fn measured(place: &str, request: &str, keeps: bool) -> (f64, Duration, usize) {
    let (begun, mut firsts, mut size) = (Instant::now(), Vec::new(), 0);
    let mut kept: Option<TcpStream> = None;
    while begun.elapsed() < WHILE {
        let opened = Instant::now();
        let fresh = kept.is_none();
        let mut stream = kept.take().unwrap_or_else(|| TcpStream::connect(place).unwrap());
        stream.set_nodelay(true).unwrap();
        let connected = if fresh { opened.elapsed() } else { Duration::ZERO };
        let (length, first, stays) = asked(&mut stream, request).expect("an answer");
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

fn told(name: &str, place: &str, request: &str) -> usize {
    let mut bytes = 0;
    for keeps in [false, true] {
        let (rate, first, size) = measured(place, request, keeps);
        let how = if keeps { "one connection" } else { "a connection each" };
        println!("{name:<44} {how:<18} {size:>7} bytes {rate:>8.0} /s   first byte {first:>9.1?}");
        bytes = size;
    }
    bytes
}

/// A server of the library and nothing else.
fn bare(bytes: usize) -> String {
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
                tokio::spawn(
                    hyper::server::conn::http1::Builder::new()
                        .serve_connection(hyper_util::rt::TokioIo::new(stream), service),
                );
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

fn main() {
    let mut arguments = std::env::args().skip(1);
    let home = arguments.next().expect("a home");
    for program in arguments {
        let mut child = Command::new(&program)
            .args(["--home", &home, "serve", "--port", "0"])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
        let served = Served(child);
        let link = lines.find(|line| line.trim().starts_with("http://")).unwrap().trim().to_owned();
        let place = link.trim_start_matches("http://").split('/').next().unwrap().to_owned();
        let mut stream = TcpStream::connect(&place).unwrap();
        let open = &link["http://".len() + place.len()..];
        stream
            .write_all(
                format!("GET {open} HTTP/1.1\r\nHost: {place}\r\nConnection: close\r\n\r\n").as_bytes(),
            )
            .unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        let cookie = answer.lines().find_map(|line| line.strip_prefix("Set-Cookie: ")).unwrap();
        let cookie = cookie.split(';').next().unwrap();
        let request =
            |path: &str| format!("GET {path} HTTP/1.1\r\nHost: {place}\r\nCookie: {cookie}\r\n\r\n");
        println!("{program}");
        told("  the style", &place, &request("/desk.css"));
        let bytes = told("  the board", &place, &request("/"));
        told("  the bare library, as many bytes", &bare(bytes), "GET / HTTP/1.1\r\nHost: x\r\n\r\n");
        drop(served);
    }
}
