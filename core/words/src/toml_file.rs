//! Reading a TOML file that a person wrote, so that every fault is told at once, with its place and its mend.
//! Procedures, plans and rigging files are all read through here.

use slingseal_catalogue::files as words;
use std::cell::RefCell;
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use slingseal_catalogue::Saying;

use super::{Dimension, Fault, Faults, Quantity, QuantityError, Spot};

/// A parsed file that collects faults while its parts are read.
#[derive(Debug)]
pub struct TomlFile<'t> {
    text: &'t str,
    table: Spanned<DeTable<'t>>,
    faults: RefCell<Vec<Fault>>,
}

impl<'t> TomlFile<'t> {
    /// Largest file that is read: a person's file is far smaller, and a hostile one stops here.
    pub const LARGEST: usize = 1 << 20;

    /// Parses the file; a syntax fault ends it here.
    pub fn parse(text: &'t str) -> Result<Self, Faults> {
        let fault = |spot, what: Saying, mend: Saying| Faults::new(vec![Fault::new(spot, what, mend)]);
        let start = Spot { line: 1, column: 1 };
        let parsed = if text.len() > Self::LARGEST {
            Err(fault(start, words::FileTooLarge { size: text.len() }.into(), words::WriteBelowOneMib.into()))
        } else {
            DeTable::parse(text).map_err(|error| {
                let spot = error.span().map_or(start, |span| Spot::of(text, span.start));
                let what = error.message().replace('\n', ", ");
                fault(spot, what.into(), words::SeeToml.into())
            })
        };
        match parsed {
            Ok(table) => Ok(Self { text, table, faults: RefCell::default() }),
            Err(Some(faults)) => Err(faults),
            Err(None) => unreachable!("`Faults::new` of one fault is never `None`"),
        }
    }

    /// The whole file as a part.
    pub fn top(&self) -> Part<'_> {
        Part::new(self, self.table.get_ref(), self.table.span(), "file".into())
    }

    /// Ends the reading: all faults in the order of the file, or `value`.
    pub fn finish<T>(&self, value: Option<T>) -> Result<T, Faults> {
        let mut faults = self.faults.borrow().clone();
        faults.dedup();
        match (Faults::new(faults), value) {
            (Some(faults), _) => Err(faults),
            (None, Some(value)) => Ok(value),
            (None, None) => unreachable!("a reader that gives up says why through Part::fault"),
        }
    }

    fn spot(&self, span: &Range<usize>) -> Spot {
        Spot::of(self.text, span.start)
    }

    fn fault(&self, span: &Range<usize>, what: impl Into<Saying>, mend: impl Into<Saying>) {
        self.faults.borrow_mut().push(Fault::new(self.spot(span), what, mend));
    }
}

/// One table of the file. Each getter tells its own fault and answers `None`, so that reading goes on to the next.
#[derive(Debug)]
pub struct Part<'f> {
    file: &'f TomlFile<'f>,
    table: &'f DeTable<'f>,
    span: Range<usize>,
    title: String,
    asked: RefCell<Vec<&'static str>>,
}

/// The known word that a person most likely meant: at most three letters changed, moved, missing or too many.
pub fn nearest<'k>(written: &str, known: impl IntoIterator<Item = &'k &'k str>) -> Option<&'k str> {
    let near = known.into_iter().map(|known| (strsim::damerau_levenshtein(known, written), *known));
    near.min().filter(|(distance, _)| *distance <= 3).map(|(_, known)| known)
}

impl<'f> Part<'f> {
    fn new(file: &'f TomlFile<'_>, table: &'f DeTable<'_>, span: Range<usize>, title: String) -> Self {
        // The file outlives its parts and is only read: shortening its lifetime is sound (DeTable is covariant).
        Self { file, table, span, title, asked: RefCell::default() }
    }

    /// Where the part starts.
    pub fn spot(&self) -> Spot {
        self.file.spot(&self.span)
    }

    /// Where the value of `key` starts, or the part where it is missing.
    pub fn spot_of(&self, key: &str) -> Spot {
        self.file.spot(&self.span_of(key))
    }

    /// Tells a fault at `key` (at the part's start if the key is missing).
    pub fn fault(&self, key: &str, what: impl Into<Saying>, mend: impl Into<Saying>) {
        self.file.fault(&self.span_of(key), what, mend);
    }

    /// Tells what an error says of the value of `key`; `mend` where it does not say it by itself.
    pub fn fault_of(&self, key: &str, error: impl Into<Saying>, mend: impl Into<Saying>) {
        let fault = Fault::of(self.spot_of(key), error, mend);
        self.file.faults.borrow_mut().push(fault);
    }

    /// Whether the key is written at all; counts as asked for.
    pub fn has(&self, key: &'static str) -> bool {
        self.find(key).is_some()
    }

    /// A text; `None` where it is missing.
    pub fn text(&self, key: &'static str) -> Option<String> {
        match self.find(key)?.get_ref() {
            DeValue::String(text) => Some(text.to_string()),
            _ => self.wrong(key, words::WantedText.into(), "\"…\""),
        }
    }

    /// A text that must be there.
    pub fn need_text(&self, key: &'static str) -> Option<String> {
        if self.find(key).is_none() {
            self.fault(key, words::PartHasNo { part: &self.title, key }, words::AddText { key });
        }
        self.text(key)
    }

    /// A text that must be there and that `make` accepts.
    pub fn need<T, E: Into<Saying>>(
        &self,
        key: &'static str,
        make: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        self.need_text(key).and_then(|text| self.made(key, &text, make))
    }

    /// A text that `make` accepts, if it is there.
    pub fn maybe<T, E: Into<Saying>>(
        &self,
        key: &'static str,
        make: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        self.text(key).and_then(|text| self.made(key, &text, make))
    }

    /// A list of texts; empty where it is missing.
    pub fn texts(&self, key: &'static str) -> Vec<String> {
        let Some(value) = self.find(key) else { return Vec::new() };
        let DeValue::Array(array) = value.get_ref() else {
            return self.wrong(key, words::WantedTexts.into(), "[\"…\", \"…\"]").unwrap_or_default();
        };
        let mut texts = Vec::new();
        for item in array.iter() {
            match item.get_ref() {
                DeValue::String(text) => texts.push(text.to_string()),
                _ => self.file.fault(
                    &item.span(),
                    words::NotOnlyTexts { key },
                    words::WriteThis { example: "\"…\"" },
                ),
            }
        }
        texts
    }

    /// A whole number; `None` where it is missing.
    pub fn integer(&self, key: &'static str) -> Option<i64> {
        match self.find(key)?.get_ref() {
            DeValue::Integer(number) => match i64::from_str_radix(number.as_str(), number.radix()) {
                Ok(number) => Some(number),
                Err(_) => self.wrong(key, words::WantedSensibleNumber.into(), "3"),
            },
            _ => self.wrong(key, words::WantedNumber.into(), "3"),
        }
    }

    /// `true` or `false`; `None` where it is missing.
    pub fn flag(&self, key: &'static str) -> Option<bool> {
        match self.find(key)?.get_ref() {
            DeValue::Boolean(flag) => Some(*flag),
            _ => self.wrong(key, words::WantedFlag.into(), "true"),
        }
    }

    /// A quantity with its unit; `None` where it is missing.
    pub fn quantity(&self, key: &'static str, dimension: Dimension) -> Option<Quantity> {
        let text = self.text(key)?;
        self.as_quantity(&self.span_of(key), key, &text, &[dimension])
    }

    /// A rating: a force, or a mass that counts with its weight.
    pub fn rating(&self, key: &'static str) -> Option<Quantity> {
        let text = self.text(key)?;
        self.as_quantity(&self.span_of(key), key, &text, &[Dimension::Mass, Dimension::Force])
    }

    /// A list of exactly `N` quantities, such as a place in the load's axes; `None` where it is missing or faulty.
    pub fn quantities<const N: usize>(
        &self,
        key: &'static str,
        dimension: Dimension,
    ) -> Option<[Quantity; N]> {
        let value = self.find(key)?;
        let example = format!("[{}]", vec!["\"0 m\""; N].join(", "));
        let DeValue::Array(array) = value.get_ref() else {
            return self.wrong(key, words::WantedQuantities { count: N }.into(), &example);
        };
        let mut quantities = Vec::with_capacity(N);
        for item in array.iter() {
            match item.get_ref() {
                DeValue::String(text) => {
                    quantities.push(self.as_quantity(&item.span(), key, text, &[dimension])?)
                }
                _ => {
                    self.file.fault(
                        &item.span(),
                        words::NumberWithoutUnit { key },
                        words::WriteThis { example: &example },
                    );
                    return None;
                }
            }
        }
        match quantities.try_into() {
            Ok(quantities) => Some(quantities),
            Err(_) => self.wrong(key, words::WantedQuantities { count: N }.into(), &example),
        }
    }

    /// A table inside this one; `None` where it is missing.
    pub fn part(&self, key: &'static str) -> Option<Part<'f>> {
        let value = self.find(key)?;
        match value.get_ref() {
            DeValue::Table(table) => Some(Part::new(self.file, table, value.span(), key.into())),
            _ => self.wrong(key, words::WantedTable.into(), &format!("[{key}]")),
        }
    }

    /// Those of these tables that are there, in the order given. What is not there is not told as known here: of hundreds of names
    /// that could be, nobody needs the list.
    pub fn parts_named(&self, keys: &[&'static str]) -> Vec<(&'static str, Part<'f>)> {
        let is_table = |key: &&&'static str| {
            self.table.get(**key).is_some_and(|value| matches!(value.get_ref(), DeValue::Table(_)))
        };
        let there = keys.iter().filter(is_table);
        there.filter_map(|key| Some((*key, self.part(key)?))).collect()
    }

    /// A table that must be there.
    pub fn need_part(&self, key: &'static str) -> Option<Part<'f>> {
        if !self.has(key) {
            self.file.fault(
                &self.span,
                words::PartHasNoSection { part: &self.title, key },
                words::AddSection { key },
            );
        }
        self.part(key)
    }

    /// The tables of a list; empty where it is missing.
    pub fn parts(&self, key: &'static str) -> Vec<Part<'f>> {
        let Some(value) = self.find(key) else { return Vec::new() };
        let DeValue::Array(array) = value.get_ref() else {
            return self.wrong(key, words::WantedTables.into(), &format!("[[{key}]]")).unwrap_or_default();
        };
        let mut parts = Vec::new();
        for item in array.iter() {
            match item.get_ref() {
                DeValue::Table(table) => parts.push(Part::new(self.file, table, item.span(), key.into())),
                _ => self.file.fault(
                    &item.span(),
                    words::NotOnlyTables { key },
                    words::WriteThis { example: format!("[[{key}]]") },
                ),
            }
        }
        parts
    }

    /// Tells every key that nobody asked for, with the nearest one that is known. Call it once all getters ran.
    pub fn no_more(&self) {
        let asked = self.asked.borrow();
        for (key, _) in self.table.iter() {
            if asked.iter().any(|known| *known == key.get_ref().as_ref()) {
                continue;
            }
            let mend: Saying = match nearest(key.get_ref(), asked.iter()) {
                Some(known) => words::DidYouMean { known }.into(),
                None => words::KnownHere { known: asked.join(", ") }.into(),
            };
            let what = words::KeyNotKnown { key: key.get_ref().to_string(), part: &self.title };
            self.file.fault(&key.span(), what, mend);
        }
    }

    fn find(&self, key: &'static str) -> Option<&'f Spanned<DeValue<'f>>> {
        let mut asked = self.asked.borrow_mut();
        if !asked.contains(&key) {
            asked.push(key);
        }
        self.table.get(key)
    }

    fn span_of(&self, key: &str) -> Range<usize> {
        self.table.get(key).map_or(self.span.clone(), Spanned::span)
    }

    fn made<T, E: Into<Saying>>(
        &self,
        key: &str,
        text: &str,
        make: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        make(text).map_err(|error| self.fault_of(key, error, words::MendTheValue)).ok()
    }

    fn as_quantity(
        &self,
        span: &Range<usize>,
        key: &str,
        text: &str,
        wanted: &[Dimension],
    ) -> Option<Quantity> {
        let units = wanted
            .iter()
            .map(|dimension| dimension.units_saying())
            .reduce(|one, other| words::EitherUnits { one, other }.into());
        let units = units.unwrap_or_else(|| Saying::verbatim(""));
        let mend: Saying = match Quantity::parse(text) {
            Ok(quantity) if wanted.contains(&quantity.unit().dimension()) => return Some(quantity),
            Ok(_) | Err(QuantityError::UnknownUnit(_)) => words::UseUnits { units }.into(),
            Err(QuantityError::NoUnit(_)) => words::WriteTheUnit { units }.into(),
            Err(QuantityError::TooFine(_)) => words::AtMostThreeDecimals.into(),
            Err(_) => words::WriteNumberAndUnit { units }.into(),
        };
        let what: Saying = match Quantity::parse(text) {
            Ok(_) => words::WrongKindOfUnit { key, text }.into(),
            Err(error) => words::KeyIsWrong { key, error }.into(),
        };
        self.file.fault(span, what, mend);
        None
    }

    fn wrong<T>(&self, key: &str, wanted: Saying, example: &str) -> Option<T> {
        self.fault(key, words::KeyIsNot { key, wanted }, words::WriteKey { key, example });
        None
    }
}

#[cfg(test)]
mod tests {
    use super::TomlFile;
    use crate::{Dimension, Name};

    fn faults(text: &str) -> Vec<String> {
        let file = match TomlFile::parse(text) {
            Ok(file) => file,
            Err(faults) => return faults.iter().map(ToString::to_string).collect(),
        };
        let top = file.top();
        let made = top.need("name", Name::new).zip(top.quantity("mass", Dimension::Mass));
        top.no_more();
        file.finish(made)
            .err()
            .map(|faults| faults.iter().map(ToString::to_string).collect())
            .unwrap_or_default()
    }

    #[test]
    fn every_fault_has_its_place_and_its_mend() {
        assert_eq!(faults("name = \"a\"\nmass = \"5 lb\"\n"), [""; 0]);
        assert_eq!(
            faults("mass = \"5\"\nnmae = \"a\"\n"),
            [
                "1:1: file has no name; add name = \"…\"",
                "1:8: mass: \"5\" has no unit; write the unit: kg, lb or t",
                "2:1: \"nmae\" is not known in file; did you mean \"name\"?",
            ]
        );
        assert_eq!(
            faults("name = \"\"\nmass = \"5 ft\""),
            [
                "1:8: the name is empty; write one",
                "2:8: mass = \"5 ft\" has the wrong kind of unit; use kg, lb or t",
            ]
        );
        assert!(faults("name = ").first().unwrap().starts_with("1:8: "));
    }
}
