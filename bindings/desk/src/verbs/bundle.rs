//! `bundle`: sync by file, or by the frames of a moving code.

use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use slingseal_app::{App, AppError, BundleReport, BundleRequest, FrameTaken, MovingReader, read_picture};

use super::Setting;
use crate::cli::BundleVerb;
use crate::console::Shown;
use crate::input;
use crate::output::{PIXELS, bad_input, counted, print_json, put_code, told, write, write_whole};

pub(crate) fn run(setting: &Setting, verb: BundleVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        BundleVerb::Have { out } => {
            let code = app.have_code()?;
            let files = put_code(&code, out.as_deref(), "have")?;
            told(&files);
        }
        BundleVerb::Write { out, have, no_photos, frames, spare } => {
            let have = have.as_deref().map(input::code).transpose()?;
            if frames {
                write_frames(setting, &app, have.as_deref(), &out, spare)?;
            } else {
                write_file(setting, &app, BundleRequest { have, photos: !no_photos }, &out)?;
            }
        }
        BundleVerb::Read { files } => {
            let report = read(setting, &app, &files)?;
            tell(setting, &report);
            if !report.set_aside.is_empty() {
                return Ok(ExitCode::FAILURE);
            }
        }
    }
    Ok(ExitCode::SUCCESS)
}

fn write_file(setting: &Setting, app: &App, request: BundleRequest, out: &Path) -> Result<(), AppError> {
    let made = write_whole(out, |file| app.bundle_write(&request, file))?;
    if setting.json {
        print_json(&made);
    } else {
        let (records, papers) = (counted(made.records, "record"), counted(made.papers, "paper"));
        println!("{records}, {papers}, {}", counted(made.photos, "photograph"));
        made.left_out.iter().for_each(|line| println!("  ! {line}"));
        told(&[out.to_owned()]);
    }
    Ok(())
}

fn write_frames(
    setting: &Setting,
    app: &App,
    have: Option<&str>,
    out: &Path,
    spare: u32,
) -> Result<(), AppError> {
    let moving = app.moving_code(have)?;
    let enough = moving.enough();
    let frames = enough.saturating_mul(100u32.saturating_add(spare)).div_ceil(100).max(enough);
    for number in 0..frames {
        write(&out.join(format!("frame-{number:05}.png")), &moving.frame(number)?.png(PIXELS)?)?;
    }
    if setting.json {
        print_json(&serde_json::json!({ "frames": frames, "enough": enough, "made": moving.made() }));
    } else {
        println!("{frames} frames, {enough} of which are enough, in any order");
        let made = moving.made();
        println!("  {}, {}", counted(made.records, "record"), counted(made.papers, "paper"));
    }
    Ok(())
}

fn read(setting: &Setting, app: &App, files: &[PathBuf]) -> Result<BundleReport, AppError> {
    let mut pictures = Vec::new();
    for file in files {
        if file.is_dir() {
            pictures.extend(pictures_in(file)?);
        } else if is_picture(file) {
            pictures.push(file.clone());
        }
    }
    if pictures.is_empty() {
        let [file] = files else {
            return Err(bad_input("name one bundle, or the pictures of a moving code, or their folder"));
        };
        let opened = File::open(file)
            .map_err(|error| bad_input(format!("{}: {error}; name a file that can be read", file.shown())))?;
        let size = opened.metadata().map(|data| data.len()).unwrap_or_default();
        return app.bundle_read(&mut BufReader::new(opened), &mut |progress| {
            if !setting.json && size > 1 << 20 {
                eprint!("{:3} %  {} items", progress.bytes.saturating_mul(100) / size.max(1), progress.items);
            }
        });
    }
    let mut reader = MovingReader::new();
    let mut last = None;
    for picture in &pictures {
        // A picture that does not read is a lost frame, and the code was made for that.
        for text in read_picture(&input::file(picture)?).unwrap_or_default() {
            match reader.take(&text) {
                Ok(FrameTaken::Whole(bundle)) => return app.bundle_read(&mut bundle.as_slice(), &mut |_| {}),
                Ok(FrameTaken::More { taken, enough }) => last = Some((taken, enough)),
                Err(error) => eprintln!("slingseal: {}: {error}", picture.shown()),
            }
        }
    }
    Err(bad_input(match last {
        Some((taken, enough)) => {
            format!("{taken} frames were read and {enough} are enough; take more pictures")
        }
        None => "no frame of a moving code can be read in these pictures; take them closer and flat".into(),
    }))
}

fn is_picture(file: &Path) -> bool {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase());
    matches!(ending.as_deref(), Some("png" | "jpg" | "jpeg"))
}

fn pictures_in(folder: &Path) -> Result<Vec<PathBuf>, AppError> {
    let failed = |error: std::io::Error| {
        bad_input(format!("{}: {error}; name a folder that can be read", folder.shown()))
    };
    let mut pictures = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if is_picture(&path) {
            pictures.push(path);
        }
    }
    pictures.sort();
    Ok(pictures)
}

fn tell(setting: &Setting, report: &BundleReport) {
    if setting.json {
        print_json(report);
        return;
    }
    println!(
        "{} new, {} completed, {} known; {} and {} new",
        counted(report.new, "record"),
        report.completed,
        report.known,
        counted(report.papers, "paper"),
        counted(report.photos, "photograph")
    );
    for line in &report.set_aside {
        println!("  SET ASIDE {} ({}): {}", line.place, line.kind, line.reason);
    }
    for warning in &report.warnings {
        println!("  ! {warning}");
    }
}
