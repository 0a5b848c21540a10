//! The pages are judged by what others make of them: poppler (pdftotext, pdftoppm) and an independent reader of codes.

use std::io::Write;
use std::process::{Command, Stdio};

use super::Paper;
use super::code::Code;
use super::record::{Correction, Moment, RecordPage, record_page};
use super::sheet::{EquipmentLine, LoadSheet, load_sheets};
use slingseal_app::Language;

const DATED: &str = "2026-07-09T16:34:00Z";
const TAG: &str = "LT1:DEMO$%*+-./: 0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ THE LOAD TAG OF A TEST, LONG ENOUGH FOR A REAL CODE";

fn code(text: &str) -> Code {
    let bits = qrcode::QrCode::with_error_correction_level(text, qrcode::EcLevel::M).unwrap();
    let dark = bits.to_colors().into_iter().map(|color| color == qrcode::Color::Dark).collect();
    Code { modules: bits.width(), dark, check: "482 019 553".into() }
}

fn line(serial: &str, kind: &str, rating: &str) -> EquipmentLine {
    EquipmentLine {
        serial: serial.into(),
        kind: kind.into(),
        rating: rating.into(),
        source: "data plate".into(),
        due: "2027-03-31".into(),
    }
}

pub(crate) fn sheet() -> LoadSheet {
    LoadSheet {
        load: "KM-014".into(),
        description: "Drinking water, 96 cases, in a webbing cargo bag".into(),
        mass: "2,310 lb (1,048 kg)".into(),
        aircraft: "Heron M2".into(),
        allowable: "4,000 lb".into(),
        zone: "Kestrel Meadow".into(),
        grid: "33U VR 12345 67890".into(),
        destination: "Sela Bridge East".into(),
        rigger: "Mason 5".into(),
        procedure: "cargo-bag, version 3".into(),
        equipment: vec![
            line("CB-2207", "cargo bag", "5,000 lb"),
            line("CL-0418", "chain leg", "7,100 lb"),
            line("AF-0032", "apex fitting", "25,000 lb"),
        ],
        links: vec![("1".into(), "3".into())],
        weight_source: "weighed".into(),
        airspeed: "80 kt (row 3)".into(),
        rigged_to: "the governing manual, edition 2024".into(),
        edition: "cargo-bag 3 (0011223344556677)".into(),
        signed_by: Some("Lantern 1, Sela Flood Relief".into()),
        unsigned: "UNSIGNED TAG".into(),
        cautions: vec!["Water shifts: expect it to swing.".into()],
        code: code(TAG),
        rigging: None,
    }
}

pub(crate) fn page() -> RecordPage {
    let moment = |when: &str, what: &str| Moment { when: when.into(), what: what.into() };
    let fact = |label: &str, value: &str| (label.to_owned(), value.to_owned());
    RecordPage {
        load: "KM-014".into(),
        description: "Drinking water, 96 cases, in a webbing cargo bag".into(),
        banner: "FIT".into(),
        fit: true,
        standing: "until 100630Z JUL 26 for Heron M2".into(),
        facts: vec![
            fact("inspector", "Anvil 3"),
            fact("rigger", "Mason 5"),
            fact("gross weight", "2,310 lb (1,048 kg)"),
            fact("aircraft", "Heron M2"),
            fact("from", "Kestrel Meadow"),
            fact("grid", "33U VR 12345 67890"),
            fact("to", "Sela Bridge East"),
            fact("procedure", "cargo-bag, version 3"),
            fact("walked in", "3 min 40 s, 32 cards, 100 points"),
        ],
        moments: vec![
            moment("091630Z JUL 26", "Inspection begun by Anvil 3"),
            moment("091632Z JUL 26", "Deficiency found: suspension web 2, snap not taped"),
            moment("091633Z JUL 26", "Corrected; reinspected by Anvil 3"),
            moment("091634Z JUL 26", "Decided fit"),
            moment("091634Z JUL 26", "Sealed"),
        ],
        deficiencies: vec![Correction {
            point: "Suspension web 2, snap".into(),
            found: "not taped".into(),
            corrected: Some("taped by the riggers, reinspected at 091633Z JUL 26".into()),
        }],
        rigging: vec![
            ["apex fitting".into(), "10.3 kN".into(), "9 %".into()],
            ["chain leg 1".into(), "10.3 kN".into(), "33 %".into()],
        ],
        otherwise: vec![
            "Worst case, however the legs share it: leg 1 carries 2,621 lbf, 105 % of its rating".into(),
        ],
        warnings: vec!["The rating of the bag counts as one part; its webs are not modelled.".into()],
        drawing: None,
        dated: DATED.into(),
        digest: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad".into(),
        code: Some(code(
            "SL1:A SEAL THAT IS AS LONG AS A SEAL IS 0123456789 0123456789 0123456789 0123456789",
        )),
    }
}

/// Runs one of poppler's programs on a document; what it writes to standard output.
fn poppler(program: &str, options: &[&str], document: &[u8]) -> Vec<u8> {
    let mut child = Command::new(program)
        .args(options)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{program} is needed (Debian package poppler-utils): {error}"));
    let mut input = child.stdin.take().unwrap();
    let document = document.to_vec();
    let writer = std::thread::spawn(move || input.write_all(&document));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(output.status.success(), "{program} {options:?}");
    output.stdout
}

fn text(document: &[u8]) -> String {
    String::from_utf8(poppler("pdftotext", &["-layout", "-", "-"], document)).unwrap()
}

/// A page as grey pixels, by `pdftoppm` at 150 dots an inch: width, height, pixels.
fn pixels(document: &[u8]) -> (usize, usize, Vec<u8>) {
    let pgm = poppler("pdftoppm", &["-gray", "-r", "150", "-f", "1", "-l", "1", "-"], document);
    let mut fields = pgm.splitn(4, |byte| byte.is_ascii_whitespace());
    let mut number = || std::str::from_utf8(fields.next().unwrap()).unwrap().to_owned();
    assert_eq!(number(), "P5");
    let (width, height): (usize, usize) = (number().parse().unwrap(), number().parse().unwrap());
    let rest = fields.next().unwrap();
    let data = &rest[rest.len() - width * height..];
    (width, height, data.to_vec())
}

fn codes(document: &[u8]) -> Vec<String> {
    let (width, height, data) = pixels(document);
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| data[y * width + x]);
    image.detect_grids().iter().map(|grid| grid.decode().unwrap().1).collect()
}

#[test]
fn the_sheet_says_everything_and_carries_its_code_twice() {
    for paper in [Paper::A4, Paper::Letter] {
        let document = load_sheets(&[sheet()], DATED, paper, Language::English).unwrap();
        let text = text(&document);
        for (wanted, times) in [
            ("KM-014", 2),
            ("2,310 lb (1,048 kg)", 2),
            ("Heron M2", 2),
            ("Sela Bridge East", 2),
            ("Mason 5", 2),
            ("33U VR 12345 67890", 2),
            ("4,000 lb", 2),
            ("cargo-bag, version 3", 1),
            ("CL-0418", 1),
            ("7,100 lb", 1),
            ("leg 1: 3", 1),
            ("Tag signed by Lantern 1, Sela Flood Relief", 1),
            ("The governing manual rules", 2),
            ("40,000 V", 2),
            ("Water shifts", 1),
        ] {
            assert_eq!(text.matches(wanted).count(), times, "{wanted} in\n{text}");
        }
        assert!(!text.contains("UNSIGNED"));
        assert_eq!(codes(&document), [TAG, TAG]);
    }
}

/// ISO 216 A4 and ANSI A, in points; and nothing of an A4 page is lost on Letter, printed without scaling.
#[test]
fn both_papers_hold_the_page() {
    let size = |document: &[u8]| {
        let info = String::from_utf8(poppler("pdfinfo", &["-"], document)).unwrap();
        info.lines()
            .find_map(|line| line.strip_prefix("Page size:").map(|size| size.trim().to_owned()))
            .unwrap()
    };
    let a4 = load_sheets(&[sheet()], DATED, Paper::A4, Language::English).unwrap();
    assert!(size(&a4).starts_with("595.28 x 841.89 pts (A4)"), "{}", size(&a4));
    let letter = load_sheets(&[sheet()], DATED, Paper::Letter, Language::English).unwrap();
    assert!(size(&letter).starts_with("612 x 792 pts (letter)"), "{}", size(&letter));
    for document in [a4, record_page(&page(), Paper::A4, Language::English).unwrap()] {
        let (width, height, data) = pixels(&document);
        let cut = (height - 792 * 150 / 72) / 2;
        let margin = 150 / 4;
        let outside = |row: usize| row < cut + margin || row >= height - cut - margin;
        let lost = (0..height).filter(|row| outside(*row)).flat_map(|row| &data[row * width..][..width]);
        assert!(lost.copied().all(|pixel| pixel > 250), "ink where Letter has no paper or no printer prints");
    }
}

#[test]
fn an_unsigned_tag_is_marked() {
    let unsigned = LoadSheet { signed_by: None, ..sheet() };
    let text = text(&load_sheets(&[unsigned], DATED, Paper::A4, Language::English).unwrap());
    assert!(text.contains("UNSIGNED TAG: WAIT until the leader confirms it"), "{text}");
}

#[test]
fn the_record_says_everything_and_its_code_reads() {
    let page = page();
    let document = record_page(&page, Paper::A4, Language::English).unwrap();
    let text = text(&document);
    for wanted in [
        "INSPECTION RECORD",
        "KM-014",
        "FIT",
        "until 100630Z JUL 26 for Heron M2",
        "Anvil 3",
        "1 found, all corrected and reinspected",
        "Suspension web 2, snap: not taped",
        "chain leg 1",
        "33 %",
        "Inspection begun by Anvil 3",
        &page.digest,
        "proves nothing by itself",
    ] {
        assert!(text.contains(wanted), "{wanted} in\n{text}");
    }
    assert!(!text.contains("NOT FIT"));
    assert_eq!(codes(&document).len(), 1);
    let not_fit = record_page(
        &RecordPage { banner: "NOT FIT".into(), fit: false, code: None, ..page },
        Paper::Letter,
        Language::English,
    )
    .unwrap();
    assert!(self::text(&not_fit).contains("NOT FIT"));
    assert_eq!(codes(&not_fit), [""; 0]);
}

#[test]
fn same_input_same_bytes() {
    assert!(
        load_sheets(&[sheet(), sheet()], DATED, Paper::A4, Language::English).unwrap()
            == load_sheets(&[sheet(), sheet()], DATED, Paper::A4, Language::English).unwrap()
    );
    assert!(
        record_page(&page(), Paper::A4, Language::English).unwrap()
            == record_page(&page(), Paper::A4, Language::English).unwrap()
    );
}

/// The longest that every field may be (the bounds of the tag), and more lines than there is room: one page still, and it
/// says that something was left out.
#[test]
fn too_much_is_cut_and_says_so() {
    let mut sheet = sheet();
    sheet.load = "W".repeat(16);
    sheet.description = "M".repeat(48);
    sheet.zone = "W".repeat(24);
    sheet.equipment = (0..20).map(|at| line(&"W".repeat(24), &format!("kind {at}"), "5,000 lb")).collect();
    let document = load_sheets(&[sheet], DATED, Paper::A4, Language::English).unwrap();
    let said = text(&document);
    assert!(said.contains("more: scan the code"), "{said}");
    assert!(said.contains(&"W".repeat(16)), "{said}");
    assert_eq!(codes(&document), [TAG, TAG]);

    let mut page = page();
    page.moments =
        (0..80).map(|at| Moment { when: "091630Z JUL 26".into(), what: format!("moment {at}") }).collect();
    page.deficiencies = (0..40)
        .map(|at| Correction { point: format!("point {at}"), found: "loose".into(), corrected: None })
        .collect();
    let document = record_page(&page, Paper::A4, Language::English).unwrap();
    let said = text(&document);
    assert_eq!(said.matches("more: see the export").count(), 2, "{said}");
    assert!(said.contains("40 found, 40 open") && said.contains(&page.digest));
    assert_eq!(said.matches('\u{c}').count(), 1, "one page");
}

/// Names in other letters: Greek and Cyrillic print; what no font has is a question mark, never a box.
#[test]
fn other_letters() {
    let mut sheet = sheet();
    sheet.rigger = "Žižka Ψάρι Жук".into();
    sheet.description = "水 water".into();
    let said = text(&load_sheets(&[sheet], DATED, Paper::A4, Language::English).unwrap());
    assert!(said.contains("Ψάρι") && said.contains("Жук") && said.contains("Žižka"), "{said}");
    assert!(said.contains("? water"), "{said}");
}
