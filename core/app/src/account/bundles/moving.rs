//! A bundle as a moving code, or as several.

use slingseal_catalogue::audit as audit_words;

use super::write::{BundleMade, BundleRequest, Part, Scope};
use crate::{App, AppError, CodeView};
use slingseal_account::sync::{FrameReader, FrameWriter, Heard};

/// The most moving codes that one account goes in: nobody films more.
pub const MOST_PARTS: usize = 50;

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
}
