//! The hook check's page: where this program has it from, and how what a leader signed gets in.

use std::path::Path;

use slingseal_app::AppError;
use slingseal_app::catalogue::check_page as words;

use crate::input;
use crate::output::bad_input;

/// The page that was built before this program was.
#[cfg(feature = "check-page")]
const BUILT_IN: Option<&str> = Some(include_str!("../../../target/web/check.html"));
#[cfg(not(feature = "check-page"))]
const BUILT_IN: Option<&str> = None;

/// Where the contents go. It stands once in a page, and a page without it is none of ours.
const PLACE: &str = "<script type=\"application/octet-stream\" id=\"contents\"></script>";

/// The page without contents: the file that was named, or the one inside.
///
/// # Errors
/// Neither is there, or the file is no such page.
pub(crate) fn shell(named: Option<&Path>) -> Result<String, AppError> {
    let text = match (named, BUILT_IN) {
        (Some(file), _) => String::from_utf8(input::file(file)?).ok(),
        (None, Some(inside)) => Some(inside.to_owned()),
        (None, None) => {
            return Err(bad_input(words::BuiltWithoutPage));
        }
    };
    text.filter(|text| text.matches(PLACE).count() == 1).ok_or_else(|| bad_input(words::NoSuchPage))
}

/// The page with what a leader signed.
///
/// # Errors
/// None for what [`shell`] gave.
pub(crate) fn filled(shell: &str, bytes: &[u8]) -> Result<String, AppError> {
    let (before, after) = shell.split_once(PLACE).ok_or_else(|| bad_input(words::NoSuchPage))?;
    let (open, close) = PLACE.split_once("></").ok_or_else(|| bad_input(words::NoSuchPage))?;
    Ok(format!("{before}{open}>{}</{close}{after}", base64(bytes)))
}

/// Base64 of RFC 4648 §4.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let bits = (0..3).fold(0u32, |bits, at| bits << 8 | u32::from(group.get(at).copied().unwrap_or(0)));
        for at in 0..4 {
            let letter = usize::try_from(bits >> (18 - 6 * at) & 63).ok().and_then(|at| LETTERS.get(at));
            let past = at > group.len();
            text.push(if past { '=' } else { char::from(letter.copied().unwrap_or(b'=')) });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{PLACE, base64, filled};

    /// RFC 4648 §10.
    #[test]
    fn rfc_4648_examples() {
        let known = [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("foobar", "Zm9vYmFy"),
        ];
        for (plain, coded) in known {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }

    #[test]
    fn what_was_signed_gets_into_its_place() {
        let page = filled(&format!("<p>{PLACE}</p>"), b"foo").expect("it has the place");
        assert_eq!(page, "<p><script type=\"application/octet-stream\" id=\"contents\">Zm9v</script></p>");
    }
}
