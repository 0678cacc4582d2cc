use super::form::{Form, FormEntry, FormError, FormSubject};
use super::task::Task;
use crate::editor::Editor;
use crate::trial_row::TrialRow;
use crate::{Edit, Model, Refused, amount};
use measurement::{Answer, Regurgitation};
use sizing::trial::{Bounds, Criterion, ObservationKind, Rhythm, Seen, Takes};
use std::cmp::Ordering;
use std::sync::Arc;

/// A line of the form of a criterion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CriterionPart {
    /// What still is inside.
    Inside,
    /// From where on it is beyond.
    Beyond,
    /// Why it changes.
    Because,
}

impl CriterionPart {
    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Beyond => "beyond",
            Self::Because => "because",
        }
    }
}

/// The bounds of one release criterion, line by line.
pub type CriterionForm = Form<Criterion, CriterionPart>;

impl CriterionForm {
    pub(crate) fn new(criterion: Criterion, is_locked: bool) -> Self {
        let written = |bound: Option<Seen>| FormEntry::typed(bound.map_or_else(String::new, text));
        let mut lines = vec![
            (CriterionPart::Inside, written(criterion.bounds.inside)),
            (CriterionPart::Beyond, written(criterion.bounds.beyond)),
        ];
        if is_locked {
            let because = FormEntry::Typed(Editor::default());
            lines.push((CriterionPart::Because, because));
        }
        Self::with(criterion, lines)
    }

    /// What is changed, short enough for a line.
    pub fn title(&self) -> String {
        format!("criterion of {}: {}", self.of.size, self.of.name())
    }

    /// What can be typed for a bound.
    pub fn accepted(&self) -> String {
        let kind = self.of.row;
        match kind.takes() {
            Takes::Value => {
                let unit = kind.unit().map_or("", measurement::Unit::symbol);
                format!(
                    "a number from 0 to {} {unit}, or nothing for no bound",
                    kind.most()
                )
            }
            takes => format!("{}, or nothing for no bound", words(takes).join(", ")),
        }
    }

    fn bound(&self, part: CriterionPart) -> Result<Option<Seen>, FormError<CriterionPart>> {
        let text = self.text(part);
        if text.is_empty() {
            return Ok(None);
        }
        let seen = typed_bound(self.of.row, &text);
        let wrong = || wrong(part, &format!("expected {}", self.accepted()));
        seen.map(Some).ok_or_else(wrong)
    }
}

fn wrong(part: CriterionPart, says: &str) -> FormError<CriterionPart> {
    FormError::on(part, part.label(), says)
}

impl FormSubject<CriterionPart> for Criterion {
    fn read(form: &CriterionForm, model: &Model) -> Result<Task, FormError<CriterionPart>> {
        let inside = form.bound(CriterionPart::Inside)?;
        let beyond = form.bound(CriterionPart::Beyond)?;
        let (row, of) = (form.of.row, form.of.of);
        let order = inside
            .zip(beyond)
            .and_then(|(inside, beyond)| beyond.against(inside));
        let crossed = if row.is_worse_below() {
            Ordering::Greater
        } else {
            Ordering::Less
        };
        if order == Some(crossed) {
            let says = "no better than what is inside";
            return Err(wrong(CriterionPart::Beyond, says));
        }
        let bounds = Bounds { inside, beyond };
        if bounds == form.of.bounds {
            return Err(Refused::SameBounds.into());
        }
        let mut procedure = model.document().case().procedure.clone();
        let is_locked = procedure.is_locked();
        let now = model.minute().filter(|_| is_locked);
        if is_locked && now.is_none() {
            return Err(Refused::NoMinuteOfChange.into());
        }
        let because = form.text(CriterionPart::Because);
        let size = form.of.size.clone();
        procedure
            .change_criterion((&size, row, of), bounds, now.unwrap_or(0.0), &because)
            .map_err(|error| wrong(CriterionPart::Because, &error.to_string()))?;
        let is_open = procedure.open().is_some();
        Ok(Task::Edit(Edit::Procedure {
            procedure: Arc::new(procedure),
            called: format!("{}: {}", form.of.name(), bounds.says(row)),
            row: if is_open {
                TrialRow::Observation(row, of)
            } else {
                TrialRow::Written(size, row, of)
            },
        }))
    }

    fn takes_words(&self, part: CriterionPart) -> bool {
        part == CriterionPart::Because
    }
}

/// A bound as it is typed and written.
fn text(seen: Seen) -> String {
    match seen {
        Seen::Value(value) => value.to_string(),
        Seen::Grade(grade) => grade.name().to_owned(),
        Seen::Rhythm(rhythm) => rhythm.label().to_owned(),
        Seen::Answer(answer) => answer.to_string(),
    }
}

/// The words of what is not a number.
fn words(takes: Takes) -> Vec<&'static str> {
    match takes {
        Takes::Value => Vec::new(),
        Takes::Grade => GRADES.iter().map(|grade| grade.name()).collect(),
        Takes::Rhythm => Rhythm::ALL.iter().map(|rhythm| rhythm.label()).collect(),
        Takes::Answer => vec!["yes", "no"],
    }
}

/// Grades that can be a bound.
const GRADES: [Regurgitation; 5] = [
    Regurgitation::None,
    Regurgitation::Trivial,
    Regurgitation::Mild,
    Regurgitation::Moderate,
    Regurgitation::Severe,
];

fn typed_bound(kind: ObservationKind, text: &str) -> Option<Seen> {
    let is = |word: &str| word.eq_ignore_ascii_case(text);
    match kind.takes() {
        Takes::Value => {
            let unit = kind.unit().map_or("", measurement::Unit::symbol);
            let value = amount::plain(text, unit)?;
            (0.0..=kind.most())
                .contains(&value)
                .then_some(Seen::Value(value))
        }
        Takes::Grade => {
            let mut all = GRADES.into_iter();
            all.find(|grade| is(grade.name())).map(Seen::Grade)
        }
        Takes::Rhythm => {
            let mut all = Rhythm::ALL.into_iter();
            all.find(|one| is(one.label()) || is(one.name()))
                .map(Seen::Rhythm)
        }
        Takes::Answer if is("yes") => Some(Seen::Answer(Answer::Yes)),
        Takes::Answer if is("no") => Some(Seen::Answer(Answer::No)),
        Takes::Answer => None,
    }
}
