//! `serve`: the leader's page. A server for the people at one desk: pages are made here, the browser shows
//! them. It answers this machine alone unless an address is opened on purpose.

mod act;
mod acts;
mod ask;
mod desk;
mod forms;
mod frame;
mod guard;
mod http;
mod intake;
mod live;
mod out;
mod page;
mod patience;
mod reply;
mod rig;
mod routes;
mod server;
#[cfg(test)]
mod strange;
mod tls;
mod work;

use slingseal_app::catalogue::page as words;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpListener};
use std::sync::Arc;
use std::sync::atomic::Ordering;

use slingseal_app::{App, AppError};
use tokio::sync::watch;

use crate::output::{bad_input, plain};
use crate::platform::{SystemEntropy, TURNS};
use desk::Desk;
use guard::Guard;
use server::Server;

/// Where it listens.
pub(crate) struct Place {
    /// The port; nought takes a free one.
    pub(crate) port: u16,
    /// Another address than this machine's own, opened on purpose.
    pub(crate) open: Option<IpAddr>,
    /// Whether it speaks TLS, with a certificate of its own.
    pub(crate) tls: bool,
    /// The home, where that certificate is kept.
    pub(crate) home: std::path::PathBuf,
    /// The hook check's page without contents, where one was named.
    pub(crate) page: Option<std::path::PathBuf>,
}

/// Serves until Ctrl-C.
///
/// # Errors
/// A port that is taken, an address that is not this machine's.
pub(crate) fn run(app: App, place: &Place, json: bool) -> Result<(), AppError> {
    let ip = place.open.unwrap_or(IpAddr::V4(Ipv4Addr::LOCALHOST));
    if ip.is_unspecified() {
        return Err(bad_input(words::OpensEveryNetwork));
    }
    let wanted = SocketAddr::new(ip, place.port);
    let listener = TcpListener::bind(wanted).map_err(|error| {
        bad_input(words::AddressNotFree { wanted: wanted.to_string(), plain: &plain(&error) })
    })?;
    let address = listener.local_addr().map_err(|error| bad_input(plain(&error)))?;
    let app = Arc::new(app);
    let identity = place.tls.then(|| tls::identity(&place.home, ip, app.now())).transpose()?;
    let guard = Guard::new(address, identity.is_some(), &SystemEntropy);
    let desk = Desk::new(Arc::clone(&app), guard, place.page.clone());
    let no_signal =
        |error| AppError::Internal { message: words::NoSignalCaught { plain: &plain(&error) }.into() };
    let ended = crate::ending::asked().map_err(no_signal)?;
    let (fingerprint, acceptor) = identity.map(|one| (one.fingerprint, one.acceptor)).unzip();
    tell(&desk, fingerprint.as_deref(), json);
    let (end, at_end) = watch::channel(false);
    let turns = std::thread::spawn(move || {
        while !ended.load(Ordering::Relaxed) {
            std::thread::sleep(TURNS);
            app.give_turn();
        }
        let _ = end.send(true);
    });
    Server::new(desk, acceptor).run(listener, at_end).map_err(|error| bad_input(plain(&error)))?;
    let _ = turns.join();
    Ok(())
}

/// The link, once; and what an opened address means.
fn tell(desk: &Desk, fingerprint: Option<&str>, json: bool) {
    let (link, language) = (desk.guard.link(), desk.app.spoken());
    if json {
        let (open, encrypted) = (desk.guard.open, fingerprint.is_some());
        crate::output::print_json(&serde_json::json!({
            "link": link, "open": open, "encrypted": encrypted, "fingerprint": fingerprint
        }));
    } else {
        println!("{}", words::PageUntilCtrlC.say(language));
        println!("  {link}");
        if let Some(fingerprint) = fingerprint {
            println!("{}", words::CertificateTold.say(language));
            println!("  {fingerprint}");
        }
    }
    if desk.guard.in_the_clear() {
        eprintln!("slingseal: {}", words::OpenToNetwork.say(language));
    } else if desk.guard.open {
        eprintln!("slingseal: {}", words::OpenEncrypted.say(language));
    }
    // A program that waits for the link must not wait for a full buffer.
    crate::console::flush();
}
