//! Two seals in one picture: the first read is FIT, and a refusal lies beside it.

use image::{GenericImage, GrayImage};
use slingseal_app::{VerdictWord, texts_of};

use crate::zone::{Ends, Zone};

/// Pictures side by side, as one PNG.
fn beside(pictures: &[Vec<u8>]) -> Vec<u8> {
    let opened: Vec<GrayImage> =
        pictures.iter().map(|png| image::load_from_memory(png).unwrap().to_luma8()).collect();
    let width = opened.iter().map(GrayImage::width).sum();
    let height = opened.iter().map(GrayImage::height).max().unwrap();
    let mut sheet = GrayImage::from_pixel(width, height, image::Luma([255]));
    let mut left = 0;
    for picture in &opened {
        sheet.copy_from(picture, left, 0).unwrap();
        left += picture.width();
    }
    let mut png = std::io::Cursor::new(Vec::new());
    sheet.write_to(&mut png, image::ImageFormat::Png).unwrap();
    png.into_inner()
}

#[test]
fn a_refusal_beside_a_fit_seal_is_not_passed_over() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief
        .app
        .authority_init("Sela Relief", "a meadow by the river", &slingseal_app::built_in_procedures())
        .unwrap();
    let planner = zone.device("planner", 0);
    planner.meet(&relief);
    let planner = planner.credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0);
    anvil.meet(&relief);
    let anvil = anvil.credentialed(&relief, "Anvil 3", "inspector");
    let tag = planner.plan("KM-014");
    let fit = zone.inspect(&anvil, &tag, Ends::Fit);
    zone.pass(600);
    let refusal = zone.inspect(&anvil, &tag, Ends::NotFit);
    let hookup = zone.device("hookup", 0);
    hookup.meet(&relief);
    assert_eq!(hookup.app.check(Some(&fit.code.text), Some(&tag)).unwrap().verdict, VerdictWord::Go);
    for order in [[&fit, &refusal], [&refusal, &fit]] {
        let picture = beside(&order.map(|seal| seal.code.png(6).unwrap()));
        let texts = texts_of(&picture).unwrap();
        assert_eq!(texts.len(), 2, "{texts:?}");
        let verdict = hookup.app.check_all(&texts).unwrap();
        assert_eq!((verdict.verdict, verdict.shown.len()), (VerdictWord::NoGo, 2));
        assert_eq!(
            verdict.reasons[0].code, "not_fit",
            "that of the latest inspection: {:?}",
            verdict.reasons
        );
    }
    // The first seal by itself says so from here on.
    assert_eq!(hookup.app.check(Some(&fit.code.text), Some(&tag)).unwrap().verdict, VerdictWord::NoGo);
}
