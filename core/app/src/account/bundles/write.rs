//! Bundles out, and the have code.

use std::collections::BTreeSet;
use std::io::Write;

use serde::Serialize;

use super::io;
use crate::account::heads::heads;
use crate::procedures::comes_with_the_program;
use crate::walks::record::entry_digest;
use crate::{App, AppError, CodeView, Inner};
use slingseal_account::sync::{BundleWriter, Have, HeadItem, ItemKind, Known, RecordItem};
use slingseal_message::movement::ReceivedMovement;
use slingseal_message::seal::Record;
use slingseal_store::{InspectionRow, Reader, StoreError, SubjectKind};
use slingseal_words::{Digest, LoadNumber, Time};

/// What a bundle is to hold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BundleRequest {
    /// The other side's have code; without it, everything is packed.
    pub have: Option<String>,
    /// Whether photographs go along. A moving code never carries them.
    pub photos: bool,
    /// Only records sealed at this time or later.
    pub since: Option<Time>,
    /// Only what is of this load: its records, tags and voids, with everybody's credentials and rosters.
    pub load: Option<String>,
}

/// A bundle that was written.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct BundleMade {
    /// Records, whole or by their seal alone.
    pub records: u32,
    /// Tags, voids, credentials, rosters and movement reports.
    pub papers: u32,
    /// Photographs.
    pub photos: u32,
    /// Procedures that go along by themselves, and not with a record.
    pub procedures: u32,
    /// What was too long for a bundle, in plain words.
    pub left_out: Vec<String>,
}

impl App {
    /// The have code: shown to the other side, so that it leaves out what is here.
    ///
    /// # Errors
    /// Storage.
    pub fn have_code(&self) -> Result<CodeView, AppError> {
        let inner = self.lock();
        let read = inner.store.read();
        let have = Have::of(&known(&read)?, &papers(&read)?.digests());
        CodeView::of_text(slingseal_message::envelope::Kind::Have, have.to_text())
    }

    /// Writes a bundle of what the other side lacks, item by item.
    ///
    /// # Errors
    /// A have code that cannot be read; what the writer meets; storage.
    pub fn bundle_write(&self, request: &BundleRequest, out: &mut dyn Write) -> Result<BundleMade, AppError> {
        self.lock().bundle_write(request, &Scope { exams: true, strays: true, part: None }, out)
    }
}

/// A part of what is to be sent.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Papers,
    /// So many of the records that are to be sent, from one on.
    Records {
        from: usize,
        many: usize,
    },
}

/// What goes along besides what somebody signed.
#[derive(Clone, Copy)]
pub(super) struct Scope {
    /// One part alone; none is everything.
    pub(super) part: Option<Part>,
    /// Examinations.
    pub(super) exams: bool,
    /// Tags that nobody signed and no seal names.
    pub(super) strays: bool,
}

impl Scope {
    pub(super) fn moving() -> Self {
        Self { part: None, exams: false, strays: true }
    }
}

/// Everything that is no record, as it travels.
pub(crate) struct Papers {
    pub(crate) messages: Vec<(ItemKind, Vec<u8>)>,
    /// Inspections of what is no load: each travels with its full record where there is room.
    pub(crate) inspections: Vec<InspectionRow>,
}

impl Papers {
    fn digests(&self) -> Vec<Digest> {
        let messages = self.messages.iter().map(|(_, bytes)| Digest::of(bytes));
        messages.chain(self.inspections.iter().map(|row| row.digest)).collect()
    }
}

pub(crate) fn papers(read: &Reader<'_>) -> Result<Papers, StoreError> {
    let mut papers = Vec::new();
    papers.extend(read.credentials()?.into_iter().map(|row| (ItemKind::Credential, row.bytes)));
    papers.extend(read.rosters()?.into_iter().map(|row| (ItemKind::Roster, row.bytes)));
    papers.extend(read.tags()?.into_iter().map(|row| (ItemKind::Tag, row.bytes)));
    papers.extend(read.voids()?.into_iter().map(|row| (ItemKind::Void, row.bytes)));
    papers.extend(read.movements()?.into_iter().map(|row| (ItemKind::Movement, row.bytes)));
    papers.extend(read.closings()?.into_iter().map(|row| (ItemKind::Closing, row.bytes)));
    Ok(Papers { messages: papers, inspections: read.inspections()? })
}

fn known(read: &Reader<'_>) -> Result<Vec<Known>, StoreError> {
    let rows = read.records_known()?;
    Ok(rows.into_iter().map(|(issued, digest, _, whole)| Known { issued, digest, whole }).collect())
}

/// The papers of one load, with everybody's credentials and rosters.
fn papers_of(read: &Reader<'_>, load: &LoadNumber) -> Result<Papers, StoreError> {
    let Papers { messages: mut papers, mut inspections } = papers(read)?;
    let digests = |bytes: Vec<Vec<u8>>| bytes.iter().map(|bytes| Digest::of(bytes)).collect::<BTreeSet<_>>();
    let tags = digests(read.tags_of(load.as_str())?.into_iter().map(|row| row.bytes).collect());
    let voids = digests(read.voids_of_load(load.as_str())?.into_iter().map(|row| row.bytes).collect());
    papers.retain(|(kind, bytes)| match kind {
        ItemKind::Tag => tags.contains(&Digest::of(bytes)),
        ItemKind::Void => voids.contains(&Digest::of(bytes)),
        _ => true,
    });
    // A piece that was withdrawn is for every load to know.
    inspections.retain(|row| row.subject == SubjectKind::Piece || row.name == load.as_str());
    Ok(Papers { messages: papers, inspections })
}

/// The photographs that a movement report names, as far as they are here.
fn write_photos_of_report(
    read: &Reader<'_>,
    report: &[u8],
    writer: &mut BundleWriter<&mut dyn Write>,
    made: &mut BundleMade,
) -> Result<(), AppError> {
    let Ok(received) = ReceivedMovement::open(report) else { return Ok(()) };
    for photo in received.movement.photos {
        let Some(photo) = read.photo(photo)? else { continue };
        match writer.add(ItemKind::Photo, &photo).map_err(io)? {
            Ok(()) => made.photos += 1,
            Err(too_long) => made.left_out.push(too_long.to_string()),
        }
    }
    Ok(())
}

/// An inspection as it travels.
pub(crate) fn inspection_item(
    read: &Reader<'_>,
    row: &InspectionRow,
    room: bool,
) -> Result<RecordItem, StoreError> {
    // What was rejected on a load stands on that load's record, which travels by itself.
    let whole = room && read.seals_of_record(row.record)?.is_empty();
    let record = if whole { read.body(row.record)? } else { None };
    Ok(RecordItem { seal: row.bytes.clone(), record })
}

/// Inspections of what is no load, with their full records where there is room for them.
fn write_inspections(
    read: &Reader<'_>,
    rows: &[InspectionRow],
    room: bool,
    writer: &mut BundleWriter<&mut dyn Write>,
    made: &mut BundleMade,
) -> Result<(), AppError> {
    for row in rows {
        let item = inspection_item(read, row, room)?;
        if let Some(record) = item.record.as_deref().and_then(|body| Record::parse(body, &entry_digest).ok())
            && !comes_with_the_program(&record.procedure_digest)
            && let Some(text) = read.procedure_text(record.procedure_digest)?
        {
            let _ = writer.add(ItemKind::Procedure, text.text.as_bytes()).map_err(io)?;
        }
        match writer.add(ItemKind::Inspection, &item.to_bytes()).map_err(io)? {
            Ok(()) => made.papers += 1,
            Err(too_long) => made.left_out.push(format!("{too_long} ({})", row.name)),
        }
    }
    Ok(())
}

impl Inner {
    /// The records that a bundle carries, in the order in which it does.
    pub(super) fn records_to_send(&self, request: &BundleRequest) -> Result<Vec<Known>, AppError> {
        let read = self.store.read();
        let have = request.have.as_deref().map(Have::parse).transpose().map_err(AppError::bad_input)?;
        let mine = known(&read)?;
        let mut sent = have.as_ref().map_or_else(|| mine.clone(), |have| have.lacks(&mine));
        if let Some(since) = request.since {
            sent.retain(|one| one.issued >= since);
        }
        if let Some(load) = &request.load {
            let load = LoadNumber::new(load)?;
            let of_load: BTreeSet<Digest> =
                read.records_of_load(load.as_str())?.into_iter().map(|row| row.seal).collect();
            sent.retain(|one| of_load.contains(&one.digest));
        }
        Ok(sent)
    }

    pub(super) fn bundle_write(
        &self,
        request: &BundleRequest,
        scope: &Scope,
        out: &mut dyn Write,
    ) -> Result<BundleMade, AppError> {
        let have = request.have.as_deref().map(Have::parse).transpose().map_err(AppError::bad_input)?;
        let read = self.store.read();
        let mut made = BundleMade::default();
        let mut writer = BundleWriter::begin(out).map_err(io)?;
        let papers = match &request.load {
            Some(load) => papers_of(&read, &LoadNumber::new(load)?)?,
            None => papers(&read)?,
        };
        let with_papers = !matches!(scope.part, Some(Part::Records { .. }));
        if with_papers && have.as_ref().is_none_or(|have| !have.has_papers(&papers.digests())) {
            let strays: BTreeSet<Digest> = match scope.strays {
                true => BTreeSet::new(),
                false => read.strays()?.into_iter().map(|stray| stray.digest).collect(),
            };
            for (kind, bytes) in &papers.messages {
                if !strays.is_empty() && strays.contains(&Digest::of(bytes)) {
                    continue;
                }
                match writer.add(*kind, bytes).map_err(io)? {
                    Ok(()) => made.papers += 1,
                    Err(too_long) => made.left_out.push(too_long.to_string()),
                }
                if request.photos && *kind == ItemKind::Movement {
                    write_photos_of_report(&read, bytes, &mut writer, &mut made)?;
                }
            }
            write_inspections(&read, &papers.inspections, scope.exams, &mut writer, &mut made)?;
        }
        let mut sent = self.records_to_send(request)?;
        match scope.part {
            Some(Part::Papers) => sent.clear(),
            Some(Part::Records { from, many }) => sent = sent.into_iter().skip(from).take(many).collect(),
            None => {}
        }
        let mut texts = BTreeSet::new();
        for one in sent {
            let Some(bytes) = read.record_bytes(one.digest)? else { continue };
            let record = bytes.body.as_deref().and_then(|body| Record::parse(body, &entry_digest).ok());
            if let Some(record) = &record
                && !comes_with_the_program(&record.procedure_digest)
                && texts.insert(record.procedure_digest)
                && let Some(row) = read.procedure_text(record.procedure_digest)?
            {
                let _ = writer.add(ItemKind::Procedure, row.text.as_bytes()).map_err(io)?;
            }
            let item = RecordItem { seal: bytes.seal, record: bytes.body };
            match writer.add(ItemKind::Record, &item.to_bytes()).map_err(io)? {
                Ok(()) => made.records += 1,
                Err(too_long) => made.left_out.push(format!("{too_long} ({})", one.digest.short())),
            }
            for photo in record.filter(|_| request.photos).map(|record| record.photos).unwrap_or_default() {
                let Some(photo) = read.photo(photo)? else { continue };
                match writer.add(ItemKind::Photo, &photo).map_err(io)? {
                    Ok(()) => made.photos += 1,
                    Err(too_long) => made.left_out.push(too_long.to_string()),
                }
            }
        }
        // A list that counts goes wherever its approval goes; under a running engine only by its own moving code.
        for known in if scope.exams { self.approved_texts()? } else { Vec::new() } {
            if !comes_with_the_program(&known.digest) && texts.insert(known.digest) {
                match writer.add(ItemKind::Procedure, known.text.as_bytes()).map_err(io)? {
                    Ok(()) => made.procedures += 1,
                    Err(too_long) => made.left_out.push(too_long.to_string()),
                }
            }
        }
        // A zone's moving code is held up under a running engine: a school's papers go by file.
        for (kind, bytes) in if scope.exams { self.exam_items(&mut texts)? } else { Vec::new() } {
            match writer.add(kind, &bytes).map_err(io)? {
                Ok(()) => made.papers += u32::from(kind != ItemKind::Procedure),
                Err(too_long) => made.left_out.push(too_long.to_string()),
            }
        }
        // What records told goes with the records. This device's own goes first: a reader takes only so many, and takes the first for
        // the end up to which the sender handed over all that it had. A part of the account says nothing of that.
        let heads = heads(&read)?;
        let own = self.store.head();
        let own = HeadItem { device: self.store.device().0, seq: own.seq, digest: own.digest };
        let whole = scope.part.is_none() && request.load.is_none() && request.since.is_none();
        for head in std::iter::once(&own).chain(heads.hints()).take(if whole { usize::MAX } else { 0 }) {
            let _ = writer.add(ItemKind::Head, &head.to_bytes()).map_err(io)?;
        }
        writer.finish().map_err(io)?;
        Ok(made)
    }
}
