use super::{ObservationKind, Procedure, Seen, Trial};
use crate::house_rules::CriterionRow;
use crate::{Neighbour, Setting, Size, Subject};
use geometry::Face;
use measurement::Valve;
use std::cmp::Ordering;

/// A release criterion of one size, as it was written before the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Criterion {
    /// The size, as `shape/size`.
    pub size: String,
    /// What is looked at.
    pub row: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// Who looks.
    pub who: String,
    /// How: views, scales and when again.
    pub view: String,
    /// Its bounds.
    pub bounds: Bounds,
    /// Where it comes from.
    pub source: String,
    /// Whether it was written only once the size was open.
    pub after_opening: bool,
    /// Every change since the first trial, the first one first.
    pub changes: Vec<CriterionChange>,
}

/// The bounds of a criterion.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    /// What still is inside; `None`: anything is.
    pub inside: Option<Seen>,
    /// From where on a grade, a rhythm or an answer is beyond, or past what a value is;
    /// `None`: nothing is.
    pub beyond: Option<Seen>,
}

/// A change of a criterion after the first trial: it stays for good.
#[derive(Clone, Debug, PartialEq)]
pub struct CriterionChange {
    /// The minute after puncture.
    pub min: f64,
    /// The bounds before it.
    pub old: Bounds,
    /// The bounds after it.
    pub new: Bounds,
    /// Why.
    pub reason: String,
}

/// How what was seen stands against a criterion written before. No state advises
/// anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CriterionState {
    /// Nobody looked, or nobody could tell: never counted as inside.
    NotLookedAt,
    /// Inside what was written before.
    Inside,
    /// Neither inside nor beyond.
    Between,
    /// Beyond the limit written before.
    Beyond,
}

impl CriterionState {
    /// The words for it on screens and in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::NotLookedAt => "not looked at",
            Self::Inside => "inside",
            Self::Between => "between",
            Self::Beyond => "beyond the limit written before",
        }
    }
}

/// Why a criterion was not changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CriterionError {
    /// There is none of that size, row and subject.
    #[error("no such criterion: write the criteria of this size first")]
    Unknown,
    /// The first trial was opened and no reason is given.
    #[error("criteria are locked from the first deployment on: say why this one changes")]
    NoReason,
}

impl Bounds {
    /// How something seen stands against them, with what was there before.
    ///
    /// A change is judged: a grade, a rhythm or an answer that is no worse than before
    /// is inside; what was not looked at before counts as new.
    pub fn state(
        &self,
        kind: ObservationKind,
        before: Option<Seen>,
        seen: Option<Seen>,
    ) -> CriterionState {
        let Some(seen) = seen.filter(|seen| seen.is_told()) else {
            return CriterionState::NotLookedAt;
        };
        let worse = |seen: Seen, than: Seen| {
            let order = seen.against(than);
            if kind.is_worse_below() {
                order.map(Ordering::reverse)
            } else {
                order
            }
        };
        let is_within = |bound: Seen| worse(seen, bound).is_some_and(Ordering::is_le);
        // A value is itself said against the one before.
        let before = before.filter(|before| !matches!(before, Seen::Value(_)));
        if self.inside.is_none_or(is_within) || before.is_some_and(is_within) {
            return CriterionState::Inside;
        }
        let is_beyond = self.beyond.is_some_and(|beyond| match seen {
            Seen::Value(_) => worse(seen, beyond).is_some_and(Ordering::is_gt),
            _ => worse(seen, beyond).is_some_and(Ordering::is_ge),
        });
        if is_beyond {
            CriterionState::Beyond
        } else {
            CriterionState::Between
        }
    }

    /// They in words: "inside: 1.0 mm or less; beyond: over 2.0 mm".
    pub fn says(&self, kind: ObservationKind) -> String {
        let (less, over) = if kind.is_worse_below() {
            ("or more", "under")
        } else {
            ("or less", "over")
        };
        let inside = match self.inside {
            None => "anything is inside".to_owned(),
            Some(seen @ Seen::Value(_)) => format!("inside at {} {less}", seen.says(kind)),
            Some(seen @ Seen::Answer(_)) => format!("inside if {}", seen.says(kind)),
            Some(seen) => format!("inside up to {}, or as before", seen.says(kind)),
        };
        match self.beyond {
            None => inside,
            Some(seen @ Seen::Value(_)) => format!("{inside}; beyond {over} {}", seen.says(kind)),
            Some(seen @ Seen::Answer(_)) => format!("{inside}; beyond if {}", seen.says(kind)),
            Some(seen) => format!(
                "{inside}; beyond from {} on, if more than before",
                seen.says(kind)
            ),
        }
    }
}

impl Criterion {
    /// How a trial of its size stands against it.
    pub fn state(&self, procedure: &Procedure, trial: &Trial) -> CriterionState {
        let seen = trial.last_seen(self.row, self.of).map(|one| one.seen);
        let before = procedure.before(self.row, self.of);
        self.bounds.state(self.row, before, seen)
    }
}

/// The criteria that apply to a size, from the rules of a house.
pub fn criteria_of(setting: &Setting, name: &str, size: &Size) -> Vec<Criterion> {
    let rows = setting.rules().release_criteria.iter();
    rows.flat_map(|row| subjects(setting, row, size).map(move |of| (row, of)))
        .map(|(row, of)| Criterion {
            size: name.to_owned(),
            row: row.row,
            of,
            who: row.who.clone(),
            view: row.view.clone(),
            bounds: row.bounds,
            source: row.source.clone(),
            after_opening: setting
                .case()
                .procedure
                .trials
                .iter()
                .any(|trial| trial.size == name),
            changes: Vec::new(),
        })
        .collect()
}

/// The subjects of a row that are there in this case.
fn subjects(setting: &Setting, row: &CriterionRow, size: &Size) -> impl Iterator<Item = Subject> {
    let case = setting.case();
    let at = setting.circumstances();
    let is_of_site = row.is_of(case.site);
    let is_there = |of: Subject| match of {
        Subject::Valve(valve) => !case.is_absent(Neighbour::Valve(valve)),
        Subject::Face(Face::Left) => !case.is_absent(Neighbour::LeftOutflow),
        Subject::Face(Face::Right) => !case.is_absent(Neighbour::RightOutflow),
        _ => true,
    };
    let subjects: Vec<Subject> = candidates(row.row)
        .into_iter()
        .filter(|of| row.of.is_empty() || row.of.contains(of))
        .filter(|&of| is_of_site && is_there(of))
        .filter(|&of| {
            row.when
                .iter()
                .all(|when| when.holds(&at, &size.occluder, of))
        })
        .collect();
    subjects.into_iter()
}

/// What a kind of row can be asked of.
fn candidates(row: ObservationKind) -> Vec<Subject> {
    let valves = Valve::ALL.map(Subject::Valve);
    let sides = Face::BOTH.map(Subject::Face);
    let all = [Subject::Shape].into_iter().chain(valves).chain(sides);
    all.filter(|&of| row.can_be_of(of)).collect()
}

impl Criterion {
    /// What is looked at, with its subject: "regurgitation, aortic valve".
    pub fn name(&self) -> String {
        if self.of == Subject::Shape {
            self.row.label().to_owned()
        } else {
            format!("{}, {}", self.row.label(), self.of.label())
        }
    }
}

impl Procedure {
    /// The criteria of a size.
    pub fn criteria_of(&self, size: &str) -> impl Iterator<Item = &Criterion> {
        self.criteria.iter().filter(move |one| one.size == size)
    }

    /// Writes criteria that are not there yet: of the size, row and subject of one that
    /// is there, that one stays.
    pub fn write_criteria(&mut self, criteria: Vec<Criterion>, planned_on: &str) {
        let before = self.criteria.len();
        for new in criteria {
            let is_there =
                |one: &Criterion| one.size == new.size && one.row == new.row && one.of == new.of;
            if !self.criteria.iter().any(is_there) {
                self.criteria.push(new);
            }
        }
        // Once locked, what they were planned on stays what it was.
        if self.criteria.len() > before && !(self.is_locked() && self.planned_on.is_some()) {
            self.planned_on = Some(planned_on.to_owned());
        }
    }

    /// Changes the bounds of a criterion: before the first trial freely, from then on
    /// with a reason, which stays with the minute, the old bounds and the new.
    pub fn change_criterion(
        &mut self,
        (size, row, of): (&str, ObservationKind, Subject),
        bounds: Bounds,
        min: f64,
        reason: &str,
    ) -> Result<(), CriterionError> {
        let is_locked = self.is_locked();
        let mut all = self.criteria.iter_mut();
        let criterion = all
            .find(|one| one.size == size && one.row == row && one.of == of)
            .ok_or(CriterionError::Unknown)?;
        if is_locked {
            if reason.trim().is_empty() {
                return Err(CriterionError::NoReason);
            }
            criterion.changes.push(CriterionChange {
                min,
                old: criterion.bounds,
                new: bounds,
                reason: reason.to_owned(),
            });
        }
        criterion.bounds = bounds;
        Ok(())
    }
}

#[cfg(test)]
mod tests;
