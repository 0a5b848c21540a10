//! Sync: bundles out, bundles in, the have code, the moving code. Merging is a union of sets: commutative, idempotent, one
//! transaction.

use slingseal_catalogue::audit as audit_words;
use slingseal_catalogue::refusals as words;
use std::collections::BTreeSet;
use std::io::{Read, Write};

use serde::Serialize;

use crate::account::bundle_report::BundleReport;
use crate::account::heads::heads;
use crate::account::merge::Merge;
use crate::error::said_by_system;
use crate::hook::admission::Admission;
use crate::hook::ahead::Opener;
use crate::procedures::comes_with_the_program;
use crate::walks::record::entry_digest;
use crate::{App, AppError, CodeView, Inner};
use slingseal_account::sync::{
    BundleReader, BundleWriter, FrameReader, FrameWriter, Have, HeadItem, Heard, Item, ItemKind, Known,
    Piece, RecordItem,
};
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

/// How far the reading of a bundle is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct BundleProgress {
    /// Bytes that were read.
    pub bytes: u64,
    /// Items that were judged.
    pub items: u64,
}

/// A bundle as a moving code.
#[derive(Debug)]
pub struct MovingCode {
    frames: FrameWriter,
    made: BundleMade,
}

impl MovingCode {
    /// What it carries.
    pub fn made(&self) -> &BundleMade {
        &self.made
    }

    pub(crate) fn of_bundle(bytes: &[u8], papers: u32) -> Result<Self, AppError> {
        Self::of_made(bytes, BundleMade { papers, ..BundleMade::default() })
    }

    pub(crate) fn of_made(bytes: &[u8], made: BundleMade) -> Result<Self, AppError> {
        Ok(Self { frames: FrameWriter::new(bytes).map_err(AppError::bad_input)?, made })
    }

    /// How many frames are enough when none is lost. Show 0, 1, 2 … and never stop by yourself.
    pub fn enough(&self) -> u32 {
        self.frames.enough()
    }

    /// One frame.
    ///
    /// # Errors
    /// None in practice: every frame fits a code.
    pub fn frame(&self, number: u32) -> Result<CodeView, AppError> {
        CodeView::of_text(slingseal_message::envelope::Kind::BundleFrame, self.frames.text(number))
    }
}

/// What a frame of a moving code did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FrameTaken {
    /// More are wanted.
    More {
        /// Different frames that were taken.
        taken: u32,
        /// How many are enough, as a rule.
        enough: u32,
    },
    /// The bundle is whole: give it to `bundle_read`.
    Whole(Vec<u8>),
}

/// Puts the frames of a moving code together.
#[derive(Debug, Default)]
pub struct MovingReader(FrameReader);

impl MovingReader {
    /// A reader that has seen nothing.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes the text of a frame, in any order and however often.
    ///
    /// # Errors
    /// A text that is no frame, or one that contradicts the others; the next frame may be given all the same.
    pub fn take(&mut self, text: &str) -> Result<FrameTaken, AppError> {
        match self.0.take_text(text).map_err(AppError::bad_input)? {
            Heard::More(progress) => Ok(FrameTaken::More { taken: progress.taken, enough: progress.enough }),
            Heard::Whole(bundle) => Ok(FrameTaken::Whole(bundle)),
        }
    }
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

    /// A bundle as a moving code: without photographs and examinations.
    ///
    /// # Errors
    /// More than a moving code carries: write a file instead.
    pub fn moving_code(&self, have: Option<&str>) -> Result<MovingCode, AppError> {
        self.moving_code_of(&BundleRequest { have: have.map(str::to_owned), ..BundleRequest::default() })
    }

    /// The same of a part of the account; photographs never go along.
    ///
    /// # Errors
    /// As `moving_code`.
    pub fn moving_code_of(&self, request: &BundleRequest) -> Result<MovingCode, AppError> {
        let request = BundleRequest { photos: false, ..request.clone() };
        let inner = self.lock();
        let written = |strays| -> Result<(BundleMade, Vec<u8>), AppError> {
            let mut bytes = Vec::new();
            let made = inner.bundle_write(&request, &Scope { strays, ..Scope::moving() }, &mut bytes)?;
            Ok((made, bytes))
        };
        let (made, bytes) = written(true)?;
        if let Ok(frames) = FrameWriter::new(&bytes) {
            return Ok(MovingCode { frames, made });
        }
        // What strangers left here must not stand in the way of what people signed.
        let (mut made, bytes) = written(false)?;
        let frames = FrameWriter::new(&bytes).map_err(AppError::bad_input)?;
        made.left_out.push(audit_words::TagsGoByFile.say(inner.language()));
        Ok(MovingCode { frames, made })
    }

    /// The same as several moving codes, each small enough, where one is too large: each is a bundle by itself, so that any order
    /// will do, and one that is missed is missed alone. At most [`MOST_PARTS`].
    ///
    /// # Errors
    /// More than that many carry; one record that none carries: write a file instead.
    pub fn moving_codes(&self, request: &BundleRequest) -> Result<Vec<MovingCode>, AppError> {
        let too_large = match self.moving_code_of(request) {
            Ok(whole) => return Ok(vec![whole]),
            Err(error) => error,
        };
        let request = BundleRequest { photos: false, ..request.clone() };
        let inner = self.lock();
        let part = |part: Part| -> Result<Option<MovingCode>, AppError> {
            let mut bytes = Vec::new();
            let scope = Scope { part: Some(part), strays: false, ..Scope::moving() };
            let made = inner.bundle_write(&request, &scope, &mut bytes)?;
            Ok(FrameWriter::new(&bytes).ok().map(|frames| MovingCode { frames, made }))
        };
        // Papers first and alone: who has them can judge every record that follows.
        let mut codes = vec![part(Part::Papers)?.ok_or_else(|| too_large.clone())?];
        let count = inner.records_to_send(&request)?.len();
        let mut from = 0;
        while from < count {
            let mut many = count - from;
            let code = loop {
                match part(Part::Records { from, many })? {
                    Some(code) => break code,
                    None if many > 1 => many = many.div_ceil(2),
                    None => return Err(too_large),
                }
            };
            codes.push(code);
            from += many;
            if codes.len() > MOST_PARTS {
                return Err(too_large);
            }
        }
        Ok(codes)
    }

    /// Takes a bundle in: what is good, in one transaction; what is not is set aside with its reason.
    ///
    /// # Errors
    /// A file that is no bundle; what the reader meets; storage. Nothing is kept then.
    pub fn bundle_read(
        &self,
        input: &mut dyn Read,
        progress: &mut dyn FnMut(BundleProgress),
    ) -> Result<BundleReport, AppError> {
        self.lock().bundle_read(input, progress)
    }
}

/// Pieces that are read before they are taken in, and their bytes: memory stays flat.
pub(crate) const PIECES_AHEAD: usize = 256;
const BYTES_AHEAD: usize = 4 << 20;

/// The next pieces of a bundle; none at its end.
fn read_ahead(reader: &mut BundleReader<&mut dyn Read>) -> Result<Vec<Piece>, AppError> {
    let (mut pieces, mut bytes) = (Vec::new(), 0);
    while pieces.len() < PIECES_AHEAD && bytes < BYTES_AHEAD {
        let Some(piece) = reader.next_piece().map_err(io)? else { break };
        bytes += match &piece {
            Piece::Item(item) => item.body.len(),
            Piece::Damaged { bytes, .. } => bytes.len(),
        };
        pieces.push(piece);
    }
    Ok(pieces)
}

/// What is whole among the pieces.
fn items_of(pieces: &[Piece]) -> Vec<&Item> {
    let items = pieces.iter().filter_map(|piece| match piece {
        Piece::Item(item) => Some(item),
        Piece::Damaged { .. } => None,
    });
    items.collect()
}

pub(crate) fn io(error: std::io::Error) -> AppError {
    AppError::bad_input(words::BundleCannotReadWrittenTry { error: said_by_system(&error) })
}

/// The most moving codes that one account goes in: nobody films more.
pub const MOST_PARTS: usize = 50;

/// A part of what is to be sent.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Papers,
    /// So many of the records that are to be sent, from one on.
    Records {
        from: usize,
        many: usize,
    },
}

/// What goes along besides what somebody signed.
#[derive(Clone, Copy)]
struct Scope {
    /// One part alone; none is everything.
    part: Option<Part>,
    /// Examinations.
    exams: bool,
    /// Tags that nobody signed and no seal names.
    strays: bool,
}

impl Scope {
    fn moving() -> Self {
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
    fn records_to_send(&self, request: &BundleRequest) -> Result<Vec<Known>, AppError> {
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

    fn bundle_write(
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

    fn bundle_read(
        &mut self,
        input: &mut dyn Read,
        progress: &mut dyn FnMut(BundleProgress),
    ) -> Result<BundleReport, AppError> {
        let none = || AppError::bad_input(words::FileBundleMakeOneBundle);
        let mut reader = BundleReader::begin(input).map_err(io)?.ok_or_else(none)?;
        self.merging(|merge| {
            let (mut opener, mut number) = (Opener::default(), 0u64);
            let mut pieces = read_ahead(&mut reader)?;
            let mut ahead = merge.open_ahead(&mut opener, &items_of(&pieces));
            while !pieces.is_empty() {
                // While these are written, the next are read and opened beside it.
                let next = read_ahead(&mut reader)?;
                let next_items = items_of(&next);
                merge.admission.brief(&mut opener, &next_items);
                let (mut next_ahead, at) = (Vec::new(), reader.position());
                rayon::in_place_scope(|cores| {
                    cores.spawn(|_| next_ahead = opener.open(&next_items));
                    let mut ahead = ahead.into_iter();
                    for piece in pieces {
                        match piece {
                            Piece::Item(item) => {
                                number += 1;
                                merge.take(&item, ahead.next().unwrap_or_default(), number)?;
                            }
                            Piece::Damaged { at, after, bytes, length } => {
                                let place = audit_words::AfterItem { after, at }.say(merge.language);
                                let reason = audit_words::BytesDamaged { length }.say(merge.language);
                                merge.set_aside(&bytes, place, "damage", reason)?;
                            }
                        }
                        if number.is_multiple_of(64) {
                            progress(BundleProgress { bytes: at, items: number });
                        }
                    }
                    Ok::<(), AppError>(())
                })?;
                (pieces, ahead) = (next, next_ahead);
            }
            progress(BundleProgress { bytes: reader.position(), items: number });
            Ok(())
        })
    }

    /// Takes words in, however they come: one transaction.
    pub(crate) fn merging(
        &mut self,
        act: impl FnOnce(&mut Merge<'_, '_>) -> Result<(), AppError>,
    ) -> Result<BundleReport, AppError> {
        let (now, language, device) = (self.now(), self.language(), self.store.device().0);
        let own = self.store.head();
        let (report, new_texts) = self.store.write(|tx| {
            let mut merge = Merge {
                admission: Admission::begin(tx, now, language)?,
                language,
                heads: heads(tx)?,
                anything_aside: tx.is_anything_quarantined()?,
                kept_aside: 0,
                forks: BTreeSet::new(),
                more_aside: 0,
                own: HeadItem { device, seq: own.seq, digest: own.digest },
                first_head: true,
                report: BundleReport::default(),
                new_texts: Vec::new(),
            };
            act(&mut merge)?;
            merge.finish()
        })?;
        self.with_procedures(report, &new_texts)
    }
}
