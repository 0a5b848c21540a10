use std::collections::HashSet;

use slingseal_app::catalogue::exchange as words;
use tokio::runtime::Runtime;
use tokio_postgres::types::Type;
use tokio_postgres::{Client, Row, Statement};

use crate::address::Address;
use crate::connect::connect;
use crate::guard::{Moved, at_the_door};
use crate::{ExchangeError, KNOWN_STEP};

/// What is asked: each prepared once a line. `= ANY` and `LIMIT` are as far as it goes.
const HERE: &str = "SELECT key FROM slingseal.word WHERE key = ANY($1)";
const LAST: &str = "SELECT coalesce(max(number), 0) FROM slingseal.word WHERE source = $1";
const SOURCES: &str = "SELECT id, (SELECT coalesce(max(number), 0) FROM slingseal.word WHERE source = slingseal.source.id) \
                       FROM slingseal.source ORDER BY id LIMIT $1";
const ONE: &str = "SELECT key FROM slingseal.word WHERE source = $1 AND number = $2";
const LIST: &str = "SELECT number, key, kind, octet_length(body) FROM slingseal.word \
                    WHERE source = $1 AND number > $2 ORDER BY number LIMIT $3";
const BODIES: &str = "SELECT number, body FROM slingseal.word WHERE source = $1 AND number = ANY($2)";

/// A line to a server, and what is known of it. Every call blocks, and ends.
pub struct Exchange {
    pub(crate) runtime: Runtime,
    pub(crate) link: Link,
    /// What this server is known to have: asked for once.
    pub(crate) there: HashSet<[u8; 32]>,
}

/// What one line carries.
pub(crate) struct Link {
    pub(crate) client: Client,
    pub(crate) moved: Moved,
    /// What the server calls itself.
    pub(crate) place: [u8; 16],
    pub(crate) here: Statement,
    pub(crate) last: Statement,
    pub(crate) sources: Statement,
    pub(crate) one: Statement,
    pub(crate) list: Statement,
    pub(crate) bodies: Statement,
}

impl Exchange {
    /// Opens a line to a server.
    ///
    /// # Errors
    /// Nobody answers; a login that is refused; a database that is not set up, or by a newer program.
    pub fn connect(address: &Address) -> Result<Self, ExchangeError> {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .map_err(|error| crate::error::of_io(&error))?;
        let moved = Moved::default();
        let link =
            runtime.block_on(at_the_door(Link::open(address, &moved))).map_err(|error| moved.told(error))?;
        Ok(Self { runtime, link, there: HashSet::new() })
    }
}

impl std::fmt::Debug for Exchange {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Exchange")
    }
}

impl Link {
    async fn open(address: &Address, moved: &Moved) -> Result<Self, ExchangeError> {
        let client = connect(address, moved).await?;
        // A desk that hangs holds nobody up for long, and nobody waits long for it.
        client
            .batch_execute(
                "SET statement_timeout = 60000; SET lock_timeout = 1000; \
                 SET idle_in_transaction_session_timeout = 60000",
            )
            .await?;
        let step: Option<i32> = column(&only(&client, "SELECT max(number) FROM slingseal.step").await?, 0)?;
        match step {
            None => return Err(ExchangeError::NotSetUp),
            Some(found) if found > KNOWN_STEP => return Err(ExchangeError::TooNew { found }),
            Some(_) => {}
        }
        let place: String = column(
            &only(&client, "SELECT CAST(min(CAST(id AS text)) AS text) FROM slingseal.place").await?,
            0,
        )?;
        let place = bytes_of(&place).ok_or(ExchangeError::NotSetUp)?;
        let (many, numbers) = (Type::BYTEA_ARRAY, Type::INT8_ARRAY);
        Ok(Self {
            here: client.prepare_typed(HERE, &[many]).await?,
            last: client.prepare_typed(LAST, &[Type::BYTEA]).await?,
            sources: client.prepare_typed(SOURCES, &[Type::INT8]).await?,
            one: client.prepare_typed(ONE, &[Type::BYTEA, Type::INT8]).await?,
            list: client.prepare_typed(LIST, &[Type::BYTEA, Type::INT8, Type::INT8]).await?,
            bodies: client.prepare_typed(BODIES, &[Type::BYTEA, numbers]).await?,
            client,
            moved: moved.clone(),
            place,
        })
    }
}

/// One row, and no more are waited for.
async fn only(client: &Client, sql: &str) -> Result<Row, ExchangeError> {
    Ok(client.query_one(&client.prepare(sql).await?, &[]).await?)
}

/// A column as it should be.
pub(crate) fn column<'r, T: tokio_postgres::types::FromSql<'r>>(
    row: &'r Row,
    at: usize,
) -> Result<T, ExchangeError> {
    row.try_get(at).map_err(|_| ExchangeError::strange(words::ExchangeOtherColumns))
}

/// Exactly so many bytes.
pub(crate) fn fixed<const N: usize>(row: &Row, at: usize) -> Result<[u8; N], ExchangeError> {
    let bytes: &[u8] = column(row, at)?;
    bytes.try_into().map_err(|_| ExchangeError::strange(words::ExchangeOtherColumns))
}

/// The bytes of a UUID's text.
fn bytes_of(uuid: &str) -> Option<[u8; 16]> {
    let digits: Vec<u8> = uuid
        .chars()
        .filter(|letter| *letter != '-')
        .map(|digit| digit.to_digit(16))
        .map(|digit| digit.and_then(|digit| u8::try_from(digit).ok()))
        .collect::<Option<_>>()?;
    let bytes: Option<Vec<u8>> = digits
        .chunks(2)
        .map(|pair| match pair {
            [high, low] => Some(high << 4 | low),
            _ => None,
        })
        .collect();
    bytes?.try_into().ok()
}
