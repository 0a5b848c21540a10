//! Pictures that people look at: captions of codes, photographs of reports.

use crate::day::Day;
use crate::turns::Served;

/// What a picture's band says, by its SVG: words are drawn as dots, so two languages differ in their dots.
fn caption(day: &Day, language: &str, folder: &str) -> Vec<u8> {
    day.done(&["--language", language, "records", "seal", "KM-015", "--out", &day.at(folder)]);
    std::fs::read(day.only(folder, "svg")).unwrap()
}

#[test]
fn a_code_s_caption_is_in_the_reader_s_language_and_the_code_is_the_same() {
    let day = Day::new();
    let (english, spanish) = (caption(&day, "en", "e"), caption(&day, "es", "s"));
    assert_ne!(english, spanish, "SEAL and SELLO");
    let read =
        |folder: &str| day.done(&["read", &day.only(folder, "png")]).split('\t').nth(1).unwrap().to_owned();
    assert_eq!(read("e"), read("s"));
}

/// A photograph that came with a report is shown at its load, and no other file is served in its place.
#[test]
fn a_report_s_photographs_are_shown_with_its_load() {
    let day = Day::new();
    let photo = day.only("tags", "png");
    day.done(&[
        "report",
        "refused",
        "KM-015",
        "--cause",
        "other",
        "--note",
        "strap frayed",
        "--photo",
        &photo,
    ]);
    let served = Served::new(&day);
    let page = served.get("/load/KM-015");
    let (_, behind) =
        page.split_once("<img src=\"/photo/").unwrap_or_else(|| panic!("no photograph: {page}"));
    let digest = behind.split('"').next().unwrap();
    assert!(page.contains("<h2>Photographs</h2>"), "{page}");
    let shown = served.get(&format!("/photo/{digest}"));
    assert!(
        shown.contains("200 OK") && shown.to_lowercase().contains("content-type: image/png"),
        "{shown:.300}"
    );
    for other in ["/photo/ab", "/photo/..%2Fslingseal.db", &format!("/photo/{}", "0".repeat(64))] {
        assert!(served.get(other).contains(" 404 "), "{other}");
    }
}
