//! From the pixels of a pinhole camera to a bent and crumpled sheet, and back.

use super::{Look, Sheet};

/// From pixels to the sheet and back.
pub(super) struct Tracer<'a> {
    /// Camera axes in the sheet's frame, rows: right, down, into the picture.
    rows: [[f64; 3]; 3],
    focal: f64,
    distance: f64,
    centre: (f64, f64),
    half: f64,
    reach: f64,
    sheet: &'a Sheet,
}

impl<'a> Tracer<'a> {
    pub(super) fn new(look: &Look, shift: (f64, f64), size: f64, sheet: &'a Sheet) -> Self {
        // A telephone's lens: the picture's width is about as long as the focal length.
        let focal = look.width as f64 * 1.05;
        let (st, ct) = look.turn.sin_cos();
        let (sa, ca) = look.tilt_axis.sin_cos();
        let (sb, cb) = look.tilt.sin_cos();
        let turn = [[ct, -st, 0.0], [st, ct, 0.0], [0.0, 0.0, 1.0]];
        // Rotation by the tilt about an axis in the sheet (Rodrigues).
        let k = [ca, sa, 0.0];
        let mut tilt = [[0.0; 3]; 3];
        let cross = [[0.0, -k[2], k[1]], [k[2], 0.0, -k[0]], [-k[1], k[0], 0.0]];
        for i in 0..3 {
            for j in 0..3 {
                let unit = if i == j { cb } else { 0.0 };
                tilt[i][j] = unit + sb * cross[i][j] + (1.0 - cb) * k[i] * k[j];
            }
        }
        let mut rows = [[0.0; 3]; 3];
        for i in 0..3 {
            for j in 0..3 {
                rows[i][j] = (0..3).map(|m| turn[i][m] * tilt[m][j]).sum();
            }
        }
        Self {
            rows,
            focal,
            distance: focal / look.scale,
            centre: (look.width as f64 / 2.0 + shift.0, look.height as f64 / 2.0 + shift.1),
            half: size / 2.0,
            reach: size / 2.0 + sheet.quiet,
            sheet,
        }
    }

    /// The height of the sheet above its plane, in modules, and what its slope does to the light.
    fn height(&self, u: f64, v: f64) -> (f64, f64) {
        let mut tall = 0.0;
        let mut slope = 0.0;
        for &(a, b, phase, height) in &self.sheet.waves {
            let at = a * u + b * v + phase;
            tall += height * at.sin();
            slope += height * at.cos() * (a * 0.8 + b * 0.6);
        }
        (tall, slope)
    }

    /// The place of the sheet, in modules from the code's top left, that a pixel sees, and its light.
    pub(super) fn sheet_at(&self, x: f64, y: f64) -> Option<(f64, f64, f64)> {
        let ray = [(x - self.centre.0) / self.focal, (y - self.centre.1) / self.focal, 1.0];
        // In the sheet's frame: where the camera is, and which way the ray goes.
        let way: [f64; 3] = std::array::from_fn(|j| (0..3).map(|i| self.rows[i][j] * ray[i]).sum());
        let eye: [f64; 3] = std::array::from_fn(|j| -self.rows[2][j] * self.distance);
        if way[2].abs() < 1e-6 {
            return None;
        }
        let (mut u, mut v, light);
        if self.sheet.bend > 0.0 {
            let (sin, cos) = self.sheet.bend_axis.sin_cos();
            let radius = 2.0 * self.half / self.sheet.bend;
            // The cylinder's axis lies at depth `radius` behind the sheet, along (-sin, cos).
            let across = |p: [f64; 3]| p[0] * cos + p[1] * sin;
            let along = |p: [f64; 3]| -p[0] * sin + p[1] * cos;
            let (ex, ez) = (across(eye), eye[2] - radius);
            let (wx, wz) = (across(way), way[2]);
            let (a, b, c) =
                (wx * wx + wz * wz, 2.0 * (ex * wx + ez * wz), ex * ex + ez * ez - radius * radius);
            let root = b * b - 4.0 * a * c;
            if root < 0.0 {
                return None;
            }
            let t = (-b - root.sqrt()) / (2.0 * a);
            let (px, pz) = (ex + t * wx, ez + t * wz);
            let angle = px.atan2(-pz);
            let (s, l) = (angle * radius, along(eye) + t * along(way));
            (u, v) = (s * cos - l * sin, s * sin + l * cos);
            light = 0.35 + 0.65 * angle.cos().max(0.0);
        } else {
            let mut t = -eye[2] / way[2];
            (u, v) = (eye[0] + t * way[0], eye[1] + t * way[1]);
            let mut shade = 1.0;
            if !self.sheet.waves.is_empty() {
                for _ in 0..4 {
                    let (tall, slope) = self.height(u, v);
                    t = (-tall - eye[2]) / way[2];
                    (u, v) = (eye[0] + t * way[0], eye[1] + t * way[1]);
                    shade = (1.0 + 0.9 * slope).clamp(0.45, 1.3);
                }
            }
            light = shade;
        }
        let on = u.abs() < self.reach && v.abs() < self.reach;
        u += self.half;
        v += self.half;
        on.then_some((u, v, light))
    }

    /// The pixel that sees a place of the flat sheet.
    pub(super) fn pixel_of(&self, u: f64, v: f64) -> (f64, f64) {
        let p = [u - self.half, v - self.half, 0.0];
        let c: [f64; 3] = std::array::from_fn(|i| (0..3).map(|j| self.rows[i][j] * p[j]).sum());
        let deep = c[2] + self.distance;
        (self.centre.0 + self.focal * c[0] / deep, self.centre.1 + self.focal * c[1] / deep)
    }
}
