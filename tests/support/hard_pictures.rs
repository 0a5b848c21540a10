//! Pictures that would cost a reader dear: noise of every grain, finder patterns without end, bombs of few bytes.

use image::{ExtendedColorType, ImageEncoder as _};

/// A name, and a file.
pub type HardPicture = (&'static str, Vec<u8>);

/// Bytes that repeat from run to run (xorshift64, Marsaglia 2003).
struct Noise(u64);

impl Noise {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }
}

/// Grey noise in squares of `grain` pixels; `levels` of brightness.
fn noise(width: usize, height: usize, grain: usize, levels: u64) -> Vec<u8> {
    let mut dice = Noise(0x9e37_79b9_7f4a_7c15);
    let across = width.div_ceil(grain);
    let cells: Vec<u8> = (0..across * height.div_ceil(grain))
        .map(|_| ((dice.next() >> 33) % levels * 255 / (levels - 1)) as u8)
        .collect();
    (0..width * height).map(|at| cells[at / width / grain * across + at % width / grain]).collect()
}

/// Finder patterns side by side, three pixels a module.
fn finders(width: usize, height: usize, module: usize) -> Vec<u8> {
    let dark = |u: usize, v: usize| {
        let far = u.abs_diff(4).max(v.abs_diff(4));
        far <= 1 || far == 3
    };
    (0..width * height)
        .map(|at| if dark(at % width / module % 9, at / width / module % 9) { 0 } else { 255 })
        .collect()
}

/// Every row a finder pattern after the other, and no column one.
fn bars(width: usize, height: usize, module: usize) -> Vec<u8> {
    let row = finders(width, 5 * module, module).split_off(4 * module * width);
    row[..width].repeat(height)
}

fn png(width: usize, height: usize, colour: ExtendedColorType, bytes: &[u8]) -> Vec<u8> {
    let mut file = Vec::new();
    image::codecs::png::PngEncoder::new(&mut file)
        .write_image(bytes, width as u32, height as u32, colour)
        .expect("a picture of the right size");
    file
}

/// One bit a pixel: a file of 1.4 MB holds eleven million of them.
fn png_of_bits(width: usize, height: usize) -> Vec<u8> {
    let mut dice = Noise(7);
    let bytes: Vec<u8> = (0..width.div_ceil(8) * height).map(|_| (dice.next() >> 40) as u8).collect();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width as u32, height as u32);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::One);
    encoder.write_header().and_then(|mut out| out.write_image_data(&bytes)).expect("a picture of bits");
    file
}

fn jpeg(width: usize, height: usize, bytes: &[u8], quality: u8) -> Vec<u8> {
    let mut file = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut file, quality)
        .write_image(bytes, width as u32, height as u32, ExtendedColorType::L8)
        .expect("a picture of the right size");
    file
}

/// Small ones for every run of the tests; all of them for the measurement.
pub fn hard_pictures(all: bool) -> Vec<HardPicture> {
    let grey = ExtendedColorType::L8;
    let colour = |width: usize, height: usize| {
        let grains = noise(3 * width, height, 1, 256);
        png(width, height, ExtendedColorType::Rgb8, &grains)
    };
    let mut pictures = vec![
        ("noise, 160 x 120", png(160, 120, grey, &noise(160, 120, 1, 256))),
        ("coloured noise, 120 x 90", colour(120, 90)),
        ("finder patterns, 240 x 180", png(240, 180, grey, &finders(240, 180, 3))),
    ];
    if all {
        let bomb = |width: usize, height: usize| png(width, height, grey, &vec![0; width * height]);
        pictures.extend([
            ("noise, 640 x 480", png(640, 480, grey, &noise(640, 480, 1, 256))),
            ("coloured noise, 640 x 480", colour(640, 480)),
            ("grains of 3 pixels, 640 x 480", png(640, 480, grey, &noise(640, 480, 3, 2))),
            ("noise, 1.4 MB of 1200 x 1200", png(1200, 1200, grey, &noise(1200, 1200, 1, 256))),
            ("coloured noise, 700 x 700", colour(700, 700)),
            ("bits, 1.4 MB of 3350 x 3350", png_of_bits(3350, 3350)),
            ("bits of 8000 x 8000", png_of_bits(8000, 8000)),
            ("coloured noise, 3000 x 3000", colour(3000, 3000)),
            ("grains of 2 pixels, 3600 x 3600", png(3600, 3600, grey, &noise(3600, 3600, 2, 2))),
            ("grains of 3 pixels, 3600 x 3600", png(3600, 3600, grey, &noise(3600, 3600, 3, 2))),
            ("finder patterns, 1100 x 1100", png(1100, 1100, grey, &finders(1100, 1100, 2))),
            ("finder patterns, 3600 x 3600", png(3600, 3600, grey, &finders(3600, 3600, 1))),
            ("finder patterns of 3 pixels, 3600 x 3600", png(3600, 3600, grey, &finders(3600, 3600, 3))),
            ("bars as finder patterns, 3600 x 3600", png(3600, 3600, grey, &bars(3600, 3600, 2))),
            ("finder patterns of 2 pixels, 3600 x 3600", png(3600, 3600, grey, &finders(3600, 3600, 2))),
            ("black, 8000 x 8000 of few bytes", bomb(8000, 8000)),
            ("black, 16384 x 3906 of few bytes", bomb(16_384, 3_906)),
            ("noise, JPEG of 8000 x 6000", jpeg(8000, 6000, &noise(8000, 6000, 4, 256), 60)),
        ]);
    }
    pictures
}
