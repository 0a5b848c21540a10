//! The picture of the guide, drawn from the screen.

use super::*;

/// The picture of the guide: a card with a deficiency, as a terminal of sixteen colours draws it.
#[test]
fn the_picture_is_the_screen() {
    let mut hands = Hands::walking();
    hands.press(".9\n-31by one turn\n2");
    let drawn = picture(&hands.buffer(80, 24));
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("pictures/inspect.svg");
    if !path.exists() && std::env::var_os("SLINGSEAL_WRITE_SCREENS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, &drawn).unwrap();
    }
    assert_eq!(drawn, std::fs::read_to_string(&path).unwrap(), "draw the picture anew: remove it first");
}

fn picture(buffer: &Buffer) -> String {
    const CELL: (u16, u16) = (9, 19);
    let name = |colour: Color, other: &'static str| match colour {
        Color::Black => "#101418",
        Color::White => "#ffffff",
        Color::Green => "#5fd38a",
        Color::Red => "#b3261e",
        Color::LightRed => "#ff8a80",
        Color::Yellow => "#ffd75f",
        _ => other,
    };
    let (ink, paper) = ("#e8ecef", "#101418");
    let (width, height) = (buffer.area.width, buffer.area.height);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" font-family=\"monospace\" font-size=\"15\" xml:space=\"preserve\">\n<rect width=\"{0}\" height=\"{1}\" rx=\"8\" fill=\"{paper}\"/>\n",
        width * CELL.0 + 20,
        height * CELL.1 + 20
    );
    for y in 0..height {
        let mut x = 0;
        while x < width {
            let cell = &buffer[(x, y)];
            let style = (cell.fg, cell.bg, cell.modifier);
            let from = x;
            let mut words = String::new();
            while x < width && (buffer[(x, y)].fg, buffer[(x, y)].bg, buffer[(x, y)].modifier) == style {
                words.push_str(buffer[(x, y)].symbol());
                x += 1;
            }
            let (mut front, mut back) = (name(style.0, ink), name(style.1, paper));
            if style.2.contains(Modifier::REVERSED) {
                std::mem::swap(&mut front, &mut back);
            }
            let (left, top) = (from * CELL.0 + 10, y * CELL.1 + 10);
            let length = (x - from) * CELL.0;
            if back != paper {
                out += &format!(
                    "<rect x=\"{left}\" y=\"{top}\" width=\"{length}\" height=\"{}\" fill=\"{back}\"/>\n",
                    CELL.1
                );
            }
            let weight = if style.2.contains(Modifier::BOLD) { " font-weight=\"bold\"" } else { "" };
            // Word by word: every letter stands in its cell whatever the reader's font is.
            let letters: Vec<char> = words.chars().collect();
            let mut at = 0;
            for word in letters.split(|letter| *letter == ' ') {
                if !word.is_empty() {
                    let cells = |count: usize| u16::try_from(count).unwrap() * CELL.0;
                    let word_text: String = word.iter().collect();
                    let word_text = word_text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
                    out += &format!(
                        "<text x=\"{}\" y=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"{front}\"{weight}>{word_text}</text>\n",
                        left + cells(at),
                        top + 14,
                        cells(word.len())
                    );
                }
                at += word.len() + 1;
            }
        }
    }
    out + "</svg>\n"
}
