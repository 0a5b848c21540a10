use std::fmt;

use serde::{Deserialize, Serialize};
use slingseal_catalogue::{Saying, faults as words, walk};

use super::tongue::Tongue;
use slingseal_words::{Digest, Language, PointId, ProcedureId, Quantity, Unit};

use super::fill::Scope;
use super::shape::{
    CardShape, ExpectShape, Fate, KindShape, Mark, PointRules, PointShape, Procedure, Round, StationShape,
    Subject,
};

/// What the first card of every walk says, whatever the file says.
pub fn governing_manual(language: Language) -> String {
    walk::GoverningManual.say(language)
}

/// The number of a card in its walk, from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u32", into = "u32")]
pub struct CardNo(u32);

/// A card has no number nought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoCardZero;

impl NoCardZero {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::CardNought.into()
    }
}

slingseal_catalogue::error_by_saying!(NoCardZero);

impl TryFrom<u32> for CardNo {
    type Error = NoCardZero;

    fn try_from(number: u32) -> Result<Self, NoCardZero> {
        Self::new(number).ok_or(NoCardZero)
    }
}

impl From<CardNo> for u32 {
    fn from(card: CardNo) -> Self {
        card.0
    }
}

impl CardNo {
    /// The first card.
    pub const FIRST: Self = Self(1);

    /// Takes a number from one; `None` for nought.
    pub fn new(number: u32) -> Option<Self> {
        (number > 0).then_some(Self(number))
    }

    /// The number, from one.
    pub fn number(self) -> u32 {
        self.0
    }

    /// The place in a list, from nought.
    pub fn place(self) -> usize {
        self.0.saturating_sub(1) as usize
    }

    /// The card at a place in a list, from nought.
    pub fn at_place(place: usize) -> Self {
        Self(u32::try_from(place).unwrap_or(u32::MAX - 1).saturating_add(1))
    }
}

impl fmt::Display for CardNo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// A procedure written out in one language: every station, card and point in the order of the walk. Numbers and ids
/// are the same in every language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expanded {
    /// What the procedure goes by.
    pub id: ProcedureId,
    /// Which edition.
    pub version: u32,
    /// SHA-256 of the file's bytes.
    pub digest: Digest,
    /// The language of the texts; a text that the file has not in it is English.
    pub language: Language,
    /// What it is for.
    pub title: String,
    /// What its writer says about it.
    pub about: Option<String>,
    /// What it inspects.
    pub subject: Subject,
    /// The places that are stopped at, in order.
    pub stations: Vec<Station>,
    /// The cards of all stations, in order.
    pub cards: Vec<Card>,
}

/// A place that the inspector stops at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Station {
    /// What it goes by: `side-1`.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Its first card.
    pub first: CardNo,
    /// Its last card.
    pub last: CardNo,
}

/// One physical motion: one trace, one look.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// Its number in the walk.
    pub number: CardNo,
    /// What it goes by: `side-1.lateral-2`.
    pub id: String,
    /// The place of its station in `Expanded::stations`.
    pub station: usize,
    /// What it is called.
    pub title: String,
    /// What the eyes and the hands do; spoken when the card comes up.
    pub motion: String,
    /// On the first card: that the governing manual rules.
    pub caution: Option<String>,
    /// What is judged on it, in order.
    pub points: Vec<Point>,
}

/// One thing that is judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Point {
    /// What it goes by: `side-1.lateral-2.twist`.
    pub id: PointId,
    /// How it is answered.
    pub kind: Kind,
    /// A few words for the screen.
    pub prompt: String,
    /// A sentence for the ear.
    pub speak: String,
    /// What may be found, by name.
    pub deficiencies: Vec<Deficiency>,
    /// What else holds of it.
    pub rules: PointRules,
    /// Where it comes from.
    pub mark: Mark,
}

/// Something that may be found at a point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deficiency {
    /// Its name on the record: the file's English words, whatever language is shown.
    pub name: String,
    /// Its name in the language of the walk.
    pub shown: String,
    /// What becomes of the load, or of the piece.
    pub fate: Fate,
}

/// How a point is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Good or not.
    Look,
    /// A number that must be the expected one.
    Count(Expected),
    /// One of some options, of which some are right.
    Choice(Vec<Choice>),
    /// A quantity within a range; without bounds it is kept, and the governing manual is held beside it.
    Measure {
        /// The least that is good.
        least: Option<Quantity>,
        /// The most that is good.
        most: Option<Quantity>,
        /// The unit to offer, where a bound does not say it.
        unit: Option<Unit>,
    },
    /// A serial number, which the tag must name if it names any equipment.
    Serial {
        /// Whose serial it is, as the tag calls that kind of equipment.
        equipment: Option<String>,
        /// Whether the card is good without it.
        optional: bool,
    },
    /// A short text, which is not judged.
    Text {
        /// Whether the card is good without it.
        optional: bool,
    },
}

/// What a count is held against.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Expected {
    /// A number of the procedure's.
    Fixed(u32),
    /// The link count of this leg on the tag.
    LinksOfLeg(String),
    /// What the governing manual says of the very thing: kept, and not judged.
    OfManual,
}

/// An option of a choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// Its name on the record: the file's English words.
    pub name: String,
    /// Its name in the language of the walk.
    pub shown: String,
    /// Whether it is good.
    pub right: bool,
}

impl Expanded {
    /// The card of this number.
    pub fn card(&self, number: CardNo) -> Option<&Card> {
        self.cards.get(number.place())
    }

    /// The point of this id, with its card.
    pub fn point(&self, id: &PointId) -> Option<(&Card, &Point)> {
        self.cards.iter().find_map(|card| Some((card, card.point(id)?)))
    }

    /// How many points there are.
    pub fn points(&self) -> usize {
        self.cards.iter().map(|card| card.points.len()).sum()
    }

    /// The legs whose link count the tag must give.
    pub fn legs_of_tag(&self) -> Vec<&str> {
        let points = self.cards.iter().flat_map(|card| &card.points);
        let mut legs: Vec<&str> = points
            .filter_map(|point| match &point.kind {
                Kind::Count(Expected::LinksOfLeg(leg)) => Some(leg.as_str()),
                _ => None,
            })
            .collect();
        legs.sort_unstable();
        legs.dedup();
        legs
    }
}

impl Card {
    /// The point of this id, if it is on this card.
    pub fn point(&self, id: &PointId) -> Option<&Point> {
        self.points.iter().find(|point| point.id == *id)
    }
}

impl Procedure {
    /// Writes the procedure out in a language.
    pub fn expand(&self, language: Language) -> Expanded {
        self.expand_in(language, language.into())
    }

    /// Writes the procedure out for somebody who reads the program in one language and lists in another. A text that the file
    /// does not have in it is English.
    pub fn expand_in(&self, language: Language, tongue: Tongue) -> Expanded {
        let mut stations = Vec::new();
        let mut cards = Vec::new();
        for shape in &self.stations {
            for (tail, scope) in Scope::default().over(self.round(shape.each)) {
                self.station(shape, &tail, &scope, tongue, &mut stations, &mut cards);
            }
        }
        if let Some(first) = cards.first_mut() {
            first.caution = Some(governing_manual(language));
        }
        Expanded {
            id: self.id.clone(),
            version: self.version,
            digest: self.digest,
            language,
            title: self.title.within(tongue).to_owned(),
            about: self.about.as_ref().map(|about| about.within(tongue).to_owned()),
            subject: self.subject,
            stations,
            cards,
        }
    }

    fn station(
        &self,
        shape: &StationShape,
        tail: &str,
        scope: &Scope<'_>,
        tongue: Tongue,
        stations: &mut Vec<Station>,
        cards: &mut Vec<Card>,
    ) {
        let id = format!("{}{tail}", shape.id);
        let first = CardNo::at_place(cards.len());
        for card in &shape.cards {
            for (tail, scope) in scope.over(self.round(card.each)) {
                let number = CardNo::at_place(cards.len());
                let card_id = format!("{id}.{}{tail}", card.id);
                cards.push(Card {
                    number,
                    station: stations.len(),
                    title: scope.fill(&card.title, tongue),
                    motion: scope.fill(&card.motion, tongue),
                    caution: None,
                    points: self.card_points(card, &card_id, &scope, tongue),
                    id: card_id,
                });
            }
        }
        let last = CardNo::at_place(cards.len().saturating_sub(1));
        stations.push(Station { id, title: scope.fill(&shape.title, tongue), first, last });
    }

    fn card_points(&self, card: &CardShape, card_id: &str, scope: &Scope<'_>, tongue: Tongue) -> Vec<Point> {
        let mut points = Vec::new();
        for shape in &card.points {
            for (tail, scope) in scope.over(self.round(shape.each)) {
                // `check` has made every id; one that fails here would have been a fault there.
                if let Ok(id) = PointId::new(&format!("{card_id}.{}{tail}", shape.id)) {
                    points.push(point(shape, id, &scope, tongue));
                }
            }
        }
        points
    }

    fn round(&self, each: Option<usize>) -> Option<&Round> {
        each.and_then(|at| self.rounds.get(at))
    }
}

fn point(shape: &PointShape, id: PointId, scope: &Scope<'_>, tongue: Tongue) -> Point {
    let prompt = scope.fill(&shape.prompt, tongue);
    // A sentence that is not there in the language is read from the prompt in it, not from the English sentence.
    let spoken = shape.speak.as_ref().filter(|speak| {
        speak.told_in(tongue.code()).is_some() || shape.prompt.told_in(tongue.code()).is_none()
    });
    let speak = match spoken {
        Some(speak) => scope.fill(speak, tongue),
        None => format!("{prompt}."),
    };
    let deficiencies = shape.deficiencies.iter().map(|known| Deficiency {
        name: scope.fill(&known.said, Tongue::ENGLISH),
        shown: scope.fill(&known.said, tongue),
        fate: known.fate,
    });
    let kind = match &shape.kind {
        KindShape::Look => Kind::Look,
        KindShape::Count(ExpectShape::Fixed(number)) => Kind::Count(Expected::Fixed(*number)),
        KindShape::Count(ExpectShape::OfManual) => Kind::Count(Expected::OfManual),
        KindShape::Count(ExpectShape::LinksOfLeg(leg)) => {
            Kind::Count(Expected::LinksOfLeg(scope.fill_text(leg, Tongue::ENGLISH)))
        }
        KindShape::Choice { options, right } => {
            let choice = |(said, right): (_, &bool)| Choice {
                name: scope.fill(said, Tongue::ENGLISH),
                shown: scope.fill(said, tongue),
                right: *right,
            };
            Kind::Choice(options.iter().zip(right).map(choice).collect())
        }
        KindShape::Measure { least, most, unit } => Kind::Measure { least: *least, most: *most, unit: *unit },
        KindShape::Serial { equipment, optional } => {
            Kind::Serial { equipment: equipment.clone(), optional: *optional }
        }
        KindShape::Text { optional } => Kind::Text { optional: *optional },
    };
    let piece = shape.rules.piece.as_ref().map(|piece| scope.fill_text(piece, Tongue::ENGLISH));
    let rules = PointRules { piece, ..shape.rules.clone() };
    Point { id, kind, prompt, speak, deficiencies: deficiencies.collect(), rules, mark: shape.mark.clone() }
}
