//! How answers and complaints reach the terminal.

use std::path::{Path, PathBuf};

use serde::Serialize;
use slingseal_app::catalogue::{Saying, desk as words};
use slingseal_app::{AppError, CodeView, Language, Subject};
pub(crate) use slingseal_app::{clock, said_by_system as plain};

use crate::console::{self, Shown};
pub(crate) use crate::fault::bad_input;
use crate::files::write_together;

/// One line on standard error (or several, for a file with several faults); in JSON on standard output as well.
pub(crate) fn complain(error: &AppError, json: bool, language: Language) {
    let message = error.say(language);
    if json {
        print_json(&refusal(error, language));
    }
    for line in message.lines() {
        eprintln!("slingseal: {line}");
    }
}

/// A word as a shell takes it: in quotes where it holds anything but plain letters.
pub(crate) fn pasted(word: &str) -> String {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "-_./:=@%+,".contains(letter);
    if !word.is_empty() && word.chars().all(plain) {
        return word.to_owned();
    }
    if cfg!(windows) { format!("\"{word}\"") } else { format!("'{}'", word.replace('\'', "'\\''")) }
}

/// What was inspected and is no load, as a person calls it: a serial number alone says not what it is of.
pub(crate) fn inspected(subject: Subject, name: &str) -> Saying {
    match subject {
        Subject::Piece => words::InspectedPiece { name }.into(),
        Subject::Aircraft => words::InspectedAircraft { name }.into(),
        Subject::Zone => words::InspectedZone { name }.into(),
        Subject::Handling | Subject::Load => words::InspectedHandling { name }.into(),
    }
}

/// An error as JSON.
pub(crate) fn refusal(error: &AppError, language: Language) -> serde_json::Value {
    serde_json::json!({ "error": { "code": error.code(), "message": error.say(language) } })
}

/// A view as JSON.
pub(crate) fn print_json<T: Serialize>(view: &T) {
    // A view has text keys and finite numbers only.
    console::json(&serde_json::to_string_pretty(view).expect("a view can be written as JSON"));
}

/// So much of a list is written at a time.
const LIST_AT_ONCE: usize = 1 << 16;

/// Prints a list as JSON, the same as [`print_json`] of all of it, while it is being made.
pub(crate) fn print_json_list<T: Serialize>(
    each: impl FnOnce(&mut dyn FnMut(T)) -> Result<(), AppError>,
) -> Result<(), AppError> {
    let mut text = String::new();
    let mut first = true;
    each(&mut |one| {
        // What comes after a line's end stands in the list; the one before is not the last.
        text.push_str(if std::mem::take(&mut first) { "[\n  " } else { ",\n  " });
        let own = serde_json::to_string_pretty(&one).expect("a view can be written as JSON");
        text.push_str(&own.replace('\n', "\n  "));
        if text.len() >= LIST_AT_ONCE
            && let Some(end) = text.rfind('\n')
        {
            let rest = text.split_off(end + 1);
            console::json(&std::mem::replace(&mut text, rest));
        }
    })?;
    text.push_str(if first { "[]" } else { "\n]" });
    console::json(&text);
    Ok(())
}

pub(crate) use crate::files::{write, write_whole};

/// Puts a code into a folder: `NAME.png` and `NAME.svg` to be scanned, `NAME.txt` to be copied. Without a folder, prints its text.
pub(crate) fn put_code(code: &CodeView, out: Option<&Path>, name: &str) -> Result<Vec<PathBuf>, AppError> {
    let Some(folder) = out.filter(|folder| *folder != Path::new("-")) else {
        println!("{}", code.text);
        return Ok(Vec::new());
    };
    put_code_and(code, folder, name, &[])
}

/// The same beside a document in JSON, which holds the text already: files where a folder was named, and no word more.
pub(crate) fn put_code_beside_json(code: &CodeView, out: Option<&Path>, name: &str) -> Result<(), AppError> {
    match out.filter(|folder| *folder != Path::new("-")) {
        Some(folder) => put_code_and(code, folder, name, &[]).map(drop),
        None => Ok(()),
    }
}

/// The same with more files of the name, such as a sheet to print: all get one number where the name is taken.
pub(crate) fn put_code_and(
    code: &CodeView,
    folder: &Path,
    name: &str,
    more: &[(&str, &[u8])],
) -> Result<Vec<PathBuf>, AppError> {
    let (png, svg, text) = (
        code.png_labelled(PIXELS, console::spoken())?,
        code.svg_labelled(console::spoken())?,
        format!("{}\n", code.text),
    );
    let own = [("png", png.as_slice()), ("svg", svg.as_bytes()), ("txt", text.as_bytes())];
    write_together(folder, name, &[own.as_slice(), more].concat())
}

/// A code as an answer in JSON: its own fields, and beside them whose it is.
#[derive(Serialize)]
pub(crate) struct Answer<'c, M> {
    #[serde(flatten)]
    pub(crate) code: &'c CodeView,
    #[serde(flatten)]
    pub(crate) more: M,
}

/// A code as an answer: its files where a folder was named, whatever the form of the answer; in JSON the code, else in words
/// what it is, and what was written. Without a folder the text stands alone on standard output, for another program to take.
pub(crate) fn answer_code<M: Serialize>(
    json: bool,
    answer: &Answer<'_, M>,
    said: &str,
    out: Option<&Path>,
    name: &str,
) -> Result<(), AppError> {
    if json {
        put_code_beside_json(answer.code, out, name)?;
        print_json(answer);
        return Ok(());
    }
    let into_folder = out.is_some_and(|out| out != Path::new("-"));
    if into_folder {
        println!("{said}");
    } else {
        eprintln!("slingseal: {said}");
    }
    told(&put_code(answer.code, out, name)?);
    Ok(())
}

/// Pixels a module of a code's picture: large enough for a screen at arm's length.
pub(crate) const PIXELS: u32 = 8;

/// Says where files were put: to a person a line each, to a program in one document.
pub(crate) fn answer_files(json: bool, files: &[PathBuf]) {
    if json {
        print_json(&serde_json::json!({ "files": files }));
    } else {
        told(files);
    }
}

/// Says where files were put.
pub(crate) fn told(files: &[PathBuf]) {
    for file in files {
        println!("  {}", file.shown());
    }
}

/// A name that is safe in a file's name, and no other name's: `A-1`, `A/1` and `A.1` are three loads.
pub(crate) fn file_name(text: &str) -> String {
    let mut name = String::new();
    for letter in text.chars() {
        match letter {
            letter if letter.is_ascii_alphanumeric() => name.push(letter.to_ascii_lowercase()),
            '-' | ' ' => name.push('-'),
            '/' => name.push('_'),
            '.' => name.push('+'),
            letter => name.push_str(&format!("={:x}", u32::from(letter))),
        }
    }
    name
}

/// A name for a download: as `file_name`, with its dots.
pub(crate) fn file_name_dotted(text: &str) -> String {
    text.split('.').map(file_name).collect::<Vec<_>>().join(".")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loads_of_like_numbers_get_files_of_their_own() {
        assert_eq!(["A-1", "A/1", "A.1"].map(file_name), ["a-1", "a_1", "a+1"]);
        assert_eq!(["KM-014", "../x", "Jos\u{e9}"].map(file_name), ["km-014", "++_x", "jos=e9"]);
    }
}
