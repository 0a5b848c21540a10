//! What the drawings are put together from: a view from above and aside, rings, chains, ropes. Whole numbers throughout, so that the
//! same drawing comes out on every machine.

use super::lines::{Dot, Drawing, Line, Stroke};

/// A point of a load: along its length, along its width, and up.
pub(super) type Place = (i32, i32, i32);

/// The view: length runs to the right and down, width to the left and down, height up. Scales are hundredths.
pub(super) struct View {
    pub(super) x: i32,
    pub(super) y: i32,
    pub(super) across: i32,
    pub(super) down: i32,
}

impl View {
    pub(super) fn dot(&self, (length, width, up): Place) -> Dot {
        Dot {
            x: self.x + (length - width) * self.across / 100,
            y: self.y + (length + width) * self.down / 100 - up,
        }
    }

    pub(super) fn dots(&self, places: &[Place]) -> Vec<Dot> {
        places.iter().map(|place| self.dot(*place)).collect()
    }
}

/// The unit circle in sixteen steps, in thousandths.
pub(super) const CIRCLE: [(i32, i32); 16] = [
    (1000, 0),
    (924, 383),
    (707, 707),
    (383, 924),
    (0, 1000),
    (-383, 924),
    (-707, 707),
    (-924, 383),
    (-1000, 0),
    (-924, -383),
    (-707, -707),
    (-383, -924),
    (0, -1000),
    (383, -924),
    (707, -707),
    (924, -383),
];

/// A ring of two radii round a middle.
pub(super) fn ring(middle: Dot, across: i32, down: i32) -> Vec<Dot> {
    CIRCLE
        .iter()
        .map(|(x, y)| Dot { x: middle.x + x * across / 1000, y: middle.y + y * down / 1000 })
        .collect()
}

/// The dot so many hundredths of the way.
pub(super) fn between(from: Dot, to: Dot, hundredths: i32) -> Dot {
    Dot { x: from.x + (to.x - from.x) * hundredths / 100, y: from.y + (to.y - from.y) * hundredths / 100 }
}

pub(super) fn at(x: i32, y: i32) -> Dot {
    Dot { x, y }
}

impl Drawing {
    pub(super) fn line(&mut self, parts: &[&str], dots: Vec<Dot>, stroke: Stroke) {
        self.put(parts, dots, false, stroke);
    }

    pub(super) fn face(&mut self, parts: &[&str], dots: Vec<Dot>, stroke: Stroke) {
        self.put(parts, dots, true, stroke);
    }

    fn put(&mut self, parts: &[&str], dots: Vec<Dot>, closed: bool, stroke: Stroke) {
        let parts = parts.iter().map(|part| (*part).to_owned()).collect();
        self.lines.push(Line { parts, dots, closed, stroke });
    }

    /// A rope or a strap: two lines beside each other.
    pub(super) fn rope(&mut self, parts: &[&str], from: Dot, to: Dot, stroke: Stroke) {
        let steep = (to.y - from.y).abs() > (to.x - from.x).abs();
        for side in [-7, 7] {
            let aside = |dot: Dot| if steep { at(dot.x + side, dot.y) } else { at(dot.x, dot.y + side) };
            self.line(parts, vec![aside(from), aside(to)], stroke);
        }
    }

    /// A chain: links from dot to dot, each a lozenge.
    pub(super) fn chain(&mut self, parts: &[&str], from: Dot, to: Dot, links: i32, stroke: Stroke) {
        let steep = (to.y - from.y).abs() > (to.x - from.x).abs();
        for link in 0..links {
            let (start, end) =
                (between(from, to, link * 100 / links), between(from, to, (link + 1) * 100 / links));
            let middle = between(start, end, 50);
            let wide = if link % 2 == 0 { 13 } else { 7 };
            let (one, other) = if steep {
                (at(middle.x - wide, middle.y), at(middle.x + wide, middle.y))
            } else {
                (at(middle.x, middle.y - wide), at(middle.x, middle.y + wide))
            };
            self.face(parts, vec![start, one, end, other], stroke);
        }
    }

    /// The apex fitting: a bow over a bolt, and the bolt's head and nut.
    pub(super) fn apex(&mut self, middle: Dot) {
        let Dot { x, y } = middle;
        for radius in [36, 24] {
            let mut bow = vec![at(x - radius, y + 14)];
            bow.extend(ring(at(x, y - 6), radius, radius).into_iter().skip(8));
            bow.extend([at(x + radius, y - 6), at(x + radius, y + 14)]);
            self.line(&["apex.fitting"], bow, Stroke::Plain);
        }
        self.face(
            &["apex.fitting"],
            vec![at(x - 48, y + 14), at(x + 48, y + 14), at(x + 48, y + 30), at(x - 48, y + 30)],
            Stroke::Plain,
        );
        self.line(&["apex.fitting"], vec![at(x + 58, y + 10), at(x + 58, y + 34)], Stroke::Plain);
    }

    /// Where the legs lie on the bolt, one beside the other.
    pub(super) fn legs_on(&mut self, middle: Dot) {
        let Dot { x, y } = middle;
        for leg in [-26, -9, 9, 26] {
            self.line(&["apex.order"], vec![at(x + leg, y + 30), at(x + leg / 2, y + 48)], Stroke::Plain);
        }
    }

    /// The load tag on its string.
    pub(super) fn tag(&mut self, hangs: Dot) {
        let Dot { x, y } = hangs;
        self.line(&["tag"], vec![hangs, at(x + 26, y + 26)], Stroke::Fine);
        self.face(
            &["tag"],
            vec![
                at(x + 16, y + 36),
                at(x + 36, y + 26),
                at(x + 96, y + 46),
                at(x + 96, y + 106),
                at(x + 16, y + 86),
            ],
            Stroke::Plain,
        );
        self.line(&["tag"], vec![at(x + 32, y + 60), at(x + 80, y + 74)], Stroke::Fine);
        self.line(&["tag"], vec![at(x + 32, y + 76), at(x + 68, y + 87)], Stroke::Fine);
    }
}
