//! The lives of all pieces, gathered from loads, tags and inspections, and what is shown of them: a page, a list, a file.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;

use super::pieces::{Life, PieceFilter, PieceGroup, PieceLifeView, PiecesView};
use crate::account::open_inspection;
use crate::leader::export::io;
use crate::leader::sorting::{Sorting, arrange};
use crate::{App, AppError, Inner, Stamp};
use slingseal_account::report::{Cell, PieceLife, PieceLives, line};
use slingseal_judgement::{InspectionWord, PieceState, state_of_piece};
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::Trusted;
use slingseal_words::{Digest, Serial, Time};

impl App {
    /// Every piece of equipment that any load or inspection here names, or of one group: what is overdue or out first.
    ///
    /// # Errors
    /// Storage; what `take` answers.
    pub fn each_piece_life(
        &self,
        group: Option<PieceGroup>,
        mut take: impl FnMut(PieceLifeView) -> Result<(), AppError>,
    ) -> Result<(), AppError> {
        let (lives, language) = {
            let inner = self.lock();
            (inner.piece_lives()?, inner.language())
        };
        let mut meant = lives.iter().filter(|life| group.is_none_or(|group| life.is(group)));
        meant.try_for_each(|life| take(life.view(language)))
    }

    /// The same, all of them at once.
    ///
    /// # Errors
    /// Storage.
    pub fn piece_lives(&self) -> Result<Vec<PieceLifeView>, AppError> {
        let mut lives = Vec::new();
        self.each_piece_life(None, |life| {
            lives.push(life);
            Ok(())
        })?;
        Ok(lives)
    }

    /// A page of them.
    ///
    /// # Errors
    /// Storage.
    pub fn pieces(&self, filter: &PieceFilter) -> Result<PiecesView, AppError> {
        let inner = self.lock();
        let (mut lives, language) = (inner.piece_lives()?, inner.language());
        let mut counts: BTreeMap<PieceGroup, u64> = BTreeMap::new();
        for group in PieceGroup::ALL {
            let count = lives.iter().filter(|life| life.is(group)).count();
            counts.insert(group, u64::try_from(count).unwrap_or(u64::MAX));
        }
        let wanted = filter.words.as_deref().unwrap_or_default().trim().to_lowercase();
        lives.retain(|life| filter.group.is_none_or(|group| life.is(group)) && life.says(&wanted));
        if let Some(Sorting { by, down }) = filter.order {
            arrange(&mut lives, down, |life| life.column(by, language));
        }
        let most = usize::try_from(filter.most.max(1)).unwrap_or(usize::MAX);
        let skip = usize::try_from(filter.page).unwrap_or(usize::MAX).saturating_mul(most);
        Ok(PiecesView {
            count: u64::try_from(lives.len()).unwrap_or(u64::MAX),
            pages: u32::try_from(lives.len().div_ceil(most)).unwrap_or(u32::MAX),
            lines: lives.iter().skip(skip).take(most).map(|life| life.view(language)).collect(),
            counts,
        })
    }

    /// Writes every piece as CSV, RFC 4180.
    ///
    /// # Errors
    /// What the writer meets; storage.
    pub fn piece_lives_csv(&self, out: &mut dyn Write) -> Result<(), AppError> {
        let heads = [
            "serial",
            "kind",
            "state",
            "load",
            "since",
            "lifts",
            "carried_kg",
            "inspections",
            "back",
            "damaged",
            "place",
            "unsigned",
            "due",
            "overdue",
            "withdrawn_by",
            "withdrawn_why",
        ];
        out.write_all(line(&heads.map(Cell::plain)).as_bytes()).map_err(io)?;
        self.each_piece_life(None, |life| {
            let time = |stamp: &Option<Stamp>| {
                stamp.as_ref().map_or(Cell::Empty, |stamp| Cell::plain(&stamp.rfc3339))
            };
            let some = |text: &Option<String>| text.as_deref().map_or(Cell::Empty, Cell::text);
            let cells = [
                Cell::text(&life.serial),
                Cell::text(&life.kind),
                Cell::plain(life.state.word()),
                some(&life.load),
                time(&life.since),
                Cell::plain(life.lifts),
                Cell::plain(life.carried_kg),
                Cell::plain(life.inspections),
                time(&life.back),
                time(&life.damaged),
                Cell::text(&life.place),
                Cell::plain(life.unsigned),
                time(&life.due),
                Cell::plain(life.overdue),
                some(&life.withdrawn_by),
                some(&life.withdrawn_why),
            ];
            out.write_all(line(&cells).as_bytes()).map_err(io)
        })
    }
}

impl Inner {
    /// Every piece, what is overdue or out first: of loads and tags no more than a stretch lies in memory, of each piece one line.
    pub(super) fn piece_lives(&self) -> Result<Vec<Life>, AppError> {
        let mut gathered = PieceLives::default();
        self.each_load(|load| {
            gathered.load(&load.rows);
            Ok(())
        })?;
        let mut lives: Vec<Life> = gathered.finish().into_iter().map(Life::of).collect();
        let told = self.due_by_tags()?;
        let judged = self.judged_pieces()?;
        let named: BTreeSet<String> =
            lives.iter().map(|life| life.life.serial.to_ascii_uppercase()).collect();
        // A piece that an inspection names and no load does.
        lives.extend(
            judged
                .iter()
                .filter(|(name, _)| !named.contains(*name))
                .map(|(_, (own, _))| Life::of(PieceLife::new(own.to_string(), String::new()))),
        );
        drop(named);
        let now = self.now();
        for life in &mut lives {
            let name = life.life.serial.to_ascii_uppercase();
            let by_tag = told.get(&name).map(|(_, _, due)| *due);
            let mut due = by_tag;
            match judged.get(&name).and_then(|(_, state)| state.as_ref()) {
                Some(PieceState::Withdrawn { why, by, .. }) => {
                    life.withdrawn = Some((by.to_string(), why.clone()));
                }
                // The hook holds a load against both: the earlier one runs out first.
                Some(PieceState::Fit { until: Some(until), .. }) => {
                    due = Some(by_tag.map_or(*until, |by_tag| by_tag.min(*until)));
                }
                Some(PieceState::Fit { until: None, .. }) | None => {}
            }
            (life.due, life.overdue) = (due, due.is_some_and(|due| due < now));
        }
        lives.sort_by(|one, other| {
            (one.order(), &one.life.serial, &one.life.kind).cmp(&(
                other.order(),
                &other.life.serial,
                &other.life.kind,
            ))
        });
        Ok(lives)
    }

    /// The last second in which each piece is good, as the newest tag that names it tells it.
    fn due_by_tags(&self) -> Result<BTreeMap<String, (Time, Digest, Time)>, AppError> {
        let mut told: BTreeMap<String, (Time, Digest, Time)> = BTreeMap::new();
        self.store.read().each_tag(|row| -> Result<(), AppError> {
            let Ok(received) = ReceivedTag::open(&row.bytes) else { return Ok(()) };
            for piece in &received.tag.equipment {
                let Some(good) = piece.good_until() else { continue };
                let new = (received.tag.planned, received.digest, good);
                let known = told.entry(piece.serial.as_str().to_ascii_uppercase()).or_insert(new);
                *known = new.max(*known);
            }
            Ok(())
        })?;
        Ok(told)
    }

    /// How each piece stands by its signed inspections, by its serial number in capitals; with that number as the first one spells it.
    fn judged_pieces(&self) -> Result<BTreeMap<String, (Serial, Option<PieceState>)>, AppError> {
        let mut trusted = self.trusted()?;
        let mut judged = BTreeMap::new();
        let mut of_one: (String, Vec<InspectionWord>) = Default::default();
        let mut judge = |(name, said): (String, Vec<InspectionWord>), trusted: &Trusted| {
            let (Some(first), Ok(serial)) = (said.first(), Serial::new(&name)) else { return };
            let own = first.inspection().name.clone();
            judged.insert(name, (own, state_of_piece(&serial, &said, trusted)));
        };
        self.store.read().each_inspection_of_pieces(|row| -> Result<(), AppError> {
            if row.name != of_one.0 {
                judge(std::mem::replace(&mut of_one, (row.name, Vec::new())), &trusted);
            }
            of_one.1.extend(open_inspection(&row.bytes, &mut trusted).ok());
            Ok(())
        })?;
        judge(of_one, &trusted);
        Ok(judged)
    }
}
