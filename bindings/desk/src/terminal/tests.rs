mod exam;
mod languages;

use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::style::{Color, Modifier};
use slingseal_app::{
    App, Clock, Effort, Language, Outside, PointKind, Reading, Stretch, Time, WalkRequest, WalkStage,
};

use super::look::Look;
use super::model::{Action, Desk, Flow, Key, Page, Purpose, SETTLE};
use super::practice;
use crate::platform::SystemEntropy;

const PIN: &str = "417293";

/// A clock that stands: screens show times.
struct Standing;

impl Clock for Standing {
    fn now(&self) -> Time {
        Time::parse("2026-11-25T09:00:00Z").unwrap()
    }
}

/// A desk in a practice home, and the hands on its keys.
struct Hands {
    _folder: tempfile::TempDir,
    desk: Desk,
    now: Duration,
}

fn app(folder: &tempfile::TempDir) -> App {
    app_speaking(folder, Language::English)
}

fn app_speaking(folder: &tempfile::TempDir, language: Language) -> App {
    let outside = Outside {
        clock: Arc::new(Standing),
        entropy: Arc::new(SystemEntropy),
        device_secret: zeroize::Zeroizing::new(b"a device".to_vec()),
        stretch: Stretch::weak_for_tests_only(),
        language,
    };
    App::open(folder.path(), outside).unwrap()
}

impl Hands {
    /// In an empty home, before anything is asked.
    fn empty() -> Self {
        Self::speaking(Language::English)
    }

    /// The same, in a language.
    fn speaking(language: Language) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let look = Look { colour: true };
        let home = folder.path().to_owned();
        let desk = Desk::new(app_speaking(&folder, language), home, language, None, look).unwrap();
        Self { _folder: folder, desk, now: Duration::from_secs(1) }
    }

    /// With the practice load on the screen.
    fn ready() -> Self {
        let mut hands = Self::empty();
        practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
        hands.desk.practice = true;
        hands.desk.act(Action::Start).unwrap();
        hands
    }

    /// At the first card.
    fn walking() -> Self {
        let mut hands = Self::ready();
        hands.press("11");
        assert!(matches!(hands.desk.page, Page::Walk));
        hands
    }

    fn key(&mut self, key: Key) -> Flow {
        self.now += Duration::from_secs(1);
        self.desk.key(key, self.now)
    }

    /// Letters are keys; `\n` is Enter.
    fn press(&mut self, keys: &str) {
        for letter in keys.chars() {
            let key = if letter == '\n' { Key::Enter } else { Key::Letter(letter) };
            assert_eq!(self.key(key), Flow::On, "{letter}");
        }
    }

    fn buffer(&mut self, width: u16, height: u16) -> Buffer {
        let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
        terminal.draw(|frame| self.desk.draw(frame)).unwrap();
        terminal.backend().buffer().clone()
    }

    fn screen(&mut self) -> String {
        text(&self.buffer(80, 24))
    }

    fn view(&self) -> &slingseal_app::WalkView {
        self.desk.view.as_ref().unwrap()
    }

    /// `+` until the walk wants something else than an answer to a card.
    fn all_good(&mut self) {
        for _ in 0..400 {
            match &self.desk.page {
                Page::Walk if self.view().card.is_none() => return,
                Page::Walk => self.press("+"),
                Page::Entry(entry) => {
                    let Purpose::Value(point) = entry.purpose.clone() else { panic!("{entry:?}") };
                    let value = slingseal_app::sound_answer(self.view(), &point);
                    self.press(&format!("{value}\n"));
                }
                // The first option of a choice is right; what may not apply is said to apply.
                _ => self.press("1"),
            }
        }
        panic!("the walk does not end: {}", self.screen());
    }

    /// The screen, against the one that is kept. `SLINGSEAL_WRITE_SCREENS=1` writes those that are missing, never others.
    fn is(&mut self, name: &str) {
        is_kept(name, &self.screen());
    }
}

fn is_kept(name: &str, shown: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("src/terminal/screens/{name}.txt"));
    match std::fs::read_to_string(&path) {
        Ok(kept) => assert_eq!(shown, kept, "{name}: the screen changed"),
        Err(_) if std::env::var_os("SLINGSEAL_WRITE_SCREENS").is_some() => {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, shown).unwrap();
        }
        Err(error) => panic!("{}: {error}\n{shown}", path.display()),
    }
}

fn text(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width);
    let rows = buffer.content.chunks(width).map(|row| {
        let row: String = row.iter().map(|cell| cell.symbol()).collect();
        format!("{}\n", row.trim_end())
    });
    rows.collect()
}

/// Whatever text comes to a page, the terminal is given nothing that it would obey or hide.
#[test]
fn no_text_reaches_the_screen_as_a_command() {
    let mut hands = Hands::walking();
    hands.desk.tell(super::look::Tone::Bad, "seen\u{1b}[2J\u{9b}1A\u{202e}\u{200b} GO\n\u{7}end");
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

/// Whatever a page offers, it is never cut off at 80 x 24: every card of every procedure.
#[test]
fn every_card_of_every_procedure_fits() {
    let folder = tempfile::tempdir().unwrap();
    let app = app(&folder);
    practice::make(&app, "Anvil 3", PIN).unwrap();
    let plan = include_str!("../../demo/bag.toml");
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
    let open = |_: &str| Ok(include_str!("../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../demo/vehicle.toml"), &open, None).unwrap();
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

/// A phone's terminal of 40 columns: everything is there, in parts, and nothing is answered before its last part was shown.
#[test]
fn forty_columns_show_everything_before_anything_is_answered() {
    let mut hands = Hands::walking();
    let open = |_: &str| Ok(include_str!("../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../demo/vehicle.toml"), &open, None).unwrap();
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
    assert_eq!(super::look::laid(table, 76), table.lines().collect::<Vec<_>>());
    assert_eq!(
        super::look::laid(table, 20),
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
    let open = |_: &str| Ok(include_str!("../../demo/vehicle-rigging.toml").to_owned());
    let made = hands.desk.app.write_tag(include_str!("../../demo/vehicle.toml"), &open, None).unwrap();
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
