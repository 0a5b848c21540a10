//! `read`: what pictures' codes say, and nothing else on standard output.

use std::path::PathBuf;
use std::process::ExitCode;

use slingseal_app::{AppError, read_picture};

use super::setting::Setting;
use crate::console::{Shown, fields};
use crate::{input, output};

pub(crate) fn run(setting: &Setting, pictures: &[PathBuf]) -> Result<ExitCode, AppError> {
    let mut code = ExitCode::SUCCESS;
    let mut rows = Vec::new();
    for picture in pictures {
        let texts = input::file(picture).and_then(|bytes| read_picture(&bytes));
        let texts = texts.unwrap_or_else(|error| {
            output::complain(&input::named(picture, &error), false, setting.language);
            code = ExitCode::FAILURE;
            Vec::new()
        });
        if texts.is_empty() {
            code = ExitCode::FAILURE;
        }
        rows.push((picture, texts));
    }
    if setting.json {
        let rows: Vec<_> = rows
            .iter()
            .map(|(picture, texts)| serde_json::json!({ "picture": picture.to_string_lossy(), "texts": texts }))
            .collect();
        output::print_json(&rows);
        return Ok(code);
    }
    for (picture, texts) in rows {
        if texts.is_empty() {
            fields(&[&picture.shown(), "-"]);
        }
        for text in texts {
            fields(&[&picture.shown(), &text]);
        }
    }
    Ok(code)
}
