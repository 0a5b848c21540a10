//! Two fuel drums that lie side by side on four chain legs; drum 1 is the far one. Each drum has its left end at the rear of the view.

use super::draw::{CIRCLE, View, at, between, ring};
use super::lines::{Dot, Drawing, Stroke};

const VIEW: View = View { x: 470, y: 600, across: 104, down: 46 };
const LONG: i32 = 320;
const ROUND: i32 = 92;
/// From axle to axle.
const APART: i32 = 2 * ROUND + 8;

fn axle(drum: i32) -> i32 {
    ROUND + (drum - 1) * APART
}

/// The round end of a drum, so many hundredths of its radius.
fn end(drum: i32, length: i32, hundredths: i32) -> Vec<Dot> {
    let radius = ROUND * hundredths / 100;
    CIRCLE
        .iter()
        .map(|(y, z)| VIEW.dot((length, axle(drum) + y * radius / 1000, ROUND + z * radius / 1000)))
        .collect()
}

pub(super) fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    for number in [1, 2] {
        drum(&mut drawing, number);
    }
    let held = [
        (LONG - 30, axle(1), 2 * ROUND),
        (LONG - 30, axle(2), 2 * ROUND),
        (30, axle(1), 2 * ROUND),
        (30, axle(2), 2 * ROUND),
    ];
    let [a, b, c, d] = held.map(|place| VIEW.dot(place));
    drawing.rope(&["pair.together"], a, b, Stroke::Fine);
    drawing.rope(&["pair.together"], c, d, Stroke::Fine);
    let clamp = VIEW.dot((LONG, axle(2) + ROUND, ROUND));
    let ground = at(clamp.x - 70, 970);
    drawing.line(&["earth.earth"], vec![clamp, at(clamp.x - 50, clamp.y + 60), ground], Stroke::Plain);
    for (wide, up) in [(34, 0), (22, 12), (10, 24)] {
        drawing.line(
            &["earth.earth"],
            vec![at(ground.x - wide, ground.y + up), at(ground.x + wide, ground.y + up)],
            Stroke::Plain,
        );
    }
    legs(&mut drawing);
    drawing
}

fn drum(drawing: &mut Drawing, drum: i32) {
    let part = |card: &str| format!("drum-{drum}.{card}");
    let (near, far) = (end(drum, LONG, 100), end(drum, 0, 100));
    drawing.face(&[&part("end-left"), &part("body")], far.clone(), Stroke::Hidden);
    // the two lines that touch both ends: farthest to either side of the way from one to the other
    let along = |dot: &Dot| dot.x * 46 - dot.y * 104;
    let edges = [
        near.iter().zip(&far).max_by_key(|(dot, _)| along(dot)),
        near.iter().zip(&far).min_by_key(|(dot, _)| along(dot)),
    ];
    for (from, to) in edges.into_iter().flatten() {
        drawing.line(&[&part("body")], vec![*from, *to], Stroke::Plain);
    }
    for length in [LONG / 3, 2 * LONG / 3] {
        let hoop = end(drum, length, 100).into_iter().skip(1).take(8).collect();
        drawing.line(&[&part("body")], hoop, Stroke::Fine);
    }
    drawing.face(&[&part("end-right"), &part("body")], near, Stroke::Plain);
    drawing.face(&[&part("end-right")], end(drum, LONG, 62), Stroke::Fine);
    let hub = VIEW.dot((LONG, axle(drum), ROUND));
    drawing.face(&[&part("valve")], ring(hub, 17, 19), Stroke::Plain);
    drawing.line(
        &[&part("valve")],
        vec![at(hub.x - 24, hub.y - 8), at(hub.x + 24, hub.y + 8)],
        Stroke::Plain,
    );
    let gauge = VIEW.dot((LONG, axle(drum), ROUND + 52));
    drawing.face(&[&part("pressure")], ring(gauge, 13, 13), Stroke::Plain);
    drawing.line(&[&part("pressure")], vec![gauge, at(gauge.x + 8, gauge.y - 7)], Stroke::Fine);
}

fn legs(drawing: &mut Drawing) {
    let apex = at(470, 66);
    let from = at(apex.x, apex.y + 40);
    let ends = [(1, 1, 10), (2, 1, LONG - 6), (3, 2, 10), (4, 2, LONG - 6)];
    for (leg, drum, length) in ends {
        let foot = VIEW.dot((length, axle(drum), ROUND + 40));
        let part = |card: &str| format!("leg-{leg}.{card}");
        let grab = between(from, foot, 58);
        drawing.rope(&[&part("rope")], from, grab, Stroke::Plain);
        drawing.chain(&[&part("count")], grab, between(from, foot, 94), 6, Stroke::Plain);
        drawing.face(&[&part("end")], ring(between(from, foot, 97), 16, 16), Stroke::Plain);
    }
    drawing.apex(apex);
    drawing.legs_on(apex);
    drawing.tag(between(from, VIEW.dot((LONG, axle(1), ROUND)), 36));
}
