//! The load as a line drawing, with what a card is about marked.

use serde::Serialize;

use crate::walks::entries::walk_id;
use crate::{App, AppError};
use slingseal_walk::drawing::{Drawing, Stroke};
use slingseal_walk::walk::Walk;
use slingseal_words::ProcedureId;

/// A drawing, to be fitted into a square. It shows where to look and is no measure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DrawingView {
    /// The side of the square that the dots lie in, from nought.
    pub side: u32,
    /// What lies behind comes first.
    pub lines: Vec<DrawnLine>,
}

/// One line of a drawing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DrawnLine {
    /// From dot to dot: from the left, from the top, from the left, from the top …
    pub dots: Vec<u32>,
    /// Whether the last dot is joined to the first.
    pub closed: bool,
    /// Mesh, lacing, what is secondary: drawn finer.
    pub fine: bool,
    /// Behind the load: drawn broken.
    pub hidden: bool,
    /// The card is about it.
    pub marked: bool,
}

/// One cell of a drawing in a terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrawnCell {
    /// A braille pattern, or a blank.
    pub sign: char,
    /// The card is about something in it.
    pub marked: bool,
}

impl App {
    /// The load of a walk, with what its card is about marked; none where the procedure is not one of those that come with the
    /// program, or has no load.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_drawing(&self, walk: &str) -> Result<Option<DrawingView>, AppError> {
        Ok(self.drawing_of(walk)?.map(|(drawing, marked)| view(&drawing, &marked)))
    }

    /// The same for a terminal: rows of so many cells, half as many rows.
    ///
    /// # Errors
    /// As [`App::walk_drawing`].
    pub fn walk_drawing_cells(
        &self,
        walk: &str,
        columns: usize,
    ) -> Result<Option<Vec<Vec<DrawnCell>>>, AppError> {
        let drawn = self.drawing_of(walk)?.map(|(drawing, marked)| drawing.cells(&marked, columns));
        let cell = |cell: slingseal_walk::drawing::Cell| DrawnCell { sign: cell.sign, marked: cell.marked };
        Ok(drawn.map(|rows| rows.into_iter().map(|row| row.into_iter().map(cell).collect()).collect()))
    }

    /// The same of an examination's run: where to look is no secret.
    ///
    /// # Errors
    /// No such run.
    pub fn exam_drawing(&self, run: &str) -> Result<Option<DrawingView>, AppError> {
        let walk = self.lock().walk_of_run(walk_id(run)?)?;
        Ok(drawn(&walk).map(|(drawing, marked)| view(&drawing, &marked)))
    }

    fn drawing_of(&self, walk: &str) -> Result<Option<(Drawing, Vec<bool>)>, AppError> {
        Ok(drawn(&self.lock().walk_of(walk_id(walk)?)?))
    }
}

fn drawn(walk: &Walk) -> Option<(Drawing, Vec<bool>)> {
    let drawing = Drawing::of(&walk.ground().plan.id)?;
    let marked = drawing.marked(walk.current_card().map_or("", |card| card.id.as_str()));
    Some((drawing, marked))
}

/// The load of a procedure that comes with the program, with whatever some cards are about marked: for paper.
pub fn procedure_drawing(procedure: &str, cards: &[String]) -> Option<DrawingView> {
    let drawing = Drawing::of(&ProcedureId::new(procedure).ok()?)?;
    let mut marked = vec![false; drawing.lines.len()];
    for card in cards {
        for (all, one) in marked.iter_mut().zip(drawing.marked(card)) {
            *all |= one;
        }
    }
    Some(view(&drawing, &marked))
}

fn view(drawing: &Drawing, marked: &[bool]) -> DrawingView {
    let plain = |value: i32| u32::try_from(value).unwrap_or(0);
    let lines = drawing.lines.iter().zip(marked).map(|(line, marked)| DrawnLine {
        dots: line.dots.iter().flat_map(|dot| [plain(dot.x), plain(dot.y)]).collect(),
        closed: line.closed,
        fine: line.stroke == Stroke::Fine,
        hidden: line.stroke == Stroke::Hidden,
        marked: *marked,
    });
    DrawingView { side: plain(Drawing::SIDE), lines: lines.collect() }
}
