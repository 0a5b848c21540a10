//! Stands between a desk and a server, passes on what both say, and at the right moment says something else.

use std::io::{Read, Write};
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use slingseal_exchange::Address;

/// What is said instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lie {
    /// A row of so many columns, again and again without end.
    Endless(u16),
    /// After so many rows, a message that would be two gigabytes long.
    Huge,
    /// After so many rows, noise.
    Noise,
    /// After so many bytes from the server, silence for ever.
    Cut(u64),
}

pub struct Proxy {
    folder: tempfile::TempDir,
    /// Bytes that a desk was sent.
    pub sent: Arc<AtomicU64>,
}

impl Proxy {
    pub fn new(server: &Path, lie: Lie) -> Self {
        let folder = tempfile::Builder::new().prefix("px").tempdir_in("/tmp").unwrap();
        let listener = UnixListener::bind(folder.path().join(".s.PGSQL.5432")).unwrap();
        let (server, sent) = (server.join(".s.PGSQL.5432"), Arc::new(AtomicU64::new(0)));
        let count = sent.clone();
        std::thread::spawn(move || {
            for desk in listener.incoming() {
                let (Ok(desk), Ok(server)) = (desk, UnixStream::connect(&server)) else { continue };
                let (mut up, mut to) = (desk.try_clone().unwrap(), server.try_clone().unwrap());
                std::thread::spawn(move || {
                    let _ = std::io::copy(&mut up, &mut to);
                    let _ = to.shutdown(std::net::Shutdown::Both);
                });
                let count = count.clone();
                std::thread::spawn(move || {
                    let _ = pass(server, desk, lie, &count);
                });
            }
        });
        Self { folder, sent }
    }

    pub fn address(&self) -> Address {
        Address::new(
            &format!("host={} user=lantern dbname=slingseal", self.folder.path().display()),
            None,
            None,
        )
        .unwrap()
    }
}

/// Passes the server's messages on, one by one.
fn pass(mut server: UnixStream, mut desk: UnixStream, lie: Lie, count: &AtomicU64) -> std::io::Result<()> {
    loop {
        let mut head = [0; 5];
        server.read_exact(&mut head)?;
        let length = u32::from_be_bytes([head[1], head[2], head[3], head[4]]) as usize;
        let mut message = head.to_vec();
        message.resize(1 + length, 0);
        server.read_exact(&mut message[5..])?;
        let columns = (head[0] == b'D').then(|| u16::from_be_bytes([message[5], message[6]]));
        match (lie, columns) {
            (Lie::Endless(which), Some(columns)) if columns == which => loop {
                desk.write_all(&message)?;
                count.fetch_add(message.len() as u64, Ordering::Relaxed);
            },
            (Lie::Huge, Some(2)) => {
                desk.write_all(&[b'D', 0x7f, 0xff, 0xff, 0xff])?;
                loop {
                    desk.write_all(&[0; 4096])?;
                    count.fetch_add(4096, Ordering::Relaxed);
                }
            }
            (Lie::Noise, Some(2)) => {
                desk.write_all(&[b'D', 0, 0, 0, 9, 0xff, 0xff, 1, 2, 3, b'?', 0, 0, 0, 4, 7, 7, 7, 7, 7])?;
            }
            (Lie::Cut(most), _) if count.load(Ordering::Relaxed) > most => {
                return desk.shutdown(std::net::Shutdown::Both);
            }
            _ => {}
        }
        desk.write_all(&message)?;
        count.fetch_add(message.len() as u64, Ordering::Relaxed);
    }
}
