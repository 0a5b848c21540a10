use std::collections::BTreeMap;
use std::convert::Infallible;

use serde_json::{Value, json};
use slingseal_catalogue::{Saying, check_page as words, judgement, movement as movement_words};
use slingseal_judgement::{
    Author, Evidence, InspectionWord, Judged, LatestTrusted, LoadWord, Memory, Scan, ShownCode, ShownError,
    Speaker, WordError, gravest, seals,
};
use slingseal_message::envelope::{Kind, Limits, Sign1, TextError, unwrap, wrap};
use slingseal_message::movement::{JournalEnd, Movement, MovementError, MovementEvent, RefusalCause};
use slingseal_message::tag::kind_of_tag;
use slingseal_message::trust::{
    Authority, CheckPage, CheckPageError, PublicKey, Roster, Signer, TrustError, Trusted, TrustedAuthority,
};
use slingseal_words::{Digest, Language, LoadNumber, Note, Time};

use crate::views;

/// A device without a disk.
#[derive(Debug, Default)]
pub struct Device {
    trusted: Trusted,
    /// The newest roster of each authority, as received, by the authority's key.
    rosters: BTreeMap<[u8; 32], (u32, Vec<u8>)>,
    /// Every word that it keeps, by its digest.
    words: BTreeMap<Digest, LoadWord>,
    /// Inspections of pieces of gear that were taken in.
    pieces: Vec<InspectionWord>,
    /// The latest time proven by what is no word: cards, the page's leader, this device's own clock.
    latest: Option<LatestTrusted>,
    memory: Memory,
    leader: Option<Signer>,
    /// What was judged last, for the report that follows it.
    last: Option<Judged>,
    /// The last report that was written here, and under which device's id.
    reported: Option<([u8; 16], Digest)>,
}

/// Why something is not taken in. Each says what to do.
#[derive(Clone, Debug, PartialEq)]
pub enum DeviceError {
    /// None of ours, or damaged.
    Text(TextError),
    /// What is shown says nothing of a load.
    Shown(ShownError),
    /// A word that cannot be read.
    Word(WordError),
    /// A card or a roster that does not hold.
    Trust(TrustError),
    /// What a check page carries does not hold.
    Page(CheckPageError),
    /// Nobody trusted here stands behind it.
    Nobody(Kind),
    /// Another roster of the same number is known.
    OtherRoster(u32),
    /// A report that cannot be written so.
    Report(MovementError),
    /// A report that a person must say more for, or otherwise.
    Unreported(Saying),
    /// A kind that a verifier has no use for.
    NoUse(Kind),
    /// Nothing was shown.
    Nothing,
    /// The call itself is not built as the surface's description says: told to who writes a program, in English.
    Call(&'static str),
}

impl DeviceError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Text(error) => error.saying(),
            Self::Shown(error) => error.saying(),
            Self::Word(error) => error.saying(),
            Self::Trust(error) => error.saying(),
            Self::Page(error) => error.saying(),
            Self::Nobody(kind) => words::NobodyBehindIt { kind }.into(),
            Self::OtherRoster(number) => words::OtherRosterKnown { number: number.to_string() }.into(),
            Self::Report(error) => error.saying(),
            Self::Unreported(saying) => saying.clone(),
            Self::NoUse(kind) => words::NoUseHere { kind }.into(),
            Self::Nothing => judgement::NothingScannedScanSealTag.into(),
            Self::Call(why) => Saying::verbatim(*why),
        }
    }
}

slingseal_catalogue::error_by_saying!(DeviceError);

macro_rules! of {
    ($($error:ty => $variant:ident),*) => {
        $(impl From<$error> for DeviceError {
            fn from(error: $error) -> Self {
                Self::$variant(error)
            }
        })*
    };
}

of!(TextError => Text, ShownError => Shown, WordError => Word, TrustError => Trust, CheckPageError => Page,
    MovementError => Report);

impl Device {
    /// Trusts an authority by its card. That its fingerprint was compared is the caller's to see to.
    ///
    /// # Errors
    /// A card that its own key did not sign.
    pub fn trust(&mut self, card: &str) -> Result<(), DeviceError> {
        let (Kind::Authority, bytes) = unwrap(card)? else {
            return Err(DeviceError::Call("an authority is trusted by its card, AU1"));
        };
        let card = Authority::open(&bytes)?;
        self.trusted.add(TrustedAuthority { name: card.name.clone(), key: card.key, roster: None });
        self.heard(card.issued, Speaker::Authority(card.name));
        Ok(())
    }

    /// Takes the place of everything that was known: what a check page carries.
    ///
    /// # Errors
    /// A page that does not hold, as [`CheckPage::open`] says; a word in it that cannot be read or that nobody signed.
    pub fn begin(bytes: &[u8]) -> Result<Self, DeviceError> {
        let opened = CheckPage::open(bytes)?;
        let mut device = Self { memory: Memory::Copied { until: opened.page.until }, ..Self::default() };
        device.trusted = opened.trusted;
        for card in opened.cards {
            let name = device.trusted.authority(&card.key).map_or(card.name, |known| known.name.clone());
            device.heard(card.issued, Speaker::Authority(name));
        }
        device.heard(opened.page.made, Speaker::Person(opened.leader.credential.holder.clone()));
        for authority in &opened.page.authorities {
            if let Some(roster) = &authority.roster {
                device.roster(roster)?;
            }
        }
        for (kind, word) in &opened.page.words {
            if *kind == Kind::Inspection {
                let word = InspectionWord::open(word, &device.trusted).map_err(WordError::from)?;
                if word.signer().is_none() {
                    return Err(DeviceError::Nobody(*kind));
                }
                device.pieces.push(word);
                continue;
            }
            // Which form a tag is, its content tells.
            let kind = if *kind == Kind::Tag { kind_of_tag(word) } else { *kind };
            let word = device.open_word(kind, word)?;
            // An unsigned tag that is held lifts nothing and refuses nothing by itself: a seal names it by its print.
            if word.signer().is_none() && word.tag().is_none() {
                return Err(DeviceError::Nobody(word.kind()));
            }
            device.keep(word);
        }
        device.leader = Some(opened.leader);
        Ok(device)
    }

    /// Takes in a text of any kind that a verifier has a use for, and tells what it is. `own`: an unsigned report that this device
    /// wrote itself before it forgot what it knew.
    ///
    /// # Errors
    /// What is not of anybody trusted here, damaged, or of no use.
    pub fn take_in(
        &mut self,
        text: &str,
        now: Time,
        language: Language,
        own: bool,
    ) -> Result<Value, DeviceError> {
        let (kind, bytes) = unwrap(text)?;
        match kind {
            Kind::Roster | Kind::RosterOfKeys => {
                if Roster::kind(&bytes)? != kind {
                    return Err(TextError::Damaged(kind).into());
                }
                let told = self.roster(&bytes)?;
                self.heard(now, Speaker::ThisDevice);
                Ok(told)
            }
            Kind::Void => {
                let word = self.open_word(kind, &bytes)?;
                let in_time = word.signer().is_some_and(|signer| word.issued() <= signer.credential.expires);
                if !in_time {
                    return Err(DeviceError::Nobody(kind));
                }
                let told = views::void(&word, language);
                self.keep(word);
                self.heard(now, Speaker::ThisDevice);
                Ok(told)
            }
            Kind::Inspection => self.inspection(&bytes, now, language),
            Kind::Movement => self.movement(&bytes, now, language, own),
            Kind::Seal | Kind::Tag | Kind::TagWithBasis => self.judge(&[text.to_owned()], now, language),
            _ => Err(DeviceError::NoUse(kind)),
        }
    }

    /// Judges what was shown at once, and keeps of it what the judgement says is worth keeping.
    ///
    /// # Errors
    /// A text that is no verdict but a refusal, as [`ShownCode::of`] says.
    pub fn judge(&mut self, shown: &[String], now: Time, language: Language) -> Result<Value, DeviceError> {
        let (judged, scan) = self.judged(shown, now)?;
        let judgements: Vec<_> = judged.iter().map(|one| one.judgement.clone()).collect();
        let Some(worst) = gravest(&judgements) else { return Err(DeviceError::Nothing) };
        let Some(worst) = judged.iter().find(|one| &one.judgement == worst) else {
            return Err(DeviceError::Nothing);
        };
        let verdict = views::verdict(worst, &judged, &scan, language);
        self.last = Some(worst.clone());
        Ok(verdict)
    }

    /// The judgements themselves, in the order in which they are made, and what was shown.
    ///
    /// # Errors
    /// Those of [`judge`](Self::judge).
    pub fn judged(&mut self, shown: &[String], now: Time) -> Result<(Vec<Judged>, Scan), DeviceError> {
        let codes = shown.iter().map(|text| ShownCode::of(text)).collect::<Result<Vec<_>, _>>()?;
        if codes.is_empty() {
            return Err(DeviceError::Nothing);
        }
        let scan = Scan::open(codes, |kind, bytes| self.open_word(kind, bytes));
        let held = |tag: &LoadWord| {
            let sealed = self.words.values().any(|seal| seal.load() == tag.load() && seals(seal, tag));
            Ok::<bool, Infallible>(sealed)
        };
        let Ok(kept) = scan.worth_keeping(held);
        let kept: Vec<LoadWord> = kept.into_iter().cloned().collect();
        kept.into_iter().for_each(|word| self.keep(word));
        self.heard(now, Speaker::ThisDevice);
        let words: Vec<&LoadWord> = self.words.values().collect();
        let evidence = Evidence {
            trusted: &self.trusted,
            now,
            latest_trusted: self.latest.as_ref(),
            memory: self.memory,
            words: &words,
            pieces: &self.pieces,
        };
        let judged = scan.judge(&evidence);
        Ok((judged, scan))
    }

    /// Takes in a movement report: what it is worth, signed or not, the judgement says. A forged one is refused.
    fn movement(
        &mut self,
        bytes: &[u8],
        now: Time,
        language: Language,
        own: bool,
    ) -> Result<Value, DeviceError> {
        let word = self.open_word(Kind::Movement, bytes)?;
        if let Author::Refused(error) = word.author() {
            return Err((*error).into());
        }
        let word = if own { word.written_here() } else { word };
        let told = views::movement(&word, language).ok_or(DeviceError::NoUse(Kind::Movement))?;
        self.keep(word);
        self.heard(now, Speaker::ThisDevice);
        Ok(told)
    }

    /// Writes an unsigned report of what became of the load that was judged last, and keeps it as this device's own. `device` is what
    /// it goes by: 16 bytes that its caller drew. It keeps no journal; its reports are chained all the same.
    ///
    /// # Errors
    /// Nothing was judged, or another load; a refusal that needs a person's words and has none; more than a code holds.
    pub fn report(
        &mut self,
        load: &LoadNumber,
        event: MovementEvent,
        note: Option<Note>,
        device: [u8; 16],
        now: Time,
    ) -> Result<(String, Movement), DeviceError> {
        let last = self.last.as_ref().filter(|last| last.load() == Some(load));
        let last = last.ok_or_else(|| DeviceError::Unreported(movement_words::NoLoadIsMeant.into()))?;
        if event.cause().is_some_and(RefusalCause::needs_note) && note.is_none() {
            return Err(DeviceError::Unreported(movement_words::OtherCauseNeedsNote.into()));
        }
        let movement = Movement {
            load: load.clone(),
            event,
            issued: now,
            happened: None,
            device,
            journal: JournalEnd::empty(&device),
            before: self.reported.filter(|(by, _)| *by == device).map(|(_, digest)| digest),
            seal: last.judgement.digest,
            shown: Some(last.judgement.shown()),
            aircraft: None,
            place: None,
            photos: Vec::new(),
            pieces: Vec::new(),
            note,
        };
        let bytes = movement.unsigned()?;
        let word = self.open_word(Kind::Movement, &bytes)?.written_here();
        self.reported = Some((device, word.digest()));
        self.keep(word);
        self.heard(now, Speaker::ThisDevice);
        Ok((wrap(Kind::Movement, &bytes), movement))
    }

    /// Takes in an inspection of what is no load: a piece that was withdrawn stands in the way of every tag that names it.
    fn inspection(&mut self, bytes: &[u8], now: Time, language: Language) -> Result<Value, DeviceError> {
        let word = InspectionWord::open(bytes, &self.trusted).map_err(WordError::from)?;
        let Some(signer) = word.counts() else { return Err(DeviceError::Nobody(Kind::Inspection)) };
        let told = views::inspection(word.inspection(), signer, language);
        if self.pieces.iter().all(|known| known.digest() != word.digest()) {
            self.pieces.push(word);
        }
        self.heard(now, Speaker::ThisDevice);
        Ok(told)
    }

    /// Whether the credential that signed the page has been revoked since, by a roster that was taken in.
    fn roster(&mut self, bytes: &[u8]) -> Result<Value, DeviceError> {
        let id = Roster::authority(bytes)?;
        let known: Vec<(PublicKey, String)> =
            self.trusted.with_id(id).map(|authority| (authority.key, authority.name.to_string())).collect();
        let mut last = DeviceError::Nobody(Kind::RosterOfKeys);
        for (key, name) in known {
            let roster = match Roster::open(bytes, &key) {
                Ok(roster) => roster,
                Err(error) => {
                    last = error.into();
                    continue;
                }
            };
            let (sequence, revoked) = (roster.sequence, roster.entries());
            let held = self.rosters.get(&key.to_bytes());
            if held.is_some_and(|(held, text)| *held == sequence && text != bytes) {
                return Err(DeviceError::OtherRoster(sequence));
            }
            let new = held.is_none_or(|(held, _)| *held < sequence);
            if new {
                let issued = roster.issued;
                self.rosters.insert(key.to_bytes(), (sequence, bytes.to_vec()));
                self.trusted.set_roster(&key, roster);
                self.leader_revoked(issued);
            }
            return Ok(json!({
                "kind": "roster", "authority": name, "sequence": sequence, "revoked": revoked, "new": new,
            }));
        }
        Err(last)
    }

    /// What a leader who was revoked put together may be relied on no longer than until then.
    fn leader_revoked(&mut self, since: Time) {
        let revoked = self.leader.as_ref().is_some_and(|leader| self.trusted.revoked(leader));
        if let Memory::Copied { until } = self.memory
            && revoked
        {
            self.memory = Memory::Copied { until: until.min(since) };
        }
    }

    fn open_word(&mut self, kind: Kind, bytes: &[u8]) -> Result<LoadWord, WordError> {
        if let Ok(message) = Sign1::parse(bytes, Limits::CODE)
            && let Some(credential) = message.header.credential
        {
            // What does not pass here is told by the word's author.
            let _ = self.trusted.remember(credential);
        }
        LoadWord::open(kind, bytes, &self.trusted)
    }

    /// Keeps a word without asking whether anybody stands behind it: what a caller of the surface says it holds.
    ///
    /// # Errors
    /// What is no word of a load.
    pub fn hold(&mut self, text: &str) -> Result<(), DeviceError> {
        let (kind, bytes) = unwrap(text)?;
        if kind == Kind::Inspection {
            self.pieces.push(InspectionWord::open(&bytes, &self.trusted).map_err(WordError::from)?);
            return Ok(());
        }
        let word = self.open_word(kind, &bytes)?;
        self.keep(word);
        Ok(())
    }

    fn keep(&mut self, word: LoadWord) {
        self.words.insert(word.digest(), word);
    }

    fn heard(&mut self, time: Time, by: Speaker) {
        let heard = Some(LatestTrusted { time, by });
        self.latest = self.latest.take().max(heard);
    }
}
