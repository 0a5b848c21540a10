//! The independent reader here is rqrr, which shares no code with the writer or with our reader.

use slingseal_qr::{self as qr, Code, WriteError};

/// Text of the alphanumeric set, the same for the same length.
fn text(length: usize) -> String {
    let set: Vec<char> = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:".chars().collect();
    (0..length).map(|at| set[(at * at + 7 * at + length) % set.len()]).collect()
}

fn read_by_rqrr(code: &Code, scale: u32) -> String {
    let picture = image::load_from_memory(&code.to_png(scale, 4)).expect("our PNG is a picture").to_luma8();
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| {
        picture.get_pixel(x as u32, y as u32).0[0]
    });
    let grids = prepared.detect_grids();
    assert_eq!(grids.len(), 1, "one code is there");
    grids[0].decode().expect("rqrr reads our code").1
}

#[test]
fn an_independent_reader_reads_every_length() {
    for length in [1, 20, 61, 122, 221, 311, 475, 480, 483, 600, 790, 1000, 1400, 2000, 3391] {
        let text = text(length);
        let code = qr::write(&text).expect("it fits");
        assert_eq!(read_by_rqrr(&code, 4), text, "length {length}, version {}", code.version());
    }
}

/// ISO/IEC 18004:2015, table 7, alphanumeric capacity at level M (from memory, and the independent reader above
/// agrees): the smallest version is taken, up to its last character.
#[test]
fn takes_the_smallest_version() {
    for (version, capacity) in [(1, 20), (2, 38), (7, 178), (13, 483), (14, 528), (20, 970), (40, 3391)] {
        assert_eq!(qr::write(&text(capacity)).expect("it fits").version(), version);
        match qr::write(&text(capacity + 1)) {
            Ok(code) => assert_eq!(code.version(), version + 1),
            Err(error) => {
                assert_eq!(error, WriteError::TooLong { characters: 3392, most: 3391 });
                assert_eq!(version, 40);
            }
        }
    }
}

#[test]
fn says_what_a_code_cannot_carry() {
    assert_eq!(qr::write(""), Err(WriteError::Empty));
    let error = qr::write("SL1:abc").unwrap_err();
    assert_eq!(error.to_string(), "a code cannot carry \"a\"; use A to Z, 0 to 9, blank and $%*+-./:");
    assert_eq!(qr::write("Ä"), Err(WriteError::NotAlphanumeric { found: 'Ä' }));
}

#[test]
fn reads_back_its_own_pictures() {
    for length in [10, 475, 1000] {
        let text = text(length);
        let png = qr::write(&text).expect("it fits").to_png(3, 4);
        assert_eq!(qr::read_picture(&png), Ok(vec![text]));
    }
}

/// The terminal's picture has forced colours, half blocks, and the quiet zone on every side.
#[test]
fn the_terminal_shows_the_code_dark_on_light() {
    let code = qr::write("LT1:TERMINAL").expect("it fits");
    let shown = code.to_terminal();
    let side = code.size() + 8;
    let lines: Vec<&str> = shown.lines().collect();
    assert_eq!(lines.len() as u32, side.div_ceil(2));
    for (at, line) in lines.iter().enumerate() {
        let row = line
            .strip_prefix("\u{1b}[38;5;16;48;5;231m")
            .and_then(|line| line.strip_suffix("\u{1b}[0m"))
            .expect("colours are forced and put back");
        let blocks: Vec<char> = row.chars().collect();
        assert_eq!(blocks.len() as u32, side);
        for (x, block) in blocks.iter().enumerate() {
            let dark = |y: usize| {
                let inside = |v: usize| (v as u32).checked_sub(4).unwrap_or(u32::MAX);
                code.is_dark(inside(x), inside(y))
            };
            let wanted = match (dark(2 * at), dark(2 * at + 1)) {
                (false, false) => ' ',
                (true, false) => '▀',
                (false, true) => '▄',
                (true, true) => '█',
            };
            assert_eq!(*block, wanted);
        }
    }
}

/// The drawing of the SVG, run by run, is the code.
#[test]
fn the_svg_draws_every_dark_module() {
    let code = qr::write("SL1:VECTOR").expect("it fits");
    let svg = code.to_svg();
    let path = svg.split("d=\"").nth(2).and_then(|rest| rest.split('"').next()).expect("a path");
    let mut drawn = vec![false; (code.size() * code.size()) as usize];
    for run in path.split('M').skip(1) {
        let numbers: Vec<u32> = run
            .split(|c: char| !c.is_ascii_digit())
            .filter(|part| !part.is_empty())
            .map(|part| part.parse().expect("a number"))
            .collect();
        let [x, y, length, 1, back] = numbers[..] else { panic!("{run}") };
        assert_eq!(length, back);
        for column in x..x + length {
            drawn[((y - 4) * code.size() + column - 4) as usize] = true;
        }
    }
    assert_eq!(drawn, code.modules());
}
