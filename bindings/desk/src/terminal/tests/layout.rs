//! What stands where: windows of every size, with and without colour.

use super::*;

/// Whatever text comes to a page, the terminal is given nothing that it would obey or hide.
#[test]
fn no_text_reaches_the_screen_as_a_command() {
    let mut hands = Hands::walking();
    hands.desk.tell(crate::terminal::look::Tone::Bad, "seen\u{1b}[2J\u{9b}1A\u{202e}\u{200b} GO\n\u{7}end");
    for (width, height) in [(80, 24), (120, 40)] {
        let buffer = hands.buffer(width, height);
        let hidden: Vec<&str> = buffer
            .content
            .iter()
            .map(|cell| cell.symbol())
            .filter(|symbol| symbol.chars().any(slingseal_app::is_invisible))
            .collect();
        assert!(hidden.is_empty(), "{hidden:?}");
        assert!(text(&buffer).contains("seen"), "{}", text(&buffer));
    }
}

/// Whatever a page offers, it is never cut off at 80 x 24: every card of every procedure.
#[test]
fn every_card_of_every_procedure_fits() {
    let folder = tempfile::tempdir().unwrap();
    let app = app(&folder);
    practice::make(&app, "Anvil 3", PIN).unwrap();
    let plan = include_str!("../../../demo/bag.toml");
    let (mut cards, mut procedures) = (0, 0);
    for procedure in app.procedures().unwrap() {
        let links: String = (2..=4).map(|leg| format!("\n[[link]]\nleg = \"{leg}\"\nlink = 3\n")).collect();
        let plan = plan.replace("\"bag\"", &format!("\"{}\"", procedure.id)) + &links;
        let made = app.write_tag(&plan, &|_| Err("none".into()), None).unwrap();
        let view = app.begin_walk(&made.code.text);
        let view = view.or_else(|_| app.begin_inspection(&procedure.id, "SN-1")).unwrap();
        let home = folder.path().to_owned();
        let walk = view.walk.clone();
        // One store at a time: the desk takes the app over and gives it back by opening it anew.
        let look = Look { colour: false };
        let mut desk =
            Desk::new(self::app(&tempfile::tempdir().unwrap()), home, Language::English, None, look).unwrap();
        for number in 1..=u32::try_from(view.cards.len()).unwrap() {
            desk.view = Some(app.do_walk(&walk, &WalkRequest::GoTo { card: number }).unwrap());
            desk.page = Page::Walk;
            let mut terminal = Terminal::new(TestBackend::new(80, 24)).unwrap();
            terminal.draw(|frame| desk.draw(frame)).unwrap();
            let shown = text(terminal.backend().buffer());
            assert!(!shown.contains("more lines"), "{} card {number}\n{shown}", procedure.id);
            let card = desk.view.as_ref().unwrap().card.clone().unwrap();
            assert!(card.points.len() <= 9, "every point has a key");
            desk.page = Page::Cards { typed: String::new() };
            terminal.draw(|frame| desk.draw(frame)).unwrap();
            let shown = text(terminal.backend().buffer());
            assert!(!shown.contains("more lines"), "{}\n{shown}", procedure.id);
            cards += 1;
        }
        assert_eq!(view.cards.len(), usize::try_from(procedure.cards).unwrap());
        procedures += 1;
        app.do_walk(&walk, &WalkRequest::Abandon { reason: "seen".into() }).unwrap();
    }
    assert!(procedures >= 17 && cards > 180, "{procedures} procedures, {cards} cards");
}

/// A vehicle on four legs: the statics stand in full beside every card, and follow a link that was counted otherwise.
#[test]
fn the_statics_stand_beside_the_card_and_follow_the_count() {
    let mut hands = Hands::ready();
    let open = |_: &str| Ok(include_str!("../../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../../demo/vehicle.toml"), &open, None).unwrap();
    hands.desk.act(Action::Begin { tag: made.code.text }).unwrap();
    let last = u32::try_from(hands.view().cards.len()).unwrap();
    let mut counted = None;
    for card in 1..=last {
        hands.press(&format!(".{card}\n"));
        let shown = hands.screen();
        let line = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        let statics = hands.view().rigging.clone().unwrap();
        assert!(line.contains(&statics) && !shown.contains("more lines"), "card {card}: {statics}\n{shown}");
        let points = &hands.view().card.as_ref().unwrap().points;
        if let Some(at) = points.iter().position(|point| point.id.ends_with(".count.links")) {
            counted.get_or_insert((card, at + 1));
        }
    }
    let (card, point) = counted.expect("a card that counts links");
    hands.press(&format!(".{card}\n{point}5\n2"));
    let shown = hands.screen();
    assert!(shown.contains("Statics: [!] Leg 1: link 5 sits in the grab hook, the plan wants 3."), "{shown}");
}

/// In a window that is wide and high enough the load stands beside its card, and what the card is about is turned round; a smaller one
/// has the words alone.
#[test]
fn a_roomy_window_draws_the_load_beside_its_card() {
    let mut hands = Hands::walking();
    let braille = |buffer: &Buffer| -> (usize, usize) {
        let drawn = buffer
            .content
            .iter()
            .filter(|cell| cell.symbol().chars().any(|c| ('\u{2801}'..='\u{28ff}').contains(&c)));
        let marked =
            drawn.clone().filter(|cell| cell.modifier.contains(ratatui::style::Modifier::REVERSED)).count();
        (drawn.count(), marked)
    };
    assert_eq!(braille(&hands.buffer(80, 24)), (0, 0));
    let (drawn, marked) = braille(&hands.buffer(130, 40));
    assert!(drawn > 120 && marked == 0, "nobody on the load: {drawn} cells, {marked} marked");
    hands.press("+");
    let words = text(&hands.buffer(130, 40));
    let (drawn, marked) = braille(&hands.buffer(130, 40));
    assert!(drawn > 120 && marked > 0, "the tag: {drawn} cells, {marked} marked\n{words}");
    let title = hands.view().card.as_ref().unwrap().title.clone();
    assert!(words.contains(&title), "the words stand beside it\n{words}");
}

#[test]
fn a_window_that_is_too_small_says_what_it_needs() {
    let mut hands = Hands::walking();
    for (width, height) in [(39, 24), (80, 23), (30, 10), (9, 4), (1, 1)] {
        let shown = text(&hands.buffer(width, height));
        assert!(width < 30 || shown.replace('\n', " ").contains("needs 40 x 24"), "{shown}");
    }
}

/// Nothing is told by colour alone: without colours every word is still there, and every bar is reversed instead.
#[test]
fn without_colour_the_same_words_stand() {
    let mut hands = Hands::walking();
    hands.press(".9\n-31\n");
    let coloured = hands.buffer(80, 24);
    hands.desk.look = Look { colour: false };
    let plain = hands.buffer(80, 24);
    assert_eq!(text(&coloured), text(&plain));
    assert!(plain.content.iter().all(|cell| cell.fg == Color::Reset && cell.bg == Color::Reset));
    let bar = &plain.content[3 * 80 + 1];
    assert!(bar.modifier.contains(Modifier::REVERSED) && text(&plain).contains("[!] DEFICIENT"));
}

/// A phone's terminal of 40 columns: everything is there, in parts, and nothing is answered before its last part was shown.
#[test]
fn forty_columns_show_everything_before_anything_is_answered() {
    let mut hands = Hands::walking();
    let open = |_: &str| Ok(include_str!("../../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../../demo/vehicle.toml"), &open, None).unwrap();
    hands.desk.act(Action::Begin { tag: made.code.text }).unwrap();
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    for number in 1..=u32::try_from(hands.view().cards.len()).unwrap() {
        hands.press(&format!(".{number}\n"));
        let mut shown = text(&hands.buffer(40, 24));
        let mut parts = 1;
        while hands.desk.more_below {
            hands.press("+");
            shown += &text(&hands.buffer(40, 24));
            parts += 1;
            assert!(parts < 9, "{shown}");
        }
        assert!(shown.lines().all(|line| line.chars().count() <= 40));
        let seen = words(&shown);
        let card = hands.view().card.clone().unwrap();
        assert_eq!(card.number, number, "scrolling answers nothing");
        let wanted = card.points.iter().map(|point| &point.prompt).chain([&card.motion]).chain(&card.caution);
        for wanted in wanted.flat_map(|text| words(text)) {
            assert!(seen.contains(&wanted), "card {number}: {wanted}\n{shown}");
        }
        assert!(!hands.desk.more_below);
    }
    for keys in ["/", "-.", "-0", "-02", "--"] {
        hands.press(keys);
        let shown = text(&hands.buffer(40, 24));
        assert!(shown.contains(" - ") || shown.contains(" 0 "), "the keys are told: {shown}");
    }
}

/// The statics' table keeps its columns where there is room, and is told leg by leg where there is none.
#[test]
fn the_statics_are_a_table_or_a_list_and_never_a_heap() {
    let table = "Over.\n\nLeg  carries  of its rating\n1     900 lb           45 %\n2    1000 lb           50 %\nThe end of it.";
    assert_eq!(crate::terminal::look::laid(table, 76), table.lines().collect::<Vec<_>>());
    assert_eq!(
        crate::terminal::look::laid(table, 20),
        [
            "Over.",
            "",
            "Leg 1",
            "  carries: 900 lb",
            "  of its rating: 45",
            "  %",
            "Leg 2",
            "  carries: 1000 lb",
            "  of its rating: 50",
            "  %",
            "The end of it."
        ]
    );
}

/// With the count that differs, what it does to the load is told before the plan's statics are.
#[test]
fn the_consequence_of_a_link_stands_on_the_smallest_screens() {
    let mut hands = Hands::ready();
    let open = |_: &str| Ok(include_str!("../../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../../demo/vehicle.toml"), &open, None).unwrap();
    hands.desk.act(Action::Begin { tag: made.code.text }).unwrap();
    let card = hands.view().cards.len();
    let at = (1..=card).find(|card| {
        hands.press(&format!(".{card}\n"));
        hands.view().card.as_ref().unwrap().points.iter().any(|point| point.id.ends_with(".count.links"))
    });
    let point = hands
        .view()
        .card
        .as_ref()
        .unwrap()
        .points
        .iter()
        .position(|point| point.id.ends_with(".count.links"));
    assert!(at.is_some());
    hands.press(&format!("{}5\n2", point.unwrap() + 1));
    let whole = hands.view().link_change.clone().unwrap();
    for (width, height) in [(80, 24), (40, 40)] {
        let shown = text(&hands.buffer(width, height)).split_whitespace().collect::<Vec<_>>().join(" ");
        let first = whole.split(" Planned:").next().unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(first.contains("With this link:") && shown.contains(&first), "{first}\n{shown}");
    }
}
