//! `demo`: the whole job on an invented flood-relief airlift, unattended, told as a story.

mod acts;
mod day;

use slingseal_app::catalogue::demo as words;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde::Serialize;
use slingseal_app::{
    App, AppError, BundleRequest, CheckPageRequest, ExportTable, Role, SealView, VerdictWord, WalkRequest,
    code_of,
};

use slingseal_app::catalogue::Saying;

use super::setting::Setting;
use crate::console::Shown;
use crate::output::{PIXELS, bad_input, pasted, plain, print_json, write, write_whole};
use crate::{check_page, input, platform};
use slingseal_paper::{Paper, record_pdf, sheets_pdf};

const PLAN: &str = include_str!("../../demo/vehicle.toml");
const RIGGING: &str = include_str!("../../demo/vehicle-rigging.toml");
const OTHER_PLAN: &str = include_str!("../../demo/bag.toml");

/// Everyone's in the demo; a real PIN is nobody else's.
const PIN: &str = "417293";
const PASSPHRASE: &str = "high water at Alder Bridge";
/// The lists that the demo walks by.
const APPROVED: [&str; 6] = ["vehicle", "bag", "zone", "daily-hooks", "gear-chain", "hookup"];
/// Left in the folder, so that another run may replace what this one left and nothing else.
const MARK: &str = "slingseal-demo";
/// What an earlier run left.
const HOMES: [&str; 5] = ["desk", "inspector", "hookup", "stranger", "day"];

#[expect(clippy::disallowed_methods, reason = "a desk has a folder for what may be lost")]
pub(crate) fn run(setting: &Setting, out: Option<PathBuf>) -> Result<ExitCode, AppError> {
    let out = out.unwrap_or_else(|| std::env::temp_dir().join("slingseal-demo"));
    make_room(&out)?;
    let mut demo = Demo { setting, out, story: String::new(), verdicts: Vec::new() };
    demo.play()?;
    write(&demo.out.join("story.txt"), demo.story.as_bytes())?;
    if setting.json {
        print_json(&Played {
            out: demo.out.to_string_lossy().into_owned(),
            homes: ["desk", "inspector", "hookup"].map(str::to_owned).to_vec(),
            pin: PIN,
            passphrase: PASSPHRASE,
            try_it: demo.try_it(),
            verdicts: std::mem::take(&mut demo.verdicts),
            story: demo.story.lines().map(str::to_owned).collect(),
        });
    }
    Ok(ExitCode::SUCCESS)
}

/// What was played, as an answer.
#[derive(Serialize)]
struct Played {
    out: String,
    homes: Vec<String>,
    pin: &'static str,
    passphrase: &'static str,
    #[serde(rename = "try")]
    try_it: String,
    verdicts: Vec<Scene>,
    story: Vec<String>,
}

/// One look at the hook.
#[derive(Serialize)]
struct Scene {
    what: String,
    verdict: VerdictWord,
    first: String,
}

/// Empties the folder of an earlier demo; refuses one that holds anything else.
fn make_room(out: &Path) -> Result<(), AppError> {
    let failed = |error: std::io::Error| {
        bad_input(words::DemoFolderNotUsed { folder: &out.shown(), plain: &plain(&error) })
    };
    let mark = out.join(MARK);
    if mark.exists() {
        for home in HOMES {
            let home = out.join(home);
            if home.exists() {
                std::fs::remove_dir_all(&home).map_err(failed)?;
            }
        }
    } else if out.exists() && std::fs::read_dir(out).map_err(failed)?.next().is_some() {
        return Err(bad_input(words::DemoFolderIsOthers { folder: &out.shown() }));
    }
    write(&mark, b"Left by `slingseal demo`; its next run replaces the homes in this folder.\n")
}

/// The program as it was called: what worked once works again.
fn program() -> String {
    std::env::args_os().next().map_or_else(|| "slingseal".into(), |name| name.to_string_lossy().into_owned())
}

struct Demo<'s> {
    setting: &'s Setting,
    out: PathBuf,
    story: String,
    verdicts: Vec<Scene>,
}

impl Demo<'_> {
    fn play(&mut self) -> Result<(), AppError> {
        self.say(words::TheSelaIsOverItsBanks);
        self.say(words::NamesAreInvented);

        self.chapter(words::ChapterTrust);
        let desk = self.home("desk")?;
        let approved: Vec<String> = APPROVED.iter().map(|id| (*id).to_owned()).collect();
        let authority = desk.authority_init("Sela Relief", PASSPHRASE, &approved)?;
        let card = self.put("authority", &authority.card.text)?;
        let roster = self.put("roster", &authority.roster.text)?;
        self.say(words::DeskBecomesAuthority { name: &authority.name, fingerprint: &authority.fingerprint });
        self.say(words::RosterNamesLists { lists: &APPROVED.join(", ") });
        self.credential(&desk, &desk, "Lantern 1", &[Role::Planner, Role::Leader])?;
        let inspector = self.home("inspector")?;
        let hookup = self.home("hookup")?;
        for (device, whose) in [(&inspector, "Anvil 3"), (&hookup, "Thistle 7")] {
            device.trust(&self.scan(&card)?, &authority.fingerprint)?;
            device.receive(&self.scan(&roster)?)?;
            self.say(words::PhoneTrustsCard { whose: &whose });
        }
        self.credential(&desk, &inspector, "Anvil 3", &[Role::Inspector])?;
        self.say(words::HookHasNoKey);

        self.chapter(words::ChapterTag);
        let open = |name: &str| match name {
            "vehicle-rigging.toml" => Ok(RIGGING.to_owned()),
            other => Err(format!("the demo has no {other}")),
        };
        let made = desk.write_tag(PLAN, &open, Some(PIN))?;
        let tag = self.put("tag-km-014", &made.code.text)?;
        let view = &made.tag;
        self.say(words::TagTold {
            load: &view.load,
            description: &view.description,
            gross: &view.gross,
            aircraft: &view.aircraft,
            allowable: &view.allowable,
            bytes: view.bytes.to_string(),
            by: view.signed_by(self.setting.language),
        });
        write(
            &self.out.join("sheet-km-014.pdf"),
            &sheets_pdf(&[(&made.tag, &made.code)], Paper::A4, self.setting.language)?,
        )?;
        if let Some(rigging) = &made.tag.rigging {
            if let Some(picture) = &rigging.picture_svg {
                write(&self.out.join("rigging-km-014.svg"), picture.as_bytes())?;
            }
            self.say(words::HowItHangs { summary: &rigging.summary });
        }
        let other = desk.write_tag(OTHER_PLAN, &open, Some(PIN))?;
        let other_tag = self.put("tag-km-015", &other.code.text)?;

        self.morning(&inspector)?;

        self.chapter(words::ChapterInspection);
        let text = self.scan(&tag)?;
        let view = inspector.begin_walk(&text)?;
        self.say(words::AnvilScansTheTag {
            title: &view.title,
            cards: &view.progress.cards,
            points: &view.progress.points,
        });
        let view = self.walk(&inspector, view)?;
        let view = self.mend(&inspector, view)?;
        let view = inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None })?;
        if let Some(refused) = view.refused {
            return Err(AppError::Internal {
                message: format!("the demo's load was refused: {}", refused.message).into(),
            });
        }
        self.say(words::DecidesFit);

        self.chapter(words::ChapterSeal);
        let seal = inspector.seal(&view.walk, PIN, None)?;
        let picture = self.put("seal-km-014", &seal.code.text)?;
        self.say(words::AnvilSigns {
            version: &seal.code.version,
            until: &seal.facts.valid_until.dtg,
            record: &seal.record.chars().take(8).collect::<String>(),
        });

        self.chapter(words::ChapterHook);
        let verdict = self.hook(&hookup, words::ThistleScans.saying(), &picture, &tag, "GO")?;
        self.cautions(&verdict);
        let called = self.listed(&inspector, "hookup", "KM-014")?;
        self.say(words::ReadAloud { title: &called.title, points: &called.progress.points });
        let forged = self.altered(&hookup, &seal)?;
        self.hook(&hookup, words::OneLetterChanged.saying(), &forged, &tag, "NO-GO")?;
        let strange = self.stranger(&text)?;
        self.hook(&hookup, words::StrangerSeals.saying(), &strange, &tag, "NO-GO")?;
        self.hook(&hookup, words::SealCarriedOver.saying(), &picture, &other_tag, "NO-GO")?;

        self.check_page(&desk)?;

        self.chapter(words::ChapterAccount);
        self.account(&inspector, &desk, &seal)?;

        self.day(&desk)?;

        self.chapter(words::ChapterLeft);
        self.say(words::WhatIsLeft { folder: &self.out.shown() });
        self.say(words::PinAndPassphrase { passphrase: &PASSPHRASE });
        self.say(words::TryThis { command: self.try_it() });
        Ok(())
    }

    /// The hook check for strangers' phones, where this program has its page.
    fn check_page(&mut self, desk: &App) -> Result<(), AppError> {
        let named = std::env::var_os("SLINGSEAL_CHECK_PAGE").map(PathBuf::from);
        let Ok(shell) = check_page::shell(named.as_deref()) else { return Ok(()) };
        let made = desk.check_page(&CheckPageRequest::default(), PIN)?;
        let file = self.out.join("hook.html");
        write(&file, check_page::filled(&shell, &made.bytes)?.as_bytes())?;
        self.say(words::LeaderSignsPage {
            leader: &made.leader,
            groups: &made.thumbprint,
            until: &made.until.dtg,
        });
        Ok(())
    }

    /// A command that can be pasted into a shell as it stands.
    fn try_it(&self) -> String {
        let words = [
            program(),
            "--home".into(),
            self.out.join("hookup").to_string_lossy().into_owned(),
            "verify".into(),
            self.out.join("seal-km-014.png").to_string_lossy().into_owned(),
            "--tag".into(),
            self.out.join("tag-km-014.png").to_string_lossy().into_owned(),
        ];
        words.map(|word| pasted(&word)).join(" ")
    }

    /// What comes before the first load: the briefing, the hooks with the crew, the gear.
    fn morning(&mut self, inspector: &App) -> Result<(), AppError> {
        self.chapter(words::ChapterMorning);
        for (list, of) in [("zone", "KESTREL"), ("daily-hooks", "HERON-M2"), ("gear-chain", "SS-0417")] {
            let view = self.listed(inspector, list, of)?;
            self.say(words::ListedNothingOpen {
                name: &view.load,
                points: &view.progress.points,
                title: &view.title,
            });
        }
        for one in inspector.kept_inspections()?.iter().rev() {
            let signed = inspector.sign_inspection(&one.walk, PIN)?;
            if let Some(until) = &signed.fit_until {
                self.say(words::PieceFitUntil {
                    piece: &signed.name,
                    until: &until.dtg,
                    by: &signed.inspector,
                });
            }
        }
        Ok(())
    }

    fn say(&mut self, line: impl Into<Saying>) {
        let line = line.into().say(self.setting.language);
        if !self.setting.json {
            println!("  {line}");
        }
        // Writing to a String cannot fail.
        let _ = writeln!(self.story, "  {line}");
    }

    fn chapter(&mut self, title: impl Into<Saying>) {
        let title = title.into().say(self.setting.language);
        if !self.setting.json {
            println!();
            println!("{title}");
        }
        let _ = writeln!(self.story, "\n{title}");
    }

    fn home(&self, name: &str) -> Result<App, AppError> {
        platform::open(&self.out.join(name), self.setting.language)
    }

    /// Leaves a code as picture and text; the picture's path.
    fn put(&self, name: &str, text: &str) -> Result<PathBuf, AppError> {
        let picture = self.out.join(format!("{name}.png"));
        write(&picture, &code_of(text)?.png_labelled(PIXELS, crate::console::spoken())?)?;
        write(&self.out.join(format!("{name}.txt")), format!("{text}\n").as_bytes())?;
        Ok(picture)
    }

    /// Reads a code back from its picture: nothing passes from one device to another but what a camera sees.
    fn scan(&self, picture: &Path) -> Result<String, AppError> {
        input::code(&picture.to_string_lossy())
    }

    fn account(&mut self, inspector: &App, desk: &App, seal: &SealView) -> Result<(), AppError> {
        let record = inspector.record(&seal.record)?;
        let json = serde_json::to_string_pretty(&record)
            .map_err(|error| AppError::Internal { message: error.to_string().into() })?;
        write(&self.out.join("record-km-014.json"), json.as_bytes())?;
        let mut bundle = Vec::new();
        let made = inspector.bundle_write(
            &BundleRequest { have: None, photos: true, ..BundleRequest::default() },
            &mut bundle,
        )?;
        write(&self.out.join("day.bundle"), &bundle)?;
        let frames = inspector.moving_code(None)?.enough();
        let merged = desk.bundle_read(&mut bundle.as_slice(), &mut |_| {})?;
        let again = desk.bundle_read(&mut bundle.as_slice(), &mut |_| {})?;
        self.say(words::PacksTheDay { records: &made.records, bytes: &bundle.len(), frames: &frames });
        self.say(words::DeskTakesItIn { new: &merged.new, again: &again.new });
        if merged.new != 1 || again.new != 0 {
            return Err(AppError::Internal {
                message: "the bundle did not bring its record once and only once".into(),
            });
        }
        let rows =
            write_whole(&self.out.join("account.csv"), |out| desk.export_csv(ExportTable::Records, out))?;
        write_whole(&self.out.join("account.json"), |out| desk.export_json(out))?;
        self.say(words::AccountGoesOut { rows: &rows });
        let account = desk.record(&seal.record)?;
        write(
            &self.out.join("record-km-014.pdf"),
            &record_pdf(&account, Some(&seal.code), Paper::A4, self.setting.language)?,
        )?;
        let audit = inspector.audit()?;
        self.say(words::RecordTellsMoments { moments: &record.timeline.len(), entries: &audit.entries });
        Ok(())
    }
}
