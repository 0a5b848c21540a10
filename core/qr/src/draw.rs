use std::fmt::Write as _;

use super::write::{Code, QUIET_ZONE};

/// Pixels a module and modules of quiet zone beyond which a picture is of no use to anyone.
const MOST_SCALE: u32 = 40;
const MOST_QUIET: u32 = 20;

impl Code {
    /// The code as a PNG of one bit a pixel: `scale` pixels a module (1 to 40), `quiet` modules of quiet zone (to 20);
    /// values outside are brought inside. Same code, same bytes.
    pub fn to_png(&self, scale: u32, quiet: u32) -> Vec<u8> {
        let (scale, quiet) = (scale.clamp(1, MOST_SCALE), quiet.min(MOST_QUIET));
        let side = (self.size() + 2 * quiet) * scale;
        let mut rows = Vec::new();
        for y in 0..side {
            let row = (y / scale).checked_sub(quiet);
            let dark = |x: u32| match ((x / scale).checked_sub(quiet), row) {
                (Some(column), Some(row)) => self.is_dark(column, row),
                _ => false,
            };
            let pixel = |x: u32| u8::from(x >= side || !dark(x));
            rows.extend(
                (0..side.div_ceil(8))
                    .map(|byte| (0..8).fold(0, |bits, bit| bits << 1 | pixel(byte * 8 + bit))),
            );
        }
        let mut out = Vec::new();
        let mut encoder = png::Encoder::new(&mut out, side, side);
        encoder.set_color(png::ColorType::Grayscale);
        encoder.set_depth(png::BitDepth::One);
        encoder
            .write_header()
            .and_then(|mut writer| writer.write_image_data(&rows))
            .expect("a vector takes every write and the size is never zero");
        out
    }

    /// The code as an SVG, one unit a module, with the quiet zone of the standard.
    pub fn to_svg(&self) -> String {
        let side = self.size() + 2 * QUIET_ZONE;
        let mut path = String::new();
        for row in 0..self.size() {
            let mut column = 0;
            while column < self.size() {
                let run = (column..self.size()).take_while(|&at| self.is_dark(at, row)).count();
                let run = u32::try_from(run).unwrap_or(0);
                if run > 0 {
                    let (x, y) = (column + QUIET_ZONE, row + QUIET_ZONE);
                    // Writing to a string cannot fail.
                    let _ = write!(path, "M{x} {y}h{run}v1h-{run}z");
                }
                column += run.max(1);
            }
        }
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" \
             shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/>\
             <path fill=\"#000\" d=\"{path}\"/></svg>\n"
        )
    }

    /// The code for a terminal: two rows of modules a line in half blocks, with the quiet zone of the standard.
    ///
    /// Colours are forced (black on white by ANSI SGR), because on a dark terminal plain blocks come out inverted and
    /// many readers refuse that.
    pub fn to_terminal(&self) -> String {
        let side = self.size() + 2 * QUIET_ZONE;
        let dark = |x: u32, y: u32| match (x.checked_sub(QUIET_ZONE), y.checked_sub(QUIET_ZONE)) {
            (Some(column), Some(row)) => self.is_dark(column, row),
            _ => false,
        };
        let mut out = String::new();
        for y in (0..side).step_by(2) {
            out.push_str("\u{1b}[38;5;16;48;5;231m");
            out.extend((0..side).map(|x| match (dark(x, y), dark(x, y + 1)) {
                (false, false) => ' ',
                (true, false) => '▀',
                (false, true) => '▄',
                (true, true) => '█',
            }));
            out.push_str("\u{1b}[0m\n");
        }
        out
    }
}
