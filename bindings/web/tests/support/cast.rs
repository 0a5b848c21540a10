//! The people of the check pages' tests, and what they sign.

use slingseal_message::envelope::{Kind, Unsigned, unwrap, wrap};
use slingseal_message::movement::{JournalEnd, Movement, MovementEvent};
use slingseal_message::seal::{InspectedSubject, Outcome, Seal, SignedInspection, TagPrint, Void, VoidCause};
use slingseal_message::tag::{ReceivedTag, read_plan};
use slingseal_message::trust::{
    Approval, Authority, CheckPage, Credential, DEFAULT_VALIDITY, Edition, PageAuthority, Role, Roles,
    Roster, SecretKey,
};
use slingseal_web::Surface;
use slingseal_words::{CallSign, Digest, LoadNumber, Name, Note, ProcedureId, Seconds, Serial, Time};

const PLAN: &str = "load = \"KM-014\"\ndescription = \"Rations\"\nprocedure = \"bag\"\ngross = \"1800 lb\"\n\
    rigger = \"Mason 5\"\n[aircraft]\ntype = \"Heron M2\"\nallowable = \"7000 lb\"\n[pickup]\nname = \"Kestrel Meadow\"\n\
    [destination]\nname = \"Alder Bridge\"\n";

pub fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

pub fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

/// An authority's key, and everyone under it.
pub struct Cast {
    pub authority: SecretKey,
}

impl Cast {
    pub fn new() -> Self {
        Self { authority: key(1) }
    }

    pub fn credential(&self, holder: &str, roles: &[Role], seed: u8, expires: i64) -> Vec<u8> {
        let credential = Credential {
            holder: CallSign::new(holder).expect("a call sign"),
            roles: Roles::of(roles),
            expires: at(expires),
            longest_validity: DEFAULT_VALIDITY,
            key: key(seed).public(),
        };
        credential.issue(&self.authority)
    }

    pub fn tag(&self) -> String {
        let tag = read_plan(PLAN, at(-7_200), &|_| Err("no file".into())).expect("a plan").tag;
        let content = tag.content();
        let planner = self.credential("Lantern 1", &[Role::Planner], 5, 1_000_000);
        wrap(Kind::Tag, &finish(&Unsigned::prepare(Kind::Tag, &planner, &tag.claims(&content)), 5))
    }

    pub fn seal(&self, issued: Time, fit: bool) -> String {
        let (_, tag) = unwrap(&self.tag()).expect("a tag");
        let tag = ReceivedTag::open(&tag).expect("a tag");
        let seal = Seal {
            load: tag.tag.load,
            issued,
            valid_until: issued.plus(Seconds::hours(24)),
            tag: TagPrint::of(&tag.digest),
            tag_signed: true,
            procedure: tag.tag.procedure,
            version: 1,
            procedure_print: [3; 4],
            outcome: if fit { Outcome::Fit } else { Outcome::NotFit },
            found: 0,
            corrected: 0,
            mass: tag.tag.gross,
            record: Digest::of(&[u8::from(fit)]),
        };
        let inspector = self.credential("Anvil 3", &[Role::Inspector], 2, 1_000_000);
        wrap(Kind::Seal, &finish(&seal.prepare(&inspector), 2))
    }

    pub fn void(&self, issued: Time) -> String {
        let (_, tag) = unwrap(&self.tag()).expect("a tag");
        let load = ReceivedTag::open(&tag).expect("a tag").tag.load;
        let void = Void { load, issued, record: Digest::of(&[1]), cause: VoidCause::LoadMoved, note: None };
        let hookup = self.credential("Thistle 7", &[Role::Hookup], 6, 1_000_000);
        wrap(Kind::Void, &finish(&void.prepare(&hookup), 6))
    }

    /// What a device of nobody's reports.
    pub fn movement(&self, issued: Time) -> String {
        let movement = Movement {
            load: LoadNumber::new("KM-014").expect("a load number"),
            event: MovementEvent::SetDown,
            issued,
            happened: None,
            device: [9; 16],
            journal: JournalEnd::empty(&[9; 16]),
            before: None,
            seal: None,
            shown: None,
            aircraft: None,
            place: None,
            photos: Vec::new(),
            pieces: Vec::new(),
            note: None,
        };
        wrap(Kind::Movement, &movement.unsigned().expect("it fits"))
    }

    /// An inspector's word on a piece of gear, by no list that anybody approved.
    pub fn piece(&self, serial: &str, issued: Time, why: Option<&str>) -> String {
        let said = SignedInspection {
            subject: InspectedSubject::Piece,
            name: Serial::new(serial).expect("a serial number"),
            issued,
            fit_until: why.is_none().then(|| issued.plus(Seconds::hours(24))),
            outcome: if why.is_none() { Outcome::Fit } else { Outcome::NotFit },
            edition: Edition {
                procedure: ProcedureId::new("sling-gear").expect("an id"),
                version: 1,
                thumbprint: [5; 16],
            },
            found: u16::from(why.is_some()),
            corrected: 0,
            why: why.map(|why| Note::new(why).expect("a note")),
            record: Digest::of(&[2]),
        };
        let inspector = self.credential("Anvil 3", &[Role::Inspector], 2, 1_000_000);
        wrap(Kind::Inspection, &finish(&said.prepare(&inspector), 2))
    }

    /// A page before it is signed.
    pub fn plain(&self, made: Time, hours: i64, words: &[String]) -> CheckPage {
        let name = Name::new("Sela Relief").expect("a name");
        let edition =
            Edition { procedure: ProcedureId::new("bag").expect("an id"), version: 1, thumbprint: [3; 16] };
        let approved = [(edition, Approval { from: at(-90_000), withdrawn: None })].into();
        let roster = Roster { approved, ..Roster::new(1, at(-100_000), at(500_000)) };
        let roster = roster.sign(&self.authority);
        let card = Authority::sign(&name, at(-100_000), &self.authority);
        CheckPage {
            made,
            until: made.plus(Seconds::hours(hours)),
            authorities: vec![PageAuthority { card, roster: Some(roster) }],
            words: words.iter().map(|text| unwrap(text).expect("a word")).collect(),
        }
    }

    pub fn page(&self, made: Time, hours: i64, words: &[String]) -> Vec<u8> {
        self.signed_by(&self.plain(made, hours, words), &[Role::Leader], 1_000_000)
    }

    pub fn signed_by(&self, page: &CheckPage, roles: &[Role], expires: i64) -> Vec<u8> {
        finish(&page.prepare(&self.credential("Beacon 2", roles, 7, expires)), 7)
    }

    /// The page of this authority, signed by a leader of another.
    pub fn stranger(&self) -> Vec<u8> {
        let leader = Self { authority: key(66) }.credential("Beacon 2", &[Role::Leader], 7, 1_000_000);
        finish(&self.plain(at(0), 24, &[]).prepare(&leader), 7)
    }
}

pub fn finish(unsigned: &Unsigned, seed: u8) -> Vec<u8> {
    unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
}

/// What the surface says of a page and what it is shown: verdict and codes; none where it refuses the page.
pub fn answered(page: &[u8], now: Time, shown: &[String]) -> (Option<String>, Vec<String>) {
    let mut surface = Surface::default();
    if surface.begin(page).starts_with("{\"error\"") {
        return (None, Vec::new());
    }
    let call = serde_json::json!({ "call": "judge", "shown": shown, "now": now.unix(), "language": "en" });
    let answer: serde_json::Value =
        serde_json::from_str(&surface.call(call.to_string().as_bytes())).expect("JSON");
    let codes = answer["ok"]["reasons"].as_array().into_iter().flatten();
    let codes = codes.map(|reason| reason["code"].as_str().expect("a code").to_owned()).collect();
    (answer["ok"]["word"].as_str().map(str::to_owned), codes)
}

/// A vector's file.
pub fn vector(about: &str, page: &[u8], now: Time, shown: &[String]) -> String {
    let (verdict, reasons) = answered(page, now, shown);
    let table = serde_json::json!({
        "about": about, "at": now.rfc3339(), "page": base64(page), "shown": shown,
        "thumbprint": CheckPage::thumbprint(page),
        "expect": { "verdict": verdict, "reasons": reasons },
    });
    let mut table = table;
    if verdict.is_none()
        && let Some(expect) = table["expect"].as_object_mut()
    {
        expect.remove("verdict");
    }
    toml::to_string(&table).expect("a table")
}

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Base64 of RFC 4648 §4, and back.
pub fn base64(bytes: &[u8]) -> String {
    let mut text = String::new();
    for group in bytes.chunks(3) {
        let bits = (0..3).fold(0u32, |bits, at| bits << 8 | u32::from(*group.get(at).unwrap_or(&0)));
        for at in 0..4usize {
            let letter = LETTERS[(bits >> (18 - 6 * at) & 63) as usize];
            text.push(if at > group.len() { '=' } else { char::from(letter) });
        }
    }
    text
}

pub fn unbase64(text: &str) -> Vec<u8> {
    let digits: Vec<u32> = text
        .trim_end_matches('=')
        .bytes()
        .map(|letter| LETTERS.iter().position(|known| *known == letter).expect("a letter of Base64") as u32)
        .collect();
    digits
        .chunks(4)
        .flat_map(|group| {
            let bits = (0..4).fold(0u32, |bits, at| bits << 6 | group.get(at).copied().unwrap_or(0));
            bits.to_be_bytes()[1..group.len()].to_vec()
        })
        .collect()
}
