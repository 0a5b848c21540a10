use slingseal_catalogue::board as words;
use std::collections::BTreeMap;

use serde::Serialize;

use crate::leader::weeks::Period;
use crate::{App, AppError, Inner, ShareView, Stamp};
use slingseal_account::report::Share;
use slingseal_store::{GroupBy, GroupCount, PointCount};
use slingseal_walk::procedure::Expanded;
use slingseal_words::{PointId, ProcedureId, Seconds};

/// A point, and in how many inspections of its procedure it was deficient.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PointShare {
    /// The procedure's id.
    pub procedure: String,
    /// The procedure's title.
    pub procedure_title: String,
    /// The point's id.
    pub point: String,
    /// What is looked at there.
    pub prompt: String,
    /// The card on which it stands; empty where the procedure is not here.
    pub card: String,
    /// What was wrong, and how often, the commonest first.
    pub names: Vec<String>,
    /// Inspections in which it was found, among those of the procedure whose full record is here.
    pub share: ShareView,
    /// How many were put right.
    pub corrected: u64,
}

/// Inspections of a procedure or a rigger, and in how many something was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GroupShare {
    /// Which or whose.
    pub key: String,
    /// What a person reads.
    pub title: String,
    /// Inspections in which something was found, among all.
    pub share: ShareView,
    /// How many deficiencies.
    pub found: u64,
    /// How many were put right.
    pub corrected: u64,
}

/// What is found again and again. Every inspection counts, also one that was superseded or voided: somebody looked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DeficienciesView {
    /// From when; none for all.
    pub since: Option<Stamp>,
    /// Inspections counted.
    pub inspections: u64,
    /// By point, the commonest first.
    pub points: Vec<PointShare>,
    /// By procedure.
    pub procedures: Vec<GroupShare>,
    /// By rigger, the one with most first.
    pub riggers: Vec<GroupShare>,
}

impl App {
    /// Deficiencies by point, procedure and rigger; of the last days, or of all.
    ///
    /// # Errors
    /// Storage.
    pub fn deficiencies(&self, days: Option<u32>) -> Result<DeficienciesView, AppError> {
        let inner = self.lock();
        let since = days.map(|days| inner.now().plus(Seconds(-Seconds::days(days.into()).0)));
        inner.deficiencies(Period { from: since, before: None })
    }

    /// The same from a day to a day, UTC, both within: `2026-11-25`; open where none is named.
    ///
    /// # Errors
    /// What is no day; a last day before the first; storage.
    pub fn deficiencies_between(
        &self,
        from: Option<&str>,
        until: Option<&str>,
    ) -> Result<DeficienciesView, AppError> {
        self.lock().deficiencies(Period::of(from, until)?)
    }
}

impl Inner {
    fn deficiencies(&self, period: Period) -> Result<DeficienciesView, AppError> {
        let Period { from: since, before } = period;
        let read = self.store.read();
        let groups = read.groups(since, before)?;
        let whole = groups.by(GroupBy::Procedure, true);
        let of: BTreeMap<&str, u64> = whole.iter().map(|group| (group.key.as_str(), group.records)).collect();
        let mut plans = BTreeMap::new();
        let mut points = Vec::new();
        for count in read.point_counts(since, before)? {
            let plan = self.plan_of(&count.procedure, &mut plans);
            let all = of.get(count.procedure.as_str()).copied().unwrap_or(0);
            points.push(point_share(count, plan, all));
        }
        let procedures = groups.by(GroupBy::Procedure, false);
        let inspections = procedures.iter().map(|group| group.records).sum();
        let procedures = procedures.into_iter().map(|group| {
            let title = self.plan_of(&group.key, &mut plans).map(|plan| plan.title.clone());
            group_share(group, title)
        });
        let procedures: Vec<GroupShare> = procedures.collect();
        let riggers = groups.by(GroupBy::Rigger, false).into_iter().map(|group| {
            let title =
                if group.key.is_empty() { words::NotNamed.say(self.language()) } else { group.key.clone() };
            group_share(group, Some(title))
        });
        let mut riggers: Vec<GroupShare> = riggers.collect();
        riggers.sort_by_key(|group| std::cmp::Reverse(group.share.found));
        Ok(DeficienciesView { since: since.map(Stamp::from), inspections, points, procedures, riggers })
    }

    /// The procedure as this home has it now: a title for an id, not evidence.
    fn plan_of<'p>(
        &self,
        id: &str,
        plans: &'p mut BTreeMap<String, Option<Expanded>>,
    ) -> Option<&'p Expanded> {
        plans
            .entry(id.to_owned())
            .or_insert_with(|| {
                let procedure = self.procedure(&ProcedureId::new(id).ok()?).ok()?;
                Some(procedure.expand(self.language()))
            })
            .as_ref()
    }
}

fn point_share(count: PointCount, plan: Option<&Expanded>, of: u64) -> PointShare {
    let known = PointId::new(&count.point).ok().and_then(|id| plan?.point(&id));
    let shown = |name: &str| {
        let deficiency =
            known.and_then(|(_, point)| point.deficiencies.iter().find(|known| known.name == name));
        deficiency.map_or_else(|| name.to_owned(), |deficiency| deficiency.shown.clone())
    };
    PointShare {
        procedure_title: plan.map_or_else(|| count.procedure.clone(), |plan| plan.title.clone()),
        prompt: known.map_or_else(|| count.point.clone(), |(_, point)| point.prompt.clone()),
        card: known.map(|(card, _)| card.title.clone()).unwrap_or_default(),
        names: count.names.iter().map(|(name, found)| format!("{} × {found}", shown(name))).collect(),
        share: Share::new(count.records, of.max(count.records)).into(),
        corrected: count.corrected,
        procedure: count.procedure,
        point: count.point,
    }
}

fn group_share(group: GroupCount, title: Option<String>) -> GroupShare {
    GroupShare {
        title: title.unwrap_or_else(|| group.key.clone()),
        share: Share::new(group.with_findings, group.records).into(),
        found: group.found,
        corrected: group.corrected,
        key: group.key,
    }
}
