//! An inspection by single keys, from a newcomer's first to the seal.

use super::*;

#[test]
fn a_newcomer_is_asked_for_call_sign_and_pin_and_walks() {
    let mut hands = Hands::empty();
    hands.desk.practice = true; // Its practice home is this one: with this test's clock.
    hands.desk.practise().unwrap();
    hands.is("welcome");
    hands.press("mason-5\n");
    assert!(hands.screen().contains("nobody inspects a load"), "{}", hands.screen());
    for _ in 0.."mason-5".len() {
        hands.key(Key::Erase);
    }
    hands.press("Anvil 3\n111111\n111111\n");
    assert!(hands.screen().contains("PIN"), "an easy PIN is refused: {}", hands.screen());
    hands.press(PIN);
    let shown = hands.screen();
    assert!(shown.contains("******") && !shown.contains(PIN), "{shown}");
    hands.press(&format!("\n{PIN}\n"));
    hands.is("tag");
    hands.press("1");
    hands.is("card");
}

#[test]
fn a_deficiency_is_named_put_right_and_looked_at_again() {
    let mut hands = Hands::walking();
    hands.press(".9\n-");
    hands.is("which-point");
    hands.press("3");
    hands.is("what-is-wrong");
    hands.press("1");
    hands.is("note");
    hands.press("by one turn\n");
    hands.is("found");
    hands.press("2");
    hands.is("card-deficient");
    assert_eq!(hands.view().findings[0].note.as_deref(), Some("by one turn"));
    hands.press("/");
    hands.is("findings");
    hands.press("1");
    hands.is("finding");
    hands.press("1");
    hands.is("put-right");
    hands.press("1");
    hands.is("look-again");
    hands.press("2\n");
    assert_eq!(hands.view().findings[0].story.len(), 2);
    hands.press("/1");
    hands.press("13");
    hands.press("1");
    assert!(hands.screen().contains("closed: reinspected, good"), "{}", hands.screen());
    assert!(hands.screen().contains("Nothing open."));
    hands.press("*");
    assert!(hands.screen().contains("Open: [?] 1 clevis is not taped"), "undone: {}", hands.screen());
}

#[test]
fn a_count_is_judged_and_taken_back() {
    let mut hands = Hands::walking();
    let is_count = |hands: &Hands| {
        let points = &hands.view().card.as_ref().unwrap().points;
        points.iter().position(|point| matches!(point.kind, PointKind::Count { .. }))
    };
    hands.press(".6\n");
    let at = is_count(&hands).unwrap() + 1;
    hands.press(&at.to_string());
    hands.is("count");
    hands.press("41*\n");
    let shown = hands.screen();
    assert!(shown.contains("DEFICIENT") && shown.contains("(4)"), "{shown}");
    hands.press("*");
    assert!(hands.view().findings.is_empty(), "{}", hands.screen());
    hands.press(&format!("{at}3\n"));
    assert!(hands.view().findings.is_empty(), "{}", hands.screen());
    hands.press(&format!("{at}-"));
    assert!(matches!(hands.desk.page, Page::Walk), "minus goes back while nothing is typed");
}

/// How many links are wanted is told once they were counted, and + takes no count for granted.
#[test]
fn a_count_is_asked_before_it_is_told() {
    let mut hands = Hands::walking();
    hands.press(".6\n");
    assert!(hands.screen().contains("count"), "{}", hands.screen());
    hands.press("+");
    let shown = hands.screen();
    assert!(matches!(hands.desk.page, Page::Entry(_)) && shown.contains("enter what you counted"), "{shown}");
    assert!(!shown.contains("Wanted") && !shown.contains("third"), "{shown}");
    hands.press("4\n");
    assert!(hands.screen().contains("Wanted: 3"), "{}", hands.screen());
}

/// What was taken back leaves its number, and the key of every other stays what it is called by.
#[test]
fn a_finding_that_was_taken_back_leaves_a_gap() {
    let mut hands = Hands::walking();
    hands.press(".9\n-31\n2*");
    hands.press("-21\n2/");
    let shown = hands.screen();
    assert!(shown.contains("2  [!] OPEN  finding 2"), "{shown}");
    hands.press("1");
    assert!(hands.screen().contains("finding 2: "), "a gap's key does nothing: {}", hands.screen());
    hands.press("2");
    assert!(
        hands.screen().contains("FINDING 2") || hands.screen().contains("The riggers corrected it"),
        "{}",
        hands.screen()
    );
}

/// The list of cards is longer than a phone's screen: a number that is typed is gone to all the same.
#[test]
fn a_card_is_gone_to_from_a_list_that_has_more_lines() {
    let mut hands = Hands::walking();
    hands.press(".");
    assert!(text(&hands.buffer(40, 24)).contains("more lines"));
    hands.press("1");
    hands.buffer(40, 24);
    hands.press("2\n");
    assert_eq!(hands.view().card.as_ref().unwrap().number, 12);
}

/// Whatever was closed first, a finding's key is the number that it is called by; who rigged the load is the first who may have
/// corrected it.
#[test]
fn a_finding_s_key_is_its_number_and_the_rigger_comes_first() {
    let mut hands = Hands::walking();
    // Two findings that are corrected where the load stands; the first is closed before the second is found.
    hands.press(".9\n-31\n111");
    assert!(hands.screen().contains("Finding 1 is closed"), "{}", hands.screen());
    hands.press(".10\n-21\n2/");
    let shown = hands.screen();
    let numbers: Vec<&str> = shown.lines().filter(|line| line.contains("  finding ")).collect();
    assert_eq!(numbers.len(), 2, "{shown}");
    for (at, line) in numbers.iter().enumerate() {
        let key = at + 1;
        assert!(
            line.trim_start().starts_with(&format!("{key}  ")) && line.contains(&format!("finding {key}")),
            "{shown}"
        );
    }
    hands.press("21");
    let shown = hands.screen();
    assert!(shown.contains("1  Mason 5, who rigged the load"), "{shown}");
}

#[test]
fn every_other_page() {
    let mut hands = Hands::walking();
    hands.press("+.");
    hands.is("cards");
    hands.press("9\n");
    assert_eq!(hands.view().card.as_ref().unwrap().number, 9);
    hands.press(".99\n");
    assert!(hands.screen().contains("no card 99"), "{}", hands.screen());
    hands.press("1");
    hands.is("one-point");
    hands.press("-0");
    hands.is("more");
    hands.press("3");
    hands.is("keys");
    hands.press("-2");
    hands.is("cautions");
    hands.press("--p");
    hands.is("paused");
    hands.press("+.2\n");
    hands.all_good();
    hands.is("decision");
    hands.press("-");
    hands.is("not-fit");
    hands.press("-+");
    hands.is("decide-fit");
    hands.press("-04");
    hands.is("abandon");
    hands.press("load was moved\n");
    hands.is("abandoned");
    assert!(matches!(hands.view().stage, WalkStage::Abandoned { .. }));
}

#[test]
fn the_seal_is_shown_with_its_facts_and_its_code_can_be_read_off_the_screen() {
    let mut hands = Hands::walking();
    hands.press(".9\n-31\n2");
    hands.all_good();
    hands.is("decision-open");
    hands.press("+");
    assert!(hands.screen().contains("clevis is not taped"));
    hands.press("131+1");
    hands.is("decided");
    hands.press("+000000\n");
    assert!(hands.screen().contains("the PIN is wrong"), "{}", hands.screen());
    hands.press(&format!("{PIN}\n"));
    let small = hands.screen();
    for fact in ["PRACTICE", "KM-015", "1800 lb", "Heron M2", "Anvil 3", "GO", "needs 77 x 42"] {
        assert!(small.contains(fact), "{fact} in\n{small}");
    }
    // A photograph of a screen: each half block becomes a square, light where the terminal draws it light.
    let buffer = hands.buffer(120, 45);
    let wide = text(&buffer);
    assert!(wide.contains("SEALED") && wide.contains("Kestrel") == small.contains("Kestrel"), "{wide}");
    let (columns, rows, square) = (77_usize, 39_usize, 4_usize);
    let mut light = vec![0_u8; columns * square * rows * 2 * square];
    for y in 0..rows * 2 * square {
        for x in 0..columns * square {
            let cell = &buffer.content[y / (2 * square) * 120 + x / square];
            assert_eq!((cell.fg, cell.bg), (Color::White, Color::Black));
            let upper = (y / square).is_multiple_of(2);
            let lit = match cell.symbol() {
                "█" => true,
                "▀" => upper,
                "▄" => !upper,
                _ => false,
            };
            light[y * columns * square + x] = if lit { 230 } else { 20 };
        }
    }
    let (width, height) =
        (u32::try_from(columns * square).unwrap(), u32::try_from(rows * 2 * square).unwrap());
    let Page::Seal { seal, .. } = hands.desk.page.clone() else { panic!("{wide}") };
    let read = hands.desk.app.read_frame(width, height, width, &light, Effort::Still).unwrap();
    assert!(matches!(&read, Reading::Ours { text, .. } if *text == seal.code.text), "{read:?}");
    hands.press(".");
    assert!(hands.screen().contains("FIT, SEALED"));
    assert!(hands.desk.farewell().unwrap().contains("records seal"));
}

/// A doubled or bouncing press, and a key that is held down, answer one card.
#[test]
fn a_second_press_does_not_answer_a_card_that_nobody_has_read() {
    let mut hands = Hands::walking();
    hands.press(".3\n");
    hands.now += Duration::from_secs(1);
    let first = hands.now;
    let card = |hands: &Hands| hands.view().card.as_ref().unwrap().number;
    hands.desk.key(Key::Letter('+'), first);
    assert_eq!(card(&hands), 4);
    // Thirty a second, as a held key repeats: each one ignored starts the wait anew.
    let mut now = first;
    for _ in 0..90 {
        now += Duration::from_millis(33);
        hands.desk.key(Key::Letter('+'), now);
    }
    assert_eq!(card(&hands), 4);
    assert!(hands.screen().contains("A key is held down"), "{}", hands.screen());
    hands.desk.key(Key::Letter('+'), now + SETTLE);
    assert_eq!(card(&hands), 5);
}

/// What is no load is signed where it was decided; nothing of a seal is said of it.
#[test]
fn a_decided_list_is_signed() {
    let mut hands = Hands::ready();
    let walk = hands.desk.app.begin_inspection("zone", "KESTREL").unwrap().walk;
    hands.desk.act(Action::TakeUp { walk }).unwrap();
    hands.all_good();
    hands.press("+1");
    let screen = hands.screen();
    assert_eq!(hands.view().stage, WalkStage::Decided { fit: true }, "{screen}");
    assert!(screen.contains("FIT, not signed yet") && screen.contains("sign with the PIN"), "{screen}");
    assert!(!screen.to_lowercase().contains("seal"), "{screen}");
    hands.press(&format!("+{PIN}\n"));
    assert!(hands.screen().contains("KESTREL: signed by Anvil 3"), "{}", hands.screen());
    let kept = hands.desk.app.kept_inspections().unwrap();
    assert!(kept.len() == 1 && kept[0].signed.is_some(), "{kept:?}");
}
