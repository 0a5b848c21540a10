use slingseal_qr::{self as qr, Effort, FrameError, PictureError, SceneReader};
use slingseal_tests::hard_pictures::hard_pictures;

fn png() -> Vec<u8> {
    qr::write("LT1:PICTURE").expect("it fits").to_png(6, 4)
}

/// A PNG whose header says that it is `width` by `height`.
fn claiming(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = png();
    bytes[16..20].copy_from_slice(&width.to_be_bytes());
    bytes[20..24].copy_from_slice(&height.to_be_bytes());
    let sum = crc32(&bytes[12..29]);
    bytes[29..33].copy_from_slice(&sum.to_be_bytes());
    bytes
}

/// CRC-32 of ISO 3309, as PNG (W3C, annex D) wants it.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0u32, |sum, &byte| {
        (0..8).fold(
            sum ^ u32::from(byte),
            |sum, _| if sum & 1 == 1 { 0xEDB8_8320 ^ (sum >> 1) } else { sum >> 1 },
        )
    })
}

#[test]
fn hostile_files_are_refused_with_a_clear_line() {
    let line = |bytes: &[u8]| qr::read_picture(bytes).expect_err("it is refused").to_string();
    let not_a_picture = "the file is not a picture that can be read; give a PNG or a JPEG";
    assert_eq!(line(b""), not_a_picture);
    assert_eq!(line(b"GIF89a\x01\x00\x01\x00"), not_a_picture);
    assert_eq!(line(&[0u8; 1000]), not_a_picture);
    assert!(line(&vec![0u8; (32 << 20) + 1]).ends_with("are the most; crop it or save it smaller"));
    assert!(matches!(
        qr::read_picture(&claiming(60_000, 60_000)),
        Err(PictureError::WrongSize { width: 60_000, height: 60_000, .. })
    ));
    assert!(matches!(qr::read_picture(&claiming(12_000, 12_000)), Err(PictureError::WrongSize { .. })));
    assert_eq!(qr::read_picture(&claiming(12_000, 4_000)), Err(PictureError::Damaged));
    assert_eq!(qr::read_picture(&[0xFF, 0xD8, 0xFF, 0xE0]), Err(PictureError::Damaged));
}

/// Every cut of a good file, and every byte of it changed, gives a picture or an error, never a panic.
#[test]
fn damaged_files_never_panic() {
    let good = png();
    for end in 0..good.len() {
        let _ = qr::read_picture(&good[..end]);
    }
    for at in 0..good.len() {
        let mut bytes = good.clone();
        bytes[at] ^= 0x55;
        let _ = qr::read_picture(&bytes);
    }
}

#[test]
fn a_frame_is_measured_before_it_is_read() {
    let mut any = |_: &str| true;
    let mut read = |width, height, stride, bytes: &[u8]| {
        qr::read_luminance(width, height, stride, bytes, &mut any, Effort::Frame)
    };
    let grey = vec![128u8; 640 * 480];
    assert_eq!(read(640, 480, 640, &grey), Ok(None));
    assert_eq!(read(600, 480, 640, &grey[..640 * 479 + 600]), Ok(None));
    assert!(matches!(read(640, 480, 640, &grey[1..]), Err(FrameError::WrongLength { .. })));
    assert!(matches!(read(640, 480, 639, &grey), Err(FrameError::WrongLength { .. })));
    assert!(matches!(read(640, 480, usize::MAX, &grey), Err(FrameError::WrongLength { .. })));
    assert!(matches!(read(0, 480, 640, &grey), Err(FrameError::WrongSize { .. })));
    assert!(matches!(read(usize::MAX, 2, 640, &grey), Err(FrameError::WrongSize { .. })));
}

/// What the caller does not accept is not handed out, and the search goes on past it.
#[test]
fn the_caller_decides_what_counts() {
    let picture = image::load_from_memory(&png()).expect("our PNG is a picture").to_luma8();
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let mut asked = 0;
    let mut never = |text: &str| {
        assert_eq!(text, "LT1:PICTURE");
        asked += 1;
        false
    };
    let read = qr::read_luminance(width, height, width, &picture, &mut never, Effort::Still);
    assert_eq!(read, Ok(None));
    assert!(asked > 1, "other treatments were tried");
    let mut scene = SceneReader::new();
    let read = scene.take(width, height, width, &picture, &mut |text| text.starts_with("LT1:"));
    assert_eq!(read, Ok(Some("LT1:PICTURE".into())));
}

/// Noise, finder patterns without end, bombs: each is worth so much work and no more, and the same on every machine. What that is
/// in seconds and bytes is measured by `picture_bench`.
#[test]
fn no_picture_costs_more_than_any_is_worth() {
    for (name, bytes) in hard_pictures(false) {
        let (texts, work) = qr::read_picture_counted(&bytes).expect("it is a picture");
        assert_eq!(texts, [""; 0], "{name}");
        assert!(work > 0 && work <= qr::MOST_WORK, "{name}: {work} of {}", qr::MOST_WORK);
        assert_eq!(
            qr::read_picture_counted(&bytes),
            Ok((texts, work)),
            "{name}: the same picture, the same answer"
        );
    }
    // A picture that reads costs little of it.
    let (texts, work) = qr::read_picture_counted(&png()).expect("our PNG is a picture");
    assert_eq!(texts, ["LT1:PICTURE"]);
    assert!(work < qr::MOST_WORK / 50, "{work}");
}

/// A large picture is made smaller while it is opened, and still read; what would take too much to open is refused before.
#[test]
fn large_pictures_are_made_smaller_and_dear_ones_refused() {
    let code = qr::write("SL1:LARGE").expect("it fits").to_png(20, 4);
    let small = image::load_from_memory(&code).expect("our PNG is a picture").to_luma8();
    let (width, height) = (small.width() * 10, small.height() * 10);
    assert!(width * height > 30_000_000, "{width} by {height}");
    let mut large = Vec::new();
    image::imageops::resize(&small, width, height, image::imageops::FilterType::Nearest)
        .write_to(&mut std::io::Cursor::new(&mut large), image::ImageFormat::Png)
        .expect("a PNG of it");
    assert_eq!(qr::read_picture(&large), Ok(vec!["SL1:LARGE".to_owned()]));
    // 64 million pixels of eight bytes each, and interlaced ones, which are whole in their last row alone.
    for (depth, colour, interlace) in [(16u8, 6u8, 0u8), (8, 2, 1)] {
        let mut bytes = claiming(8_000, 7_900);
        (bytes[24], bytes[25], bytes[28]) = (depth, colour, interlace);
        let sum = crc32(&bytes[12..29]);
        bytes[29..33].copy_from_slice(&sum.to_be_bytes());
        assert!(matches!(qr::read_picture(&bytes), Err(PictureError::TooDear { .. })), "{depth} {colour}");
    }
    let error = PictureError::TooDear { bytes: 9, most: 8 };
    assert!(error.to_string().ends_with("save it smaller, or as a plain PNG or JPEG"));
}
