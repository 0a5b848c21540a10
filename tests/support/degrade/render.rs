//! How a sheet in space becomes a picture: traced back pixel by pixel, then lens and sensor.

use super::tracer::Tracer;
use super::{Dice, Look, Scene, Shot};

pub(super) fn render(
    scene: &Scene,
    look: &Look,
    shift: (f64, f64),
    streak_way: f64,
    glare_at: (f64, f64),
    dice: &mut Dice,
) -> Shot {
    let (width, height) = (look.width, look.height);
    let size = f64::from(scene.code.size());
    let tracer = Tracer::new(look, shift, size, &scene.sheet);
    let texture = dice.bits();
    let ground = dice.between(60.0, 150.0);
    let mut planes = vec![vec![0.0f32; width * height]; 3];
    for y in 0..height {
        for x in 0..width {
            let mut sum = [0.0; 3];
            for (dx, dy) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)] {
                let seen = tracer.sheet_at(x as f64 + dx, y as f64 + dy);
                let colour = match seen {
                    Some((u, v, light)) => on_sheet(scene, u, v)
                        .map(|value| value * light * (1.0 + look.shade * (u / size - 0.5))),
                    None => [ground * (0.7 + 0.6 * lattice(texture, x as f64 / 9.0, y as f64 / 9.0)); 3],
                };
                for (sum, value) in sum.iter_mut().zip(colour) {
                    *sum += value / 4.0;
                }
            }
            for (plane, value) in planes.iter_mut().zip(sum) {
                plane[y * width + x] = (value * look.exposure) as f32;
            }
        }
    }
    if look.glare.1 > 0.0 {
        let middle = tracer.pixel_of(glare_at.0 * size, glare_at.1 * size);
        let radius = look.glare.0 * look.scale;
        for y in 0..height {
            for x in 0..width {
                let far = ((x as f64 - middle.0).powi(2) + (y as f64 - middle.1).powi(2)).sqrt() / radius;
                let more = look.glare.1 * (-far * far * 1.5).exp();
                for plane in &mut planes {
                    plane[y * width + x] += more as f32;
                }
            }
        }
    }
    for plane in &mut planes {
        gauss(plane, width, height, (look.blur * look.scale) as f32);
        streak(plane, width, height, look.streak * look.scale, streak_way);
    }
    let mut rgb = Vec::with_capacity(width * height * 3);
    for at in 0..width * height {
        let shot = dice.normal();
        for plane in &planes {
            let value = f64::from(plane[at]);
            // Shot noise is common to the channels here, sensor noise is not.
            let noise = look.noise * (0.7 * shot + 0.5 * dice.normal());
            rgb.push((value + noise).round().clamp(0.0, 255.0) as u8);
        }
    }
    let rgb = match look.jpeg {
        Some(quality) => through_jpeg(&rgb, width, height, quality),
        None => rgb,
    };
    Shot { width, height, rgb, text: scene.text.clone() }
}

/// The colour at a place of the sheet, in modules from the code's top left.
fn on_sheet(scene: &Scene, u: f64, v: f64) -> [f64; 3] {
    let sheet = &scene.sheet;
    let inside = u >= 0.0 && v >= 0.0;
    let dark = inside && scene.code.is_dark(u as u32, v as u32);
    let mut colour = if dark { sheet.ink } else { sheet.paper };
    for &(x, y, radius, depth) in &sheet.blots {
        let far = ((u - x).powi(2) + (v - y).powi(2)).sqrt() / radius;
        let edge = 1.0 + 0.25 * ((u * 2.1 + x).sin() + (v * 1.7 + y).cos());
        if far < edge {
            // Mud is brown: its level lies between paper and ink, nearer to ink when it is thick.
            colour = std::array::from_fn(|at| sheet.paper[at] + (sheet.ink[at] - sheet.paper[at]) * depth);
        }
    }
    colour
}

/// Smooth value noise from 0 to 1.
fn lattice(seed: u64, x: f64, y: f64) -> f64 {
    let (ix, iy) = (x.floor(), y.floor());
    let corner = |dx: f64, dy: f64| {
        let key =
            seed ^ ((ix + dx) as i64 as u64).wrapping_mul(0x9E37_79B9) ^ (((iy + dy) as i64 as u64) << 32);
        Dice::new(key).between(0.0, 1.0)
    };
    let (fx, fy) = (x - ix, y - iy);
    let top = corner(0.0, 0.0) * (1.0 - fx) + corner(1.0, 0.0) * fx;
    let bottom = corner(0.0, 1.0) * (1.0 - fx) + corner(1.0, 1.0) * fx;
    top * (1.0 - fy) + bottom * fy
}

fn gauss(plane: &mut [f32], width: usize, height: usize, sigma: f32) {
    if sigma < 0.2 {
        return;
    }
    let reach = (3.0 * sigma).ceil() as isize;
    let kernel: Vec<f32> =
        (-reach..=reach).map(|at| (-(at * at) as f32 / (2.0 * sigma * sigma)).exp()).collect();
    let whole: f32 = kernel.iter().sum();
    let source = plane.to_vec();
    for y in 0..height {
        for x in 0..width {
            let sum: f32 = (-reach..=reach)
                .zip(&kernel)
                .map(|(at, k)| {
                    k * source[y * width + (x as isize + at).clamp(0, width as isize - 1) as usize]
                })
                .sum();
            plane[y * width + x] = sum / whole;
        }
    }
    let source = plane.to_vec();
    for y in 0..height {
        for x in 0..width {
            let sum: f32 = (-reach..=reach)
                .zip(&kernel)
                .map(|(at, k)| {
                    k * source[(y as isize + at).clamp(0, height as isize - 1) as usize * width + x]
                })
                .sum();
            plane[y * width + x] = sum / whole;
        }
    }
}

fn streak(plane: &mut [f32], width: usize, height: usize, length: f64, way: f64) {
    if length < 0.5 {
        return;
    }
    let steps = (length * 2.0).ceil() as usize + 1;
    let source = plane.to_vec();
    let at = |x: f64, y: f64| {
        let (x, y) = (x.clamp(0.0, width as f64 - 1.001), y.clamp(0.0, height as f64 - 1.001));
        let (ix, iy) = (x as usize, y as usize);
        let (fx, fy) = ((x - ix as f64) as f32, (y - iy as f64) as f32);
        let row = iy * width + ix;
        (source[row] * (1.0 - fx) + source[row + 1] * fx) * (1.0 - fy)
            + (source[row + width] * (1.0 - fx) + source[row + width + 1] * fx) * fy
    };
    let (sin, cos) = way.sin_cos();
    for y in 0..height {
        for x in 0..width {
            let sum: f32 = (0..steps)
                .map(|step| {
                    let along = length * (step as f64 / (steps - 1) as f64 - 0.5);
                    at(x as f64 + along * cos, y as f64 + along * sin)
                })
                .sum();
            plane[y * width + x] = sum / steps as f32;
        }
    }
}

fn through_jpeg(rgb: &[u8], width: usize, height: usize, quality: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, quality)
        .encode(rgb, width as u32, height as u32, image::ExtendedColorType::Rgb8)
        .expect("a vector takes every write");
    image::load_from_memory(&bytes).expect("our JPEG is a picture").to_rgb8().into_raw()
}
