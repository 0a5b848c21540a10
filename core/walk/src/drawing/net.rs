//! A load in a cargo net that hangs by its four corners. Corners are counted round from the one at the left; a side comes after each.

use super::draw::{View, at, between};
use super::lines::{Dot, Drawing, Stroke};

const VIEW: View = View { x: 500, y: 640, across: 118, down: 52 };
const SIDE: i32 = 290;
const HIGH: i32 = 230;
/// How many meshes a side has.
const MESH: i32 = 5;

/// A dot on the side after a corner: along it and up it, in hundredths; the net is drawn in at its head.
fn on(corner: i32, along: i32, up: i32) -> Dot {
    let inward = up * SIDE / 100 / 7;
    let run = inward + along * (SIDE - 2 * inward) / 100;
    let (near, far, up) = (SIDE - inward, inward, up * HIGH / 100);
    VIEW.dot(match corner {
        1 => (run, near, up),
        2 => (near, SIDE - run, up),
        3 => (SIDE - run, far, up),
        _ => (far, run, up),
    })
}

pub(super) fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    let apex = at(500, 64);
    for corner in [3, 4, 1, 2] {
        side(&mut drawing, corner);
    }
    drawing.face(&["load.top"], [1, 2, 3, 4].map(|corner| on(corner, 0, 100)).to_vec(), Stroke::Plain);
    drawing.face(
        &["load.top"],
        [1, 2, 3, 4]
            .map(|corner| between(on(corner, 0, 100), VIEW.dot((SIDE / 2, SIDE / 2, HIGH)), 35))
            .to_vec(),
        Stroke::Fine,
    );
    for corner in [4, 1, 3, 2] {
        let (part, stroke) =
            (format!("corner-{corner}.leg"), if corner == 4 { Stroke::Fine } else { Stroke::Plain });
        drawing.rope(&[&part], at(apex.x, apex.y + 40), on(corner, 0, 100), stroke);
    }
    drawing.apex(apex);
    let plate = on(2, 50, 78);
    drawing.face(
        &["tag.plate"],
        vec![
            at(plate.x - 34, plate.y + 4),
            at(plate.x + 30, plate.y - 24),
            at(plate.x + 30, plate.y + 20),
            at(plate.x - 34, plate.y + 48),
        ],
        Stroke::Plain,
    );
    drawing.tag(between(at(apex.x, apex.y + 40), on(3, 0, 100), 50));
    drawing
}

/// The mesh hangs in lozenges between the head of the net and its foot.
fn side(drawing: &mut Drawing, corner: i32) {
    let far = corner > 2;
    let part = format!("corner-{corner}.side");
    let edge = vec![on(corner, 0, 0), on(corner, 100, 0), on(corner, 100, 100), on(corner, 0, 100)];
    drawing.face(&[&part], edge, if far { Stroke::Hidden } else { Stroke::Plain });
    if far {
        return;
    }
    let (step, rows) = (100 / MESH, 4);
    for mesh in -rows..MESH {
        for way in [1, -1] {
            // one cord: it climbs across the side and is cut where the side ends
            let cord: Vec<(i32, i32)> = (0..=rows)
                .map(|row| {
                    (if way > 0 { (mesh + row) * step } else { 100 - (mesh + row) * step }, row * 100 / rows)
                })
                .filter(|(along, _)| (0..=100).contains(along))
                .collect();
            if cord.len() > 1 {
                drawing.line(
                    &[&part],
                    cord.iter().map(|(along, up)| on(corner, *along, *up)).collect(),
                    Stroke::Fine,
                );
            }
        }
    }
}
