//! The model: lines from dot to dot, each of the parts that it belongs to.

/// A point of a drawing: both from 0 to [`Drawing::SIDE`], from the left and from the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Dot {
    /// From the left.
    pub x: i32,
    /// From the top.
    pub y: i32,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// An edge of the load or a piece of the rigging.
    Plain,
    /// A fine line: mesh, lacing, what is secondary.
    Fine,
    /// Hidden behind the load: broken.
    Hidden,
}

/// One line of a drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The cards, or whole stations, that it belongs to: `side-1.lateral-2`, `apex`.
    pub parts: Vec<String>,
    /// From dot to dot, two or more.
    pub dots: Vec<Dot>,
    /// Whether the last dot is joined to the first.
    pub closed: bool,
    /// How it is drawn.
    pub stroke: Stroke,
}

/// A load as lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawing {
    /// What lies behind comes first.
    pub lines: Vec<Line>,
}

impl Drawing {
    /// The side of the square that a drawing fills.
    pub const SIDE: i32 = 1000;

    /// Which of the lines a card is about, by its id: those of the card itself, or else of its station. A card about no part of
    /// the load, or about all of it, marks none.
    pub fn marked(&self, card: &str) -> Vec<bool> {
        let names =
            std::iter::successors(Some(card), |name| name.rsplit_once('.').map(|(station, _)| station));
        for name in names {
            let marked: Vec<bool> = self.lines.iter().map(|line| line.is_of(name)).collect();
            if marked.contains(&true) {
                return marked;
            }
        }
        vec![false; self.lines.len()]
    }
}

impl Line {
    /// Whether it is a line of this part, or of a part within it.
    fn is_of(&self, name: &str) -> bool {
        self.parts
            .iter()
            .any(|part| part.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
    }
}
