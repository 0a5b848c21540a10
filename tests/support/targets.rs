//! What a stranger can hand us, one function for each: `tests/fuzz` feeds them invented bytes, `fuzz_corpus` the kept
//! ones. None may panic or hang, and what is accepted must have one spelling alone.

use std::sync::{Arc, LazyLock};

use slingseal_account::sync::{BundleReader, FrameReader, Have, Heard, ItemKind, Piece, RecordItem};
use slingseal_app::Effort;
use slingseal_message::envelope::{
    Kind, Limits, Sign1, Unsigned, assemble, check, from_ndef, to_be_signed, to_ndef, unwrap, wrap,
};
use slingseal_message::seal;
use slingseal_message::tag::{ReceivedTag, Tag, read_list, read_plan};
use slingseal_message::trust::{Authority, CopyPart, Credentialed, KeyRequest, Roster, SecretKey};
use slingseal_qr as qr;
use slingseal_rigging as rigging;
use slingseal_walk::exam::{ExamResult, Lock, Sheet, timing};
use slingseal_walk::procedure;
use slingseal_walk::walk::{Command, Event, Ground, LoadFacts, Outcome, Walk};
use slingseal_words::{CallSign, Digest, Language, Quantity, Seconds, Serial, Time};

use crate::many::digest_of;

/// A name, and what it does with any bytes: whether they were accepted.
pub type Target = (&'static str, fn(&[u8]) -> bool);

/// Every target, by the name of its folder in `tests/fuzz/corpus`.
pub const TARGETS: [Target; 23] = [
    ("text", text),
    ("copy-part", copy_part),
    ("sticker", sticker),
    ("tag", tag),
    ("seal", seal_message),
    ("void", void),
    ("credential", credential),
    ("roster", roster),
    ("authority", authority),
    ("key-request", key_request),
    ("exam-key", exam_key),
    ("exam-result", exam_result),
    ("exam-sheet", exam_sheet),
    ("record", record),
    ("have", have),
    ("frames", frames),
    ("bundle", bundle),
    ("procedure", procedure_file),
    ("plan", plan),
    ("list", list),
    ("walk", walk),
    ("rigging", rigging_file),
    ("camera", camera),
];

/// A text has one spelling.
fn text(data: &[u8]) -> bool {
    let Some((text, (kind, bytes))) =
        str::from_utf8(data).ok().and_then(|text| Some((text, unwrap(text).ok()?)))
    else {
        return false;
    };
    assert_eq!(wrap(kind, &bytes), text.trim_matches(['\r', '\n', '\t']));
    true
}

/// A part of an authority's copy is the same part by its code and by its rows.
fn copy_part(data: &[u8]) -> bool {
    let Some(part) = str::from_utf8(data).ok().and_then(|text| CopyPart::typed(text).ok()) else {
        return false;
    };
    assert_eq!(CopyPart::typed(&part.text).as_ref(), Ok(&part));
    assert_eq!(CopyPart::typed(&part.rows.join("\n")).as_ref(), Ok(&part));
    true
}

/// What an NFC sticker holds is written again as it came, where nothing of others stands beside it.
fn sticker(data: &[u8]) -> bool {
    let Ok(read) = from_ndef(data) else { return false };
    let messages: Vec<_> = read.messages.iter().map(|(kind, bytes)| (*kind, bytes.as_slice())).collect();
    let again = to_ndef(&messages).expect("what was read can be written");
    if read.others == 0 {
        assert_eq!(again, data, "a sticker has one spelling");
    }
    assert_eq!(from_ndef(&again).expect("it was just written").messages, read.messages);
    true
}

/// A tag that is read is written again as it came.
fn tag(data: &[u8]) -> bool {
    let Ok(received) = ReceivedTag::open(data) else { return false };
    let content = received.tag.content();
    let again = received.tag.claims(&content).to_bytes();
    let payload = received.message.as_ref().map_or(data, |message| message.payload);
    assert_eq!(again, payload, "a tag has one spelling");
    true
}

fn seal_message(data: &[u8]) -> bool {
    let Ok(received) = seal::ReceivedSeal::open(data) else { return false };
    assert!(received.seal.issued <= received.seal.valid_until);
    written_again(&received.message, data, |credential| received.seal.prepare(credential))
}

fn void(data: &[u8]) -> bool {
    let Ok((void, message)) = seal::Void::open(data) else { return false };
    written_again(&message, data, |credential| void.prepare(credential))
}

fn exam_key(data: &[u8]) -> bool {
    let Ok((lock, message)) = Lock::open(data) else { return false };
    written_again(&message, data, |credential| lock.prepare(credential))
}

fn exam_result(data: &[u8]) -> bool {
    let Ok((result, message)) = ExamResult::open(data) else { return false };
    written_again(&message, data, |credential| result.prepare(credential))
}

/// A run's sheet; its events are a stranger's JSON.
fn exam_sheet(data: &[u8]) -> bool {
    let Ok(sheet) = Sheet::parse(data) else { return false };
    assert_eq!(sheet.to_bytes(), data, "a sheet has one spelling");
    if let Ok(events) = sheet.read_events() {
        let _ = timing(Arc::clone(&GROUND), &events);
    }
    true
}

/// What was read, written again under the same credential with the same signature, is what came.
fn written_again(message: &Sign1<'_>, data: &[u8], prepare: impl Fn(&[u8]) -> Unsigned) -> bool {
    let credential = message.header.credential.expect("it was read with its credential");
    assert_eq!(prepare(credential).finish(&message.signature), data, "a message has one spelling");
    spelt_once(data)
}

fn credential(data: &[u8]) -> bool {
    let _ = Credentialed::open(data);
    let Some(data) = signed_anew(Kind::Credential, data) else { return false };
    let Ok(read) = Credentialed::open(&data) else { return false };
    if read.authority == KEY.public().id() {
        assert_eq!(read.credential.issue(&KEY), data, "a credential has one spelling");
    }
    spelt_once(&data)
}

/// Whoever signs what we read may do it with a faulty program: the same message under a key that is known here.
fn signed_anew(kind: Kind, data: &[u8]) -> Option<Vec<u8>> {
    let message = Sign1::parse(data, Limits::FILE).ok()?;
    let signature = KEY.sign(&to_be_signed(kind, message.header, message.payload));
    Some(assemble(message.header, message.payload, &signature))
}

/// The key of the kept rosters, cards and key requests.
static KEY: LazyLock<SecretKey> = LazyLock::new(|| SecretKey::from_seed(&[1; 32]));

fn roster(data: &[u8]) -> bool {
    let _ = Roster::authority(data);
    let Ok(kind) = Roster::kind(data) else { return false };
    let Some(data) = signed_anew(kind, data) else { return false };
    let Ok(roster) = Roster::open(&data, &KEY.public()) else { return false };
    let again = if kind == Kind::Roster { roster.sign_first_kind(&KEY) } else { Some(roster.sign(&KEY)) };
    assert_eq!(again, Some(data), "a roster has one spelling");
    true
}

fn authority(data: &[u8]) -> bool {
    let _ = Authority::open(data);
    let Some(data) = signed_anew(Kind::Authority, data) else { return false };
    let Ok(card) = Authority::open(&data) else { return false };
    assert_eq!(Authority::sign(&card.name, card.issued, &KEY), data, "a card has one spelling");
    spelt_once(&data)
}

fn key_request(data: &[u8]) -> bool {
    let _ = KeyRequest::open(data);
    let Some(data) = signed_anew(Kind::KeyRequest, data) else { return false };
    let Ok(request) = KeyRequest::open(&data) else { return false };
    assert_eq!(KeyRequest::sign(&request.holder, request.issued, &KEY), data, "a request has one spelling");
    spelt_once(&data)
}

/// What one strict pass let through has the same parts when it is read again.
fn spelt_once(data: &[u8]) -> bool {
    check(data, Limits::CODE).expect("what a message is read from passed the strict check");
    let message = Sign1::parse(data, Limits::CODE).expect("it was read once");
    assert_eq!(
        assemble(message.header, message.payload, &message.signature),
        data,
        "a message has one spelling"
    );
    true
}

fn record(data: &[u8]) -> bool {
    let Ok(record) = seal::Record::parse(data, &digest_of) else { return false };
    assert_eq!(record.to_bytes(&digest_of), data, "a record has one spelling");
    true
}

fn have(data: &[u8]) -> bool {
    str::from_utf8(data).is_ok_and(|text| Have::parse(text).is_ok())
}

/// Frames one after another, each after its length in two bytes; accepted where a bundle stands.
fn frames(data: &[u8]) -> bool {
    let mut reader = FrameReader::new();
    let mut rest = data;
    let mut whole = false;
    while let Some((length, after)) = rest.split_first_chunk::<2>() {
        let length = usize::from(u16::from_be_bytes(*length)).min(after.len());
        let (frame, after) = after.split_at(length);
        whole |= matches!(reader.take(frame), Ok(Heard::Whole(_)));
        rest = after;
    }
    whole
}

/// Reading ends, and nothing that it says it used lies past the end; what an item holds is read as well.
fn bundle(data: &[u8]) -> bool {
    let Ok(Some(mut reader)) = BundleReader::begin(data) else { return false };
    let (mut pieces, mut items) = (0, 0);
    while let Ok(Some(piece)) = reader.next_piece() {
        pieces += 1;
        assert!(pieces <= data.len(), "a piece has at least one byte");
        assert!(reader.position() <= data.len() as u64);
        if let Piece::Item(item) = piece {
            items += 1;
            if let (ItemKind::Record, Ok(parts)) = (item.kind, RecordItem::parse(&item.body)) {
                assert_eq!(parts.to_bytes(), item.body, "an item has one spelling");
            }
        }
    }
    items > 0
}

/// A file that is refused names a line that it has.
fn procedure_file(data: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(data) else { return false };
    match procedure::check(text) {
        Ok(procedure) => {
            let plan = procedure.expand(Language::English);
            assert!(plan.points() >= plan.cards.len(), "a card has a point");
            true
        }
        Err(faults) => {
            let lines = text.lines().count() + 1;
            assert!(faults.iter().count() > 0);
            assert!(faults.iter().all(|fault| (1..=lines).contains(&fault.spot.line)), "{faults}");
            false
        }
    }
}

fn plan(data: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(data) else { return false };
    let now = Time::from_unix(1_800_000_000);
    read_plan(text, now, &|_| Ok(RIGGED.to_owned())).is_ok_and(|plan| written_and_read(&plan.tag))
}

fn written_and_read(tag: &Tag) -> bool {
    let content = tag.content();
    let bytes = tag.claims(&content).to_bytes();
    // One that is too long for a code is refused when it is written.
    if bytes.len() <= Limits::CODE.bytes {
        assert!(
            ReceivedTag::open(&bytes).is_ok_and(|read| read.tag == *tag),
            "a tag is read as it was written"
        );
    }
    true
}

/// A load list; a line that is refused is named.
fn list(data: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(data) else { return false };
    let now = Time::from_unix(1_800_000_000);
    match read_list(text, now, &|_| Ok(RIGGED.to_owned())) {
        Ok(tags) => tags.iter().all(written_and_read) && !tags.is_empty(),
        Err(faults) => {
            assert!(faults.iter().all(|fault| fault.spot.line >= 1 && fault.to_string().contains("; ")));
            false
        }
    }
}

/// The load that a stranger's record says was walked.
static GROUND: LazyLock<Arc<Ground>> = LazyLock::new(|| {
    // The edition that the kept walks were made by: a record is read by its own edition for ever.
    let bag = include_str!("../../core/walk/procedures/released/bag-1.toml");
    let bag = procedure::check(bag).expect("a released procedure");
    Arc::new(Ground {
        facts: LoadFacts {
            load: Serial::new("KM-014").expect("a load number"),
            tag: Digest::of(b"the tag"),
            procedure: bag.id().clone(),
            rigger: Some(CallSign::new("Mason 5").expect("a call sign")),
            gross: Some(Quantity::parse("1800 lb").expect("a mass")),
            allowable: Some(Quantity::parse("7000 lb").expect("a mass")),
            equipment: Vec::new(),
            links: [("1".to_owned(), 3)].into(),
            conditions: None,
        },
        plan: bag.expand(Language::English).into(),
        inspector: CallSign::new("Anvil 3").expect("a call sign"),
    })
});

/// The events of a walk, one a line, as a record holds them: what folds is written again as it was read, can be shown, and
/// goes on as any other walk.
fn walk(data: &[u8]) -> bool {
    fn read(line: &[u8]) -> serde_json::Result<Event> {
        serde_json::from_slice(line)
    }
    let Ok(events) = data
        .split(|byte| *byte == b'\n')
        .filter(|line| !line.is_empty())
        .map(read)
        .collect::<Result<Vec<_>, _>>()
    else {
        return false;
    };
    for event in &events {
        let text = serde_json::to_vec(event).expect("an event is JSON");
        assert_eq!(&read(&text).expect("it was just written"), event);
    }
    let Ok(mut walk) = Walk::fold(Arc::clone(&GROUND), &events) else { return false };
    let now = walk.last_event().unwrap_or(Time::from_unix(0)).plus(Seconds(5));
    let fit = walk.blocks_fit(now).is_empty();
    let (progress, tally) = (walk.progress(), walk.tally());
    assert!(tally.corrected <= tally.found && progress.cards_done <= progress.cards);
    walk.cautions();
    let by = GROUND.inspector.clone();
    let decide = Command::Decide { by, outcome: Outcome::Fit, reason: None };
    if let Ok(done) = walk.decide(decide, now) {
        assert!(fit, "fit with something in the way: {:?}", walk.blocks_fit(now));
        done.iter().for_each(|event| walk.apply(event).expect("what was decided holds"));
    }
    !events.is_empty()
}

const RIGGED: &str = include_str!("../../core/rigging/examples/light-vehicle.toml");

/// Whatever is read is answered in finite numbers.
fn rigging_file(data: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(data) else { return false };
    let Ok(load) = rigging::read(text) else { return false };
    let links = rigging::link_effects(&load, &rigging::Options::default());
    let answer = rigging::json(&rigging::assess(&load), &links);
    assert!(serde_json::from_str::<serde_json::Value>(&answer).is_ok(), "{answer}");
    true
}

/// A frame of a few modules a side, its width in the first byte; and the same bytes as the file of a picture.
fn camera(data: &[u8]) -> bool {
    let Some((&width, pixels)) = data.split_first() else { return false };
    let width = usize::from(width).max(1);
    let height = pixels.len() / width;
    let mut read = 0;
    let mut accept = |text: &str| {
        read += 1;
        assert!(!text.is_empty());
        true
    };
    let _ = qr::read_luminance(width, height, width, pixels, &mut accept, Effort::Frame);
    let _ = qr::read_picture(pixels);
    read > 0
}
