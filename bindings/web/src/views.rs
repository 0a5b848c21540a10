//! What the surface answers, as JSON. Every text is made visible at this one door: a name from a stranger's code must not move the
//! letters around it.

use serde_json::{Value, json};
use slingseal_catalogue::check_page as words;
use slingseal_judgement::{Judged, LoadWord, Scan, Verdict, cautions, first_line, spoken};
use slingseal_message::seal::{InspectedSubject, Outcome, SignedInspection};
use slingseal_message::tag::Tag;
use slingseal_message::trust::Signer;
use slingseal_words::{Language, Time, visibly};

/// The verdict with all that fills a screen.
pub(crate) fn verdict(worst: &Judged, all: &[Judged], scan: &Scan, language: Language) -> Value {
    let judgement = &worst.judgement;
    let first = first_line(judgement, language);
    let reasons: Vec<Value> = judgement
        .reasons
        .iter()
        .map(|reason| {
            json!({ "code": reason.code(), "grade": reason.grade().word(), "text": reason.say(language) })
        })
        .collect();
    let facts = judgement.seal.as_ref().map(|seal| {
        json!({
            "load": seal.load.as_str(),
            "fit": seal.outcome == Outcome::Fit,
            "inspector": judgement.signer.as_ref().map(|signer| signer.credential.holder.to_string()),
            "authority": worst.authority.as_ref().map(ToString::to_string),
            "issued": stamp(seal.issued),
            "valid_until": stamp(seal.valid_until),
            "mass": seal.mass.to_string(),
            "procedure": format!("{} {}", seal.procedure, seal.version),
            "found": seal.found,
            "corrected": seal.corrected,
            "record": seal.record.to_string(),
        })
    });
    let shown: Vec<Value> =
        if all.len() > 1 { all.iter().map(|one| line(one, language)).collect() } else { Vec::new() };
    json!({
        "kind": "verdict",
        "verdict": match judgement.verdict { Verdict::Go => "go", Verdict::Wait => "wait", Verdict::NoGo => "no_go" },
        "word": judgement.verdict.word(),
        "first": first,
        "spoken": spoken(judgement.verdict, &first, language),
        "reasons": reasons,
        "facts": facts,
        "tag": worst.tag.as_ref().and_then(LoadWord::tag).map(tag),
        "tag_scanned": !scan.tags.is_empty(),
        "seal_scanned": !scan.seals.is_empty(),
        "cautions": cautions(language),
        "shown": shown,
    })
}

fn line(one: &Judged, language: Language) -> Value {
    json!({
        "load": one.load().map(ToString::to_string).unwrap_or_default(),
        "word": one.judgement.verdict.word(),
        "first": first_line(&one.judgement, language),
    })
}

/// What hangs on the load: to be compared with what is seen.
fn tag(tag: &Tag) -> Value {
    let equipment: Vec<Value> = tag
        .equipment
        .iter()
        .map(|piece| {
            json!({
                "kind": piece.kind.to_string(),
                "serial": piece.serial.to_string(),
                "rating": piece.rating.as_ref().map(|rating| rating.value.to_string()),
                "due": piece.next_inspection.map(Time::date),
            })
        })
        .collect();
    let links: Vec<Value> =
        tag.links.iter().map(|link| json!({ "leg": link.leg.to_string(), "link": link.link })).collect();
    json!({
        "load": tag.load.as_str(),
        "description": tag.description.to_string(),
        "gross": tag.gross.to_string(),
        "allowable": tag.allowable.to_string(),
        "aircraft": tag.aircraft.to_string(),
        "pickup": tag.pickup.name.to_string(),
        "destination": tag.destination.name.to_string(),
        "rigger": tag.rigger.as_ref().map(ToString::to_string),
        "planned": stamp(tag.planned),
        "equipment": equipment,
        "links": links,
    })
}

/// A void that was taken in.
pub(crate) fn void(word: &LoadWord, language: Language) -> Value {
    json!({
        "kind": "void",
        "load": word.load().as_str(),
        "by": word.signer().map(|signer| signer.credential.holder.to_string()),
        "cause": word.void().map(|void| void.cause.say(language)),
    })
}

/// A report that was taken in: who stands behind it, and whether it counts here.
pub(crate) fn movement(word: &LoadWord, language: Language) -> Option<Value> {
    let movement = word.movement()?;
    let (load, event, at) = (word.load(), movement.event.saying(), movement.at().dtg());
    let by = word.signer().map(|signer| signer.credential.holder.to_string());
    let text = match &by {
        Some(by) => words::PageMovement { load, event, at, by }.say(language),
        None => words::PageMovementUnsigned { load, event, at }.say(language),
    };
    Some(json!({
        "kind": "movement",
        "load": load.as_str(),
        "by": by,
        "event": movement.event.word(),
        "at": stamp(movement.at()),
        "text": text,
    }))
}

/// An inspection of what is no load that was taken in.
pub(crate) fn inspection(said: &SignedInspection, signer: &Signer, language: Language) -> Value {
    let fit = said.outcome == Outcome::Fit;
    let (name, by, at) = (&said.name, &signer.credential.holder, said.issued.dtg());
    let subject = match said.subject {
        InspectedSubject::Piece => words::PageSubjectPiece { name }.saying(),
        InspectedSubject::Aircraft => words::PageSubjectAircraft { name }.saying(),
        InspectedSubject::Zone => words::PageSubjectZone { name }.saying(),
        InspectedSubject::Handling => words::PageSubjectHandling { name }.saying(),
    };
    let why = said.why.as_ref().map(ToString::to_string).unwrap_or_default();
    let text = match (fit, said.fit_until) {
        (true, Some(until)) => words::PageFitUntil { subject, until: until.dtg(), by, at }.say(language),
        (true, None) => words::PageFit { subject, by, at }.say(language),
        (false, _) if said.subject == InspectedSubject::Piece => {
            words::PageWithdrawn { subject, why, by, at }.say(language)
        }
        (false, _) => words::PageNotFit { subject, why, by, at }.say(language),
    };
    json!({
        "kind": "inspection",
        "subject": said.subject.word(),
        "name": name.to_string(),
        "by": by.to_string(),
        "fit": fit,
        "issued": stamp(said.issued),
        "fit_until": said.fit_until.map(stamp),
        "why": said.why.as_ref().map(ToString::to_string),
        "procedure": format!("{} {}", said.edition.procedure, said.edition.version),
        "text": text,
    })
}

/// A moment in both ways of writing.
pub(crate) fn stamp(time: Time) -> Value {
    json!({ "unix": time.unix(), "rfc3339": time.rfc3339(), "dtg": time.dtg() })
}

/// Every text of an answer, made visible.
pub(crate) fn harmless(value: Value) -> Value {
    match value {
        Value::String(text) => Value::String(visibly(&text)),
        Value::Array(items) => Value::Array(items.into_iter().map(harmless).collect()),
        Value::Object(pairs) => {
            Value::Object(pairs.into_iter().map(|(key, value)| (key, harmless(value))).collect())
        }
        plain => plain,
    }
}
