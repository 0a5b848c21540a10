//! Which lists were walked by, by whom, and what their authorities say of them.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::procedures::standing::EditionState;
use crate::view::hex;
use crate::{App, AppError, Inner, ProcedureView, Stamp};
use slingseal_message::seal::ReceivedSeal;
use slingseal_message::trust::{EditionStanding, PublicKey, Trusted};
use slingseal_store::{RecordFilter, RecordRow};

/// Loads that are named beside an edition; more are counted.
const MOST_LOADS: usize = 50;

/// The leader's view of procedures.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EditionsView {
    /// Every edition that is here or should be, with who approves it.
    pub editions: Vec<ProcedureView>,
    /// Every edition that loads were walked by, the gravest first.
    pub walked: Vec<EditionWalked>,
}

/// An edition that loads were walked by.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EditionWalked {
    /// The procedure's id.
    pub id: String,
    /// Its version.
    pub version: u32,
    /// The beginning of the SHA-256 of its text, as seals have it.
    pub print: String,
    /// How it stood with the inspector's authority when these were walked.
    pub state: EditionState,
    /// How many inspections.
    pub inspections: u32,
    /// Who, with how many each.
    pub inspectors: Vec<(String, u32)>,
    /// Which loads, each once, the last walked first; at most fifty.
    pub loads: Vec<String>,
    /// When the last of them was sealed.
    pub last: Stamp,
}

/// What a seal's line says of the edition that was walked.
pub(crate) struct WalkedBy {
    pub(crate) version: u32,
    pub(crate) print: [u8; 4],
    pub(crate) state: EditionState,
}

impl App {
    /// Which lists count, and which were walked by.
    ///
    /// # Errors
    /// Storage.
    pub fn editions(&self) -> Result<EditionsView, AppError> {
        Ok(EditionsView { editions: self.procedure_editions()?, walked: self.lock().editions_walked()? })
    }
}

impl Inner {
    /// The edition of a record's seal, by the roster of its signer's authority.
    pub(crate) fn walked_by(&self, row: &RecordRow, trusted: &Trusted) -> Result<Option<WalkedBy>, AppError> {
        let Some(bytes) = self.store.read().seal(row.seal)? else { return Ok(None) };
        let Ok(received) = ReceivedSeal::open(&bytes) else { return Ok(None) };
        let seal = received.seal;
        let key = row.author.and_then(|author| PublicKey::from_bytes(&author.authority).ok());
        let roster =
            key.and_then(|key| trusted.authority(&key)).and_then(|authority| authority.roster.as_ref());
        let standing = roster.map_or(EditionStanding::NotApproved, |roster| {
            roster.edition(&seal.procedure, seal.version, &seal.procedure_print, seal.issued)
        });
        let state = match standing {
            EditionStanding::Approved => EditionState::Approved,
            EditionStanding::Withdrawn(_) => EditionState::Withdrawn,
            EditionStanding::NotApproved => EditionState::NotApproved,
        };
        Ok(Some(WalkedBy { version: seal.version, print: seal.procedure_print, state }))
    }

    fn editions_walked(&self) -> Result<Vec<EditionWalked>, AppError> {
        let trusted = self.trusted()?;
        // By procedure, version, print and rank; with how often each inspector walked by it.
        type Edition = (String, u32, [u8; 4], u8);
        let mut walked: BTreeMap<Edition, (EditionWalked, BTreeMap<String, u32>)> = BTreeMap::new();
        let (read, mut after) = (self.store.read(), None);
        loop {
            let page = read.records(&RecordFilter::default(), after, 256)?;
            for row in page.rows {
                let Some(by) = self.walked_by(&row, &trusted)? else { continue };
                // Withdrawn first, then what nobody approved, then what is as it should be.
                let rank = match by.state {
                    EditionState::Withdrawn => 0,
                    EditionState::NotApproved | EditionState::Missing => 1,
                    EditionState::Approved => 2,
                };
                let (one, people) =
                    walked.entry((row.procedure.clone(), by.version, by.print, rank)).or_insert_with(|| {
                        let one = EditionWalked {
                            id: row.procedure.clone(),
                            version: by.version,
                            print: hex(&by.print),
                            state: by.state,
                            inspections: 0,
                            inspectors: Vec::new(),
                            loads: Vec::new(),
                            last: row.issued.into(),
                        };
                        (one, BTreeMap::new())
                    });
                one.inspections = one.inspections.saturating_add(1);
                *people.entry(row.inspector.clone()).or_default() += 1;
                if one.loads.len() < MOST_LOADS && !one.loads.contains(&row.load) {
                    one.loads.push(row.load.clone());
                }
            }
            after = page.next;
            if after.is_none() {
                break;
            }
        }
        let mut all: Vec<(u8, EditionWalked)> = walked
            .into_iter()
            .map(|((.., rank), (one, people))| {
                (rank, EditionWalked { inspectors: people.into_iter().collect(), ..one })
            })
            .collect();
        all.sort_by_key(|(rank, _)| *rank);
        Ok(all.into_iter().map(|(_, one)| one).collect())
    }
}
