//! What a check page for strangers' phones carries: whom it trusts and what this home knows of loads, signed by its leader.

use serde::Serialize;

use crate::trust::vault::DEVICE_VAULT;
use crate::{App, AppError, Inner, Stamp};
use slingseal_catalogue::check_page as words;
use slingseal_message::envelope::Kind;
use slingseal_message::trust::{Authority, CheckPage, PageAuthority, PublicKey, Role};
use slingseal_store::{Reader, SAID_PAGE, WordKind};
use slingseal_words::{Seconds, Time, same_name};

/// Whom a page is to trust, and for how long.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct CheckPageRequest {
    /// The authorities, by name or fingerprint; all that are trusted here where none is named.
    pub authorities: Vec<String>,
    /// How many hours it may be relied on, 1 to 168; a day where nothing is said.
    pub hours: Option<u32>,
}

/// What a page carries, signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CheckPageMade {
    /// The message, for the file.
    #[serde(skip)]
    pub bytes: Vec<u8>,
    /// What the leader says by voice, and the page shows first.
    pub thumbprint: String,
    /// Who signed it.
    pub leader: String,
    /// When it was made.
    pub made: Stamp,
    /// The last second in which it may be relied on.
    pub until: Stamp,
    /// The names of the authorities that it trusts.
    pub authorities: Vec<String>,
    /// How many seals, voids and tags are in it.
    pub words: u32,
    /// What it lacks, a line each.
    pub left_out: Vec<String>,
}

/// A page knows what was said in so many days before it was made: whatever a seal of today can be judged by.
const BACK: Seconds = Seconds::days(30);
/// Where nothing else is said: the pickup zone's day.
const HOURS: u32 = 24;
/// What the message has beside its words: a credential, a signature, heads.
const BESIDE: usize = 4_000;

impl App {
    /// Signs what a check page carries, with this device's credential as a leader.
    ///
    /// # Errors
    /// No leader's credential in force here; a wrong PIN; an authority that is not trusted here; more than fits.
    pub fn check_page(&self, request: &CheckPageRequest, pin: &str) -> Result<CheckPageMade, AppError> {
        // What can be told without the PIN is told first: it costs no try.
        self.lock().page_of(request)?;
        let key = self.open_key(DEVICE_VAULT, pin)?;
        let (page, credential, left_out) = self.lock().page_of(request)?;
        let unsigned = page.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        drop(key);
        // What no page would open is not handed out.
        let opened = CheckPage::open(&bytes).map_err(|error| AppError::refused(error.saying()))?;
        Ok(CheckPageMade {
            thumbprint: CheckPage::thumbprint(&bytes),
            leader: opened.leader.credential.holder.to_string(),
            made: page.made.into(),
            until: page.until.into(),
            authorities: opened.trusted.iter().map(|authority| authority.name.to_string()).collect(),
            words: u32::try_from(page.words.len()).unwrap_or(u32::MAX),
            left_out,
            bytes,
        })
    }
}

impl Inner {
    /// The page, the credential to sign it with, and what is not in it.
    fn page_of(&self, request: &CheckPageRequest) -> Result<(CheckPage, Vec<u8>, Vec<String>), AppError> {
        let hours = request.hours.unwrap_or(HOURS);
        if !(1..=168).contains(&hours) {
            return Err(AppError::bad_input(words::HoursOutOfRange));
        }
        let made = self.now();
        let until = made.plus(Seconds::hours(hours.into()));
        let (signer, credential) = self.credential_for(Some(Role::Leader))?;
        let read = self.store.read();
        let (mut authorities, mut left_out) = (Vec::new(), Vec::new());
        let trusted = self.trusted()?;
        for known in trusted.iter() {
            let meant = |who: &String| known.key.has_fingerprint(who) || same_name(known.name.as_str(), who);
            if !request.authorities.is_empty() && !request.authorities.iter().any(meant) {
                continue;
            }
            let Some(card) = card_of(&read, &known.key)? else {
                return Err(AppError::refused(words::CardMissing { authority: &known.name }));
            };
            let roster = read.roster(&known.key.to_bytes())?.map(|row| row.bytes);
            if known.roster.is_none() {
                left_out.push(words::NoRosterOnPage { authority: &known.name }.say(self.language()));
            }
            authorities.push((known.key, PageAuthority { card, roster }));
        }
        if !authorities.iter().any(|(key, _)| *key == signer.authority) {
            return Err(AppError::bad_input(words::OwnAuthorityMissing));
        }
        if authorities.len() > CheckPage::MOST_AUTHORITIES || authorities.len() < request.authorities.len() {
            return Err(AppError::bad_input(words::AuthoritiesNotFound {
                found: authorities.len(),
                most: CheckPage::MOST_AUTHORITIES,
            }));
        }
        let authorities: Vec<PageAuthority> = authorities.into_iter().map(|(_, one)| one).collect();
        let held = |one: &PageAuthority| one.card.len() + one.roster.as_ref().map_or(0, Vec::len) + 16;
        let taken: usize = authorities.iter().map(held).sum();
        let room = CheckPage::LIMITS.bytes.saturating_sub(taken + BESIDE);
        if room == 0 {
            return Err(AppError::refused(words::RostersTooLarge));
        }
        let (words, lacking) = words_since(&read, made.plus(Seconds(-BACK.0)), room)?;
        left_out.extend(lacking.then(|| words::WordsLeftOut.say(self.language())));
        Ok((CheckPage { made, until, authorities, words }, credential, left_out))
    }
}

/// The newest card of a key.
fn card_of(read: &Reader<'_>, key: &PublicKey) -> Result<Option<Vec<u8>>, AppError> {
    let cards = read.cards()?.into_iter().filter_map(|(_, bytes)| {
        let card = Authority::open(&bytes).ok().filter(|card| card.key == *key)?;
        Some((card.issued, bytes))
    });
    Ok(cards.max().map(|(_, bytes)| bytes))
}

/// A word as a page carries it.
type Carried = (Kind, Vec<u8>);

/// The words that count, newest first, voids before seals before tags: what a refusal or a taking back needs comes first. Whether
/// some did not fit.
fn words_since(read: &Reader<'_>, since: Time, room: usize) -> Result<(Vec<Carried>, bool), AppError> {
    let kinds = [
        (WordKind::Void, Kind::Void),
        (WordKind::Movement, Kind::Movement),
        (WordKind::Seal, Kind::Seal),
        (WordKind::Tag, Kind::Tag),
    ];
    let (mut words, mut left) = (Vec::new(), room);
    // Gear that was withdrawn stands in the way of every tag that names it, however long ago that was.
    for row in read.inspections()?.into_iter().filter(|row| row.author.is_some()) {
        let size = row.bytes.len() + 8;
        if size > left || words.len() >= CheckPage::MOST_WORDS {
            return Ok((words, true));
        }
        left -= size;
        words.push((Kind::Inspection, row.bytes));
    }
    for (stored, kind) in kinds {
        'pages: for page in 0.. {
            let some = read.said_last(stored, page)?;
            let last = some.len() < SAID_PAGE as usize;
            for bytes in some {
                let size = bytes.len() + 8;
                if size > left || words.len() >= CheckPage::MOST_WORDS {
                    return Ok((words, true));
                }
                if said(kind, &bytes).is_none_or(|said| said < since) {
                    break 'pages;
                }
                left -= size;
                words.push((kind, bytes));
            }
            if last {
                break;
            }
        }
    }
    Ok((words, false))
}

/// When a kept word says that it was signed.
fn said(kind: Kind, bytes: &[u8]) -> Option<Time> {
    use slingseal_message::{movement::ReceivedMovement, seal::ReceivedSeal, seal::Void, tag::ReceivedTag};
    match kind {
        Kind::Movement => Some(ReceivedMovement::open(bytes).ok()?.movement.issued),
        Kind::Void => Some(Void::open(bytes).ok()?.0.issued),
        Kind::Seal => Some(ReceivedSeal::open(bytes).ok()?.seal.issued),
        _ => Some(ReceivedTag::open(bytes).ok()?.tag.planned),
    }
}
