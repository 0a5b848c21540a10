//! What a person names on the command line: a code's text, a file of it, a picture, standard input.

use slingseal_app::catalogue::{Saying, desk as words};
use std::io::Read;
use std::path::Path;

use slingseal_app::{AppError, Language, text_of, texts_of};

use crate::console::Shown;
use crate::output::{bad_input, plain};

/// No file that is read here is larger.
const LARGEST: u64 = 64 << 20;

/// The text of a code; of several in a picture the first.
pub(crate) fn code(argument: &str) -> Result<String, AppError> {
    given(argument, text_of)
}

/// The texts of every code of ours in what was named.
pub(crate) fn codes(argument: &str) -> Result<Vec<String>, AppError> {
    given(argument, texts_of)
}

fn given<T>(argument: &str, read: fn(&[u8]) -> Result<T, AppError>) -> Result<T, AppError> {
    if argument == "-" {
        let mut bytes = Vec::new();
        std::io::stdin()
            .lock()
            .take(LARGEST)
            .read_to_end(&mut bytes)
            .map_err(|error| bad_input(words::StandardInputNotRead { plain: plain(&error) }))?;
        return read(&bytes);
    }
    let path = Path::new(argument);
    if !path.exists() && argument.contains(':') {
        return read(argument.as_bytes());
    }
    read(&file(path)?).map_err(|error| named(path, &error))
}

/// A file's bytes.
pub(crate) fn file(path: &Path) -> Result<Vec<u8>, AppError> {
    let failed =
        |error: std::io::Error| bad_input(words::FileNotRead { path: path.shown(), plain: plain(&error) });
    let file = std::fs::File::open(path).map_err(failed)?;
    let size = file.metadata().map_err(failed)?.len();
    if size > LARGEST {
        return Err(bad_input(words::FileTooLarge { path: path.shown(), size: &size }));
    }
    let mut bytes = Vec::new();
    file.take(LARGEST).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}

/// A file's text.
pub(crate) fn text(path: &Path) -> Result<String, AppError> {
    String::from_utf8(file(path)?).map_err(|_| bad_input(words::FileIsNoText { path: path.shown() }))
}

/// The text of a file that another one names, or why there is none: whoever reads the other one says which file it is, and what
/// to do.
pub(crate) fn beside(path: &Path, language: Language) -> Result<String, String> {
    std::fs::File::open(path).map_err(|error| plain(&error).say(language))?;
    text(path).map_err(|error| {
        let said = error.say(language);
        let named = format!("{}: ", path.shown());
        said.strip_prefix(&named).map(str::to_owned).unwrap_or(said)
    })
}

/// The same error with the file in front, for each of its lines.
pub(crate) fn named(path: &Path, error: &AppError) -> AppError {
    bad_input(Saying::behind(path.shown(), error.saying()))
}
