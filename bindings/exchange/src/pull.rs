//! Taking words from there, page by page. How far was read is kept with each page, in the home's own transaction.

use std::collections::{BTreeMap, HashSet};
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel, sync_channel};

use futures_util::TryStreamExt;
use slingseal_app::catalogue::exchange as words;
use slingseal_app::{
    App, AppError, BundleReport, ExchangeIntake, ExchangePage, ExchangePosition, ExchangeState, ExchangeWord,
    SetAsideLine, word_limit,
};
use tokio_postgres::types::ToSql;

use crate::ExchangeError;
use crate::server::{Exchange, Link, column, fixed};

/// Desks of one server.
const MOST_SOURCES: usize = 10_000;
/// Words that are listed at once.
const LISTED: usize = 16_384;
/// Words that come over the line at once, and their bytes.
const MOST_WORDS: usize = 512;
const MOST_BYTES: usize = 4 << 20;
/// So many words may be no good before it is said to be the server's fault.
const MOST_IN_VAIN: u64 = 10_000;
/// Lines that are told of what was set aside.
const MOST_LINES: usize = 20;

/// What was pulled.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pulled {
    /// Words that were looked at.
    pub looked_at: u64,
    /// What became of those that were not here; of what was set aside and warned of the first lines.
    pub report: BundleReport,
    /// Words that were set aside, each for a reason of its own.
    pub set_aside: u64,
    /// Words that are not what their keys say: somebody spoiled them.
    pub spoiled: u64,
    /// Words of kinds that this program does not know.
    pub newer: u64,
    /// Numbers that were there once and are gone.
    pub gone: u64,
    /// Desks whose words were read from the beginning again, since the server was put back to an older state.
    pub anew: u64,
}

impl Pulled {
    /// Words that are new here.
    pub fn new_words(&self) -> u64 {
        let report = &self.report;
        let each = [report.new, report.completed, report.papers, report.movements, report.photos];
        each.into_iter().map(u64::from).sum::<u64>() + report.procedures.len() as u64
    }

    fn add(&mut self, page: BundleReport) {
        let all = &mut self.report;
        self.set_aside += page.set_aside.len() as u64;
        all.new += page.new;
        all.completed += page.completed;
        all.known += page.known;
        all.papers += page.papers;
        all.movements += page.movements;
        all.photos += page.photos;
        let room = MOST_LINES.saturating_sub(all.set_aside.len());
        let lines: Vec<SetAsideLine> = page.set_aside.into_iter().take(room).collect();
        all.set_aside.extend(lines);
        all.procedures.extend(page.procedures);
        for warning in page.warnings {
            if all.warnings.len() < MOST_LINES && !all.warnings.contains(&warning) {
                all.warnings.push(warning);
            }
        }
    }

    /// A server may hold much that nobody trusted here stands behind; one that holds little else is not read to its end.
    fn in_vain(&self) -> Result<(), ExchangeError> {
        let vain = self.set_aside + self.spoiled + self.newer;
        if vain > MOST_IN_VAIN && vain > self.new_words().saturating_mul(10) {
            return Err(ExchangeError::InVain { count: vain });
        }
        Ok(())
    }
}

/// A word that is listed and not here.
#[derive(Clone, Copy)]
struct Listed {
    number: i64,
    key: [u8; 32],
    kind: i16,
    bytes: usize,
}

impl Exchange {
    /// Takes in what is there and not here. `again`: from the beginning, and not from where the last pull stopped. `progress` hears
    /// after each page how many words were looked at.
    ///
    /// # Errors
    /// The line, the server, the home; what was taken in until then stays, and the next pull goes on there.
    pub fn pull(
        &mut self,
        app: &App,
        again: bool,
        progress: &mut dyn FnMut(u64),
    ) -> Result<Pulled, ExchangeError> {
        let mut pulled = Pulled::default();
        let mut state = app.exchange_state(self.link.place, again)?;
        let mut behind = Vec::new();
        for (source, last) in self.runtime.block_on(self.link.sources())? {
            let mut after = state.position(&source).map_or(0, |position| position.number);
            if let Some(position) = state.position(&source)
                && self.runtime.block_on(self.link.key_at(source, position.number))? != Some(position.key)
            {
                pulled.anew += 1;
                after = 0;
            }
            if after < last {
                behind.push((source, after, last));
            }
        }
        if behind.is_empty() {
            return Ok(pulled);
        }
        let known = app.exchange_keys()?;
        // One page waits where it is asked for: while the home takes some in, the next come over the line.
        let (line, coming) = sync_channel(1);
        let (telling, told) = channel();
        let (taken, came) = std::thread::scope(|threads| {
            // Whoever takes has the ends of both lines: when that is over, with an error or without, nobody waits.
            let state = &mut state;
            let taking = threads.spawn(move || take_all(app, state, &coming, &telling));
            let mut came = Ok(());
            for (source, after, last) in behind {
                let about = (source, after, last);
                came = came.and_then(|()| self.bring(about, &known, &line, &told, &mut pulled, progress));
            }
            drop(line);
            (taking.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)), came)
        });
        // What came before the line broke is taken in.
        told.try_iter().for_each(|report| pulled.add(report));
        taken?;
        came?;
        pulled.in_vain()?;
        Ok(pulled)
    }

    /// Brings the words of a desk, from one number to another, over the line for as long as they are taken.
    fn bring(
        &mut self,
        (source, mut after, last): ([u8; 16], i64, i64),
        known: &HashSet<[u8; 32]>,
        line: &SyncSender<ExchangePage>,
        told: &Receiver<BundleReport>,
        pulled: &mut Pulled,
        progress: &mut dyn FnMut(u64),
    ) -> Result<(), ExchangeError> {
        while after < last {
            let listed = self.runtime.block_on(self.link.list(source, after))?;
            let Some(end) = listed.last() else { break };
            let span = end.number.saturating_sub(after).unsigned_abs();
            pulled.gone += span.saturating_sub(listed.len() as u64);
            let mut pages = pages(&listed, known, pulled);
            if pages.is_empty() {
                // Nothing of the list is wanted: how far it was read is kept all the same.
                pages.push(Vec::new());
            }
            for (at, page) in (1..).zip(&pages) {
                let upto = page.last().filter(|_| at < pages.len()).unwrap_or(end);
                let upto = ExchangePosition { source, number: upto.number, key: upto.key };
                let words = match page.is_empty() {
                    true => Vec::new(),
                    false => self.runtime.block_on(self.link.words(source, page, pulled))?,
                };
                if line.send(ExchangePage::new(upto, words)).is_err() {
                    // The home takes nothing more, and says why.
                    return Ok(());
                }
                told.try_iter().for_each(|report| pulled.add(report));
                progress(pulled.looked_at);
            }
            after = end.number;
            pulled.looked_at += listed.len() as u64;
            self.there.extend(listed.iter().map(|one| one.key).filter(|key| known.contains(key)));
            progress(pulled.looked_at);
            pulled.in_vain()?;
        }
        Ok(())
    }
}

/// Takes in all that comes, until nothing more does.
fn take_all(
    app: &App,
    state: &mut ExchangeState,
    coming: &Receiver<ExchangePage>,
    telling: &Sender<BundleReport>,
) -> Result<(), AppError> {
    let mut intake = ExchangeIntake::default();
    loop {
        if intake.is_empty() {
            let Ok(page) = coming.recv() else {
                // The log of a pull is long; nobody waits for it now.
                app.settle();
                return Ok(());
            };
            intake.push(page);
        }
        // Whoever hears of it is there for as long as pages come.
        let _ = telling.send(app.exchange_take(state, &mut intake, &mut || coming.try_recv().ok())?);
    }
}

/// What is asked for of a list, in the order of the numbers: what is here is not, nor what cannot be good.
fn pages(listed: &[Listed], known: &HashSet<[u8; 32]>, pulled: &mut Pulled) -> Vec<Vec<Listed>> {
    let mut pages: Vec<Vec<Listed>> = Vec::new();
    let mut bytes = 0;
    for one in listed.iter().filter(|one| !known.contains(&one.key)) {
        match word_limit(one.kind) {
            None => pulled.newer += 1,
            Some(most) if one.bytes > most => pulled.spoiled += 1,
            Some(_) => {
                bytes += one.bytes;
                match pages.last_mut() {
                    Some(page) if page.len() < MOST_WORDS && bytes <= MOST_BYTES => page.push(*one),
                    _ => {
                        bytes = one.bytes;
                        pages.push(vec![*one]);
                    }
                }
            }
        }
    }
    pages
}

impl Link {
    /// Every desk that put words there, and the number of its last.
    async fn sources(&self) -> Result<Vec<([u8; 16], i64)>, ExchangeError> {
        let most = MOST_SOURCES as i64 + 1;
        let mut sources = Vec::new();
        self.rows(&self.sources, vec![&most], MOST_SOURCES, |row| {
            sources.push((fixed(row, 0)?, column(row, 1)?));
            Ok(())
        })
        .await?;
        Ok(sources)
    }

    /// What a number goes by.
    async fn key_at(&self, source: [u8; 16], number: i64) -> Result<Option<[u8; 32]>, ExchangeError> {
        let source = source.as_slice();
        let mut key = None;
        self.rows(&self.one, vec![&source, &number], 1, |row| {
            key = Some(fixed(row, 0)?);
            Ok(())
        })
        .await?;
        Ok(key)
    }

    /// The next words of a desk: in order, each once.
    async fn list(&self, source: [u8; 16], after: i64) -> Result<Vec<Listed>, ExchangeError> {
        let (source, most) = (source.as_slice(), LISTED as i64);
        let mut listed: Vec<Listed> = Vec::new();
        self.rows(&self.list, vec![&source, &after, &most], LISTED, |row| {
            let bytes: i32 = column(row, 3)?;
            let one = Listed {
                number: column(row, 0)?,
                key: fixed(row, 1)?,
                kind: column(row, 2)?,
                bytes: usize::try_from(bytes).unwrap_or(usize::MAX),
            };
            if one.number <= listed.last().map_or(after, |before| before.number) {
                return Err(ExchangeError::strange(words::ExchangeOutOfOrder));
            }
            listed.push(one);
            Ok(())
        })
        .await?;
        Ok(listed)
    }

    /// The words of a page, in the order of their numbers; each is what its key says.
    async fn words(
        &self,
        source: [u8; 16],
        page: &[Listed],
        pulled: &mut Pulled,
    ) -> Result<Vec<ExchangeWord>, ExchangeError> {
        let source = source.as_slice();
        let numbers: Vec<i64> = page.iter().map(|one| one.number).collect();
        let asked: BTreeMap<i64, &Listed> = page.iter().map(|one| (one.number, one)).collect();
        let mut found = BTreeMap::new();
        let mut bytes = 0;
        let room: usize = page.iter().map(|one| one.bytes).sum();
        self.rows(&self.bodies, vec![&source, &numbers], page.len(), |row| {
            let number: i64 = column(row, 0)?;
            let body: &[u8] = column(row, 1)?;
            bytes += body.len();
            // It told the lengths before.
            let Some(one) = asked.get(&number).filter(|_| bytes <= room) else {
                return Err(ExchangeError::strange(words::ExchangeOtherColumns));
            };
            found.extend(ExchangeWord::received(one.kind, one.key, body.to_vec()).map(|word| (number, word)));
            Ok(())
        })
        .await?;
        pulled.spoiled += (page.len() - found.len()) as u64;
        Ok(found.into_values().collect())
    }

    /// Rows one by one, and no more than there can be.
    async fn rows(
        &self,
        statement: &tokio_postgres::Statement,
        params: Vec<&(dyn ToSql + Sync)>,
        most: usize,
        mut take: impl FnMut(&tokio_postgres::Row) -> Result<(), ExchangeError>,
    ) -> Result<(), ExchangeError> {
        self.moved
            .patient(async {
                let rows = self.client.query_raw(statement, params).await?;
                let mut rows = std::pin::pin!(rows);
                let mut count = 0;
                while let Some(row) = rows.try_next().await? {
                    count += 1;
                    if count > most {
                        return Err(ExchangeError::strange(words::ExchangeEndless));
                    }
                    take(&row)?;
                }
                Ok(())
            })
            .await
    }
}
