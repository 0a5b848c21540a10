//! The server that a library keeps: connections in, requests to the pages, answers out. One thread moves the bytes of all
//! connections; the pages are made on others, so that a long one holds nobody up.

use std::convert::Infallible;
use std::future::Future;
use std::io;
use std::pin::{Pin, pin};
use std::sync::Arc;
use std::task::Poll;
use std::time::Duration;

use hyper::body::Incoming;
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Request as Asked, Response};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::io::{AsyncRead, AsyncReadExt, AsyncWrite, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{mpsc, watch};
use tokio::time::{Instant, sleep, timeout};
use tokio_rustls::TlsAcceptor;

use super::desk::Desk;
use super::http::Request;
use super::live;
use super::out::Out;
use super::patience::{Paced, Patience, Places, Seat};
use super::reply::Reply;
use super::routes;

/// Connections at a time: a browser opens some before it needs them, and one that waits must not hold up the others.
const CONNECTIONS: usize = 48;
/// The most bytes of a request's head, and the most fields in it.
const HEAD: usize = 256 << 10;
const FIELDS: usize = 64;
/// What is read of a body that nobody asked for, so that the answer arrives before the connection ends; and for how long.
const REST: u64 = 256 << 10;
const LEAVING: Duration = Duration::from_secs(2);
/// How long what is being answered has after Ctrl-C.
const LAST: Duration = Duration::from_secs(20);
/// Before another connection is taken where the system gave none.
const AGAIN: Duration = Duration::from_millis(50);

/// What every connection stands on.
pub(super) struct Server {
    pub(super) desk: Desk,
    /// What encrypts, where it does.
    tls: Option<TlsAcceptor>,
    patience: Patience,
    places: Arc<Places>,
}

impl Server {
    pub(super) fn new(desk: Desk, tls: Option<TlsAcceptor>) -> Arc<Self> {
        Self::with(desk, tls, Patience::FIELD)
    }

    /// The same with another patience.
    pub(super) fn with(desk: Desk, tls: Option<TlsAcceptor>, patience: Patience) -> Arc<Self> {
        Arc::new(Self { desk, tls, patience, places: Places::new(CONNECTIONS) })
    }

    /// Serves until `ended` says so, and gives what is being answered then a moment.
    ///
    /// # Errors
    /// No runtime, no listener in it.
    pub(super) fn run(
        self: &Arc<Self>,
        listener: std::net::TcpListener,
        ended: watch::Receiver<bool>,
    ) -> io::Result<()> {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .max_blocking_threads(CONNECTIONS)
            .thread_name("page")
            .build()?;
        listener.set_nonblocking(true)?;
        runtime.block_on(async {
            let listener = TcpListener::from_std(listener)?;
            let (alive, mut all_gone) = mpsc::channel::<Infallible>(1);
            tokio::spawn(watched(Arc::clone(self), ended.clone()));
            while let Some(stream) = next(&listener, ended.clone()).await {
                // Where every place is answered at this moment the newcomer is let go.
                let Some(seat) = self.places.seat() else { continue };
                let (server, ended, alive) = (Arc::clone(self), ended.clone(), alive.clone());
                tokio::spawn(async move {
                    server.connected(stream, seat, ended).await;
                    drop(alive);
                });
            }
            drop((listener, alive));
            // Whoever listens is let go, and long work breaks off where it is safe.
            self.desk.live.end();
            self.desk.works.stop_all();
            let _ = timeout(LAST, all_gone.recv()).await;
            Ok(())
        })
    }

    async fn connected(self: Arc<Self>, stream: TcpStream, seat: Arc<Seat>, ended: watch::Receiver<bool>) {
        let stream = Paced::new(stream, self.patience.pause);
        let Some(tls) = self.tls.clone() else { return self.spoken(stream, seat, ended).await };
        // Whoever greets too slowly, or in the clear, is not answered; nor is one that has to give way meanwhile.
        let mut gives_way = pin!(seat.way.notified());
        let mut greeting = pin!(timeout(self.patience.head, tls.accept(stream)));
        let greeted = std::future::poll_fn(|context| match gives_way.as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(None),
            Poll::Pending => greeting.as_mut().poll(context).map(Some),
        });
        if let Some(Ok(Ok(stream))) = greeted.await {
            self.spoken(stream, seat.clone(), ended).await;
        }
    }

    /// What is asked on a connection, one thing after another, until it ends, gives way or is left.
    async fn spoken<S>(self: Arc<Self>, stream: S, seat: Arc<Seat>, ended: watch::Receiver<bool>)
    where
        S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
    {
        let (server, asker) = (Arc::clone(&self), Arc::clone(&seat));
        let service =
            service_fn(move |asked| Box::pin(answered(Arc::clone(&server), Arc::clone(&asker), asked)));
        let mut connection = http1::Builder::new()
            .timer(TokioTimer::new())
            .header_read_timeout(self.patience.head)
            .max_buf_size(HEAD)
            .max_header_size(HEAD)
            .max_headers(FIELDS)
            .half_close(true)
            .writev(false)
            .title_case_headers(true)
            .serve_connection(TokioIo::new(stream), service);
        let mut gives_way = pin!(seat.way.notified());
        let mut ends = pin!(ending(ended));
        let mut told = false;
        let whole = std::future::poll_fn(|context| {
            if gives_way.as_mut().poll(context).is_ready() {
                return Poll::Ready(false);
            }
            if !told && ends.as_mut().poll(context).is_ready() {
                told = true;
                Pin::new(&mut connection).graceful_shutdown();
            }
            connection.poll_without_shutdown(context).map(|_| true)
        })
        .await;
        if whole {
            leave(connection.into_parts().io.into_inner()).await;
        }
    }
}

/// Asks from time to time whether the board is another, while somebody listens, and tells them.
async fn watched(server: Arc<Server>, ended: watch::Receiver<bool>) {
    let (mut last, mut wait, mut quiet) = (None, live::LOOK, Duration::ZERO);
    loop {
        if timeout(wait, ending(ended.clone())).await.is_ok() {
            return;
        }
        quiet += wait;
        if quiet >= live::PULSE {
            server.desk.live.pulse();
            quiet = Duration::ZERO;
        }
        if !server.desk.live.is_heard() {
            last = None;
            continue;
        }
        let (asked, begun) = (Arc::clone(&server), Instant::now());
        // One that cannot be read at this moment is asked again.
        let made = tokio::task::spawn_blocking(move || live::board_now(&asked.desk.app)).await;
        let Ok(Ok(now)) = made else { continue };
        // However large the home: a look costs no more than a twentieth of the time.
        wait = live::LOOK.max(begun.elapsed() * 20);
        if server.desk.live.newcomers() || last.as_ref().is_some_and(|last| *last != now) {
            server.desk.live.tell("board", "other");
        }
        last = Some(now);
    }
}

/// The next connection; `None` at the end.
async fn next(listener: &TcpListener, ended: watch::Receiver<bool>) -> Option<TcpStream> {
    let mut ends = pin!(ending(ended));
    loop {
        let mut accept = pin!(listener.accept());
        let came = std::future::poll_fn(|context| match ends.as_mut().poll(context) {
            Poll::Ready(()) => Poll::Ready(None),
            Poll::Pending => accept.as_mut().poll(context).map(Some),
        })
        .await?;
        match came {
            Ok((stream, _)) => {
                // An answer goes out as it is written: nothing here is made of many small pieces.
                let _ = stream.set_nodelay(true);
                return Some(stream);
            }
            Err(_) => sleep(AGAIN).await,
        }
    }
}

/// Until the server is told to end.
async fn ending(mut ended: watch::Receiver<bool>) {
    // Whoever would tell is gone: that is the end as well.
    let _ = ended.wait_for(|ended| *ended).await;
}

/// Ends an answered connection so that the answer arrives: what still comes is thrown away, and only for a moment.
async fn leave<S: AsyncRead + AsyncWrite + Unpin>(mut stream: S) {
    let leaving = async {
        stream.shutdown().await?;
        tokio::io::copy(&mut (&mut stream).take(REST), &mut tokio::io::sink()).await
    };
    let _ = timeout(LEAVING, leaving).await;
}

async fn answered(
    server: Arc<Server>,
    seat: Arc<Seat>,
    asked: Asked<Incoming>,
) -> Result<Response<Out>, Infallible> {
    if !seat.heard() {
        return Ok(Reply::bare(503).response(None));
    }
    let Some(request) = Request::of(asked, server.patience) else {
        return Ok(Reply::bare(400).response(Some(seat)));
    };
    let made = tokio::task::spawn_blocking(move || routes::answer(&server.desk, request)).await;
    // A page that could not be made is one answer lost, and no more.
    let reply = made.unwrap_or_else(|_| Reply::bare(500));
    Ok(reply.response(Some(seat)))
}
