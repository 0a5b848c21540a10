use std::future::Future;
use std::pin::Pin;

use rustls::pki_types::ServerName;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::TcpStream;
#[cfg(unix)]
use tokio::net::UnixStream;
use tokio_postgres::tls::TlsConnect;
use tokio_postgres::{Client, Config, NoTls};
use tokio_rustls::TlsConnector;

use crate::ExchangeError;
use crate::address::{Address, Way};
use crate::error::of_io;
use crate::guard::{Guarded, Moved};

/// Opens a line and logs in. What drives the line ends with the runtime.
pub(crate) async fn connect(address: &Address, moved: &Moved) -> Result<Client, ExchangeError> {
    let io = |error: std::io::Error| of_io(&error);
    match &address.way {
        #[cfg(unix)]
        Way::Socket(path) => {
            plain(&address.config, UnixStream::connect(path).await.map_err(io)?, moved).await
        }
        Way::Loopback(host, port) => {
            let line = TcpStream::connect((host.as_str(), *port)).await.map_err(io)?;
            line.set_nodelay(true).map_err(io)?;
            plain(&address.config, line, moved).await
        }
        Way::Tls(host, port, config, name) => {
            let line = TcpStream::connect((host.as_str(), *port)).await.map_err(io)?;
            line.set_nodelay(true).map_err(io)?;
            let tls = Tls {
                connector: TlsConnector::from(config.clone()),
                name: name.clone(),
                moved: moved.clone(),
            };
            let (client, connection) = address.config.connect_raw(line, tls).await?;
            drive(connection, moved);
            Ok(client)
        }
    }
}

async fn plain<S>(config: &Config, line: S, moved: &Moved) -> Result<Client, ExchangeError>
where
    S: AsyncRead + AsyncWrite + Unpin + Send + 'static,
{
    let (client, connection) = config.connect_raw(Guarded::new(line, moved.clone()), NoTls).await?;
    drive(connection, moved);
    Ok(client)
}

/// Lets a line run until it ends, and keeps why it did.
fn drive<F>(connection: F, moved: &Moved)
where
    F: Future<Output = Result<(), tokio_postgres::Error>> + Send + 'static,
{
    let moved = moved.clone();
    tokio::spawn(async move {
        if let Err(error) = connection.await {
            moved.broke(error.into());
        }
    });
}

/// TLS by the operation's own certificate, measured behind it.
struct Tls {
    connector: TlsConnector,
    name: ServerName<'static>,
    moved: Moved,
}

type Shaking<S> = Pin<Box<dyn Future<Output = std::io::Result<S>> + Send>>;

impl TlsConnect<TcpStream> for Tls {
    type Stream = Guarded<tokio_rustls::client::TlsStream<TcpStream>>;
    type Error = std::io::Error;
    type Future = Shaking<Self::Stream>;

    fn connect(self, line: TcpStream) -> Self::Future {
        let Self { connector, name, moved } = self;
        Box::pin(async move { Ok(Guarded::new(connector.connect(name, line).await?, moved)) })
    }
}
