//! A seeded generator of code pictures as a camera gives them on a pickup zone: tilted, blurred, muddy, glaring, dark.
//!
//! A picture is a sheet in space, looked at by a pinhole camera: every pixel is traced back to the sheet, so that tilt,
//! curve and wrinkles are geometry, and mud, ink and light lie on the sheet. Lens and sensor come after.
//! The same seed, number and damage give the same picture.

use std::f64::consts::TAU;

use slingseal_qr as qr;

/// Tuning looks at this seed only.
pub const DEVELOPMENT_SEED: u64 = 20_261_125;
/// Reported figures come from this seed; nothing is tuned on it.
pub const TEST_SEED: u64 = 7_041_776;

/// What is wrong with a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Held straight, in good light.
    Clean,
    /// Seen from the side: 25 to 50 degrees.
    Tilt,
    /// Seen from far to the side: 50 to 68 degrees.
    SteepTilt,
    /// Out of focus: sigma 0.2 to 0.8 module.
    Blur,
    /// The hand or the load moves: a streak of 0.8 to 2.6 modules.
    Motion,
    /// Blots of mud over 1 to 8 % of the code.
    Mud,
    /// A lamp or the sun mirrored in the pouch.
    Glare,
    /// Dusk: few photons.
    LowLight,
    /// A crumpled sheet.
    Wrinkles,
    /// Round a drum or a leg.
    Curved,
    /// Faded or wet: 8 to 30 grey levels between ink and paper.
    LowContrast,
    /// A screen in night colours, red on black or black on red among them.
    NightScreen,
    /// Two or three of these together, each milder.
    Mixed,
}

impl Damage {
    /// Every kind, in the order of the table.
    pub const ALL: [Self; 13] = [
        Self::Clean,
        Self::Tilt,
        Self::SteepTilt,
        Self::Blur,
        Self::Motion,
        Self::Mud,
        Self::Glare,
        Self::LowLight,
        Self::Wrinkles,
        Self::Curved,
        Self::LowContrast,
        Self::NightScreen,
        Self::Mixed,
    ];

    /// The kinds of an earlier measurement of readers, which read 71 % by rxing alone: tilt, blur, mud, glare, low light,
    /// wrinkles, night screens.
    pub const USUAL: [Self; 8] = [
        Self::Tilt,
        Self::SteepTilt,
        Self::Blur,
        Self::Mud,
        Self::Glare,
        Self::LowLight,
        Self::Wrinkles,
        Self::NightScreen,
    ];

    /// How the table calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Clean => "clean",
            Self::Tilt => "tilt 25-50 deg",
            Self::SteepTilt => "tilt 50-68 deg",
            Self::Blur => "out of focus",
            Self::Motion => "motion",
            Self::Mud => "mud",
            Self::Glare => "glare",
            Self::LowLight => "low light",
            Self::Wrinkles => "wrinkles",
            Self::Curved => "curved",
            Self::LowContrast => "low contrast",
            Self::NightScreen => "night screen",
            Self::Mixed => "mixed",
        }
    }
}

/// Randomness that repeats: SplitMix64 (Steele, Lea, Flood 2014).
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// Dice that fall the same for the same seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from `low` up to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A whole number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.bits() % end as u64) as usize
    }

    /// A normal deviate (sum of twelve).
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.between(-0.5, 0.5)).sum()
    }
}

/// A picture, with what its code says.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Red, green, blue, row by row.
    pub rgb: Vec<u8>,
    /// What the code says.
    pub text: String,
}

impl Shot {
    /// Luminance, ITU-R BT.601.
    pub fn luminance(&self) -> Vec<u8> {
        let weigh = |p: &[u8]| {
            let [r, g, b] = [p[0], p[1], p[2]].map(u32::from);
            ((299 * r + 587 * g + 114 * b + 500) / 1000) as u8
        };
        self.rgb.chunks_exact(3).map(weigh).collect()
    }

    /// What our reader takes from it as one frame of a running camera.
    ///
    /// # Panics
    /// Where the picture is not whole.
    pub fn read(&self) -> Option<String> {
        let grey = self.luminance();
        qr::read_luminance(self.width, self.height, self.width, &grey, &mut |_| true, qr::Effort::Frame)
            .expect("the frame is whole")
    }

    /// The picture as a PNG.
    pub fn png(&self) -> Vec<u8> {
        let mut out = std::io::Cursor::new(Vec::new());
        image::RgbImage::from_raw(self.width as u32, self.height as u32, self.rgb.clone())
            .expect("three bytes a pixel")
            .write_to(&mut out, image::ImageFormat::Png)
            .expect("a vector takes every write");
        out.into_inner()
    }
}

/// How much of a code is check codewords (ISO/IEC 18004): the four levels.
pub use fast_qr::ECL as Level;

/// A code's modules, whoever wrote it.
#[derive(Clone, Debug)]
struct Modules {
    size: u32,
    dark: Vec<bool>,
}

impl Modules {
    fn size(&self) -> u32 {
        self.size
    }

    fn is_dark(&self, column: u32, row: u32) -> bool {
        column < self.size && row < self.size && self.dark[(row * self.size + column) as usize]
    }

    /// As we write it: level M.
    fn ours(text: &str) -> Self {
        let code = qr::write(text).expect("the text is alphanumeric");
        Self { size: code.size(), dark: code.modules().to_vec() }
    }

    /// At any level, by an independent writer.
    fn at_level(text: &str, level: Level) -> Self {
        let written = fast_qr::QRBuilder::new(text).ecl(level).mode(fast_qr::Mode::Alphanumeric).build();
        let code = written.expect("the text is short");
        let dark =
            (0..code.size).flat_map(|row| code[row].iter().take(code.size)).map(|module| module.value());
        Self { size: code.size as u32, dark: dark.collect() }
    }
}

/// What stays the same from frame to frame.
#[derive(Clone, Debug)]
pub struct Scene {
    code: Modules,
    text: String,
    sheet: Sheet,
    look: Look,
    dice: Dice,
}

#[derive(Clone, Debug)]
struct Sheet {
    /// Modules of bare paper round the code.
    quiet: f64,
    /// Blots: centre, radius, darkness from 0 (light mud) to 1.
    blots: Vec<(f64, f64, f64, f64)>,
    /// Share of the circumference that the code goes round, in radians over its width; its axis.
    bend: f64,
    bend_axis: f64,
    /// Waves of a crumpled sheet: wave vector, phase, height in modules.
    waves: Vec<(f64, f64, f64, f64)>,
    ink: [f64; 3],
    paper: [f64; 3],
}

#[derive(Clone, Debug)]
struct Look {
    tilt: f64,
    tilt_axis: f64,
    turn: f64,
    /// Pixels a module.
    scale: f64,
    /// Sigma in modules.
    blur: f64,
    /// Modules.
    streak: f64,
    /// Grey levels, sigma.
    noise: f64,
    /// Light at the left against the right.
    shade: f64,
    /// Glare: radius in modules, strength in grey levels.
    glare: (f64, f64),
    /// Everything times this.
    exposure: f64,
    jpeg: Option<u8>,
    width: usize,
    height: usize,
}

/// A text of one of our two sizes: three seals (about 475 characters) to one tag (700 to 1000).
fn text(dice: &mut Dice) -> String {
    let set = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    let tag = dice.below(4) == 0;
    let length = if tag { 700 + dice.below(300) } else { 455 + dice.below(26) };
    let head = if tag { "LT1:" } else { "SL1:" };
    head.chars().chain((0..length - 4).map(|_| char::from(set[dice.below(set.len())]))).collect()
}

/// How far each kind of damage goes: one number for all kinds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Weather {
    /// To the ends of the ranges that [`Damage`] names.
    Bad,
    /// So far that the library's own reader (rxing), alone, reads about 71 of 100 pictures of the [`Damage::USUAL`]
    /// kinds under the development seed. Set by that reader's rate and by nothing else: `read_bench dev calibrate`
    /// prints it for a row of severities.
    Fair,
    /// Any share of the ranges, for setting the other two.
    Of(f64),
}

impl Weather {
    fn severity(self) -> f64 {
        match self {
            Self::Bad => 1.0,
            Self::Fair => 0.5,
            Self::Of(share) => share,
        }
    }
}

/// The scene of a number under a seed in bad weather. Pictures are 640 by 480: 0.3 megapixel.
pub fn scene(seed: u64, number: usize, damage: Damage) -> Scene {
    scene_in(Weather::Bad, seed, number, damage)
}

/// [`scene`] in a weather.
pub fn scene_in(weather: Weather, seed: u64, number: usize, damage: Damage) -> Scene {
    scene_of(weather, seed, number, damage, &Modules::ours)
}

/// [`scene_in`] with a code of another level: as wide in the picture, so that more modules are smaller ones.
pub fn scene_at_level(weather: Weather, seed: u64, number: usize, damage: Damage, level: Level) -> Scene {
    scene_of(weather, seed, number, damage, &|text| Modules::at_level(text, level))
}

fn scene_of(
    weather: Weather,
    seed: u64,
    number: usize,
    damage: Damage,
    write: &dyn Fn(&str) -> Modules,
) -> Scene {
    let kind = Damage::ALL.iter().position(|other| *other == damage).unwrap_or(0) as u64;
    let mut dice = Dice::new(seed ^ (kind << 32) ^ ((number as u64) << 40));
    let text = text(&mut dice);
    let code = write(&text);
    let (width, height) = (640, 480);
    let mut sheet = Sheet {
        quiet: dice.between(4.0, 8.0),
        blots: Vec::new(),
        bend: 0.0,
        bend_axis: 0.0,
        waves: Vec::new(),
        ink: [dice.between(20.0, 60.0); 3],
        paper: [dice.between(170.0, 235.0); 3],
    };
    let mut look = Look {
        tilt: dice.between(0.0, 0.2),
        tilt_axis: dice.between(0.0, TAU),
        turn: if dice.below(3) == 0 { dice.between(0.0, TAU) } else { dice.between(-0.2, 0.2) },
        scale: 1.0,
        blur: dice.between(0.05, 0.15),
        streak: 0.0,
        noise: dice.between(1.0, 3.0),
        shade: dice.between(-0.15, 0.15),
        glare: (0.0, 0.0),
        exposure: 1.0,
        jpeg: (dice.below(2) == 0).then(|| 60 + dice.below(36) as u8),
        width,
        height,
    };
    let mild = weather.severity() * if damage == Damage::Mixed { 0.5 } else { 1.0 };
    let kinds = match damage {
        Damage::Mixed => {
            let mut kinds = vec![Damage::ALL[1 + dice.below(11)]];
            for _ in 0..1 + dice.below(2) {
                kinds.push(Damage::ALL[1 + dice.below(11)]);
            }
            kinds
        }
        one => vec![one],
    };
    for kind in kinds {
        apply(kind, mild, &code, &mut sheet, &mut look, &mut dice);
    }
    look.scale = filling(&look, f64::from(code.size()), &sheet) * dice.between(0.78, 0.96);
    Scene { code, text, sheet, look, dice }
}

/// The scale at which the code just fills the picture.
fn filling(look: &Look, size: f64, sheet: &Sheet) -> f64 {
    let fits = |scale: f64| {
        let look = Look { scale, ..look.clone() };
        let tracer = Tracer::new(&look, (0.0, 0.0), size, sheet);
        [(0.0, 0.0), (size, 0.0), (0.0, size), (size, size)].iter().all(|&(u, v)| {
            let (x, y) = tracer.pixel_of(u, v);
            x > 10.0 && y > 10.0 && x < look.width as f64 - 10.0 && y < look.height as f64 - 10.0
        })
    };
    let mut scale = 0.5;
    while scale < 40.0 && fits(scale * 1.02) {
        scale *= 1.02;
    }
    scale
}

fn apply(kind: Damage, mild: f64, code: &Modules, sheet: &mut Sheet, look: &mut Look, dice: &mut Dice) {
    let size = f64::from(code.size());
    let mut up_to = |low: f64, high: f64| low + (dice.between(low, high) - low) * mild;
    match kind {
        Damage::Clean | Damage::Mixed => {}
        Damage::Tilt => {
            look.tilt = up_to(25.0, 50.0).to_radians();
        }
        Damage::SteepTilt => {
            look.tilt = up_to(50.0 * (0.6 + 0.4 * mild), 68.0).to_radians();
        }
        Damage::Blur => look.blur = up_to(0.2, 0.8),
        Damage::Motion => look.streak = up_to(0.8, 2.6),
        Damage::Mud => {
            let share = up_to(0.01, 0.08);
            let mut covered = 0.0;
            while covered < share * size * size {
                let radius = dice.between(0.5, 4.5);
                let (x, y) = (dice.between(0.0, size), dice.between(0.0, size));
                sheet.blots.push((x, y, radius, dice.between(0.35, 0.95)));
                covered += TAU / 2.0 * radius * radius;
            }
        }
        Damage::Glare => {
            look.glare = (up_to(0.12, 0.4) * size, up_to(90.0, 260.0));
            look.shade = dice.between(-0.6, 0.6);
        }
        Damage::LowLight => {
            look.exposure = 0.35 - up_to(0.0, 0.27);
            look.noise = up_to(4.0, 11.0);
            look.shade = dice.between(-0.5, 0.5);
        }
        Damage::Wrinkles => {
            let height = up_to(0.5, 2.2);
            for _ in 0..5 {
                let (along, length) = (dice.between(0.0, TAU), dice.between(14.0, 45.0));
                let wave = TAU / length;
                let phase = dice.between(0.0, TAU);
                let tall = height * length / 30.0;
                sheet.waves.push((wave * along.cos(), wave * along.sin(), phase, tall));
            }
        }
        Damage::Curved => {
            sheet.bend = up_to(0.8, 2.2);
            sheet.bend_axis = if dice.below(2) == 0 { 0.0 } else { dice.between(0.0, TAU) };
            look.tilt = dice.between(0.0, 0.35);
        }
        Damage::LowContrast => {
            let contrast = 38.0 - up_to(8.0, 30.0);
            let paper = dice.between(60.0, 220.0);
            sheet.paper = [paper; 3];
            sheet.ink = [paper - contrast; 3];
            look.noise = dice.between(0.8, 2.0);
        }
        Damage::NightScreen => {
            let bright = 255.0 - up_to(0.0, 200.0);
            let dark = dice.between(0.0, 10.0);
            let red = |level: f64| [level, level * 0.06, level * 0.03];
            (sheet.ink, sheet.paper) = match dice.below(4) {
                0 => (red(dark), red(bright)),
                1 => (red(bright), red(dark)),
                2 => ([dark; 3], [bright * 0.4; 3]),
                _ => ([bright * 0.5; 3], [dark; 3]),
            };
            look.noise = dice.between(2.0, 5.0);
            look.shade = 0.0;
        }
    }
}

impl Scene {
    /// The first picture of the scene.
    pub fn shot(&self) -> Shot {
        self.frame(0)
    }

    /// A frame of a hand-held camera: pose, streak, glare and noise differ from frame to frame, the sheet does not.
    pub fn frame(&self, number: usize) -> Shot {
        let mut dice = Dice::new(self.dice.clone().bits() ^ ((number as u64) << 48));
        let mut look = self.look.clone();
        let shift = (dice.between(-12.0, 12.0), dice.between(-12.0, 12.0));
        let streak_way = dice.between(0.0, TAU);
        let glare_at = (dice.between(0.1, 0.9), dice.between(0.1, 0.9));
        if number > 0 {
            look.tilt = (look.tilt + dice.between(-0.07, 0.05)).max(0.0);
            look.tilt_axis += dice.between(-0.1, 0.1);
            look.turn += dice.between(-0.05, 0.05);
            look.scale *= dice.between(0.95, 1.04);
            look.blur *= dice.between(0.75, 1.25);
            look.streak *= dice.between(0.4, 1.2);
        }
        render(self, &look, shift, streak_way, glare_at, &mut dice)
    }

    /// The same scene from so far away that a module has this many pixels.
    pub fn at_scale(mut self, pixels: f64) -> Self {
        self.look.scale = pixels;
        self
    }

    /// The same scene with so many modules of bare paper round the code.
    pub fn with_quiet(mut self, modules: f64) -> Self {
        self.sheet.quiet = modules;
        self
    }

    /// What the code says.
    pub fn text(&self) -> &str {
        &self.text
    }
}

fn render(
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

/// From pixels to the sheet and back.
struct Tracer<'a> {
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
    fn new(look: &Look, shift: (f64, f64), size: f64, sheet: &'a Sheet) -> Self {
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
    fn sheet_at(&self, x: f64, y: f64) -> Option<(f64, f64, f64)> {
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
    fn pixel_of(&self, u: f64, v: f64) -> (f64, f64) {
        let p = [u - self.half, v - self.half, 0.0];
        let c: [f64; 3] = std::array::from_fn(|i| (0..3).map(|j| self.rows[i][j] * p[j]).sum());
        let deep = c[2] + self.distance;
        (self.centre.0 + self.focal * c[0] / deep, self.centre.1 + self.focal * c[1] / deep)
    }
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
