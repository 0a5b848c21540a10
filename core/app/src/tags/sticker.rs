//! NFC stickers: what is written to one, and what one holds. The shell does the touching; it computes nothing.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::{AppError, CodeKind, CodeText};
use slingseal_message::envelope::{Kind, NdefError, from_ndef, to_ndef, unwrap, wrap};

/// What is to be written to a sticker.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StickerView {
    /// The NDEF message, as the platform takes it.
    #[serde(skip)]
    pub message: Vec<u8>,
    /// Its bytes: what the sticker must have room for.
    pub bytes: u32,
    /// Whether the sticker that was touched has it.
    pub fits: bool,
}

/// What a sticker holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StickerReading {
    /// Nothing: it was never written.
    Empty,
    /// Something of someone else's.
    Foreign,
    /// A message of a newer program's: update this device.
    Newer {
        /// What it is.
        #[serde(serialize_with = "crate::view::word")]
        kind: CodeKind,
    },
    /// It cannot be read: write it again.
    Damaged,
    /// Messages of ours. What they are worth is [`crate::App::check`]'s to say.
    Ours {
        /// The seal's text.
        seal: Option<String>,
        /// The tag's text.
        tag: Option<String>,
        /// What is neither.
        others: Vec<CodeText>,
    },
}

/// The NDEF message of these texts, and whether a sticker with room for `room` bytes takes it. A seal and its tag go onto one
/// sticker: give both.
///
/// # Errors
/// A text that is none of ours; no text; two of one kind; more than any sticker holds.
pub fn sticker(texts: &[String], room: u32) -> Result<StickerView, AppError> {
    let messages = texts.iter().map(|text| Ok(unwrap(text)?)).collect::<Result<Vec<_>, AppError>>()?;
    let messages: Vec<_> = messages.iter().map(|(kind, bytes)| (*kind, bytes.as_slice())).collect();
    let message = to_ndef(&messages).map_err(|error| match error {
        NdefError::Empty => AppError::bad_input(words::NothingGivenWriteGiveTag),
        NdefError::Damaged(_) => AppError::bad_input(words::StickerHoldsOneMessageKind),
        other => AppError::bad_input(other),
    })?;
    let bytes = u32::try_from(message.len()).unwrap_or(u32::MAX);
    Ok(StickerView { message, bytes, fits: bytes <= room })
}

/// What the NDEF message of a sticker holds.
pub fn read_sticker(message: &[u8]) -> StickerReading {
    match from_ndef(message) {
        Err(NdefError::Empty) => StickerReading::Empty,
        Err(NdefError::NotOurs) => StickerReading::Foreign,
        Err(NdefError::OtherVersion { kind, .. }) => StickerReading::Newer { kind: kind.into() },
        Err(NdefError::Damaged(_) | NdefError::TooLong(_)) => StickerReading::Damaged,
        Ok(read) => {
            let text = |wanted: &[Kind]| {
                let mut found = read.messages.iter().filter(|(kind, _)| wanted.contains(kind));
                found.next().map(|(kind, bytes)| wrap(*kind, bytes))
            };
            let others = read
                .messages
                .iter()
                .filter(|(kind, _)| !matches!(kind, Kind::Seal | Kind::Tag | Kind::TagWithBasis));
            StickerReading::Ours {
                seal: text(&[Kind::Seal]),
                tag: text(&[Kind::Tag, Kind::TagWithBasis]),
                others: others
                    .map(|(kind, bytes)| CodeText { kind: (*kind).into(), text: wrap(*kind, bytes) })
                    .collect(),
            }
        }
    }
}
