//! The pages in every language of the catalogue: nothing is cut, and no word stands outside of it.

use slingseal_app::catalogue::terminal as words;

use super::*;

/// The pages that an inspection shows, each after its keys from the one before.
const WAYS: &[&str] = &["", "0", "1", "-", "2", "1\n", "-", "/"];

fn pages(language: Language, mut look: impl FnMut(&mut Hands, &str)) {
    let mut hands = Hands::speaking(language);
    practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
    hands.desk.practice = true;
    hands.desk.act(Action::Start).unwrap();
    look(&mut hands, "start");
    hands.press("1");
    look(&mut hands, "the tag");
    hands.press("1");
    for keys in WAYS {
        for letter in keys.chars() {
            hands.key(if letter == '\n' { Key::Enter } else { Key::Letter(letter) });
            let page = format!("{keys:?} at {letter:?}");
            look(&mut hands, &page);
        }
        look(&mut hands, keys);
    }
    let mut hands = Hands::speaking(language);
    practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
    hands.desk.practice = true;
    hands.desk.act(Action::Start).unwrap();
    hands.press("11");
    hands.all_good();
    look(&mut hands, "the decision");
    hands.press("+");
    look(&mut hands, "decide");
}

fn flat(screen: &str) -> String {
    screen.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_key_is_told_whole_in_every_language() {
    for language in Language::all().chain([Language::Pseudo]) {
        pages(language, |hands, page| {
            let screen = flat(&hands.screen());
            for (key, words) in hands.desk.hints().concat() {
                assert!(
                    screen.contains(&flat(&words)),
                    "{language:?}, {page}: {key} {words}\n{}",
                    hands.screen()
                );
            }
        });
    }
}

/// In the pseudo-language every word of the catalogue has an accent: a plain one is the load's, the procedure's, or a word
/// that nobody can translate.
#[test]
fn no_page_has_a_word_of_its_own() {
    // Keys and verbs are called by one name in every language.
    const NAMES: &[&str] = &["Ctrl", "slingseal"];
    // The list that the load of practice is walked by is data.
    const LIST: &str =
        include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../core/walk/procedures/bag.toml"));
    pages(Language::Pseudo, |hands, page| {
        let mut data = serde_json::to_string(&hands.desk.view).unwrap();
        let start = hands.desk.app.start().unwrap();
        data.push_str(&serde_json::to_string(&start).unwrap());
        if let Some(view) = &hands.desk.view {
            data.push_str(&serde_json::to_string(&hands.desk.app.walk_rigging(&view.walk).unwrap()).unwrap());
        }
        if let Page::Pick(pick) = &hands.desk.page {
            // What a tag shows before it is walked is the planner's.
            for item in &pick.items {
                data.push_str(&format!("{:?}", item.action));
                if let Action::Begin { tag } = &item.action {
                    data.push_str(&format!("{:?}", hands.desk.app.read_tag(tag).unwrap()));
                }
            }
        }
        let screen = hands.screen();
        for word in screen.split(|letter: char| !letter.is_alphabetic()) {
            let plain = word.len() > 3 && word.chars().all(|letter| letter.is_ascii_alphabetic());
            let ours = plain && word.chars().any(|letter| letter.is_ascii_lowercase());
            assert!(
                !ours || NAMES.contains(&word) || data.contains(word) || LIST.contains(word),
                "{page}: {word}\n{screen}"
            );
        }
    });
}

/// What a journal keeps in English is told in the reader's language: statics, choices, what stands in the way.
#[test]
fn a_rigged_load_is_walked_without_an_english_word() {
    let mut hands = Hands::speaking(Language::Pseudo);
    practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
    let open = |_: &str| Ok(include_str!("../../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../../demo/vehicle.toml"), &open, None).unwrap();
    hands.desk.act(Action::Begin { tag: made.code.text }).unwrap();
    let statics = hands.view().rigging.clone().unwrap();
    for english in ["allowable", "pitch", "roll", "pulls", "leg"] {
        assert!(!statics.contains(english), "{english} in {statics}");
    }
    let spanish = {
        let mut hands = Hands::speaking(Language::Spanish);
        practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
        let made = hands.desk.app.write_tag(include_str!("../../../demo/vehicle.toml"), &open, None).unwrap();
        hands.desk.act(Action::Begin { tag: made.code.text }).unwrap();
        hands
    };
    let mut hands = spanish;
    assert!(hands.screen().contains("el ramal 1 es el que más tira"), "{}", hands.screen());
    // A choice that was made, a deficiency that stands in the way: as the list says them in the reader's language.
    hands.press(".2\n31");
    let answer = hands.view().card.as_ref().unwrap().points[2].answer.clone();
    assert_eq!(answer.as_deref(), Some("pesada"), "{}", hands.screen());
    hands.press("-11\n");
    let request = slingseal_app::WalkRequest::Decide { fit: true, reason: None };
    let walk = hands.view().walk.clone();
    let refused = hands.desk.app.do_walk(&walk, &request).unwrap().refused.unwrap().message;
    assert!(!refused.contains("tag names another"), "{refused}");
}

/// What forty columns leave no room for is put otherwise: no title and no banner is cut, and the manual's caution stands once.
#[test]
fn the_narrowest_screen_cuts_no_title_and_no_banner() {
    for language in Language::all() {
        let manual = if language == Language::English { "manual" } else { "Manda el manual" };
        pages(language, |hands, page| {
            for (width, height) in SIZES {
                let shown = text(&hands.buffer(width, height));
                if matches!(hands.desk.page, Page::Walk) {
                    // A list may have a point of its own on the manual's edition.
                    let said = shown.lines().filter(|line| !line.contains("[ ]") && line.contains(manual));
                    assert!(said.count() <= 2, "{page} at {width}\n{shown}");
                    assert!(!shown.contains("rules;") || !shown.contains("rules over"), "{page}\n{shown}");
                }
                if let Page::Pick(pick) = &hands.desk.page {
                    assert!(
                        flat(&shown).contains(&flat(&pick.title)),
                        "{page} at {width}: {}\n{shown}",
                        pick.title
                    );
                }
                let (banner, _) = hands.desk.banner(usize::from(width));
                assert!(shown.contains(banner.trim_end()), "{page} at {width}: {banner}\n{shown}");
            }
        });
    }
}

/// A phone's terminal, the terminal of old, a window.
const SIZES: [(u16, u16); 3] = [(40, 24), (80, 24), (120, 40)];

/// What people looked at: an inspection's screens one after the other, in three sizes and in each language.
#[test]
fn the_screens_of_an_inspection_are_kept_in_three_sizes_and_each_language() {
    for language in Language::all() {
        let mut kept = SIZES.map(|_| String::new());
        pages(language, |hands, page| {
            for ((width, height), kept) in SIZES.into_iter().zip(&mut kept) {
                let shown = text(&hands.buffer(width, height));
                assert!(shown.lines().all(|line| line.chars().count() <= usize::from(width)), "{shown}");
                if !kept.ends_with(&shown) {
                    kept.push_str(&format!("{:=<1$}\n{shown}", format!("== {page} "), usize::from(width)));
                }
            }
        });
        for ((width, height), kept) in SIZES.into_iter().zip(&kept) {
            is_kept(&format!("walk-{}-{width}x{height}", language.code()), kept);
        }
    }
}

#[test]
fn the_states_are_the_trade_s_in_spanish() {
    assert_eq!(words::StateAwaits.say(Language::Spanish), "CORREGIDO: REINSPECCIONE");
    assert_eq!(words::HintNotFit.say(Language::Spanish), "NO APTA");
}
