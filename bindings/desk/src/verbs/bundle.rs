//! `bundle`: sync by file, or by the frames of a moving code.

use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, BundleMade, BundleReport, BundleRequest, FrameTaken, MovingCode, MovingReader, Time,
    read_picture,
};

use super::{Setting, play};
use crate::cli::{BundleVerb, PartOfAccount};
use crate::console::Shown;
use crate::input;
use crate::output::{
    Answer, PIXELS, answer_code, bad_input, counted, plain, print_json, told, write, write_whole,
};

pub(crate) fn run(setting: &Setting, verb: BundleVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        BundleVerb::Have { out } => {
            let code = app.have_code()?;
            let said = "what this home has, for the other side to leave out: bundle write --have";
            answer_code(setting.json, &Answer { code: &code, more: () }, said, out.as_deref(), "have")?;
        }
        BundleVerb::Write { out, have, part, no_photos, frames, spare } => {
            let request = request(have.as_deref(), &part, !no_photos)?;
            if frames {
                write_frames(setting, &app, &request, &out, spare)?;
            } else {
                write_file(setting, &app, &request, &out)?;
            }
        }
        BundleVerb::Play { have, part, pace, rounds } => {
            play::run(&app, &request(have.as_deref(), &part, false)?, pace, rounds)?;
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

fn request(have: Option<&str>, part: &PartOfAccount, photos: bool) -> Result<BundleRequest, AppError> {
    let since = part.since.as_deref().map(Time::parse).transpose();
    let since = since.map_err(|error| bad_input(format!("--since: {error}")))?;
    let have = have.map(input::code).transpose()?;
    Ok(BundleRequest { have, photos, since, load: part.load.clone() })
}

fn write_file(setting: &Setting, app: &App, request: &BundleRequest, out: &Path) -> Result<(), AppError> {
    let made = write_whole(out, |file| app.bundle_write(request, file))?;
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
    request: &BundleRequest,
    out: &Path,
    spare: u32,
) -> Result<(), AppError> {
    let codes = app.moving_codes(request)?;
    let of = codes.len();
    no_frames_yet(out)?;
    let mut parts = Vec::new();
    for (at, moving) in codes.iter().enumerate() {
        // Several are told apart by their folders: each is shown, and taken, by itself.
        let folder = if of == 1 { out.to_owned() } else { out.join(format!("part-{}-of-{of}", at + 1)) };
        let (enough, frames) = (moving.enough(), put_frames(moving, &folder, spare)?);
        parts.push(FramesMade { folder, frames, enough, made: moving.made().clone() });
    }
    match parts.as_slice() {
        [only] if setting.json => print_json(only),
        several if setting.json => print_json(&several),
        parts => {
            for (at, part) in parts.iter().enumerate() {
                let which = if of == 1 { String::new() } else { format!("Part {} of {of}: ", at + 1) };
                println!("{which}{} frames, {} of which are enough, in any order", part.frames, part.enough);
                println!(
                    "  {}, {}, in {}",
                    counted(part.made.records, "record"),
                    counted(part.made.papers, "paper"),
                    part.folder.shown()
                );
            }
        }
    }
    Ok(())
}

/// A moving code that was written, as an answer.
#[derive(Serialize)]
struct FramesMade {
    folder: PathBuf,
    frames: u32,
    enough: u32,
    made: BundleMade,
}

/// Frames of two moving codes in one folder would be shown as one, and read by nobody.
fn no_frames_yet(folder: &Path) -> Result<(), AppError> {
    let frame = |name: std::ffi::OsString| name.to_string_lossy().starts_with("frame-");
    let there = std::fs::read_dir(folder)
        .is_ok_and(|mut entries| entries.any(|entry| entry.is_ok_and(|entry| frame(entry.file_name()))));
    if there {
        return Err(bad_input(format!(
            "{} holds the frames of another moving code; name another folder, or empty it",
            folder.shown()
        )));
    }
    Ok(())
}

/// Puts the frames of a moving code into a folder, so many of a hundred more than are enough; says how many.
pub(super) fn put_frames(moving: &MovingCode, out: &Path, spare: u32) -> Result<u32, AppError> {
    no_frames_yet(out)?;
    let enough = moving.enough();
    let frames = enough.saturating_mul(100u32.saturating_add(spare)).div_ceil(100).max(enough);
    for number in 0..frames {
        write(&out.join(format!("frame-{number:05}.png")), &moving.frame(number)?.png(PIXELS)?)?;
    }
    Ok(frames)
}

pub(super) fn read(setting: &Setting, app: &App, files: &[PathBuf]) -> Result<BundleReport, AppError> {
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
        let opened = File::open(file).map_err(|error| {
            bad_input(format!("{}: {}; name a file that can be read", file.shown(), plain(&error)))
        })?;
        let size = opened.metadata().map(|data| data.len()).unwrap_or_default();
        return app.bundle_read(&mut BufReader::new(opened), &mut |progress| {
            if !setting.json && size > 1 << 20 && crate::console::is_watched() {
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
        bad_input(format!("{}: {}; name a folder that can be read", folder.shown(), plain(&error)))
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

pub(super) fn tell(setting: &Setting, report: &BundleReport) {
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
    for one in &report.procedures {
        let apart = if one.in_use { "" } else { ", kept apart" };
        println!("  procedure {} version {}: {}{apart}", one.id, one.version, one.approval);
    }
    for line in &report.set_aside {
        println!("  SET ASIDE {} ({}): {}", line.place, line.kind, line.reason);
    }
    for warning in &report.warnings {
        println!("  ! {warning}");
    }
}
