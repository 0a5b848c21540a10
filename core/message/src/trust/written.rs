//! Bytes as rows that a person writes down and types in again, each with a check of its own: a wrong letter is told by its row.
//!
//! A row is ten bytes in Base32 (RFC 4648 §6), in groups of four letters, and two letters more: the first ten bits of SHA-256 over
//! "slingseal written row 1", its number in four bytes and its own. Base32 knows no 0, 1 and 8: they are taken for O and I, which the
//! standard allows, and for B, as a hand writes them.

use data_encoding::BASE32_NOPAD;
use slingseal_words::Digest;

/// Bytes of a row.
const BYTES: usize = 10;
/// Letters of a row, and of its check.
const LETTERS: usize = 16;
const CHECK: usize = 2;
const GROUP: usize = 4;

/// The rows, from the first one on; they are numbered from 1.
pub(super) fn rows(bytes: &[u8]) -> Vec<String> {
    (1_u32..).zip(bytes.chunks(BYTES)).map(|(number, row)| grouped(&letters(number, row))).collect()
}

/// What rows were made of. Gaps, line ends, small letters and numbers with a full stop ("3.") do not count.
///
/// # Errors
/// The number of the first row that is not as it was written.
pub(super) fn read(text: &str) -> Result<Vec<u8>, u32> {
    let words = text.split_whitespace().filter(|word| !word.ends_with('.'));
    let letters: Vec<u8> = words.flat_map(str::bytes).map(meant).collect();
    let mut bytes = Vec::with_capacity(letters.len());
    for (number, row) in (1_u32..).zip(letters.chunks(LETTERS + CHECK)) {
        let body = row.split_last_chunk::<CHECK>().and_then(|(body, _)| BASE32_NOPAD.decode(body).ok());
        let body = body.filter(|body| self::letters(number, body).as_bytes() == row).ok_or(number)?;
        bytes.extend(body);
    }
    Ok(bytes)
}

fn letters(number: u32, row: &[u8]) -> String {
    let digest = Digest::of_parts(&[b"slingseal written row 1", &number.to_be_bytes(), row]);
    let mut letters = BASE32_NOPAD.encode(row);
    letters.extend(BASE32_NOPAD.encode(digest.as_bytes()).chars().take(CHECK));
    letters
}

fn grouped(letters: &str) -> String {
    let mut out = String::with_capacity(letters.len() + letters.len() / GROUP);
    for (at, letter) in letters.chars().enumerate() {
        if at > 0 && at % GROUP == 0 {
            out.push(' ');
        }
        out.push(letter);
    }
    out
}

/// The letter that a hand or a keyboard meant.
fn meant(letter: u8) -> u8 {
    match letter.to_ascii_uppercase() {
        b'0' => b'O',
        b'1' => b'I',
        b'8' => b'B',
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::{read, rows};

    fn some(count: u8) -> Vec<u8> {
        (0..count).map(|at| at.wrapping_mul(89).wrapping_add(at / 7)).collect()
    }

    /// RFC 4648 §10: "foobar" is MZXW6YTBOI; our check stands behind it.
    #[test]
    fn letters_are_those_of_the_standard() {
        let row = &rows(b"foobar")[0];
        assert!(row.replace(' ', "").starts_with("MZXW6YTBOI"), "{row}");
        assert_eq!(row.len(), "MZXW 6YTB OICC".len());
    }

    /// Written by Python's base64 and hashlib, from the words at the head of this file.
    #[test]
    fn rows_are_those_of_an_independent_writer() {
        let bytes: Vec<u8> = (7..39).collect();
        assert_eq!(
            rows(&bytes),
            ["A4EA SCQL BQGQ 4DYQ 4C", "CEJB GFAV CYLR QGI2 EN", "DMOB 2HQ7 EAQS EIZE FO", "EUTA PY"]
        );
    }

    #[test]
    fn every_length_comes_back_however_it_is_typed() {
        for count in 0..=64 {
            let bytes = some(count);
            let rows = rows(&bytes);
            assert_eq!(rows.len(), usize::from(count).div_ceil(10));
            assert_eq!(read(&rows.join("\r\n")), Ok(bytes.clone()), "{count}");
            assert_eq!(read(&rows.concat().replace(' ', "").to_lowercase()), Ok(bytes.clone()), "{count}");
            let numbered: String =
                (1..).zip(&rows).map(|(number, row)| format!("{number}. {row}\n")).collect();
            let taken_for_digits = numbered.replace('O', "0").replace('B', "8");
            assert_eq!(read(&taken_for_digits), Ok(bytes), "{count}");
        }
    }

    /// Of all letters that can stand wrong in the rows of a copy, one in a thousand passes; each other one is told by its row.
    #[test]
    fn a_wrong_letter_is_told_by_its_row() {
        let bytes = some(160);
        let rows = rows(&bytes);
        let (mut tried, mut passed) = (0, 0);
        for (number, row) in (1..).zip(&rows) {
            for (place, right) in row.char_indices().filter(|(_, letter)| *letter != ' ') {
                for wrong in "ABCDEFGHIJKLMNOPQRSTUVWXYZ2345679".chars().filter(|wrong| *wrong != right) {
                    let mut typed = rows.clone();
                    typed[number as usize - 1].replace_range(place..=place, &wrong.to_string());
                    tried += 1;
                    match read(&typed.join("\n")) {
                        Err(told) => assert_eq!(told, number),
                        Ok(read) => {
                            assert_ne!(read, bytes);
                            passed += 1;
                        }
                    }
                }
            }
        }
        assert_eq!(tried, 16 * 18 * 32);
        assert!(passed < tried / 256, "{passed} of {tried}");
    }

    #[test]
    fn rows_that_are_lost_or_stand_in_another_order_are_told() {
        let rows = rows(&some(60));
        let without = |lost: usize| -> String {
            rows.iter().enumerate().filter(|(at, _)| *at != lost).map(|(_, row)| row.as_str()).collect()
        };
        assert_eq!(read(&without(2)), Err(3));
        let mut turned = rows.clone();
        turned.swap(3, 4);
        assert_eq!(read(&turned.join("\n")), Err(4));
        let mut short = rows;
        short[1].pop();
        assert_eq!(read(&short.join("\n")), Err(2));
    }
}
