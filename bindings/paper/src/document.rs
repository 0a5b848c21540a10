//! Pages as one document: tagged, dated by what it says, the same bytes for the same input.

use krilla::configure::{Accessibility, Archival, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::metadata::{DateTime, Metadata};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::{Tag, TagGroup, TagTree};
use krilla::{Document, SerializeSettings};

use slingseal_app::Language;

use super::canvas::Canvas;
use super::fonts::Fonts;

/// A paper size. What is drawn lies inside both, so that either prints whole on the other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

impl Paper {
    fn size(self) -> (f32, f32) {
        match self {
            Self::A4 => (595.28, 841.89),
            Self::Letter => (612.0, 792.0),
        }
    }
}

/// Why nothing could be printed.
#[derive(Debug, thiserror::Error)]
#[error("the page could not be written as PDF ({0}); export the record as JSON instead")]
pub struct PrintError(String);

/// Width and height of what is drawn: A4's width and Letter's height, less half an inch all round.
pub(super) const WIDTH: f32 = 523.0;
pub(super) const HEIGHT: f32 = 720.0;

/// Draws one page, given the top left of the area that every paper has.
pub(super) type Draw<'d> = dyn Fn(&mut Canvas<'_, '_>, (f32, f32)) + 'd;

/// Draws pages of one document.
pub(super) fn document(
    title: &str,
    dated: &str,
    paper: Paper,
    language: Language,
    pages: &[(String, &Draw<'_>)],
) -> Result<Vec<u8>, PrintError> {
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PrintError(format!("{error:?}")))?;
    let mut document =
        Document::new_with(SerializeSettings { configuration, ..SerializeSettings::default() });
    let date = date(dated).ok_or_else(|| PrintError(format!("\"{dated}\" is not a time")))?;
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator("Slingseal".into())
            .language(language.code().into())
            .creation_date(date),
    );
    let fonts = Fonts::new();
    let (width, height) = paper.size();
    let (mut tree, mut outline) = (TagTree::new().with_lang(Some(language.code().into())), Outline::new());
    for (number, (name, draw)) in pages.iter().enumerate() {
        let settings = PageSettings::from_wh(width, height).ok_or_else(|| PrintError("paper size".into()))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        let corner = ((width - WIDTH) / 2.0, (height - HEIGHT) / 2.0);
        let mut canvas = Canvas {
            fonts: &fonts,
            surface: &mut surface,
            language,
            page: number,
            read: Vec::new(),
            open: Vec::new(),
        };
        draw(&mut canvas, corner);
        let read = canvas.read;
        surface.finish();
        page.finish();
        tree.push(TagGroup::with_children(Tag::Section, read));
        outline.push_child(OutlineNode::new(
            name.clone(),
            XyzDestination::new(number, Point::from_xy(0.0, 0.0)),
        ));
    }
    document.set_tag_tree(tree);
    document.set_outline(outline);
    document.finish().map_err(|error| PrintError(format!("{error:?}")))
}

/// RFC 3339 with `Z`, to the second: the document's date, which is the message's own and never the clock's.
fn date(text: &str) -> Option<DateTime> {
    let (day, time) = text.strip_suffix('Z')?.split_once('T')?;
    let mut day = day.splitn(3, '-');
    let mut time = time.splitn(3, ':');
    let two = |parts: &mut std::str::SplitN<'_, char>| parts.next()?.parse::<u8>().ok();
    let year = day.next()?.parse().ok()?;
    let (month, date) = (two(&mut day)?, two(&mut day)?);
    let (hour, minute, second) = (two(&mut time)?, two(&mut time)?, two(&mut time)?);
    Some(
        DateTime::new(year)
            .month(month)
            .day(date)
            .hour(hour)
            .minute(minute)
            .second(second)
            .utc_offset_hour(0)
            .utc_offset_minute(0),
    )
}
