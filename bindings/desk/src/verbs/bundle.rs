//! `bundle`: sync by file, or by the frames of a moving code.

use slingseal_app::catalogue::desk as words;
use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, BundleMade, BundleReport, BundleRequest, FrameTaken, MovingCode, MovingReader, Time,
    read_picture,
};

use super::play;
use super::setting::Setting;
use crate::cli::{BundleVerb, PartOfAccount};
use crate::console::Shown;
use crate::input;
use crate::output::{Answer, PIXELS, answer_code, bad_input, plain, print_json, told, write, write_whole};
use slingseal_app::catalogue::Saying;

pub(crate) fn run(setting: &Setting, verb: BundleVerb) -> Result<ExitCode, AppError> {
    let app = setting.app()?;
    match verb {
        BundleVerb::Have { out } => {
            let code = app.have_code()?;
            let said = &words::WhatHomeHas.say(setting.language);
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
    let since = since.map_err(|error| bad_input(words::SinceWrong { error: &error }))?;
    let have = have.map(input::code).transpose()?;
    Ok(BundleRequest { have, photos, since, load: part.load.clone() })
}

fn write_file(setting: &Setting, app: &App, request: &BundleRequest, out: &Path) -> Result<(), AppError> {
    let made = write_whole(out, |file| app.bundle_write(request, file))?;
    if setting.json {
        print_json(&made);
    } else {
        let said = [
            words::CountRecords { count: made.records }.saying(),
            words::CountPapers { count: made.papers }.into(),
            words::CountPhotographs { count: made.photos }.into(),
        ];
        println!("{}", Saying::joined(said, ", ").say(setting.language));
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
                let enough = words::FramesEnough { frames: part.frames, enough: part.enough }.saying();
                let said = match of {
                    1 => enough,
                    _ => words::PartOfSeveral { part: at + 1, of, said: enough }.into(),
                };
                println!("{}", said.say(setting.language));
                let held = words::HeldInFolder {
                    records: words::CountRecords { count: part.made.records }.saying(),
                    papers: words::CountPapers { count: part.made.papers }.saying(),
                    folder: part.folder.shown(),
                };
                println!("  {}", held.say(setting.language));
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
        return Err(bad_input(words::FramesOfAnother { folder: &folder.shown() }));
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
            return Err(bad_input(words::NameOneBundle));
        };
        let opened = File::open(file)
            .map_err(|error| bad_input(words::FileNotRead { path: &file.shown(), plain: &plain(&error) }))?;
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
        Some((taken, enough)) => words::FramesTooFew { taken, enough }.saying(),
        None => words::NoFrameRead.into(),
    }))
}

fn is_picture(file: &Path) -> bool {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_ascii_lowercase());
    matches!(ending.as_deref(), Some("png" | "jpg" | "jpeg"))
}

fn pictures_in(folder: &Path) -> Result<Vec<PathBuf>, AppError> {
    let failed = |error: std::io::Error| {
        bad_input(words::FolderNotRead { folder: &folder.shown(), plain: &plain(&error) })
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
    let said = words::BundleTaken {
        records: words::CountRecords { count: report.new }.saying(),
        completed: report.completed,
        known: report.known,
        papers: words::CountPapers { count: report.papers }.saying(),
        photos: words::CountPhotographs { count: report.photos }.saying(),
    };
    println!("{}", said.say(setting.language));
    for one in &report.procedures {
        let (id, version, approval) = (&one.id, one.version, &one.approval);
        let said = if one.in_use {
            words::ProcedureTaken { id, version, approval }.say(setting.language)
        } else {
            words::ProcedureKeptApart { id, version, approval }.say(setting.language)
        };
        println!("  {said}");
    }
    for line in &report.set_aside {
        println!(
            "  {}",
            words::SetAside { place: &line.place, kind: &line.kind, reason: &line.reason }
                .say(setting.language)
        );
    }
    for warning in &report.warnings {
        println!("  ! {warning}");
    }
}
