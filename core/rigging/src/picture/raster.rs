use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use slingseal_catalogue::{Language, Saying, faults as words};

use crate::{Assessment, RiggedLoad};

/// Why no picture could be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureError {
    /// The drawing could not be turned into pixels.
    Drawing(String),
    /// The drawing is larger than a picture may be.
    NoRoom,
}

impl PictureError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Drawing(text) => words::PictureErrorDrawing { text }.into(),
            Self::NoRoom => words::PictureErrorNoRoom.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(PictureError);

/// The picture as PNG, 1080 pixels wide, in the reader's language.
///
/// # Errors
/// A drawing that cannot be turned into pixels.
pub fn png(load: &RiggedLoad, assessment: &Assessment, language: Language) -> Result<Vec<u8>, PictureError> {
    let drawing = |what: String| PictureError::Drawing(what);
    let tree = Tree::from_str(&super::svg(load, assessment, language), &Options::default())
        .map_err(|error| drawing(error.to_string()))?;
    let size = tree.size().to_int_size();
    let mut pixels = Pixmap::new(size.width(), size.height()).ok_or(PictureError::NoRoom)?;
    resvg::render(&tree, Transform::identity(), &mut pixels.as_mut());
    pixels.encode_png().map_err(|error| drawing(error.to_string()))
}
