use serde::Serialize;

use slingseal_words::Time;

/// A moment in both ways of writing: for machines and for the trade.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Stamp {
    /// Seconds since 1970-01-01T00:00:00Z.
    pub unix: i64,
    /// RFC 3339, UTC.
    pub rfc3339: String,
    /// Date-time group.
    pub dtg: String,
}

impl From<Time> for Stamp {
    fn from(time: Time) -> Self {
        Self { unix: time.unix(), rfc3339: time.rfc3339(), dtg: time.dtg() }
    }
}

/// Lower-case hexadecimal, and back.
pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Sixteen bytes of hexadecimal.
pub(crate) fn unhex16(text: &str) -> Option<[u8; 16]> {
    let number = (text.len() == 32 && text.bytes().all(|byte| byte.is_ascii_hexdigit()))
        .then(|| u128::from_str_radix(text, 16).ok())??;
    Some(number.to_be_bytes())
}
