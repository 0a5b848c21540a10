//! Codes as pictures: out to a screen or a sheet, in from a camera or a file.

use serde::Serialize;
use slingseal_catalogue::{faults, refusals as words};

use crate::{App, AppError, Effort, Language};
use slingseal_judgement::{is_of_a_load, plausible};
use slingseal_message::envelope::{Claims, Kind, Limits, Sign1, unwrap, wrap};
use slingseal_message::trust::SealedCopy;
use slingseal_qr as qr;
use slingseal_words::{Digest, Saying};

/// What a code is to whoever scans it. Two forms of one thing are one kind: which of them it is, only the core asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CodeKind {
    /// What hangs on the load.
    Tag,
    /// The inspector's attestation.
    Seal,
    /// An authority's word that a key belongs to a person with roles.
    Credential,
    /// A device's wish to be credentialed.
    KeyRequest,
    /// An authority's name and public key.
    Authority,
    /// An authority's list of what it has revoked, and of what it approves.
    Roster,
    /// An inspection of what is no load.
    Inspection,
    /// The word that a seal no longer holds.
    Void,
    /// A report of what became of a load.
    Movement,
    /// What a leader hands up once an account is closed.
    Closing,
    /// One frame of a moving code.
    BundleFrame,
    /// What a device already has.
    Have,
    /// Whom a check page trusts and what it knows.
    CheckPage,
    /// An instructor's lock on planted deficiencies.
    ExamKey,
    /// A student's signed examination result; never an inspection.
    ExamResult,
    /// A part of an authority's copy, which is no message.
    CopyPart,
    /// The text of a procedure on its blank sheet, which is no message.
    Procedure,
}

impl From<Kind> for CodeKind {
    fn from(kind: Kind) -> Self {
        match kind {
            Kind::Tag | Kind::TagWithBasis => Self::Tag,
            Kind::Seal => Self::Seal,
            Kind::Credential => Self::Credential,
            Kind::KeyRequest => Self::KeyRequest,
            Kind::Authority => Self::Authority,
            Kind::Roster | Kind::RosterOfKeys => Self::Roster,
            Kind::Inspection => Self::Inspection,
            Kind::Void => Self::Void,
            Kind::Movement => Self::Movement,
            Kind::Closing => Self::Closing,
            Kind::BundleFrame => Self::BundleFrame,
            Kind::Have => Self::Have,
            Kind::CheckPage => Self::CheckPage,
            Kind::ExamKey => Self::ExamKey,
            Kind::ExamResult => Self::ExamResult,
        }
    }
}

impl CodeKind {
    /// The message that it is, in the first of its forms; none where it is no message.
    fn message(self) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| Self::from(*kind) == self)
    }

    /// The word for JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::CopyPart => "copy-part",
            Self::Procedure => "procedure",
            _ => self.message().map_or("", Kind::english),
        }
    }

    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::CopyPart => faults::KindCopyPart.into(),
            Self::Procedure => faults::KindProcedure.into(),
            _ => self.message().map_or_else(|| Saying::verbatim(""), Kind::saying),
        }
    }
}

impl crate::view::Worded for CodeKind {
    fn word(&self) -> &'static str {
        Self::word(*self)
    }
}

/// A message as text and as the code to be shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CodeView {
    /// What it is.
    #[serde(serialize_with = "crate::view::word")]
    pub kind: CodeKind,
    /// The text.
    pub text: String,
    /// Modules a side.
    pub size: u32,
    /// One byte a module, row by row; 1 is dark. The quiet zone of four modules is the shell's to leave.
    #[serde(skip)]
    pub modules: Vec<u8>,
    /// The QR version.
    pub version: u8,
    /// The check word of what it carries, to be compared by voice: `482 019 553`. Empty for a frame of a moving code.
    pub check: String,
}

impl CodeView {
    pub(crate) fn of(kind: Kind, bytes: &[u8]) -> Result<Self, AppError> {
        Self::of_text(kind, wrap(kind, bytes))
    }

    pub(crate) fn of_text(kind: Kind, text: String) -> Result<Self, AppError> {
        let code = qr::write(&text).map_err(AppError::bad_input)?;
        let modules = code.modules().iter().map(|dark| u8::from(*dark)).collect();
        let check = match unwrap(&text) {
            Ok((kind, bytes)) if kind != Kind::BundleFrame => Digest::of(&bytes).check_word(),
            _ => String::new(),
        };
        Ok(Self { kind: kind.into(), text, size: code.size(), modules, version: code.version(), check })
    }

    /// A part of an authority's copy, which is no message.
    pub(crate) fn of_part(text: String) -> Result<Self, AppError> {
        let code = qr::write(&text).map_err(AppError::bad_input)?;
        let modules = code.modules().iter().map(|dark| u8::from(*dark)).collect();
        let (size, version) = (code.size(), code.version());
        Ok(Self { kind: CodeKind::CopyPart, text, size, modules, version, check: String::new() })
    }

    /// As a PNG of so many pixels a module, quiet zone included.
    ///
    /// # Errors
    /// None in practice: the text was a code already.
    pub fn png(&self, pixels: u32) -> Result<Vec<u8>, AppError> {
        Ok(self.code()?.to_png(pixels, qr::QUIET_ZONE))
    }

    /// As an SVG, quiet zone included.
    ///
    /// # Errors
    /// None in practice: the text was a code already.
    pub fn svg(&self) -> Result<String, AppError> {
        Ok(self.code()?.to_svg())
    }

    /// As a PNG with a caption under it: what it is and of what, on a band whose colour is its kind's. The caption is in the
    /// language of whoever makes the picture.
    ///
    /// # Errors
    /// None in practice: the text was a code already.
    pub fn png_labelled(&self, pixels: u32, language: Language) -> Result<Vec<u8>, AppError> {
        Ok(self.code()?.to_png_labelled(pixels, &self.label(language)))
    }

    /// As an SVG with the same caption.
    ///
    /// # Errors
    /// None in practice: the text was a code already.
    pub fn svg_labelled(&self, language: Language) -> Result<String, AppError> {
        Ok(self.code()?.to_svg_labelled(&self.label(language)))
    }

    fn label(&self, language: Language) -> qr::Label {
        let Ok((kind, bytes)) = unwrap(&self.text) else {
            return qr::Label { band: BLACK, words: faults::KindCopyPart.say(language).to_uppercase() };
        };
        let said = kind.saying().say(language);
        let words = match subject_of(&bytes) {
            Some(subject) => format!("{said} {subject}"),
            None => said,
        };
        qr::Label { band: band(kind), words: words.to_uppercase() }
    }

    /// As characters for a terminal, quiet zone included.
    ///
    /// # Errors
    /// None in practice: the text was a code already.
    pub fn terminal(&self) -> Result<String, AppError> {
        Ok(self.code()?.to_terminal())
    }

    fn code(&self) -> Result<qr::Code, AppError> {
        qr::write(&self.text).map_err(AppError::internal)
    }
}

const BLACK: [u8; 3] = [0x12, 0x12, 0x12];

/// The colour of a kind: dark, so that white words on it have 7:1 and more. What belongs to a load is blue or green, what takes
/// back is red, who is who is violet or black, training is brown. The word beside it says the same.
fn band(kind: Kind) -> [u8; 3] {
    match kind {
        Kind::Tag | Kind::TagWithBasis => [0x0B, 0x3D, 0x91],
        Kind::Seal => [0x0A, 0x55, 0x22],
        Kind::Void => [0x97, 0x0D, 0x14],
        Kind::Credential | Kind::KeyRequest => [0x5A, 0x21, 0x82],
        Kind::ExamKey | Kind::ExamResult => [0x6D, 0x43, 0x00],
        _ => BLACK,
    }
}

/// Of what or whom a message speaks: a load's number, a holder, an authority's name.
fn subject_of(bytes: &[u8]) -> Option<String> {
    let signed = Sign1::parse(bytes, Limits::CODE).ok();
    let claims = Claims::parse(signed.as_ref().map_or(bytes, |message| message.payload)).ok()?;
    claims.subject.map(str::to_owned)
}

/// What a camera frame said.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reading {
    /// No code, or none that reads yet: bring the next frame.
    Nothing,
    /// A code of ours.
    Ours {
        /// What it is.
        #[serde(serialize_with = "crate::view::word")]
        kind: CodeKind,
        /// The text.
        text: String,
    },
    /// A code of someone else's.
    Foreign {
        /// Its text.
        text: String,
    },
}

impl Reading {
    pub(crate) fn of(text: String) -> Self {
        match unwrap(&text) {
            Ok((kind, _)) => Self::Ours { kind: kind.into(), text },
            Err(_) if SealedCopy::part(&text).is_some() => Self::Ours { kind: CodeKind::CopyPart, text },
            Err(_) => Self::Foreign { text },
        }
    }
}

/// A text of ours, with what it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CodeText {
    /// What it is.
    #[serde(serialize_with = "crate::view::word")]
    pub kind: CodeKind,
    /// The text.
    pub text: String,
}

/// What every code in a picture file (PNG or JPEG) says, on the thorough path; empty where nothing is read.
///
/// # Errors
/// A file that is no picture, or larger than any camera's.
pub fn read_picture(bytes: &[u8]) -> Result<Vec<String>, AppError> {
    qr::read_picture(bytes).map_err(AppError::bad_input)
}

/// The text of what a person gave: a text of ours, or a picture file that holds one. Of several, the first of ours.
///
/// # Errors
/// A picture without a code, a code of someone else's, a text that is none of ours.
pub fn text_of(bytes: &[u8]) -> Result<String, AppError> {
    if let Ok(text) = std::str::from_utf8(bytes) {
        let text = text.trim_matches(['\r', '\n', '\t']);
        unwrap(text)?;
        return Ok(text.to_owned());
    }
    let texts = read_picture(bytes)?;
    let Some(first) = texts.first().cloned() else {
        return Err(AppError::bad_input(words::CodeCanReadPictureTake));
    };
    let ours = texts.into_iter().find(|text| unwrap(text).is_ok());
    match ours {
        Some(text) => Ok(text),
        None => Err(unwrap(&first).map(|_| AppError::internal("read twice")).unwrap_or_else(AppError::from)),
    }
}

/// The texts of everything that a person gave: a text of ours, or every code of ours in a picture file, in the order in which they
/// were read. A damaged text of a seal or a tag is given too: whoever is asked for a verdict says that it is damaged.
///
/// # Errors
/// A picture without a code of ours, a text that is none of ours.
pub fn texts_of(bytes: &[u8]) -> Result<Vec<String>, AppError> {
    if let Ok(text) = std::str::from_utf8(bytes) {
        let text = text.trim_matches(['\r', '\n', '\t']);
        return match unwrap(text) {
            Err(error) if !is_of_a_load(text) => Err(error.into()),
            _ => Ok(vec![text.to_owned()]),
        };
    }
    let read = read_picture(bytes)?;
    let mut ours: Vec<String> =
        read.into_iter().filter(|text| unwrap(text).is_ok() || is_of_a_load(text)).collect();
    if ours.is_empty() {
        return text_of(bytes).map(|text| vec![text]);
    }
    let mut known = std::collections::BTreeSet::new();
    ours.retain(|text| known.insert(text.clone()));
    Ok(ours)
}

impl App {
    /// Reads one camera frame: 8-bit luminance, row by row. A text that is ours is checked as far as it can be without
    /// knowing the signer, so that a wrong read goes on to the next treatment.
    ///
    /// # Errors
    /// A frame whose sizes do not fit its bytes.
    pub fn read_frame(
        &self,
        width: u32,
        height: u32,
        stride: u32,
        luminance: &[u8],
        effort: Effort,
    ) -> Result<Reading, AppError> {
        self.read_frame_beside(width, height, stride, luminance, &[], effort)
    }

    /// As [`App::read_frame`], passing over the texts that were read before: of two codes in one frame, the other.
    ///
    /// # Errors
    /// A frame whose sizes do not fit its bytes.
    pub fn read_frame_beside(
        &self,
        width: u32,
        height: u32,
        stride: u32,
        luminance: &[u8],
        known: &[String],
        effort: Effort,
    ) -> Result<Reading, AppError> {
        let mut accept = |text: &str| plausible(text) && !known.iter().any(|read| read == text);
        let size = |length: u32| usize::try_from(length).unwrap_or(usize::MAX);
        let read =
            qr::read_luminance(size(width), size(height), size(stride), luminance, &mut accept, effort);
        Ok(read.map_err(AppError::bad_input)?.map_or(Reading::Nothing, Reading::of))
    }
}

/// The code of a text that is ours already.
///
/// # Errors
/// A text that is none of ours.
pub fn code_of(text: &str) -> Result<CodeView, AppError> {
    if SealedCopy::part(text).is_some() {
        return CodeView::of_part(text.to_owned());
    }
    let (kind, _) = unwrap(text)?;
    CodeView::of_text(kind, text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::CodeKind;
    use slingseal_message::envelope::Kind;

    /// JSON and people are told of a message's kind in the message's own words.
    #[test]
    fn a_code_is_called_what_its_message_is_called() {
        for kind in Kind::ALL.iter().copied() {
            let code = CodeKind::from(kind);
            assert_eq!((code.word(), code.saying()), (kind.english(), kind.saying()));
        }
        for code in [CodeKind::CopyPart, CodeKind::Procedure] {
            assert!(!code.word().is_empty() && Kind::ALL.iter().all(|kind| kind.english() != code.word()));
        }
    }
}
