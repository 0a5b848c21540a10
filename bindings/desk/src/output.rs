//! How answers and complaints reach the terminal.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use serde::Serialize;
use slingseal_app::{AppError, CodeView};

use crate::console::{self, Shown};

/// An error of this program's own, in the facade's words.
pub(crate) fn bad_input(message: &str) -> AppError {
    AppError::BadInput { message: message.to_owned() }
}

/// What the system said of a file, without its number.
pub(crate) fn plain(error: &std::io::Error) -> String {
    let text = error.to_string();
    let words = text.split(" (os error").next().unwrap_or_default();
    words.to_lowercase()
}

/// One line on standard error (or several, for a file with several faults); in JSON on standard output as well.
pub(crate) fn complain(error: &AppError, json: bool) {
    if json {
        print_json(&serde_json::json!({ "error": { "code": error.code(), "message": error.to_string() } }));
    }
    for line in error.to_string().lines() {
        eprintln!("slingseal: {line}");
    }
}

/// A view as JSON.
pub(crate) fn print_json<T: Serialize>(view: &T) {
    // A view has text keys and finite numbers only.
    console::json(&serde_json::to_string_pretty(view).expect("a view can be written as JSON"));
}

/// Writes a file, making its folder.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), AppError> {
    let failed = |error: std::io::Error| {
        bad_input(&format!("{}: {}; choose a folder that can be written", path.shown(), plain(&error)))
    };
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(failed)?;
    }
    std::fs::write(path, bytes).map_err(failed)
}

/// Writes a file piece by piece, whole or not at all: one cut short by a full disk must not pass for one.
pub(crate) fn write_whole<T>(
    path: &Path,
    fill: impl FnOnce(&mut dyn Write) -> Result<T, AppError>,
) -> Result<T, AppError> {
    let failed = |error: std::io::Error| {
        bad_input(&format!("{}: {}; name a file that can be written", path.shown(), plain(&error)))
    };
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(".part");
    let part = path.with_file_name(name);
    let mut file = BufWriter::new(File::create(&part).map_err(failed)?);
    let filled = fill(&mut file).and_then(|filled| {
        file.flush().and_then(|()| file.get_ref().sync_all()).map_err(failed)?;
        std::fs::rename(&part, path).map_err(failed)?;
        Ok(filled)
    });
    if filled.is_err() {
        // What is left of it serves nobody; the error is told.
        let _ = std::fs::remove_file(&part);
    }
    filled
}

/// Puts a code into a folder: `NAME.png` and `NAME.svg` to be scanned, `NAME.txt` to be copied. Without a folder, prints its text.
pub(crate) fn put_code(code: &CodeView, out: Option<&Path>, name: &str) -> Result<Vec<PathBuf>, AppError> {
    let Some(folder) = out else {
        println!("{}", code.text);
        return Ok(Vec::new());
    };
    let named = |ending: &str| folder.join(format!("{name}.{ending}"));
    let (png, svg, text) = (named("png"), named("svg"), named("txt"));
    write(&png, &code.png(PIXELS)?)?;
    write(&svg, code.svg()?.as_bytes())?;
    write(&text, format!("{}\n", code.text).as_bytes())?;
    Ok(vec![png, svg, text])
}

/// A code as an answer: its files where a folder was named, whatever the form of the answer; in JSON the code besides, else what
/// was written, or the text.
pub(crate) fn answer_code(
    json: bool,
    code: &CodeView,
    out: Option<&Path>,
    name: &str,
) -> Result<(), AppError> {
    if json {
        if out.is_some() {
            put_code(code, out, name)?;
        }
        print_json(code);
    } else {
        told(&put_code(code, out, name)?);
    }
    Ok(())
}

/// Pixels a module of a code's picture: large enough for a screen at arm's length.
pub(crate) const PIXELS: u32 = 8;

/// Says where files were put.
pub(crate) fn told(files: &[PathBuf]) {
    for file in files {
        println!("  {}", file.shown());
    }
}

/// A name that is safe in a file's name.
pub(crate) fn file_name(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_ascii_alphanumeric() || c == '-' { c.to_ascii_lowercase() } else { '-' })
        .collect()
}

/// A name for a download: as `file_name`, with its dots.
pub(crate) fn file_name_dotted(text: &str) -> String {
    text.split('.').map(file_name).collect::<Vec<_>>().join(".")
}

/// So many of a thing whose name takes an s: "1 record", "2 records".
pub(crate) fn counted(number: impl Into<u64>, thing: &str) -> String {
    match number.into() {
        1 => format!("1 {thing}"),
        number => format!("{number} {thing}s"),
    }
}

/// How long something took: `1:05`, or `1:00:05`.
pub(crate) fn clock(seconds: u32) -> String {
    match (seconds / 3_600, seconds / 60 % 60, seconds % 60) {
        (0, minutes, seconds) => format!("{minutes}:{seconds:02}"),
        (hours, minutes, seconds) => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_people_say_them() {
        assert_eq!(
            [0u32, 1, 2].map(|number| counted(number, "record")),
            ["0 records", "1 record", "2 records"]
        );
        assert_eq!([5, 65, 3_599, 3_605].map(clock), ["0:05", "1:05", "59:59", "1:00:05"]);
    }
}
