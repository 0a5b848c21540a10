//! How a person names a key, a sheet or a result: by the first digits of it.

use crate::AppError;
use slingseal_catalogue::refusals as words;
use slingseal_store::ExamPaperRow;
use slingseal_words::{Digest, Saying};

/// The one row whose digest begins so.
pub(crate) fn one_of(rows: Vec<ExamPaperRow>, digits: &str, what: Saying) -> Result<ExamPaperRow, AppError> {
    let digits: String =
        digits.chars().filter(|c| !matches!(c, ' ' | '-')).collect::<String>().to_lowercase();
    if digits.len() < 4 {
        return Err(AppError::bad_input(words::PaperByCodeOrDigits { what }));
    }
    let mut fitting = rows.into_iter().filter(|row| row.digest.to_string().starts_with(&digits));
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Ok(only),
        (Some(_), Some(_)) => Err(AppError::bad_input(words::SeveralFitGiveMoreDigits { digits: &digits })),
        (None, _) => Err(AppError::not_found(words::NoPaperScanCode { what, digits: &digits })),
    }
}

pub(crate) fn elsewhere(instructor: &str) -> AppError {
    AppError::not_found(words::WhatPlantedKnownDeviceAlone { instructor: &instructor })
}

/// The first eight digits in two groups.
pub(crate) fn short(digest: &Digest) -> String {
    let digits = digest.short();
    let (front, back): (String, String) =
        (digits.chars().take(4).collect(), digits.chars().skip(4).collect());
    format!("{front} {back}")
}
