//! A net on a long line: the upper end, the line, the remote hook, the lead line, the bundle. The line is far longer than it is drawn.

use super::draw::{CIRCLE, at, between, ring};
use super::lines::{Dot, Drawing, Stroke};

const MIDDLE: Dot = Dot { x: 500, y: 800 };
const ACROSS: i32 = 270;
const DOWN: i32 = 170;

fn on(step: usize) -> Dot {
    let (x, y) = CIRCLE.get(step % CIRCLE.len()).copied().unwrap_or_default();
    at(MIDDLE.x + x * ACROSS / 1000, MIDDLE.y + y * DOWN / 1000)
}

pub(super) fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    line(&mut drawing);
    remote(&mut drawing);
    bundle(&mut drawing);
    drawing.tag(at(506, 610));
    drawing
}

fn line(drawing: &mut Drawing) {
    drawing.face(&["line.upper"], ring(at(500, 52), 30, 36), Stroke::Plain);
    drawing.face(&["line.upper"], ring(at(500, 52), 17, 23), Stroke::Fine);
    drawing.rope(&["line.upper"], at(500, 88), at(500, 128), Stroke::Plain);
    drawing.rope(&["line.trace"], at(500, 128), at(500, 218), Stroke::Plain);
    // a piece is left out of the line
    for y in [218, 240] {
        drawing.line(
            &["line.trace"],
            vec![at(468, y + 10), at(490, y - 6), at(510, y + 6), at(532, y - 10)],
            Stroke::Fine,
        );
    }
    drawing.rope(&["line.trace"], at(500, 240), at(500, 352), Stroke::Plain);
}

fn remote(drawing: &mut Drawing) {
    drawing.face(
        &["remote.hook"],
        vec![at(462, 352), at(538, 352), at(548, 400), at(530, 428), at(470, 428), at(452, 400)],
        Stroke::Plain,
    );
    let beam = [(486, 428), (486, 462), (504, 480), (526, 470), (530, 446)];
    drawing.line(&["remote.hook"], beam.iter().map(|(x, y)| at(*x, *y)).collect(), Stroke::Plain);
    drawing.line(&["remote.hook"], vec![at(530, 428), at(516, 448)], Stroke::Plain);
    drawing.face(&["remote.lead"], ring(at(506, 486), 15, 17), Stroke::Plain);
    drawing.face(
        &["remote.lead"],
        vec![at(494, 506), at(518, 506), at(518, 534), at(494, 534)],
        Stroke::Plain,
    );
    drawing.rope(&["remote.lead"], at(506, 534), at(502, 604), Stroke::Plain);
}

fn bundle(drawing: &mut Drawing) {
    let neck = at(500, 640);
    // steps of the circle go from the right, downwards: a quarter a corner
    for (corner, first) in [(1, 4), (2, 8), (3, 12), (4, 0)] {
        let part = format!("net.corner-{corner}");
        drawing.line(&[&part], (first..=first + 4).map(on).collect(), Stroke::Plain);
    }
    let half = CIRCLE.len() / 2;
    for turn in [4, 12] {
        // chords at right angles to each other: the meshes
        for step in 0..half {
            let (from, to) = (on(turn / 2 + step), on(turn / 2 + CIRCLE.len() - step));
            if from != to {
                drawing.line(&["net"], vec![from, to], Stroke::Fine);
            }
        }
    }
    drawing.face(
        &["load.top"],
        vec![at(400, 735), at(480, 700), at(590, 722), at(610, 770), at(520, 800), at(420, 785)],
        Stroke::Fine,
    );
    for (corner, step) in [(1, 6), (2, 9), (3, 15), (4, 2)] {
        let part = format!("net.corner-{corner}");
        let to = if step == 6 || step == 2 { between(neck, on(step), 55) } else { on(step) };
        drawing.line(&[&part], vec![neck, to], Stroke::Plain);
    }
    drawing.face(&["net.purse"], ring(neck, 44, 18), Stroke::Plain);
    drawing.line(&["net.purse"], vec![at(544, 640), at(580, 668), at(572, 700)], Stroke::Plain);
    drawing.face(&["net.plate"], vec![at(316, 800), at(386, 806), at(386, 852), at(316, 846)], Stroke::Plain);
}
