//! Undoes, module by module, what blur and motion mixed: each module's brightness is its own and a share of its
//! neighbours', and the shares are learned from the modules whose colour is known.

use nalgebra::{SMatrix, SVector};

use super::grid::Grid;

/// Neighbours that are looked at, a square of five.
const REACH: isize = 2;
const TAPS: usize = 26;

/// Brightness turned into dark (about 1) and light (about -1) against the surroundings.
pub(super) fn levelled(seen: &Grid<f32>) -> Grid<f32> {
    let ones = seen.made(|_, _| 1.0);
    let (sums, counts) = (around(seen), around(&ones));
    let means = seen.made(|x, y| sums.get(x, y) / counts.get(x, y));
    let is_light = |x: usize, y: usize| seen.get(x, y) >= means.get(x, y);
    let lights = around(&seen.made(|x, y| if is_light(x, y) { seen.get(x, y) } else { 0.0 }));
    let light_counts = around(&seen.made(|x, y| if is_light(x, y) { 1.0 } else { 0.0 }));
    let spread = seen.places().map(|(x, y)| (seen.get(x, y) - means.get(x, y)).abs()).sum::<f32>();
    // Where a lamp has washed everything out, noise must not be blown up to certainty.
    let floor = (spread / (seen.side() * seen.side()) as f32 * 0.25).max(0.5);
    seen.made(|x, y| {
        let (count, lit) = (counts.get(x, y), light_counts.get(x, y));
        let light = lights.get(x, y) / lit.max(1.0);
        let dark = (sums.get(x, y) - lights.get(x, y)) / (count - lit).max(1.0);
        let (middle, half) = ((light + dark) / 2.0, ((light - dark) / 2.0).max(floor));
        ((middle - seen.get(x, y)) / half).clamp(-2.5, 2.5)
    })
}

/// For every module the sum over the square of thirteen around it, as far as it lies inside.
fn around(values: &Grid<f32>) -> Grid<f32> {
    const AROUND: usize = 6;
    let side = values.side();
    let sum = |get: &dyn Fn(usize) -> f32, at: usize| {
        (at.saturating_sub(AROUND)..(at + AROUND + 1).min(side)).map(get).sum::<f32>()
    };
    let across = values.made(|x, y| sum(&|x| values.get(x, y), x));
    values.made(|x, y| sum(&|y| across.get(x, y), y))
}

fn row(values: &Grid<f32>, x: usize, y: usize) -> SVector<f32, TAPS> {
    let mut row = SVector::<f32, TAPS>::zeros();
    let offsets = (-REACH..=REACH).flat_map(|dy| (-REACH..=REACH).map(move |dx| (dx, dy)));
    for (tap, (dx, dy)) in row.iter_mut().zip(offsets.map(Some).chain([None]).map(|o| o.unwrap_or((99, 99))))
    {
        *tap = if dx == 99 { 1.0 } else { values.near(x, y, dx, dy) };
    }
    row
}

/// Learns weights so that `row(from)` gives `to` where `to` is known (not 0), drawn a little towards doing nothing.
fn learned(from: &Grid<f32>, to: &Grid<f32>, known: &Grid<f32>, pull: f32) -> Option<SVector<f32, TAPS>> {
    let mut normal = SMatrix::<f32, TAPS, TAPS>::zeros();
    let mut side = SVector::<f32, TAPS>::zeros();
    let mut count = 0.0;
    for (x, y) in from.places() {
        let weight = known.get(x, y);
        if weight > 0.0 {
            let row = row(from, x, y);
            normal.syger(weight, &row, &row, 1.0);
            side += row * (weight * to.get(x, y));
            count += weight;
        }
    }
    let ridge = pull * count.max(1.0);
    normal += SMatrix::identity() * ridge;
    // The middle tap is the module itself.
    if let Some(own) = side.get_mut(TAPS / 2 - 1) {
        *own += ridge;
    }
    normal.fill_upper_triangle_with_lower_triangle();
    Some(normal.cholesky()?.solve(&side))
}

/// Soft modules with the neighbours' share taken out, learned where `certain` is not 0.
pub(super) fn equalised(levelled: &Grid<f32>, certain: &Grid<f32>, pull: f32) -> Option<Grid<f32>> {
    let known = certain.made(|x, y| certain.get(x, y).abs());
    let weights = learned(levelled, certain, &known, pull)?;
    Some(levelled.made(|x, y| weights.dot(&row(levelled, x, y))))
}

/// Soft modules by a model of the blur itself: the shares that neighbours give are learned from what is decided so
/// far, and each module is then weighed dark against light by how well the brightness of all modules that it reaches
/// is explained. Sharper than taking shares out, since it does not raise the noise.
pub(super) fn explained(
    levelled: &Grid<f32>,
    soft: &Grid<f32>,
    certain: &Grid<f32>,
    rounds: usize,
) -> Option<Grid<f32>> {
    let sign = |value: f32| if value > 0.0 { 1.0 } else { -1.0 };
    let mut bits = soft.made(|x, y| {
        let known = certain.get(x, y);
        sign(if known == 0.0 { soft.get(x, y) } else { known })
    });
    let mut weighed = soft.clone();
    for _ in 0..rounds {
        let trust =
            soft.made(
                |x, y| if certain.get(x, y) != 0.0 { 1.0 } else { (weighed.get(x, y).abs()).min(1.0) * 0.7 },
            );
        let shares = learned(&bits, levelled, &trust, 0.002)?;
        let mut rest = levelled.made(|x, y| levelled.get(x, y) - shares.dot(&row(&bits, x, y)));
        let offsets: Vec<(isize, isize, f32)> = (-REACH..=REACH)
            .flat_map(|dy| (-REACH..=REACH).map(move |dx| (dx, dy)))
            .zip(shares.iter())
            .map(|((dx, dy), &share)| (dx, dy, share))
            .collect();
        // A module under mud is explained by nothing and must not count for more than a bad fit does.
        let cap = |value: f32| value.clamp(-0.8, 0.8);
        for _ in 0..3 {
            let mut turned = 0;
            for (x, y) in levelled.places() {
                let bit = bits.get(x, y);
                // How much better the neighbourhood is explained with this module dark than with it light. The
                // module at (x - dx, y - dy) sees this one at its offset (dx, dy).
                let mut better = 0.0;
                for &(dx, dy, share) in &offsets {
                    if let (Some(nx), Some(ny)) = (x.checked_add_signed(-dx), y.checked_add_signed(-dy))
                        && nx < rest.side()
                        && ny < rest.side()
                    {
                        let here = rest.get(nx, ny);
                        let (dark, light) =
                            (cap(here - share * (1.0 - bit)), cap(here + share * (1.0 + bit)));
                        better += light * light - dark * dark;
                    }
                }
                let known = certain.get(x, y);
                weighed.set(x, y, if known == 0.0 { better } else { 3.0 * known });
                let wanted = if known == 0.0 { sign(better) } else { known };
                if wanted != bit {
                    turned += 1;
                    bits.set(x, y, wanted);
                    for &(dx, dy, share) in &offsets {
                        if let (Some(nx), Some(ny)) = (x.checked_add_signed(-dx), y.checked_add_signed(-dy)) {
                            rest.set(nx, ny, rest.get(nx, ny) - share * (wanted - bit));
                        }
                    }
                }
            }
            if turned == 0 {
                break;
            }
        }
    }
    Some(weighed)
}
