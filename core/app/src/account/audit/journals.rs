//! The journals of all devices, one after the other, as the records here tell them: which record stands in which journal, and what
//! was heard of a journal's end, or is kept of it, against what its records say.

use std::collections::{BTreeMap, BTreeSet};

use super::{AuditView, Counted, decayed};
use crate::account::heads::heads;
use crate::walks::record::entry_digest;
use crate::{AppError, Inner};
use slingseal_account::audit::{Chain, DeviceName, Finding, Link};
use slingseal_account::sync::HeadItem;
use slingseal_catalogue::audit as audit_words;
use slingseal_journal::{DeviceId, verify_chain};
use slingseal_message::seal::Record;
use slingseal_store::Reader;
use slingseal_words::{Digest, Time};

/// A record and where it stands in the journal of its device.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Place {
    /// Whose journal, and the first entry that the record tells of; none where only its seal is here, or its walk cannot be read.
    pub(super) journal: Option<([u8; 16], u64)>,
    pub(super) issued: Time,
    pub(super) seal: Digest,
    pub(super) record: Digest,
}

/// All records, those of one device one after the other in the order of its journal.
pub(super) fn in_their_order(
    read: &Reader<'_>,
    known: &[(Time, Digest, Digest, bool)],
    counted: &mut Counted<'_>,
) -> Result<Vec<Place>, AppError> {
    let mut places = Vec::with_capacity(known.len());
    for (issued, seal, record, whole) in known {
        counted.one()?;
        let body = match whole {
            true => decayed(read.record_bytes(*seal))?.ok().flatten().and_then(|bytes| bytes.body),
            false => None,
        };
        let walked = body.and_then(|body| Record::parse(&body, &entry_digest).ok());
        let journal = walked.map(|walked| (walked.device, Chain::begins(&walked)));
        places.push(Place { journal, issued: *issued, seal: *seal, record: *record });
    }
    places.sort_unstable();
    Ok(places)
}

/// What is kept of another device's journal.
struct Piece {
    links: Vec<Link>,
    /// Whether it begins with the journal, so that its chain was followed.
    followed: bool,
    /// What its chain said where it was.
    fault: Option<String>,
}

/// What was heard of a journal's end: its turn among all that was, the end, and the record that told it.
type Heard = (usize, HeadItem, Option<Digest>);

/// The journals that were looked at, and the one that is.
pub(super) struct Journals<'i> {
    inner: &'i Inner,
    whole: BTreeMap<Digest, bool>,
    /// What was heard of journals' ends, by whose they are.
    heads: BTreeMap<[u8; 16], Vec<Heard>>,
    /// Devices of whose journals something is kept that was not looked at yet.
    kept: BTreeSet<DeviceId>,
    open: Option<([u8; 16], Chain, Option<Piece>)>,
    missing: Vec<Finding>,
    ends: Vec<(usize, Finding)>,
    pieces: Vec<(Option<String>, Vec<Finding>)>,
    gaps: Vec<Finding>,
}

impl<'i> Journals<'i> {
    /// `whole` says of each record that is here whether its walk is.
    pub(super) fn new(inner: &'i Inner, whole: BTreeMap<Digest, bool>) -> Result<Self, AppError> {
        let read = inner.store.read();
        let known = heads(&read)?;
        let vouched = known.vouched().map(|vouched| (vouched.head, Some(vouched.by)));
        let mut heads: BTreeMap<[u8; 16], Vec<_>> = BTreeMap::new();
        for (turn, (head, by)) in vouched.chain(known.hints().map(|hint| (*hint, None))).enumerate() {
            heads.entry(head.device).or_default().push((turn, head, by));
        }
        let kept = read.foreign_devices()?.into_iter().map(|(device, _)| device).collect();
        let (missing, ends, pieces, gaps) = Default::default();
        Ok(Self { inner, whole, heads, kept, open: None, missing, ends, pieces, gaps })
    }

    /// The journal in which the record at this place stands, ready to take it.
    pub(super) fn at(&mut self, place: &Place) -> Result<Option<&mut Chain>, AppError> {
        let Some((device, begins)) = place.journal else { return Ok(None) };
        if self.open.as_ref().is_none_or(|(open, ..)| *open != device) {
            self.close();
            self.open(device)?;
        }
        let mut chain = self.open.as_mut().map(|(_, chain, _)| chain);
        if let Some(chain) = &mut chain {
            chain.pass(begins);
        }
        Ok(chain)
    }

    fn open(&mut self, device: [u8; 16]) -> Result<(), AppError> {
        let piece = match self.kept.remove(&DeviceId(device)) {
            true => Some(self.piece(DeviceId(device))?),
            false => None,
        };
        let ends = self.heads.get(&device).into_iter().flatten().map(|(_, head, _)| head.seq);
        let links = piece.iter().flat_map(|piece| &piece.links).map(|link| link.seq);
        let chain = Chain::new(device, ends.chain(links));
        self.open = Some((device, chain, piece));
        Ok(())
    }

    fn piece(&self, device: DeviceId) -> Result<Piece, AppError> {
        let entries = self.inner.store.read().foreign_entries(device)?;
        // A piece of a journal is checked from its first entry on: what stood before it is not known here.
        let followed = entries.first().is_some_and(|entry| entry.seq == 1);
        let fault = match verify_chain(device, &entries) {
            Err(fault) if followed => {
                let device = DeviceName(device.0).to_string();
                Some(audit_words::JournalOfDevice { device, fault: &fault }.say(self.inner.language()))
            }
            _ => None,
        };
        let link = |entry: &slingseal_journal::Entry| Link {
            seq: entry.seq,
            prev: entry.prev,
            digest: entry.digest,
        };
        Ok(Piece { links: entries.iter().map(link).collect(), followed, fault })
    }

    fn close(&mut self) {
        let Some((device, chain, piece)) = self.open.take() else { return };
        self.missing.extend(chain.missing(&self.whole));
        for (turn, head, by) in self.heads.get(&device).into_iter().flatten() {
            self.ends.extend(chain.against(head, *by).map(|found| (*turn, found)));
        }
        if let Some(piece) = piece {
            self.pieces.push((piece.fault, chain.piece(&piece.links, piece.followed)));
        }
        // Of this device its journal itself has answered.
        if device != self.inner.store.device().0 {
            self.gaps.extend(chain.gaps());
        }
    }

    /// What all of them come to.
    pub(super) fn end(mut self, view: &mut AuditView) -> Result<(), AppError> {
        self.close();
        for device in std::mem::take(&mut self.kept) {
            let piece = self.piece(device)?;
            let found = Chain::new(device.0, []).piece(&piece.links, piece.followed);
            self.pieces.push((piece.fault, found));
        }
        let language = self.inner.language();
        view.find(self.missing, language);
        self.ends.sort_by_key(|(turn, _)| *turn);
        view.find(self.ends.into_iter().map(|(_, found)| found).collect(), language);
        for (fault, found) in self.pieces {
            view.faults.extend(fault);
            view.find(found, language);
        }
        view.find(self.gaps, language);
        Ok(())
    }
}
