//! A light vehicle on four chain legs, seen from its front right. Legs 1 and 2 are at the front, 1 and 3 on the left.

use super::draw::{CIRCLE, Place, View, at, between};
use super::lines::{Dot, Drawing, Stroke};

const VIEW: View = View { x: 408, y: 560, across: 108, down: 46 };
/// The rear stands at nought, the left side too.
const LONG: i32 = 480;
const WIDE: i32 = 210;
/// Where the floor of the body, its edge and the roof are.
const FLOOR: i32 = 44;
const EDGE: i32 = 120;
const ROOF: i32 = 208;

pub(super) fn drawing() -> Drawing {
    let mut drawing = Drawing::default();
    let far: &[Place] = &[(0, 0, FLOOR), (LONG, 0, FLOOR), (LONG, 0, EDGE), (0, 0, EDGE)];
    drawing.face(&["left.body"], VIEW.dots(far), Stroke::Hidden);
    wheels(&mut drawing, "left.wheels", 0, Stroke::Hidden);
    bed(&mut drawing);
    hood(&mut drawing);
    cab(&mut drawing);
    let side: &[Place] = &[(0, WIDE, FLOOR), (LONG, WIDE, FLOOR), (LONG, WIDE, EDGE), (0, WIDE, EDGE)];
    drawing.face(&["right.body"], VIEW.dots(side), Stroke::Plain);
    let door: &[Place] =
        &[(210, WIDE, FLOOR + 10), (330, WIDE, FLOOR + 10), (330, WIDE, EDGE), (210, WIDE, EDGE)];
    drawing.face(&["right.body"], VIEW.dots(door), Stroke::Fine);
    drawing.line(
        &["right.body"],
        VIEW.dots(&[(225, WIDE, EDGE - 22), (250, WIDE, EDGE - 22)]),
        Stroke::Plain,
    );
    wheels(&mut drawing, "right.wheels", WIDE, Stroke::Plain);
    let cap = VIEW.dot((150, WIDE, EDGE - 26));
    drawing.face(&["cab.fuel"], super::draw::ring(cap, 13, 13), Stroke::Plain);
    legs(&mut drawing);
    drawing
}

fn bed(drawing: &mut Drawing) {
    let rim: &[Place] = &[(0, 0, EDGE), (180, 0, EDGE), (180, WIDE, EDGE), (0, WIDE, EDGE)];
    drawing.face(&["rear.bed"], VIEW.dots(rim), Stroke::Plain);
    let tailgate: &[Place] = &[(0, 0, FLOOR), (0, WIDE, FLOOR), (0, WIDE, EDGE), (0, 0, EDGE)];
    drawing.face(&["rear.bed"], VIEW.dots(tailgate), Stroke::Hidden);
    for rib in [60, 120] {
        drawing.line(&["rear.bed"], VIEW.dots(&[(rib, 0, EDGE), (rib, WIDE, EDGE)]), Stroke::Fine);
    }
}

fn hood(drawing: &mut Drawing) {
    let top: &[Place] =
        &[(350, 0, EDGE + 8), (LONG, 0, EDGE - 6), (LONG, WIDE, EDGE - 6), (350, WIDE, EDGE + 8)];
    drawing.face(&["front.hood"], VIEW.dots(top), Stroke::Plain);
    let nose: &[Place] =
        &[(LONG, 0, FLOOR), (LONG, WIDE, FLOOR), (LONG, WIDE, EDGE - 6), (LONG, 0, EDGE - 6)];
    drawing.face(&["front.hood"], VIEW.dots(nose), Stroke::Plain);
    for width in [36, WIDE - 36] {
        let lamp = VIEW.dot((LONG, width, 84));
        drawing.face(&["front.hood"], super::draw::ring(lamp, 15, 17), Stroke::Plain);
    }
    for up in [62, 78] {
        drawing.line(&["front.hood"], VIEW.dots(&[(LONG, 70, up), (LONG, WIDE - 70, up)]), Stroke::Fine);
    }
}

fn cab(drawing: &mut Drawing) {
    let roof: &[Place] = &[(195, 14, ROOF), (305, 14, ROOF), (305, WIDE - 14, ROOF), (195, WIDE - 14, ROOF)];
    drawing.face(&["cab.inside"], VIEW.dots(roof), Stroke::Plain);
    let windscreen: &[Place] =
        &[(350, 6, EDGE + 8), (350, WIDE - 6, EDGE + 8), (305, WIDE - 14, ROOF), (305, 14, ROOF)];
    drawing.face(&["front.hood", "cab.inside"], VIEW.dots(windscreen), Stroke::Plain);
    let window: &[Place] =
        &[(205, WIDE, EDGE), (340, WIDE, EDGE), (305, WIDE - 14, ROOF), (195, WIDE - 14, ROOF)];
    drawing.face(&["cab.inside", "right.body"], VIEW.dots(window), Stroke::Plain);
    let wheel = VIEW.dot((318, 70, EDGE + 22));
    drawing.face(&["cab.inside"], super::draw::ring(wheel, 20, 14), Stroke::Fine);
}

fn wheels(drawing: &mut Drawing, part: &str, width: i32, stroke: Stroke) {
    for length in [92, 392] {
        for radius in [46, 20] {
            let round = CIRCLE
                .iter()
                .map(|(x, z)| VIEW.dot((length + x * radius / 1000, width, FLOOR + z * radius / 1000)));
            drawing.face(&[part], round.collect(), stroke);
        }
    }
}

fn legs(drawing: &mut Drawing) {
    let apex = at(540, 66);
    let foot = |length: i32, width: i32| VIEW.dot((length, width, EDGE));
    let feet: [(i32, Dot); 4] = [
        (3, foot(14, 12)),
        (1, foot(LONG - 14, 12)),
        (4, foot(14, WIDE - 12)),
        (2, foot(LONG - 14, WIDE - 12)),
    ];
    for (leg, foot) in feet {
        let from = at(apex.x, apex.y + 40);
        let grab = between(from, foot, 62);
        let part = |card: &str| format!("leg-{leg}.{card}");
        drawing.rope(&[&part("rope")], from, grab, Stroke::Plain);
        drawing.chain(&[&part("count")], grab, between(from, foot, 97), 6, Stroke::Plain);
        drawing.face(&[&part("point")], super::draw::ring(foot, 17, 13), Stroke::Plain);
    }
    drawing.apex(apex);
    drawing.legs_on(apex);
    drawing.tag(between(at(apex.x, apex.y + 40), foot(LONG - 14, 12), 40));
}
