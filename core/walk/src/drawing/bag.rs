//! The webbing cargo bag on one chain leg. Sides are counted round from the one at the left; the far two show through.

use super::draw::{View, at, between};
use super::lines::{Dot, Drawing, Stroke};

const VIEW: View = View { x: 500, y: 672, across: 112, down: 50 };
/// How long a side is, and how high the bag.
const SIDE: i32 = 300;
const HIGH: i32 = 250;

/// A dot on a side: along it and up it, in hundredths.
fn on(side: usize, along: i32, up: i32) -> Dot {
    let (along, up) = (along * SIDE / 100, up * HIGH / 100);
    VIEW.dot(match side {
        1 => (along, SIDE, up),
        2 => (SIDE, SIDE - along, up),
        3 => (SIDE - along, 0, up),
        _ => (0, along, up),
    })
}

fn band(side: usize, from: (i32, i32), to: (i32, i32)) -> Vec<Dot> {
    vec![on(side, from.0, from.1), on(side, to.0, from.1), on(side, to.0, to.1), on(side, from.0, to.1)]
}

pub(super) fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    for side in [3, 4, 1, 2] {
        sides(&mut drawing, side);
    }
    let clevis = at(500, 330);
    for (web, corner) in [(1, on(1, 0, 100)), (2, on(2, 0, 100)), (3, on(3, 0, 100)), (4, on(4, 0, 100))] {
        let (part, stroke) = (format!("webs.web-{web}"), if web == 4 { Stroke::Fine } else { Stroke::Plain });
        drawing.rope(&[&part], clevis, corner, stroke);
    }
    rig(&mut drawing, clevis);
    drawing
}

fn sides(drawing: &mut Drawing, side: usize) {
    let far = side > 2;
    let stroke = |near: Stroke| if far { Stroke::Hidden } else { near };
    let part = |card: &str| format!("side-{side}.{card}");
    drawing.face(&[&format!("side-{side}")], band(side, (0, 0), (100, 100)), stroke(Stroke::Plain));
    drawing.face(&[&part("upright")], band(side, (43, 0), (57, 100)), stroke(Stroke::Plain));
    for (lateral, up) in [(1, 80), (2, 50), (3, 20)] {
        drawing.face(
            &[&part(&format!("lateral-{lateral}"))],
            band(side, (0, up - 5), (100, up + 5)),
            stroke(Stroke::Fine),
        );
    }
    let lacing = (0..8).map(|turn| on(side, if turn % 2 == 0 { 82 } else { 95 }, 96 - turn * 11)).collect();
    drawing.line(&[&part("lacing")], lacing, stroke(Stroke::Plain));
    let knot = on(side, 88, 10);
    let bow = |way: i32| vec![knot, at(knot.x + way * 34, knot.y - 16), at(knot.x + way * 34, knot.y + 14)];
    for way in [-1, 1] {
        drawing.face(&[&part("knot")], bow(way), stroke(Stroke::Plain));
    }
}

fn rig(drawing: &mut Drawing, clevis: Dot) {
    let (apex, hook) = (at(500, 52), at(500, 196));
    drawing.apex(apex);
    drawing.rope(&["leg.trace"], at(500, 94), hook, Stroke::Plain);
    let grab = [(-20, 0), (20, 0), (26, 20), (10, 44), (-14, 44), (-26, 28), (-10, 26)];
    drawing.face(
        &["grab.hook"],
        grab.iter().map(|(x, y)| at(hook.x + x, hook.y + y)).collect(),
        Stroke::Plain,
    );
    drawing.chain(&["grab.links"], at(494, 234), at(500, 268), 2, Stroke::Plain);
    drawing.chain(&["grab.excess"], at(520, 226), at(566, 300), 4, Stroke::Plain);
    drawing.chain(&["chain.through"], at(500, 268), between(at(500, 268), clevis, 80), 3, Stroke::Plain);
    let Dot { x, y } = clevis;
    drawing.line(
        &["chain.clevis"],
        vec![
            at(x - 24, y + 10),
            at(x - 24, y - 14),
            at(x - 8, y - 28),
            at(x + 8, y - 28),
            at(x + 24, y - 14),
            at(x + 24, y + 10),
        ],
        Stroke::Plain,
    );
    drawing.line(&["chain.clevis"], vec![at(x - 36, y + 10), at(x + 36, y + 10)], Stroke::Plain);
    drawing.tag(at(x + 40, y + 12));
}
