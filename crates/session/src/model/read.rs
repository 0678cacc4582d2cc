use super::{Model, Status};
use crate::doubt::{Doubt, doubts};
use crate::house_rule::house_rules;
use crate::{
    Document, Focus, History, HouseRule, KeyMap, Page, PageRequest, Refused, Results, Row, View,
};
use measurement::{Quantity, Reading, ReadingId};
use sizing::house_rules::Evidence;
use sizing::resolve::Basis;
use sizing::{Answer, Candidate, ExclusionState, Setting};
use std::path::PathBuf;
use std::sync::Arc;

/// What there is to draw.
impl Model {
    /// The open document.
    pub const fn document(&self) -> &Document {
        &self.document
    }

    /// The case under its rules, always that of the open document.
    pub const fn setting(&self) -> &Arc<Setting> {
        &self.setting
    }

    /// The case as it is believed now: with what was seen in trials taken in, once the
    /// list of the open document has it.
    pub fn believed(&self) -> &Arc<Setting> {
        let assessed = self.results.assessed();
        let is_now = |generation| generation == self.results.generation();
        assessed
            .filter(|it| it.weighing.is_some() && is_now(it.generation))
            .map_or(&self.setting, |it| &it.ranking.setting)
    }

    /// What can be undone and redone.
    pub const fn history(&self) -> &History {
        &self.history
    }

    /// Where the operator is.
    pub const fn view(&self) -> &View {
        &self.view
    }

    /// Which key does what.
    pub const fn keymap(&self) -> &KeyMap {
        &self.keymap
    }

    /// What came back from the worker.
    pub const fn results(&self) -> &Results {
        &self.results
    }

    /// What is said in the status line.
    pub const fn status(&self) -> Option<&Status> {
        self.status.as_ref()
    }

    /// The place of the open case among those that were opened together, from 0, and
    /// how many these are; `None` where it is none of them.
    pub fn place_in_conference(&self) -> Option<(usize, usize)> {
        let home = self.document.home.file()?;
        let place = self.conference.iter().position(|path| path == home)?;
        Some((place, self.conference.len()))
    }

    /// The case beside the open one among those that were opened together.
    pub(crate) fn case_beside(&self, forward: bool) -> Result<PathBuf, Refused> {
        let (place, count) = match self.place_in_conference() {
            Some((place, count)) if count > 1 => (place, count),
            _ => return Err(Refused::OneCase),
        };
        let beside = if forward {
            place.checked_add(1).filter(|beside| *beside < count)
        } else {
            place.checked_sub(1)
        };
        let end = if forward { "last" } else { "first" };
        beside
            .and_then(|beside| self.conference.get(beside).cloned())
            .ok_or(Refused::EndOfCases { end, count })
    }

    /// The first key of a command, by its name in key maps; empty where it has none.
    pub fn key_of(&self, id: &str) -> String {
        let key = self.keymap.keys(id).first();
        key.map_or_else(String::new, ToString::to_string)
    }

    /// A text with the key of each command that stands in brackets, `[undo] takes back`, as
    /// far as it has one.
    pub fn with_keys(&self, text: &str) -> String {
        let mut says = String::new();
        let mut rest = text;
        while let Some((before, after)) = rest.split_once('[') {
            says.push_str(before);
            let named = after.split_once(']');
            let named = named.map(|(id, after)| (self.key_of(id), after));
            rest = if let Some((key, after)) = named.filter(|(key, _)| !key.is_empty()) {
                says.push_str(&key);
                after
            } else {
                says.push('[');
                after
            };
        }
        says.push_str(rest);
        says
    }

    /// Whether the ranked list is shown as of before the last change.
    pub fn shows_stale(&self) -> bool {
        let assessed = self.results.assessed();
        assessed.is_some_and(|assessed| self.shows_as_before(assessed.generation))
    }

    /// Whether what is of a generation is shown as of before the last change: once
    /// it is said that something new is worked out, so that nothing flickers, or
    /// where that failed.
    pub fn shows_as_before(&self, generation: u64) -> bool {
        let is_said = self.says_it_works() || !self.is_working();
        is_said && self.results.is_of_before(generation)
    }

    /// Whether the work-up in the setting is of before the last change: what hangs on
    /// it is shown so at once, for nothing may look better than it is.
    pub const fn work_up_is_of_before(&self) -> bool {
        self.work_up_is_of_before
    }

    /// Every line of the readings.
    pub fn rows(&self) -> &[Row] {
        &self.rows
    }

    /// How many lines a panel lists, or how many bays there are; the map has none.
    pub fn lines(&self, panel: Focus) -> usize {
        match panel {
            Focus::Readings => self.rows.len(),
            Focus::Bays => self.document.bays.len(),
            Focus::Ranking => self.listed().len(),
            Focus::Doubt => self.doubts().len(),
            Focus::FitMap => 0,
            Focus::WorkUp => self.work_up().len(),
            Focus::Rules => self.house_rules().len(),
            Focus::Shelf => self.shelf_rows().len(),
            Focus::Before | Focus::Trials | Focus::FollowUp => self.trial_rows(panel).len(),
        }
    }

    /// The selected line of the readings.
    pub fn row(&self) -> Option<&Row> {
        self.rows.get(self.view.selected[Focus::Readings])
    }

    /// The lines of the readings that are listed: of the quantities those of which
    /// something counts or is missing, and beneath the selected one its readings.
    pub fn listed_rows(&self) -> Vec<usize> {
        let all = self.rows.iter().enumerate();
        let is_listed = |(index, row): &(usize, &Row)| {
            *index == self.view.selected[Focus::Readings] || self.is_listed(row)
        };
        all.filter(is_listed).map(|(index, _)| index).collect()
    }

    /// How many quantities are not listed: not measured, and nothing hangs on them.
    pub fn unlisted(&self) -> usize {
        let is_unlisted = |row: &&Row| matches!(row, Row::Quantity(_)) && !self.is_listed(row);
        self.rows.iter().filter(is_unlisted).count()
    }

    fn is_listed(&self, row: &Row) -> bool {
        match row {
            Row::Reading(_, quantity) => self.row().and_then(Row::quantity) == Some(*quantity),
            Row::Quantity(quantity) => {
                self.document.readings_of(*quantity).next().is_some()
                    || matches!(self.setting.basis(*quantity), Basis::Assumed { .. })
                    || self.is_open(row)
            }
            _ => true,
        }
    }

    /// The reading that a key on a line changes: its own; of a quantity the first that
    /// counts, or else the first there is.
    pub fn reading_of(&self, row: &Row) -> Option<&Reading> {
        match row {
            Row::Reading(id, _) => self.document.reading(id),
            Row::Quantity(quantity) => {
                let resolved = &self.setting.resolved()[quantity.index()];
                let counts = resolved.selection().and_then(|it| it.used.first());
                let counts = counts.and_then(|id| self.document.reading(id));
                counts.or_else(|| self.document.readings_of(*quantity).next())
            }
            _ => None,
        }
    }

    /// The line of a quantity, or of one of its readings where that has its own.
    pub(crate) fn row_of(&self, quantity: Quantity, reading: Option<&ReadingId>) -> Option<usize> {
        let of_reading = |row: &Row| matches!((row, reading), (Row::Reading(id, _), Some(wanted)) if id == wanted);
        let mut rows = self.rows.iter();
        rows.clone()
            .position(of_reading)
            .or_else(|| rows.position(|row| row.quantity() == Some(quantity)))
    }

    /// What is doubtful, line by line.
    pub fn doubts(&self) -> Vec<Doubt> {
        let doubted = self.results.doubted();
        doubts(&self.setting, doubted.map(|it| &**it))
    }

    /// The selected line of the doubts.
    pub fn doubt(&self) -> Option<Doubt> {
        let doubts = self.doubts();
        let last = doubts.len().checked_sub(1)?;
        doubts
            .into_iter()
            .nth(self.view.selected[Focus::Doubt].min(last))
    }

    /// The column and row of the fit map that is read: the selected one, or the
    /// first with the highest chance.
    pub fn cell(&self) -> Result<(usize, usize), Refused> {
        let mapped = self.results.mapped().ok_or(Refused::NoMapYet)?;
        let map = &mapped.map;
        let (columns, rows) = (map.waists.count, map.overhangs.count);
        let best = || {
            let cells = (0..columns).flat_map(|column| (0..rows).map(move |row| (column, row)));
            let chance = |&(column, row): &(usize, usize)| map.chance(column, row).unwrap_or(0.0);
            cells.reduce(|best, cell| {
                if chance(&cell) > chance(&best) {
                    cell
                } else {
                    best
                }
            })
        };
        let asked = self.view.map_at.map(|(waist, overhang)| {
            let (of_waist, of_overhang) = (&map.waists, &map.overhangs);
            (of_waist.nearest(waist), of_overhang.nearest(overhang))
        });
        let cell = self.view.cell.or(asked).or_else(best).unwrap_or_default();
        Ok((cell.0.min(columns - 1), cell.1.min(rows - 1)))
    }

    /// The rules of the house that can count for the case's site, each with the
    /// exception of the case from it.
    pub fn house_rules(&self) -> Vec<HouseRule> {
        house_rules(self.document.rules(), self.document.case())
    }

    /// The selected rule.
    pub(crate) fn house_rule(&self) -> Option<HouseRule> {
        self.house_rules()
            .into_iter()
            .nth(self.view.selected[Focus::Rules])
    }

    /// Every line of the work-up with its section.
    pub fn work_up(&self) -> Vec<(&workup::Section, &workup::Line)> {
        let page = self.results.worked_up().map(|it| &it.page);
        let sections = page.into_iter().flat_map(|page| &page.sections);
        sections
            .flat_map(|section| section.lines.iter().map(move |line| (section, line)))
            .collect()
    }

    /// What the page that is shown asks for beside the ranked list.
    pub(crate) fn wanted(&self) -> Option<PageRequest> {
        match self.view.focus.page() {
            Page::Doubt => self.candidate().map(|one| PageRequest::Doubt(one.place)),
            // A case that is not rated has no map.
            Page::FitMap => self
                .setting
                .not_rated()
                .is_none()
                .then_some(PageRequest::FitMap),
            // What bears on closing at all stands over the plan as well.
            Page::Plan | Page::WorkUp => self.limits.as_ref().map(|_| PageRequest::WorkUp),
            Page::Trials => Some(PageRequest::Trials),
            Page::Rules | Page::Shelf => None,
        }
    }

    /// The one sentence above the list, when there is a result.
    pub fn headline(&self) -> Option<String> {
        self.results
            .assessed()
            .map(|assessed| assessed.ranking.headline())
    }

    /// The candidates that the ranked list shows, the best first.
    pub fn listed(&self) -> Vec<&Candidate> {
        let filter = &self.document.shown().filter;
        let ranked = self
            .results
            .assessed()
            .map(|assessed| &assessed.ranking.candidates);
        ranked
            .into_iter()
            .flatten()
            .filter(|candidate| filter.shows(candidate))
            .collect()
    }

    /// Where the selected candidate stands among those listed.
    pub fn listed_place(&self) -> Option<usize> {
        let listed = self.listed();
        let selected = listed
            .iter()
            .position(|one| Some(one.place) == self.view.ranked);
        selected.or_else(|| (!listed.is_empty()).then_some(0))
    }

    /// The selected candidate of the ranked list.
    pub fn candidate(&self) -> Option<&Candidate> {
        self.listed_place()
            .and_then(|place| self.listed().get(place).copied())
    }

    /// The candidate in a bay, as it was last assessed.
    pub(crate) fn bay_candidate(&self, bay: usize) -> Option<&Candidate> {
        self.results
            .assessed()?
            .candidate(self.document.bays().get(bay)?)
    }

    /// The turn of the candidate in a bay, in whole degrees from 0 to 359, when
    /// it is known.
    pub(crate) fn turn_degrees(&self, bay: usize) -> Option<u16> {
        let best = || {
            let turn = self.bay_candidate(bay)?.turn.to_degrees().round();
            measurement::whole(0..FULL_ROUND, turn)
        };
        self.document.bays().get(bay)?.turn.or_else(best)
    }

    /// Whether a line asks for something: a reading that a check misses, a
    /// question nobody answered. A finding does not: no size hangs on it, and the
    /// work-up itself says which it misses.
    pub fn is_open(&self, row: &Row) -> bool {
        let case = self.document.case();
        match row {
            Row::Quantity(quantity) => {
                matches!(self.setting.basis(*quantity), Basis::Missing(_))
                    && self.is_missed(*quantity)
            }
            Row::Fact(fact) => fact.is_needed(case) && case.facts.get(*fact).is_unknown(),
            Row::Exclusion(id) => {
                let answered = self.exclusion(id);
                answered.is_some_and(|one| one.answer == Answer::Unknown)
            }
            Row::Reading(..) | Row::Absent(_) | Row::Finding(_) => false,
        }
    }

    /// The answer to an exclusion of the house rules, and what it rests on.
    pub fn exclusion(&self, id: &str) -> Option<ExclusionState> {
        let mut all = self.setting.rules().exclusions.iter();
        let exclusion = all.find(|one| one.id == id)?;
        Some(sizing::answered(&self.setting, exclusion))
    }

    /// Whether the answer to an exclusion hangs on a work-up of before the last change.
    pub fn exclusion_is_of_before(&self, id: &str) -> bool {
        let rules = self.setting.rules();
        let mut all = rules.exclusions.iter().filter(|one| one.id == id);
        self.work_up_is_of_before
            && all.any(|one| {
                let mut settles = one.yes_if.iter().chain(&one.no_if).flatten();
                settles.any(|it| matches!(it, Evidence::Figure(..)))
            })
    }

    /// Whether a check of some candidate misses a quantity; before the first
    /// result, whether it might.
    fn is_missed(&self, quantity: Quantity) -> bool {
        let assessed = self.results.assessed();
        assessed.is_none_or(|assessed| assessed.ranking.missed.contains(&quantity))
    }
}

/// Degrees of a full round.
const FULL_ROUND: u16 = 360;
