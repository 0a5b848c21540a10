//! Putting words there. Which are missing is asked each time: what the server lost comes back by itself.

use std::collections::HashSet;
use std::time::Duration;

use futures_util::TryStreamExt;
use slingseal_app::catalogue::exchange as words;
use slingseal_app::{App, ExchangeWord};
use tokio_postgres::binary_copy::BinaryCopyInWriter;
use tokio_postgres::types::{ToSql, Type};

use crate::ExchangeError;
use crate::server::{Exchange, Link, fixed};

/// Keys that are asked for at once.
const ASKED: usize = 4_096;
/// Words of one transaction, and their bytes: a server that dies costs no more than these.
const MOST_WORDS: usize = 512;
const MOST_BYTES: usize = 4 << 20;
/// So often is a transaction tried that met another desk's.
const TRIES: u32 = 20;
/// So often is one waited for, a second each, that stays open: behind that it is left to the next push.
const WAITS: u32 = 16;

const COPY: &str = "COPY slingseal.word (source, number, key, kind, body) FROM STDIN WITH (FORMAT binary)";
const COLUMNS: &[Type] = &[Type::BYTEA, Type::INT8, Type::BYTEA, Type::INT2, Type::BYTEA];
const SOURCE: &str = "INSERT INTO slingseal.source (id) VALUES ($1) ON CONFLICT DO NOTHING";

/// What was pushed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pushed {
    /// Words that are new there.
    pub words: u64,
    /// Words that were there.
    pub there: u64,
    /// Words that are too long to travel, or were gone from here meanwhile.
    pub left_out: u64,
    /// Words that another desk's open transaction is putting there: they may be there soon, or not. Push again.
    pub waiting: u64,
}

impl Exchange {
    /// Puts there what is here and missing there. `progress` hears after each transaction how many words are there.
    ///
    /// # Errors
    /// The line, the server, the home; what was put there until then stays.
    pub fn push(
        &mut self,
        app: &App,
        photos: bool,
        progress: &mut dyn FnMut(u64),
    ) -> Result<Pushed, ExchangeError> {
        let source = app.exchange_source();
        let mut here = app.exchange_here(photos, &self.there)?;
        let mut pushed = Pushed { there: self.there.len() as u64, ..Pushed::default() };
        for keys in here.keys().chunks(ASKED) {
            let there = self.runtime.block_on(self.link.there(keys))?;
            pushed.there += there.len() as u64;
            self.there.extend(there);
        }
        here.retain(|key| !self.there.contains(key));
        let count = here.keys().len();
        let (mut from, mut waits) = (0, WAITS);
        while from < count {
            let upto = count.min(from + MOST_WORDS);
            let mut words = app.exchange_words(&here, from..upto)?;
            pushed.left_out += (upto - from - words.len()) as u64;
            from = upto;
            // Which of these are there was asked just now, of the head it was not.
            let mut asked = true;
            if from == count && !words.is_empty() {
                words.extend(app.exchange_head());
                asked = false;
            }
            while !words.is_empty() {
                let more = words.split_off(fitting(&words));
                let put = self.runtime.block_on(self.link.put(source, &words, asked, &mut waits))?;
                pushed.words += put.new;
                pushed.waiting += put.waiting;
                self.there.extend(put.there);
                progress(pushed.words);
                words = more;
            }
        }
        Ok(pushed)
    }
}

/// How many words one transaction takes: as many as fit, and one at least.
fn fitting(words: &[ExchangeWord]) -> usize {
    let mut bytes = 0;
    let fit = words.iter().take_while(|word| {
        bytes += word.body().len();
        bytes <= MOST_BYTES
    });
    fit.count().max(1)
}

impl Link {
    /// Which of these words are there.
    async fn there(&self, keys: &[[u8; 32]]) -> Result<HashSet<[u8; 32]>, ExchangeError> {
        let asked: Vec<&[u8]> = keys.iter().map(<[u8; 32]>::as_slice).collect();
        let params: [&(dyn ToSql + Sync); 1] = [&asked];
        self.moved
            .patient(async {
                let rows = self.client.query_raw(&self.here, params).await?;
                let mut rows = std::pin::pin!(rows);
                let mut found = HashSet::new();
                let mut count = 0;
                while let Some(row) = rows.try_next().await? {
                    count += 1;
                    if count > keys.len() {
                        return Err(ExchangeError::strange(words::ExchangeEndless));
                    }
                    found.insert(fixed(&row, 0)?);
                }
                // What was not asked for is not believed to be there.
                let asked: HashSet<&[u8; 32]> = keys.iter().collect();
                found.retain(|key| asked.contains(key));
                Ok(found)
            })
            .await
    }

    /// Puts words there in one transaction, those that another desk puts there meanwhile excepted. Whoever keeps a transaction
    /// open keeps back the words in it and no others: they are found by halves. `asked`: none of them was there a moment ago; which
    /// another desk put there since is asked once the server has refused.
    async fn put(
        &mut self,
        source: [u8; 16],
        all: &[ExchangeWord],
        mut asked: bool,
        waits: &mut u32,
    ) -> Result<Put, ExchangeError> {
        let mut put = Put::default();
        let (mut parts, mut tries) = (vec![all], 0);
        while let Some(part) = parts.pop() {
            let keys: Vec<[u8; 32]> = part.iter().map(ExchangeWord::key).collect();
            let there = if std::mem::take(&mut asked) { HashSet::new() } else { self.there(&keys).await? };
            let missing: Vec<&ExchangeWord> =
                part.iter().filter(|word| !there.contains(&word.key())).collect();
            put.there.extend(there);
            let new = missing.len() as u64;
            if missing.is_empty() {
                continue;
            }
            if *waits == 0 {
                put.waiting += new;
                continue;
            }
            let moved = self.moved.clone();
            let met = moved
                .patient(async { Ok::<_, ExchangeError>(self.put_missing(source, &missing).await) })
                .await?;
            match met {
                Ok(true) => {
                    put.new += new;
                    put.there.extend(missing.iter().map(|word| word.key()));
                }
                Ok(false) => return Err(ExchangeError::strange(words::ExchangeNumbersSpent)),
                Err(error) if tries < TRIES && met_another(&error) => {
                    tries += 1;
                    parts.push(part);
                    tokio::time::sleep(Duration::from_millis(20 * u64::from(tries))).await;
                }
                Err(error) if is_kept_waiting(&error) => {
                    *waits -= 1;
                    match part.split_at_checked(part.len() / 2) {
                        Some((first, second)) if !first.is_empty() => parts.extend([second, first]),
                        _ => put.waiting += new,
                    }
                }
                Err(error) => return Err(moved.told(error.into())),
            }
        }
        Ok(put)
    }

    /// `false` where no numbers are left: somebody else used this desk's name to spend them.
    async fn put_missing(
        &mut self,
        source: [u8; 16],
        missing: &[&ExchangeWord],
    ) -> Result<bool, tokio_postgres::Error> {
        let source = source.as_slice();
        let tx = self.client.transaction().await?;
        tx.execute(SOURCE, &[&source]).await?;
        let last: i64 = tx.query_one(&self.last, &[&source]).await?.try_get(0)?;
        if last > i64::MAX - (missing.len() as i64) {
            return Ok(false);
        }
        // In the order of the keys: two desks with the same words wait for each other in one order, and not in a ring.
        let mut rows: Vec<(i64, &ExchangeWord)> =
            (1..).map(|number| last + number).zip(missing.iter().copied()).collect();
        rows.sort_by_key(|(_, word)| word.key());
        let sink = tx.copy_in(COPY).await?;
        let mut writer = std::pin::pin!(BinaryCopyInWriter::new(sink, COLUMNS));
        for (number, word) in rows {
            let (key, kind) = (word.key(), word.kind());
            writer.as_mut().write(&[&source, &number, &key.as_slice(), &kind, &word.body()]).await?;
        }
        writer.finish().await?;
        tx.commit().await?;
        Ok(true)
    }
}

/// What became of some words.
#[derive(Debug, Default)]
struct Put {
    new: u64,
    waiting: u64,
    /// The keys of those that are there now.
    there: Vec<[u8; 32]>,
}

/// Another transaction holds the number or the word and does not end.
fn is_kept_waiting(error: &tokio_postgres::Error) -> bool {
    error.code().is_some_and(|code| code.code() == "55P03")
}

/// Another transaction had the number or the word first, or both waited for each other: nothing was written.
fn met_another(error: &tokio_postgres::Error) -> bool {
    error.code().is_some_and(|code| matches!(code.code(), "23505" | "40001" | "40P01"))
}
