//! Side, front and top, to one scale.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Metres, Ratio, Unit};

use crate::{Hang, HeldPart};

use super::canvas::{Anchor, Canvas, Point, Stroke, Style};
use super::sheet::{FAINT, INK, MARGIN, PAPER, Sheet, WIDTH, badge};

/// A place in the world: forward, left, up.
type Spot = [f64; 3];

/// From which side the load is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum View {
    /// From the right: forward is to the right.
    Side,
    /// From ahead: the load's left is to the right.
    Front,
    /// From above: forward is to the right, left is up.
    Top,
}

impl View {
    fn flat(self, [x, y, z]: Spot) -> Point {
        match self {
            Self::Side => (x, -z),
            Self::Front => (y, -z),
            Self::Top => (x, -y),
        }
    }

    fn title(self) -> Saying {
        match self {
            Self::Side => words::ViewSide.into(),
            Self::Front => words::ViewFront.into(),
            Self::Top => words::ViewTop.into(),
        }
    }
}

/// Room for names and numbers beside the load seen from above.
const LABEL: f64 = 190.0;
/// Room above a view for its title and for the pull of the hook.
const HEAD: f64 = 96.0;
/// No view gets higher, however long the sling.
const HIGHEST: f64 = 760.0;
/// Room between side and front, for the badges of both.
const GAP: f64 = 150.0;

/// What is drawn, in metres of the world.
struct Scene<'a> {
    sheet: &'a Sheet<'a>,
    hang: &'a Hang,
    centre: Spot,
    hooks: Vec<Spot>,
    lifts: Vec<Spot>,
    box_corners: Vec<Spot>,
}

/// Where a view lies in the picture.
struct Frame {
    view: View,
    scale: f64,
    /// What is added to scaled metres.
    shift: Point,
}

impl Frame {
    fn at(&self, spot: Spot) -> Point {
        let (x, y) = self.view.flat(spot);
        (x * self.scale + self.shift.0, y * self.scale + self.shift.1)
    }
}

/// Draws the three views below `top` and tells where they end.
pub(super) fn draw(canvas: &mut Canvas, sheet: &Sheet<'_>, hang: &Hang, top: f64) -> f64 {
    let scene = Scene::new(sheet, hang);
    let all: Vec<Spot> = scene
        .hooks
        .iter()
        .chain(&scene.lifts)
        .chain(&scene.box_corners)
        .copied()
        .chain([scene.centre])
        .collect();
    let extent = |axis: usize| {
        let values = all.iter().filter_map(|spot| spot.get(axis).copied());
        values
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
    };
    let ((x0, x1), (y0, y1), (z0, z1)) = (extent(0), extent(1), extent(2));
    let (long, wide, high) = (x1 - x0, y1 - y0, (z1 - z0).max(0.1));
    let room = WIDTH - 2.0 * MARGIN;
    let scale = (HIGHEST / high)
        .min((room - LABEL - GAP - 60.0) / (long + wide).max(0.1))
        .min((room - 2.0 * LABEL) / long.max(0.1))
        .min(HIGHEST / wide.max(0.1));
    let upper = top + HEAD;
    let lower = upper + high * scale + 60.0;
    // Side and top stand over one another, so that a lift point is found by eye.
    let left = MARGIN + LABEL.max((room - GAP - (long + wide) * scale) / 3.0);
    let right = (WIDTH - MARGIN - 60.0 - wide * scale).max(left + long * scale + GAP);
    let views = [
        (View::Side, left - x0 * scale, upper + z1 * scale, left + long * scale / 2.0, upper),
        (View::Front, right - y0 * scale, upper + z1 * scale, right + wide * scale / 2.0, upper),
        (View::Top, left - x0 * scale, lower + 84.0 + y1 * scale, left + long * scale / 2.0, lower + 84.0),
    ];
    for (view, x, y, middle, start) in views {
        let frame = Frame { view, scale, shift: (x, y) };
        let title = Style::new(30.0, FAINT).bold().at(Anchor::Middle);
        let over = if view == View::Top { 46.0 } else { HEAD - 30.0 };
        canvas.text((middle, start - over), &sheet.say(view.title()), title);
        scene.view(canvas, &frame);
    }
    let end = lower + 84.0 + wide * scale + 96.0;
    scene.bar(canvas, scale, (WIDTH - MARGIN, end - 24.0));
    end
}

impl<'a> Scene<'a> {
    fn new(sheet: &'a Sheet<'a>, hang: &'a Hang) -> Self {
        let spot = |place: &[Metres; 3]| place.map(Metres::value);
        let place = &hang.place;
        let centre = spot(&place.centre);
        let lifts: Vec<Spot> = place.lift_points.iter().map(spot).collect();
        // Turned about the vertical so that the nose looks right, whichever way the hooks turned it.
        let [forward, ..] = place.axes;
        let [ahead, aside, _] = forward.map(Ratio::value);
        let flat = ahead.hypot(aside);
        let (cos, sin) = if flat > 1e-9 { (ahead / flat, aside / flat) } else { (1.0, 0.0) };
        let level = |[x, y, z]: Spot| [x * cos + y * sin, y * cos - x * sin, z];
        let box_corners = corners(&centre, &lifts, &place.axes).into_iter().map(level).collect();
        Self {
            sheet,
            hang,
            centre: level(centre),
            hooks: place.hooks.iter().map(|hook| level(spot(hook))).collect(),
            lifts: lifts.into_iter().map(level).collect(),
            box_corners,
        }
    }

    fn view(&self, canvas: &mut Canvas, frame: &Frame) {
        let outline: Vec<Point> = self.box_corners.iter().map(|corner| frame.at(*corner)).collect();
        canvas.shape(&hull(outline), "#e9e6dc", Some(Stroke::new(3.0, FAINT)));
        let centre = frame.at(self.centre);
        if frame.view != View::Top {
            for hook in &self.hooks {
                if self.hooks.len() == 1 {
                    canvas.line(frame.at(*hook), centre, Stroke::new(2.5, FAINT).dashed(4.0, 10.0));
                }
            }
        }
        self.legs(canvas, frame);
        self.centre_mark(canvas, centre);
        self.hook_marks(canvas, frame);
        self.names(canvas, frame);
    }

    fn legs(&self, canvas: &mut Canvas, frame: &Frame) {
        let most = self.hang.legs.iter().map(|leg| leg.tension.value()).fold(0.0, f64::max).max(1e-9);
        // What governs is drawn last, over the others.
        let mut legs: Vec<_> =
            self.hang.legs.iter().zip(self.sheet.load.legs.iter().zip(&self.lifts)).collect();
        legs.sort_by_key(|(leg, _)| self.sheet.governs(self.hang, &leg.name));
        for (leg, (written, lift)) in legs {
            let hook = self.sheet.load.hook_of(written).and_then(|at| self.hooks.get(at)).copied();
            let from = frame.at(hook.unwrap_or([0.0; 3]));
            let governs = self.sheet.governs(self.hang, &leg.name);
            let width = 4.0 + 6.0 * leg.tension.value() / most;
            let stroke = match (leg.slack, governs) {
                (true, _) => Stroke::new(4.0, FAINT).dashed(14.0, 12.0),
                (false, true) => Stroke::new(width + 4.0, self.sheet.accent(self.hang)),
                (false, false) => Stroke::new(width, INK),
            };
            canvas.line(from, frame.at(*lift), stroke);
        }
    }

    /// Quartered disc: the usual mark of a centre of gravity.
    fn centre_mark(&self, canvas: &mut Canvas, (x, y): Point) {
        let radius = 17.0;
        canvas.circle((x, y), radius, PAPER, Some(Stroke::new(4.0, INK)));
        for (dx, dy) in [(radius, -radius), (-radius, radius)] {
            let sweep =
                format!("M{x:.1} {y:.1}L{:.1} {y:.1}A{radius} {radius} 0 0 0 {x:.1} {:.1}Z", x + dx, y + dy);
            canvas.path(&sweep, INK, None);
        }
    }

    fn hook_marks(&self, canvas: &mut Canvas, frame: &Frame) {
        for (at, hook) in self.hooks.iter().enumerate() {
            let (x, y) = frame.at(*hook);
            let name = self.hang.hooks.get(at);
            let governs = name.is_some_and(|hook| {
                self.hang
                    .held
                    .first()
                    .is_some_and(|held| held.leg.is_none() && held.part == HeldPart::Hook(hook.name.clone()))
            });
            let colour = if governs { self.sheet.accent(self.hang) } else { INK };
            canvas.circle((x, y), 13.0, PAPER, Some(Stroke::new(7.0, colour)));
            let Some(load) = name.filter(|_| frame.view == View::Side) else { continue };
            let label = self.sheet.force(load.load);
            let label = if self.hooks.len() > 1 { format!("{} {label}", load.name) } else { label };
            canvas.text((x, y - 30.0), &label, Style::new(30.0, colour).bold().at(Anchor::Middle));
        }
    }

    /// Seen from the side and from ahead, names alone; from above, names and tensions, pushed apart.
    fn names(&self, canvas: &mut Canvas, frame: &Frame) {
        let legs = self.hang.legs.iter().zip(&self.lifts);
        let mut marks: Vec<(Point, Vec<usize>)> = Vec::new();
        for (at, (_, lift)) in legs.enumerate() {
            let point = frame.at(*lift);
            let near = |other: &Point| (other.0 - point.0).abs() < 34.0 && (other.1 - point.1).abs() < 34.0;
            match marks.iter_mut().find(|(other, _)| near(other)) {
                Some((_, legs)) if frame.view != View::Top => legs.push(at),
                _ => marks.push((point, vec![at])),
            }
        }
        if frame.view == View::Top {
            self.tensions(canvas, marks, frame.at(self.centre));
            return;
        }
        for (point, legs) in marks {
            let names: Vec<_> = legs.iter().filter_map(|at| self.hang.legs.get(*at)).collect();
            let governs = names.iter().any(|leg| self.sheet.governs(self.hang, &leg.name));
            let text = names.iter().map(|leg| self.sheet.mark_of(&leg.name)).collect::<Vec<_>>().join(" ");
            badge(
                canvas,
                (point.0, point.1 + 4.0),
                &text,
                if governs { self.sheet.accent(self.hang) } else { INK },
            );
        }
    }

    fn tensions(&self, canvas: &mut Canvas, mut marks: Vec<(Point, Vec<usize>)>, centre: Point) {
        marks.sort_by(|a, b| a.0.1.total_cmp(&b.0.1));
        for to_right in [true, false] {
            let mut lowest = f64::NEG_INFINITY;
            for ((x, y), legs) in marks.iter().filter(|((x, _), _)| (*x >= centre.0 - 1e-6) == to_right) {
                let Some(leg) = legs.first().and_then(|at| self.hang.legs.get(*at)) else { continue };
                let governs = self.sheet.governs(self.hang, &leg.name);
                let colour = if governs { self.sheet.accent(self.hang) } else { INK };
                let line = y.max(lowest + 46.0);
                lowest = line;
                canvas.circle((*x, *y), 9.0, colour, None);
                let side = if to_right { 1.0 } else { -1.0 };
                let mark = self.sheet.mark_of(&leg.name);
                let width = (canvas.width(&mark, Style::new(28.0, PAPER).bold()) + 22.0).max(42.0);
                let middle = x + side * (24.0 + width / 2.0);
                badge(canvas, (middle, line), &mark, colour);
                let slack = || self.sheet.say(words::ReportSlack);
                let text = if leg.slack { slack() } else { self.sheet.force(leg.tension) };
                let anchor = if to_right { Anchor::Start } else { Anchor::End };
                let start = middle + side * (width / 2.0 + 10.0);
                let room = if to_right { WIDTH - 16.0 - start } else { start - 16.0 };
                canvas.fitted((start, line + 11.0), &text, Style::new(32.0, colour).bold().at(anchor), room);
            }
        }
    }

    /// How long one metre or five feet are in the picture.
    fn bar(&self, canvas: &mut Canvas, scale: f64, (right, y): Point) {
        let unit = self.sheet.load.legs.first().map_or(Unit::M, |leg| leg.reach.shown().unit());
        let (step, unit, name) =
            if matches!(unit, Unit::Ft | Unit::In) { (1.0, Unit::Ft.si(), "ft") } else { (0.5, 1.0, "m") };
        let steps = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0].map(|times| times * step);
        let fits = |length: &&f64| **length * unit * scale <= 200.0;
        let Some(length) = steps.iter().rev().find(fits).or(steps.first()) else { return };
        let left = right - length * unit * scale;
        let pen = Stroke::new(4.0, INK);
        canvas.line((left, y), (right, y), pen);
        canvas.line((left, y - 10.0), (left, y + 10.0), pen);
        canvas.line((right, y - 10.0), (right, y + 10.0), pen);
        let style = Style::new(30.0, INK).bold().at(Anchor::Middle);
        canvas.text(((left + right) / 2.0, y - 16.0), &format!("{length} {name}"), style);
    }
}

/// A box about the lift points and the centre of gravity, as far below the centre as the lift points stand above it.
fn corners(centre: &Spot, lifts: &[Spot], axes: &[[Ratio; 3]; 3]) -> Vec<Spot> {
    let axes = axes.map(|axis| axis.map(Ratio::value));
    let along = |spot: &Spot, axis: &Spot| {
        spot.iter().zip(centre).zip(axis).map(|((s, c), a)| (s - c) * a).sum::<f64>()
    };
    let reach = axes.map(|axis| {
        lifts
            .iter()
            .map(|lift| along(lift, &axis))
            .fold((0.0_f64, 0.0_f64), |(low, high), at| (low.min(at), high.max(at)))
    });
    let [(x0, x1), (y0, y1), (z0, z1)] = reach;
    let tall = z1.max(-z0).max(0.15 * (x1 - x0).max(y1 - y0)).max(0.05);
    // A load by one lift point or one line of them still has a body.
    let least = 0.45 * tall;
    let (x0, x1) = (x0.min(-least), x1.max(least));
    let (y0, y1) = (y0.min(-least), y1.max(least));
    let (z0, z1) = (z0.min(-tall), z1.max(z0 + 0.3 * tall));
    let mut corners = Vec::new();
    for x in [x0, x1] {
        for y in [y0, y1] {
            for z in [z0, z1] {
                let [a, b, c] = axes;
                let mut corner = *centre;
                for (((at, a), b), c) in corner.iter_mut().zip(a).zip(b).zip(c) {
                    *at += x * a + y * b + z * c;
                }
                corners.push(corner);
            }
        }
    }
    corners
}

/// The points' convex outline (Andrew's monotone chain).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = chain.as_slice() {
                let cross =
                    (last.0 - before.0) * (point.1 - before.1) - (last.1 - before.1) * (point.0 - before.0);
                if cross > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut outline = half(&mut points.iter().copied());
    outline.extend(half(&mut points.iter().rev().copied()));
    outline
}
