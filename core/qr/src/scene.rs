use super::decode::decode;
use super::grid::Grid;
use super::hard::Seen;
use super::ladder::{Climb, FrameError, packed};

/// Reads successive frames of one scene: what no single frame gives is put together from several.
///
/// A code that was found but not read is kept, module by module. Glare, a streak or noise lies elsewhere in the next
/// frame, the modules do not: the views are added up and decoded together.
#[derive(Debug, Default)]
pub struct SceneReader {
    frames: usize,
    views: Vec<View>,
}

/// A code seen in a frame.
#[derive(Debug)]
struct View {
    frame: usize,
    seen: Seen,
}

/// Views of the same code that are kept, the newest.
const MOST_VIEWS: usize = 10;
/// How far two views must agree to be taken for views of one code.
const LEAST_LIKENESS: f32 = 0.15;

impl SceneReader {
    /// A reader that has seen no frame.
    pub fn new() -> Self {
        Self::default()
    }

    /// How many frames it has seen.
    pub fn frames(&self) -> usize {
        self.frames
    }

    /// Takes the next frame; arguments as for [`super::read_luminance`]. Answers the first text that is accepted, from
    /// this frame alone or together with those before; the views are forgotten then.
    pub fn take(
        &mut self,
        width: usize,
        height: usize,
        stride: usize,
        luminance: &[u8],
        accept: &mut dyn FnMut(&str) -> bool,
    ) -> Result<Option<String>, FrameError> {
        let picture = packed(width, height, stride, luminance)?;
        self.frames += 1;
        let mut found = None;
        let mut climb = Climb::of_scene(self.frames);
        climb.picture(&picture, &mut |text| {
            if found.is_none() && accept(text) {
                found = Some(text.to_owned());
            }
            found.is_some()
        });
        if found.is_none() {
            let fresh = climb.seen.into_iter().map(|seen| View { frame: self.frames, seen });
            let count = self.views.len();
            self.views.extend(fresh);
            found = (count..self.views.len()).find_map(|at| self.together(at)).filter(|text| accept(text));
            let spare = self.views.len().saturating_sub(MOST_VIEWS);
            self.views.drain(..spare);
        }
        if found.is_some() {
            self.views.clear();
        }
        Ok(found)
    }

    /// The text of a view put together with those like it from other frames.
    fn together(&self, at: usize) -> Option<String> {
        let own = self.views.get(at)?;
        let mut sum = own.seen.soft.made(|x, y| weighed(&own.seen, x, y));
        let mut count = 1;
        let others = self.views.iter().filter(|view| view.frame != own.frame);
        for other in others.filter(|view| likeness(&own.seen, &view.seen) >= LEAST_LIKENESS) {
            sum = sum.made(|x, y| sum.get(x, y) + weighed(&other.seen, x, y));
            count += 1;
        }
        if count < 2 { None } else { decode(&sum, &own.seen.layout).text }
    }
}

fn weighed(seen: &Seen, x: usize, y: usize) -> f32 {
    // A mesh that lies badly says little.
    let weight = (seen.agreement * seen.agreement) as f32;
    weight * seen.soft.get(x, y).clamp(-1.5, 1.5)
}

/// How far two views agree, -1 to 1, where nothing is known beforehand.
fn likeness(a: &Seen, b: &Seen) -> f32 {
    if a.layout.side != b.layout.side {
        return -1.0;
    }
    let data = |soft: &Grid<f32>| -> Vec<f32> {
        a.layout.order.iter().map(|&(x, y)| soft.get(x, y).clamp(-1.5, 1.5)).collect()
    };
    let (a, b) = (data(&a.soft), data(&b.soft));
    let joint: f32 = a.iter().zip(&b).map(|(a, b)| a * b).sum();
    let own = |values: &[f32]| values.iter().map(|value| value * value).sum::<f32>();
    joint / (own(&a) * own(&b)).sqrt().max(f32::MIN_POSITIVE)
}
