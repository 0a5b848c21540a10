use std::collections::{BTreeMap, BTreeSet};

use slingseal_message::seal::{Seal, TagPrint};
use slingseal_words::{Digest, LoadNumber};

use super::CLOCK_SLACK;
use super::evidence::Evidence;
use super::order::{Inspection, takes_over};
use super::tag::is_of;
use super::void::taken_back;
use super::word::LoadWord;

/// The words of one load, sorted once for every seal that is asked of.
pub(super) struct Known<'e> {
    /// Every seal of the load, each once, by its digest.
    pub seals: BTreeMap<Digest, &'e LoadWord>,
    /// Its inspections, the latest first.
    inspections: Vec<Inspection>,
    /// The last void of each record.
    voids: BTreeMap<Digest, &'e LoadWord>,
    /// Tags by the print that a seal has of them.
    tags: BTreeMap<TagPrint, BTreeMap<Digest, &'e LoadWord>>,
    /// What became of it.
    movements: Vec<&'e LoadWord>,
}

impl<'e> Known<'e> {
    pub fn of(evidence: &Evidence<'e>, load: &LoadNumber) -> Self {
        let mut seals = BTreeMap::new();
        let mut tags: BTreeMap<TagPrint, BTreeMap<Digest, &LoadWord>> = BTreeMap::new();
        let mut movements = Vec::new();
        for word in evidence.of(load) {
            if word.seal().is_some() {
                seals.insert(word.digest(), word);
            } else if word.tag().is_some() {
                tags.entry(TagPrint::of(&word.digest())).or_default().insert(word.digest(), word);
            } else if word.movement().is_some() {
                movements.push(word);
            }
        }
        let counting = seals.values().filter(|word| word.counts());
        let inspections: BTreeSet<Inspection> = counting.filter_map(|word| word.inspection()).collect();
        Self {
            seals,
            inspections: inspections.into_iter().rev().collect(),
            voids: taken_back(evidence.of(load)),
            tags,
            movements,
        }
    }

    /// Reports of what became of the load, in no order.
    pub fn movements(&self) -> impl Iterator<Item = &'e LoadWord> + '_ {
        self.movements.iter().copied()
    }

    /// The latest inspection: the one that a tag alone, the board and the account ask of.
    pub fn latest(&self) -> Option<&'e LoadWord> {
        self.inspections.first().and_then(|latest| self.seals.get(&latest.digest)).copied()
    }

    /// The latest inspection that takes another over.
    pub fn superseder(&self, of: &Inspection) -> Option<&Inspection> {
        self.inspections
            .iter()
            .take_while(|other| of.issued.since(other.issued) <= CLOCK_SLACK)
            .find(|other| takes_over(other, of))
    }

    /// The void that takes a seal back.
    pub fn void(&self, seal: &Seal) -> Option<&'e LoadWord> {
        self.voids.get(&seal.record).copied()
    }

    /// The tags held that the seal is of: one, unless somebody found two of one print.
    pub fn tags<'s>(&'s self, seal: &'s Seal) -> impl Iterator<Item = &'e LoadWord> + 's {
        let held = self.tags.get(&seal.tag).into_iter().flat_map(BTreeMap::values).copied();
        held.filter(move |word| word.tag().is_some_and(|tag| is_of(word, tag, seal)))
    }
}
