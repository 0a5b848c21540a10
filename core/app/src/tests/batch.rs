//! Many codes taken in at once: what stands behind another is not judged before it, and what is bad keeps nothing out.

use super::bundles::{Day, day, desk};
use super::*;

/// The same load, refused later by somebody else.
pub(super) fn refused_later(day: &Day) -> SealView {
    let tag = day.two.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(&day.two, day.two.begin_walk(&tag).unwrap());
    let no = WalkRequest::Decide { fit: false, reason: Some("it moved".into()) };
    assert_eq!(day.two.do_walk(&view.walk, &no).unwrap().refused, None);
    day.two.seal(&view.walk, PIN, None).unwrap()
}

fn words(answers: &[Result<Received, AppError>]) -> Vec<String> {
    let verdicts = answers.iter().filter_map(|answer| match answer {
        Ok(Received::Seal(verdict)) => Some(verdict.word.clone()),
        _ => None,
    });
    verdicts.collect()
}

#[test]
fn a_refusal_behind_a_fit_seal_is_told_of_both() {
    let day = day();
    day.zone.pass(600);
    let refusal = refused_later(&day);
    let app = desk(&day, "desk");
    let fit = day.seals[0].code.text.clone();
    for (at, texts) in [[fit.clone(), refusal.code.text.clone()], [refusal.code.text, fit]].iter().enumerate()
    {
        let answers = app.receive_all(texts);
        assert_eq!(words(&answers), ["NO-GO"], "order {at}");
        let [Ok(Received::Seal(verdict))] = answers.as_slice() else { panic!("{answers:?}") };
        assert_eq!(verdict.shown.len(), 2);
    }
}

/// A void, a roster, a tag that stand behind a seal on the sheet are taken first; junk and strangers' words keep nothing out.
#[test]
fn the_rest_of_a_batch_is_taken_before_its_seals() {
    let day = day();
    let void = day.hookup.void(&day.seals[1].record, crate::VoidCause::LoadMoved, None, PIN);
    assert!(void.is_err(), "it has not seen that load");
    day.hookup.check(Some(&day.seals[1].code.text), None).unwrap();
    let void = day.hookup.void(&day.seals[1].record, crate::VoidCause::LoadMoved, None, PIN).unwrap();
    let tag = day.two.write_tag(&PLAN.replace("KM-014", "KM-015"), &no_file, Some(PIN)).unwrap().code.text;
    let app = desk(&day, "desk");
    let seal = day.seals[1].code.text.clone();
    assert_eq!(words(&app.receive_all(std::slice::from_ref(&seal))), ["GO"]);
    let mut cut = seal.clone();
    cut.truncate(seal.len() / 2);
    let junk = "https://example.invalid/".to_owned();
    let answers = app.receive_all(&[seal.clone(), junk, tag, void.text]);
    assert_eq!(answers.len(), 4);
    assert!(answers.iter().filter(|answer| answer.is_err()).count() == 1, "{answers:?}");
    assert!(answers.iter().any(|answer| matches!(answer, Ok(Received::Void { new: true, .. }))));
    assert!(answers.iter().any(|answer| matches!(answer, Ok(Received::Tag(_)))));
    assert_eq!(words(&answers), ["NO-GO"]);
    // A seal that is damaged is no seal that was left out.
    let other = day.seals[2].code.text.clone();
    assert_eq!(words(&app.receive_all(std::slice::from_ref(&other))), ["GO"]);
    assert_eq!(words(&app.receive_all(&[other, cut])), ["NO-GO"]);
    assert!(app.receive_all(&[]).is_empty());
}
