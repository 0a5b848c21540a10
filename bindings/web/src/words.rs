//! What the page itself says, from the catalogue: by the names that its script asks for. An argument stays a place, `{name}`, for the
//! script to fill.

use slingseal_catalogue::check_page as words;
use slingseal_message::movement::RefusalCause;
use slingseal_words::Language;

/// Every text of the page.
pub(crate) fn words(language: Language) -> Vec<(String, String)> {
    let plain = plain(language).into_iter().map(|(name, text)| (name.to_owned(), text));
    let causes = RefusalCause::ALL.map(|cause| (format!("cause.{}", cause.word()), cause.say(language)));
    // An object has no order of its own: the likeliest first.
    let order = RefusalCause::ALL.map(RefusalCause::word).join(" ");
    plain.chain(causes).chain([("causes".to_owned(), order)]).collect()
}

fn plain(language: Language) -> Vec<(&'static str, String)> {
    vec![
        ("name", words::PageName.say(language)),
        ("other", words::PageOther.say(language)),
        ("start", words::PageStart.say(language)),
        ("promise", words::PagePromise.say(language)),
        ("compare", words::PageCompare.say(language)),
        ("begin", words::PageBegin.say(language)),
        ("differs", words::PageDiffers.say(language)),
        ("refused", words::PageRefused.say(language)),
        ("refusedWhy", words::PageRefusedWhy.say(language)),
        ("back", words::PageBack.say(language)),
        ("scan", words::PageScan.say(language)),
        ("seal", words::PageSeal.say(language)),
        ("tag", words::PageTag.say(language)),
        ("notYet", words::PageNotYet.say(language)),
        ("scanned", words::PageScanned.say(language)),
        ("photo", words::PagePhoto.say(language)),
        ("judge", words::PageJudge.say(language)),
        ("clear", words::PageClear.say(language)),
        ("reasons", words::PageReasons.say(language)),
        ("facts", words::PageFacts.say(language)),
        ("together", words::PageTogether.say(language)),
        ("cautions", words::PageCautions.say(language)),
        ("next", words::PageNext.say(language)),
        ("more", words::PageMore.say(language)),
        ("aloud", words::PageAloud.say(language)),
        ("supports", words::PageSupports.say(language)),
        ("empty", words::PageEmpty.say(language)),
        ("broken", words::PageBroken { why: "{why}" }.say(language)),
        ("made", words::PageMade.say(language)),
        ("until", words::PageUntil.say(language)),
        ("leader", words::PageLeader.say(language)),
        ("authority", words::PageAuthority.say(language)),
        ("words", words::PageWords.say(language)),
        ("over", words::PageOver { until: "{until}" }.say(language)),
        ("noCamera", words::PageNoCamera.say(language)),
        ("asking", words::PageAsking.say(language)),
        ("looking", words::PageLooking.say(language)),
        ("noCode", words::PageNoCode.say(language)),
        (
            "foot",
            words::PageFoot { thumbprint: "{thumbprint}", leader: "{leader}", until: "{until}" }
                .say(language),
        ),
        (
            "roster",
            words::PageRoster { authority: "{authority}", sequence: "{sequence}", revoked: "{revoked}" }
                .say(language),
        ),
        ("rosterOld", words::PageRosterOld { authority: "{authority}" }.say(language)),
        ("void", words::PageVoid { load: "{load}", by: "{by}" }.say(language)),
        ("report", words::PageReport.say(language)),
        ("event.lifted", words::PageReportLifted.say(language)),
        ("event.refused", words::PageReportRefused.say(language)),
        ("event.set-down", words::PageReportSetDown.say(language)),
        ("event.derigged", words::PageReportDerigged.say(language)),
        ("why", words::PageReportWhy { load: "{load}" }.say(language)),
        ("note", words::PageReportNote.say(language)),
        ("reported", words::PageReported { load: "{load}", event: "{what}", at: "{at}" }.say(language)),
        ("showReport", words::PageReportShow.say(language)),
        ("grade.note", words::PageGradeNote.say(language)),
        ("palette.day", words::PagePaletteDay.say(language)),
        ("palette.sun", words::PagePaletteSun.say(language)),
        ("palette.night", words::PagePaletteNight.say(language)),
        ("paletteLabel", words::PagePaletteLabel { palette: "{palette}" }.say(language)),
        ("fact.load", words::PageFactLoad.say(language)),
        ("fact.description", words::PageFactDescription.say(language)),
        ("fact.gross", words::PageFactGross.say(language)),
        ("fact.allowable", words::PageFactAllowable.say(language)),
        ("fact.aircraft", words::PageFactAircraft.say(language)),
        ("fact.way", words::PageFactWay.say(language)),
        ("fact.rigger", words::PageFactRigger.say(language)),
        ("fact.inspector", words::PageFactInspector.say(language)),
        ("fact.issued", words::PageFactIssued.say(language)),
        ("fact.valid_until", words::PageFactValidUntil.say(language)),
        ("fact.procedure", words::PageFactProcedure.say(language)),
        ("fact.found", words::PageFactFound.say(language)),
        ("fact.links", words::PageFactLinks.say(language)),
        ("none", words::PageNone.say(language)),
        ("nobody", words::PageNobody.say(language)),
    ]
}
