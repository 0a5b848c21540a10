use std::collections::{BTreeMap, BTreeSet};

use raptorq::{EncodingPacket, PayloadId, SourceBlockDecoder};

use super::{DIGEST, FRAME, FrameError, MOST, SYMBOL, check_sum, id_of, parameters, symbols};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_words::Digest;

/// How far the reading is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Different frames that were taken.
    pub taken: u32,
    /// How many are enough, as a rule; now and then one or two more.
    pub enough: u32,
}

/// What a frame did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Heard {
    /// It was new, or known already; more are wanted.
    More(Progress),
    /// The bundle is whole, and its digest fits.
    Whole(Vec<u8>),
}

/// One bundle under way.
pub(super) struct UnderWay {
    length: usize,
    numbers: BTreeSet<u32>,
    decoder: SourceBlockDecoder,
    /// Counts all frames: the bundle that was heard of longest ago gives way to a new one.
    heard: u64,
}

/// Puts frames together as they come: in any order, with losses and repeats, from any start. A second bundle may begin
/// before the first is whole.
#[derive(Default)]
pub struct FrameReader {
    pub(super) under_way: BTreeMap<[u8; 8], UnderWay>,
    frames: u64,
}

impl std::fmt::Debug for FrameReader {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("FrameReader").field("under_way", &self.under_way.len()).finish_non_exhaustive()
    }
}

impl FrameReader {
    /// More bundles at once than this are not kept.
    pub(super) const MOST_UNDER_WAY: usize = 4;

    /// A reader that has heard nothing.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes one frame.
    ///
    /// # Errors
    /// The frame is not one, is damaged, or contradicts the others; or all came together and the digest is another, in
    /// which case the bundle begins anew. The reader can go on after every error.
    pub fn take(&mut self, frame: &[u8]) -> Result<Heard, FrameError> {
        let frame = Frame::read(frame)?;
        self.frames += 1;
        let heard = self.frames;
        self.make_room(&frame.id);
        let enough = symbols(frame.length);
        let under_way = self.under_way.entry(frame.id).or_insert_with(|| UnderWay {
            length: frame.length,
            numbers: BTreeSet::new(),
            decoder: SourceBlockDecoder::new(0, &parameters(frame.length), u64::from(enough) * SYMBOL as u64),
            heard,
        });
        if under_way.length != frame.length {
            return Err(FrameError::Contradicts);
        }
        under_way.heard = heard;
        let more = |taken: usize| Heard::More(Progress { taken: taken as u32, enough });
        if !under_way.numbers.insert(frame.number) {
            return Ok(more(under_way.numbers.len()));
        }
        let packet = EncodingPacket::new(PayloadId::new(0, frame.number), frame.symbol);
        let Some(object) = under_way.decoder.decode([packet]) else {
            return Ok(more(under_way.numbers.len()));
        };
        self.under_way.remove(&frame.id);
        let content = object.get(DIGEST..frame.length).unwrap_or_default();
        let digest = Digest::of(content);
        if object.starts_with(digest.as_bytes()) && id_of(&digest) == frame.id {
            Ok(Heard::Whole(content.to_vec()))
        } else {
            Err(FrameError::WrongDigest)
        }
    }

    /// Takes the text of one frame's code.
    ///
    /// # Errors
    /// As [`Self::take`]; and the text is damaged, or of another kind.
    pub fn take_text(&mut self, text: &str) -> Result<Heard, FrameError> {
        match unwrap(text) {
            Ok((Kind::BundleFrame, frame)) => self.take(&frame),
            Ok((other, _)) => Err(FrameError::OtherKind(other)),
            Err(error) => Err(FrameError::Text(error)),
        }
    }

    fn make_room(&mut self, id: &[u8; 8]) {
        if self.under_way.len() < Self::MOST_UNDER_WAY || self.under_way.contains_key(id) {
            return;
        }
        let oldest = self.under_way.iter().min_by_key(|(_, one)| one.heard).map(|(id, _)| *id);
        if let Some(oldest) = oldest {
            self.under_way.remove(&oldest);
        }
    }
}

/// A frame whose every field has been checked: what the decoder may see.
struct Frame {
    id: [u8; 8],
    length: usize,
    number: u32,
    symbol: Vec<u8>,
}

impl Frame {
    fn read(bytes: &[u8]) -> Result<Self, FrameError> {
        // The lengths come first: the decoder panics on a short packet and allocates what a hostile length asks for.
        if bytes.len() != FRAME {
            return Err(FrameError::WrongLength(bytes.len()));
        }
        let fields = || {
            let (id, rest) = bytes.split_first_chunk::<8>()?;
            let (length, rest) = rest.split_first_chunk::<4>()?;
            let (&[high, middle, low], rest) = rest.split_first_chunk::<3>()?;
            let (check, symbol) = rest.split_first_chunk::<4>()?;
            let number = u32::from_be_bytes([0, high, middle, low]);
            Some((*id, u32::from_be_bytes(*length), number, u32::from_be_bytes(*check), symbol))
        };
        let (id, length, number, check, symbol) = fields().ok_or(FrameError::WrongLength(bytes.len()))?;
        if check != check_sum(&id, length, number, symbol) {
            return Err(FrameError::Damaged);
        }
        let whole = length as usize;
        if !(DIGEST + 1..=DIGEST + MOST).contains(&whole) {
            return Err(FrameError::WrongSize(length));
        }
        Ok(Self { id, length: whole, number, symbol: symbol.to_vec() })
    }
}
