//! How often codes are read from degraded pictures, by kind of damage, beside three independent readers.
//!
//! `cargo run --release -p slingseal-tests --bin read_bench [-- [dev|test] [fair] [PICTURES_A_KIND] [KIND] [ours]]`
//! The default is the test seed with 80 pictures a kind in bad weather. In `fair` weather each kind goes so far that
//! rxing alone reads about 71 % of the usual kinds on the development seed; `dev calibrate` shows how that was set. Tuning looks at `dev`
//! only. `print` measures what we print and show, by our reader of one frame. `ours` leaves the other readers out.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;

use slingseal_qr::{self as qr, Effort, SceneReader};
use slingseal_tests::degrade::{self, DEVELOPMENT_SEED, Damage, Shot, TEST_SEED, Weather};

/// Who reads, in the order of the table.
const READERS: [&str; 6] = ["rqrr", "zedbar", "rxing", "ours frame", "ours still", "ours 5 frames"];
const FRAMES: usize = 5;

#[derive(Clone, Default)]
struct Tally {
    pictures: usize,
    read: [usize; 6],
    wrong: [usize; 6],
    millis: [Vec<f64>; 6],
}

impl Tally {
    fn add(&mut self, more: &Self) {
        self.pictures += more.pictures;
        for reader in 0..READERS.len() {
            self.read[reader] += more.read[reader];
            self.wrong[reader] += more.wrong[reader];
            self.millis[reader].extend(&more.millis[reader]);
        }
    }
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let seed = if words.iter().any(|word| word == "dev") { DEVELOPMENT_SEED } else { TEST_SEED };
    let count = words.iter().find_map(|word| word.parse().ok()).unwrap_or(80);
    let only = words.iter().find(|word| Damage::ALL.iter().any(|kind| kind.name() == word.as_str()));
    let weather = if words.iter().any(|word| word == "fair") { Weather::Fair } else { Weather::Bad };
    if words.iter().any(|word| word == "print") {
        return print_and_show(weather, seed, count);
    }
    if words.iter().any(|word| word == "calibrate") {
        return calibrate(seed, count);
    }
    let ours_alone = words.iter().any(|word| word == "ours");
    let which = if seed == TEST_SEED { "test" } else { "development" };
    println!(
        "seed {seed} ({which}), {weather:?} weather, {count} pictures a kind, 640 by 480 pixels; per cent read \
         (wrong reads)\n"
    );
    println!("| damage | {} |", READERS.join(" | "));
    println!("|---|{}", "---:|".repeat(READERS.len()));
    // A library that stumbles is counted as not reading; its message would only clutter the table.
    std::panic::set_hook(Box::new(|_| {}));
    let mut all = Tally::default();
    let mut usual = Tally::default();
    for kind in Damage::ALL {
        if only.is_some_and(|name| name != kind.name()) {
            continue;
        }
        let mut tally = Tally::default();
        for number in 0..count {
            look(&degrade::scene_in(weather, seed, number, kind), ours_alone, &mut tally);
        }
        row(kind.name(), &tally);
        if Damage::USUAL.contains(&kind) {
            usual.add(&tally);
        }
        all.add(&tally);
    }
    row("**the usual eight**", &usual);
    row("**all**", &all);
    for (name, tally) in [("the usual eight", &usual), ("all", &all)] {
        for (what, share) in [("median", 0.5), ("95th percentile", 0.95), ("longest", 1.0)] {
            let spots: Vec<String> =
                tally.millis.iter().map(|times| format!("{:.1}", percentile(times, share))).collect();
            println!("| {what} of {name}, ms | {} |", spots.join(" | "));
        }
    }
}

/// What we print and show: one frame by our reader.
fn print_and_show(weather: Weather, seed: u64, count: usize) {
    let read = |scene: &degrade::Scene| scene.shot().read().as_deref() == Some(scene.text());
    let line = |what: &str, read: &mut dyn FnMut(usize) -> bool| {
        let hits = (0..count).filter(|&number| read(number)).count();
        println!("| {what} | {hits} of {count} |");
    };
    println!(
        "seed {seed}, {weather:?} weather, {count} codes a line, one frame\n\n| what | read |\n|---|---:|"
    );
    use degrade::Level;
    for kind in [Damage::Mud, Damage::Blur, Damage::Mixed] {
        for (name, level) in [("L", Level::L), ("M", Level::M), ("Q", Level::Q), ("H", Level::H)] {
            line(&format!("level {name} in the same space, {}", kind.name()), &mut |number| {
                read(&degrade::scene_at_level(weather, seed, number, kind, level))
            });
        }
    }
    for quiet in [0.0, 0.5, 1.0, 2.0, 4.0] {
        line(&format!("quiet zone of {quiet} modules, clean"), &mut |number| {
            read(&degrade::scene_in(weather, seed, number, Damage::Clean).with_quiet(quiet))
        });
    }
    for pixels in [1.2, 1.5, 1.8, 2.1, 2.5, 3.0] {
        line(&format!("{pixels} pixels a module, clean"), &mut |number| {
            read(&degrade::scene_in(weather, seed, number, Damage::Clean).at_scale(pixels))
        });
    }
    for kind in [Damage::Mud, Damage::Wrinkles] {
        line(&format!("one copy, {}", kind.name()), &mut |number| {
            read(&degrade::scene_in(weather, seed, number, kind))
        });
        // Two copies on one sheet have their own mud and folds.
        line(&format!("either of two copies, {}", kind.name()), &mut |number| {
            [number, count + number].iter().any(|&n| read(&degrade::scene_in(weather, seed, n, kind)))
        });
    }
}

/// The rate of rxing alone by how far the damage goes.
fn calibrate(seed: u64, count: usize) {
    println!("seed {seed}, {count} pictures a kind; per cent that rxing reads");
    for severity in [0.2, 0.3, 0.4, 0.5, 0.6] {
        let mut read = Vec::new();
        for kind in Damage::ALL {
            let shots = (0..count).map(|number| {
                let shot = degrade::scene_in(Weather::Of(severity), seed, number, kind).shot();
                let texts = catch_unwind(AssertUnwindSafe(|| by_rxing(&shot, &shot.luminance())));
                usize::from(texts.unwrap_or_default().contains(&shot.text))
            });
            read.push(100.0 * shots.sum::<usize>() as f64 / count.max(1) as f64);
        }
        let mean = |kinds: &[Damage]| {
            let rates = Damage::ALL.iter().zip(&read).filter(|(kind, _)| kinds.contains(kind));
            rates.map(|(_, rate)| rate).sum::<f64>() / kinds.len() as f64
        };
        let kinds: Vec<String> =
            Damage::ALL.iter().zip(&read).map(|(kind, rate)| format!("{} {rate:.0}", kind.name())).collect();
        println!(
            "{severity}: the usual eight {:.1}, all {:.1} ({})",
            mean(&Damage::USUAL),
            mean(&Damage::ALL),
            kinds.join(", ")
        );
    }
}

fn row(name: &str, tally: &Tally) {
    let cells: Vec<String> = tally
        .read
        .iter()
        .zip(tally.wrong)
        .map(|(&read, wrong)| {
            let share = 100.0 * read as f64 / tally.pictures.max(1) as f64;
            if wrong > 0 { format!("{share:.1} ({wrong})") } else { format!("{share:.1}") }
        })
        .collect();
    println!("| {name} | {} |", cells.join(" | "));
}

fn percentile(times: &[f64], share: f64) -> f64 {
    let mut sorted = times.to_vec();
    sorted.sort_by(f64::total_cmp);
    let at = ((sorted.len() as f64 - 1.0) * share).round() as usize;
    sorted.get(at).copied().unwrap_or(f64::NAN)
}

fn look(scene: &degrade::Scene, ours_alone: bool, tally: &mut Tally) {
    let shot = scene.shot();
    let grey = shot.luminance();
    let png = shot.png();
    tally.pictures += 1;
    let mut count = |reader: usize, read: &mut dyn FnMut() -> Vec<String>| {
        let start = now();
        let texts = catch_unwind(AssertUnwindSafe(&mut *read)).unwrap_or_default();
        tally.millis[reader].push((now() - start).as_secs_f64() * 1000.0);
        // A reader that gives the right text and a wrong one has read wrong too.
        tally.read[reader] += usize::from(texts.iter().any(|text| text == scene.text()));
        tally.wrong[reader] += texts.iter().filter(|text| *text != scene.text()).count();
    };
    if !ours_alone {
        count(0, &mut || by_rqrr(&shot, &grey));
        count(1, &mut || by_zedbar(&shot, &grey));
        count(2, &mut || by_rxing(&shot, &grey));
    }
    // No signature helps us here: whatever is read first counts, right or wrong.
    count(3, &mut || {
        qr::read_luminance(shot.width, shot.height, shot.width, &grey, &mut |_| true, Effort::Frame)
            .expect("the frame is whole")
            .into_iter()
            .collect()
    });
    count(4, &mut || qr::read_picture(&png).expect("our PNG is a picture"));
    let mut reader = SceneReader::new();
    let mut texts = Vec::new();
    let mut spent = 0.0;
    for number in 0..FRAMES {
        let frame = scene.frame(number);
        let grey = frame.luminance();
        let start = now();
        let read = reader
            .take(frame.width, frame.height, frame.width, &grey, &mut |_| true)
            .expect("the frame is whole");
        spent += (now() - start).as_secs_f64() * 1000.0;
        if let Some(text) = read {
            texts.push(text);
            break;
        }
    }
    count(5, &mut || std::mem::take(&mut texts));
    if let Some(last) = tally.millis[5].last_mut() {
        *last = spent;
    }
}

/// What this thread has had of the processor: all readers work in the thread that calls them, and other programs on
/// the machine do not count.
fn now() -> Duration {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    Duration::new(time.tv_sec as u64, time.tv_nsec as u32)
}

fn by_rqrr(shot: &Shot, grey: &[u8]) -> Vec<String> {
    let mut prepared =
        rqrr::PreparedImage::prepare_from_greyscale(shot.width, shot.height, |x, y| grey[y * shot.width + x]);
    prepared.detect_grids().iter().filter_map(|grid| Some(grid.decode().ok()?.1)).collect()
}

fn by_zedbar(shot: &Shot, grey: &[u8]) -> Vec<String> {
    let config = zedbar::DecoderConfig::new().enable(zedbar::config::QrCode).test_inverted(true);
    let mut image = zedbar::Image::from_gray(grey, shot.width as u32, shot.height as u32).expect("whole");
    let result = zedbar::Scanner::with_config(config).scan(&mut image);
    result.symbols().iter().filter_map(|symbol| symbol.data_string().map(str::to_owned)).collect()
}

/// The library's own reader, once, as anyone would call it: hybrid threshold, also inverted.
fn by_rxing(shot: &Shot, grey: &[u8]) -> Vec<String> {
    use rxing::common::HybridBinarizer;
    use rxing::qrcode::cpp_port::QrReader;
    use rxing::{BinaryBitmap, DecodeHints, Luma8Source, Reader as _};
    let source = Luma8Source::new_with_slice(grey, shot.width as u32, shot.height as u32).expect("whole");
    let mut bitmap = BinaryBitmap::new(HybridBinarizer::new(source));
    let hints = DecodeHints { TryHarder: Some(true), ..DecodeHints::default() };
    QrReader.decode_with_hints(&mut bitmap, &hints).iter().map(|result| result.getText().to_owned()).collect()
}
