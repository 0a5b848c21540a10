//! The rigged load as a picture: side, front and top to one scale, with tensions and the governing part.
//!
//! Made for a phone in the sun: black on white, heavy lines, a verdict in word, shape and colour. The outline of the load
//! is drawn by its lift points, for nobody has told its shape.

mod canvas;
mod dots;
mod drawing;
mod lettering;
mod raster;
mod sheet;
mod table;
mod views;

#[cfg(test)]
mod tests;

use slingseal_catalogue::{Language, rigging as words};

use super::report::report;
use super::shown::{force_unit, percent};
use super::{Assessment, RiggedLoad, State, tongue};

use canvas::{Canvas, Stroke, Style};
use sheet::{ALARM, AMBER, FAINT, GOOD, INK, MARGIN, PAPER, Sheet, WIDTH};

pub use dots::side_cells;
pub use drawing::{Drawing, Pen, Shape, Step, drawing};
pub use raster::{PictureError, png};

/// The picture as SVG, in the reader's language; letters are outlines, so no font is needed to show it.
pub fn svg(load: &RiggedLoad, assessment: &Assessment, language: Language) -> String {
    let mut canvas = Canvas::new();
    let sheet = Sheet { load, assessment, unit: force_unit(load), language };
    let height = sheet.draw(&mut canvas);
    let title = sheet.say(words::PictureTitle { state: tongue::state(assessment.state()) });
    canvas.finish(WIDTH, height, &title, &report(load, assessment, &[], language))
}

impl Sheet<'_> {
    /// Draws everything and tells how high it became.
    fn draw(&self, canvas: &mut Canvas) -> f64 {
        let mut y = self.band(canvas);
        match (&self.assessment.hang, &self.assessment.reason) {
            (Some(hang), _) => {
                let attitude = tongue::attitude(hang.pitch, hang.roll);
                let line = self.say(words::PictureHangs { mass: &self.load.mass, attitude });
                canvas.fitted((MARGIN, y + 56.0), &line, Style::new(40.0, INK).bold(), WIDTH - 2.0 * MARGIN);
                canvas.begin(drawing::VIEWS);
                y = views::draw(canvas, self, hang, y + 96.0);
                canvas.end();
                y = table::draw(canvas, self, hang, y + 24.0);
            }
            (None, reason) => {
                let reason = reason.as_ref().map(|reason| self.say(reason.saying())).unwrap_or_default();
                let style = Style::new(44.0, INK).bold();
                for line in canvas.wrapped(&reason, style, WIDTH - 2.0 * MARGIN) {
                    y += 62.0;
                    canvas.text((MARGIN, y), &line, style);
                }
                y += 40.0;
            }
        }
        self.foot(canvas, y)
    }

    fn band(&self, canvas: &mut Canvas) -> f64 {
        let (fill, ink) = match self.assessment.state() {
            State::WithinLimits => (GOOD, PAPER),
            State::AtRestOnly => (AMBER, INK),
            State::OverLimit => (ALARM, PAPER),
            State::Infeasible => (INK, PAPER),
        };
        let height = match (&self.assessment.hang, &self.assessment.beyond) {
            (Some(_), Some(_)) => 272.0,
            (Some(_), None) => 208.0,
            (None, _) => 150.0,
        };
        canvas.rect((0.0, 0.0), WIDTH, height, fill, 0.0);
        self.mark(canvas, (MARGIN + 52.0, 78.0), ink);
        let left = MARGIN + 130.0;
        let state = self.say(tongue::state(self.assessment.state()));
        canvas.fitted((left, 100.0), &state, Style::new(72.0, ink).bold(), WIDTH - left - MARGIN);
        if let Some(governing) = self.assessment.hang.as_ref().and_then(|hang| hang.held.first()) {
            let (part, rated) = (&governing.part, &governing.rated);
            let percent = percent(governing.utilisation);
            let line = match self.assessment.beyond {
                Some(_) => self.say(words::PictureGovernsAtRest { part, percent, rated }),
                None => self.say(words::PictureGoverns { part, percent, rated }),
            };
            canvas.fitted((left, 170.0), &line, Style::new(42.0, ink).bold(), WIDTH - left - MARGIN);
        }
        if let Some(beyond) = &self.assessment.beyond {
            let line = self.say(tongue::beyond(beyond));
            canvas.fitted((MARGIN, 236.0), &line, Style::new(42.0, ink).bold(), WIDTH - 2.0 * MARGIN);
        }
        height
    }

    /// A shape for each state, so that colour is never alone: tick, half a disc, triangle, cross.
    fn mark(&self, canvas: &mut Canvas, (x, y): (f64, f64), ink: &'static str) {
        let pen = Stroke::new(16.0, ink);
        match self.assessment.state() {
            State::AtRestOnly => {
                canvas.circle((x, y), 44.0, "none", Some(Stroke::new(12.0, ink)));
                canvas.path(&format!("M{} {y}A44 44 0 0 0 {} {y}z", x - 44.0, x + 44.0), ink, None);
            }
            State::WithinLimits => canvas.path(
                &format!("M{} {y}L{} {}L{} {}", x - 40.0, x - 10.0, y + 32.0, x + 42.0, y - 34.0),
                "none",
                Some(pen),
            ),
            State::OverLimit => {
                let triangle = [(x, y - 48.0), (x + 54.0, y + 42.0), (x - 54.0, y + 42.0)];
                canvas.shape(&triangle, "none", Some(Stroke::new(12.0, PAPER)));
                canvas.line((x, y - 14.0), (x, y + 8.0), Stroke::new(12.0, PAPER));
                canvas.circle((x, y + 26.0), 7.0, PAPER, None);
            }
            State::Infeasible => {
                canvas.line((x - 36.0, y - 36.0), (x + 36.0, y + 36.0), pen);
                canvas.line((x + 36.0, y - 36.0), (x - 36.0, y + 36.0), pen);
            }
        }
    }

    fn foot(&self, canvas: &mut Canvas, y: f64) -> f64 {
        let style = Style::new(28.0, FAINT);
        let text = self.say(words::PictureFoot);
        let mut y = y + 20.0;
        canvas.line((MARGIN, y), (WIDTH - MARGIN, y), Stroke::new(2.0, FAINT));
        y += 8.0;
        for line in canvas.wrapped(&text, style, WIDTH - 2.0 * MARGIN) {
            y += 36.0;
            canvas.text((MARGIN, y), &line, style);
        }
        (y + 36.0).round()
    }
}
