use slingseal_catalogue::{files, walk as words};
use std::collections::BTreeSet;
use std::fmt;

use super::tongue::Tongue;
use slingseal_words::{Digest, Language, ProcedureId, Quantity, Saying, Unit};

/// Where a point comes from, so that nobody takes a habit for a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A published standard or manual, by name.
    Published(String),
    /// What is commonly done, with no source.
    CommonPractice,
    /// What the writer of the file, or of the tag, answers for; with their words on it, if any.
    Own(Option<String>),
}

impl Mark {
    /// Reads `published NAME`, `common practice`, `user's own` or `user's own: WORDS`.
    pub(super) fn parse(text: &str) -> Result<Self, Saying> {
        let text = text.trim();
        if let Some(name) = text.strip_prefix("published ").map(str::trim).filter(|name| !name.is_empty()) {
            return Ok(Self::Published(name.to_owned()));
        }
        if let Some(words) = text.strip_prefix("user's own:").map(str::trim).filter(|words| !words.is_empty())
        {
            return Ok(Self::Own(Some(words.to_owned())));
        }
        match text {
            "common practice" => Ok(Self::CommonPractice),
            "user's own" => Ok(Self::Own(None)),
            _ => Err(files::SourceIsNoMark.into()),
        }
    }
}

impl Mark {
    /// What a reader is told of it, in no language yet. A file has the English.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Published(name) => words::MarkPublished { name }.into(),
            Self::CommonPractice => words::MarkCommonPractice.into(),
            Self::Own(None) => words::MarkOwn.into(),
            Self::Own(Some(words)) => words::MarkOwnWords { said: words }.into(),
        }
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published(name) => write!(f, "published {name}"),
            Self::CommonPractice => f.write_str("common practice"),
            Self::Own(None) => f.write_str("user's own"),
            Self::Own(Some(words)) => write!(f, "user's own: {words}"),
        }
    }
}

/// What becomes of a load, or of a piece, at which a deficiency is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// Corrected where the load stands, and looked at again.
    InPlace,
    /// The load is rigged anew and inspected anew.
    Rerig,
    /// The paper is wrong, not the rigging: a new tag, and an inspection under it.
    NewTag,
    /// The piece leaves service by its serial number; a load that names it is not fit.
    Reject,
}

impl Fate {
    /// Every fate, in the order in which a file's lists are read.
    pub const ALL: [Self; 4] = [Self::InPlace, Self::Rerig, Self::NewTag, Self::Reject];

    /// The key of a file that lists deficiencies of this fate.
    pub fn key(self) -> &'static str {
        match self {
            Self::InPlace => "in_place",
            Self::Rerig => "rerig",
            Self::NewTag => "new_tag",
            Self::Reject => "reject",
        }
    }

    /// What is done about it, in a few words.
    pub fn words(self, language: Language) -> String {
        match self {
            Self::InPlace => words::FateInPlace.say(language),
            Self::Rerig => words::FateRerig.say(language),
            Self::NewTag => words::FateNewTag.say(language),
            Self::Reject => words::FateReject.say(language),
        }
    }
}

/// What a procedure inspects.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Subject {
    /// A rigged load, by its tag.
    #[default]
    Load,
    /// A piece of gear, by its serial number.
    Piece,
    /// An aircraft's hooks, with its crew.
    Aircraft,
    /// A pickup or landing zone and the people on it.
    Zone,
    /// What is done with a load that is inspected already: hookup, release, derigging.
    Handling,
}

impl Subject {
    pub(super) const ALL: [Self; 5] = [Self::Load, Self::Piece, Self::Aircraft, Self::Zone, Self::Handling];

    /// The word of a file.
    pub fn word(self) -> &'static str {
        match self {
            Self::Load => "load",
            Self::Piece => "piece",
            Self::Aircraft => "aircraft",
            Self::Zone => "zone",
            Self::Handling => "handling",
        }
    }

    /// The subject of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|subject| subject.word() == word)
    }
}

/// A procedure that has passed `check`: every reference in it leads somewhere and every text can be filled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Procedure {
    pub(super) id: ProcedureId,
    pub(super) version: u32,
    pub(super) digest: Digest,
    pub(super) title: Said,
    pub(super) about: Option<Said>,
    pub(super) subject: Subject,
    pub(super) rounds: Vec<Round>,
    pub(super) stations: Vec<StationShape>,
}

impl Procedure {
    /// What it goes by.
    pub fn id(&self) -> &ProcedureId {
        &self.id
    }

    /// Which edition of the file it is; the writer counts up.
    pub fn version(&self) -> u32 {
        self.version
    }

    /// SHA-256 of the file's bytes: what a record names, so that the list that was walked can be shown again.
    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// What it inspects.
    pub fn subject(&self) -> Subject {
        self.subject
    }

    /// What it is for, in a few words.
    pub fn title(&self, language: Language) -> &str {
        self.title.within(language.into())
    }

    /// The names of the conditions under which some of its points count alone.
    pub fn conditions(&self) -> BTreeSet<&str> {
        let cards = self.stations.iter().flat_map(|station| &station.cards);
        cards.flat_map(|card| &card.points).filter_map(|point| point.rules.when.as_deref()).collect()
    }

    /// What the writer says about it, if anything.
    pub fn about(&self, language: Language) -> Option<&str> {
        self.about.as_ref().map(|about| about.within(language.into()))
    }
}

/// A text in English and in what other languages the file has it. Placeholders are not filled yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Said {
    pub(super) english: String,
    /// By the two letters of each language.
    pub(super) told: Vec<(&'static str, String)>,
}

impl Said {
    /// In English alone.
    pub(super) fn plain(english: String) -> Self {
        Self { english, told: Vec::new() }
    }

    /// In another language than English, where the file has it.
    pub(super) fn told_in(&self, code: &str) -> Option<&str> {
        self.told.iter().find(|(known, _)| *known == code).map(|(_, text)| text.as_str())
    }

    pub(super) fn within(&self, tongue: Tongue) -> &str {
        self.told_in(tongue.code()).unwrap_or(&self.english)
    }
}

/// What is written once and expanded for each value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Round {
    pub(super) name: String,
    /// What stands in ids.
    pub(super) values: Vec<String>,
    /// What stands in texts for `{name}`; as many as values.
    pub(super) words: Vec<Said>,
    /// What stands in texts for `{name.column}`.
    pub(super) columns: Vec<Column>,
}

/// Further words of a round, one a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Column {
    pub(super) name: String,
    pub(super) words: Vec<Said>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct StationShape {
    pub(super) id: String,
    /// Which round it is expanded over, by its place in `Procedure::rounds`.
    pub(super) each: Option<usize>,
    pub(super) title: Said,
    pub(super) cards: Vec<CardShape>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct CardShape {
    pub(super) id: String,
    pub(super) each: Option<usize>,
    pub(super) title: Said,
    pub(super) motion: Said,
    pub(super) points: Vec<PointShape>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct PointShape {
    pub(super) id: String,
    pub(super) each: Option<usize>,
    pub(super) kind: KindShape,
    pub(super) prompt: Said,
    pub(super) speak: Option<Said>,
    pub(super) deficiencies: Vec<DeficiencyShape>,
    pub(super) rules: PointRules,
    pub(super) mark: Mark,
}

/// What holds of a point besides how it is answered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PointRules {
    /// A correction here disturbs the other points of the card: the whole card is inspected again.
    pub again_card: bool,
    /// The point may be answered "not applicable", with a reason.
    pub may_not_apply: bool,
    /// The condition of the tag under which the point counts.
    pub when: Option<String>,
    /// The kind of equipment whose piece is rejected here, as the tag calls it.
    pub piece: Option<String>,
    /// The measure says for how long a piece is fit.
    pub fit_for: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct DeficiencyShape {
    pub(super) said: Said,
    pub(super) fate: Fate,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum KindShape {
    Look,
    Count(ExpectShape),
    Choice { options: Vec<Said>, right: Vec<bool> },
    Measure { least: Option<Quantity>, most: Option<Quantity>, unit: Option<Unit> },
    Serial { equipment: Option<String>, optional: bool },
    Text { optional: bool },
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum ExpectShape {
    Fixed(u32),
    /// The leg, with placeholders.
    LinksOfLeg(String),
    OfManual,
}
