//! A few pictures of the development seed, as a guard; the rates stand with the benchmark `read_bench`.

use slingseal_qr::{self as qr, PIXELS_A_MODULE, SceneReader};
use slingseal_tests::degrade::{self, DEVELOPMENT_SEED, Damage, Scene};
use slingseal_words::Metres;

fn scene(number: usize, damage: Damage) -> Scene {
    degrade::scene(DEVELOPMENT_SEED, number, damage)
}

/// Steep tilt and a bend are what the thorough reader is for: the library's own reader reads neither of these.
#[test]
fn one_frame_of_a_tilted_and_of_a_bent_code_is_read() {
    for scene in [scene(2, Damage::SteepTilt), scene(2, Damage::Curved)] {
        assert_eq!(scene.shot().read().as_deref(), Some(scene.text()));
    }
}

/// Nothing is read where nothing is, and nothing wrong where it is too far gone.
#[test]
fn no_wrong_read_from_what_is_too_far_gone() {
    let scene = scene(0, Damage::Clean).at_scale(0.9);
    assert_eq!(qr::read_picture(&scene.shot().png()), Ok(Vec::new()));
}

#[test]
fn a_code_is_read_at_the_size_that_we_ask_for() {
    for number in 0..2 {
        let scene = scene(number, Damage::Clean).at_scale(PIXELS_A_MODULE);
        assert_eq!(scene.shot().read().as_deref(), Some(scene.text()), "number {number}");
    }
    let code = qr::write(&"A".repeat(475)).expect("it fits");
    let metre = Metres::new(1.0).expect("finite");
    let width = code.width_for(metre, 1280).expect("finite").value();
    assert!((width - 0.1504).abs() < 0.001, "{width}");
}

/// The same text from one frame or from several: the reader forgets the views once it has read.
#[test]
fn frames_of_one_scene_are_counted_and_read() {
    let scene = scene(3, Damage::Motion);
    let mut reader = SceneReader::new();
    let read = (0..5).find_map(|number| {
        let shot = scene.frame(number);
        reader
            .take(shot.width, shot.height, shot.width, &shot.luminance(), &mut |text| text == scene.text())
            .expect("the frame is whole")
    });
    assert_eq!(read.as_deref(), Some(scene.text()));
    assert!((1..=5).contains(&reader.frames()));
}
