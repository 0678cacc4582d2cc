//! Lessons: a case, changes of it, and questions about it.

mod ask;
mod course;
mod point;

pub use course::{Course, CourseStep, StepContent, case_of_lesson};

use crate::case::ReadingForm;
use crate::document::Checked;
use crate::faults::Faults;
use crate::form::Entries;
use crate::kind::LESSON_CAP;
use crate::place::FieldPlace;
use crate::rows::each_row;
use crate::{Diagnostic, FileError, FileKind, Source};
use ask::AskForm;
use measurement::ReadingId;
use point::PointForm;
use serde::Deserialize;
use sizing::lesson::{Ask, Change, Lesson, Step, StepKind};
use sizing::{Case, Catalogue};
use std::collections::BTreeSet;
use std::path::Path;

/// A lesson and the name of its case.
#[derive(Clone, Debug, PartialEq)]
pub struct LessonOfCase {
    /// The lesson.
    pub lesson: Lesson,
    /// The name of the case: a file beside the lesson, or a scenario of the program.
    pub case: String,
}

/// A lesson with the text it came from.
pub type LessonFile = Checked<LessonOfCase>;

/// The most steps of a lesson.
const MOST_STEPS: usize = 60;

/// The most changes of the case in one lesson, since each costs a ranked list.
const MOST_CHANGES: usize = 8;

/// Reads a lesson from a file.
pub fn read_lesson(path: &Path) -> Result<LessonFile, FileError> {
    Ok(Checked::read(
        FileKind::Lesson,
        Source::read(path, LESSON_CAP)?,
        lesson,
    )?)
}

/// Reads a lesson from a text; all faults at once where it is RON of the right form, the
/// first one otherwise.
pub fn parse_lesson(name: &str, text: &str) -> Result<LessonFile, Vec<Diagnostic>> {
    Checked::read(FileKind::Lesson, Source::new(name, text), lesson)
}

impl LessonFile {
    /// The readings that the case lacks, and the sizes that no catalogue has.
    pub fn faults_against(&self, case: &Case, catalogues: &[Catalogue]) -> Vec<Diagnostic> {
        let mut faults = Faults::default();
        let sizes = names_of_sizes(catalogues);
        let mut readings: BTreeSet<&str> =
            case.readings.iter().map(|one| one.id.0.as_str()).collect();
        let lesson = &self.value().lesson;
        for (index, point) in lesson.points.iter().enumerate() {
            let at = self.root().field("points").item(index);
            for (at, size) in point::sizes(point, &at) {
                unknown_size(&at, size, &sizes, &mut faults);
            }
        }
        for (index, step) in lesson.steps.iter().enumerate() {
            let at = self.root().field("steps").item(index);
            if let Some(size) = &step.show {
                unknown_size(&at.field("show"), size, &sizes, &mut faults);
            }
            match &step.what {
                StepKind::Ask(asked) => {
                    let at = at.field("ask");
                    for (at, size) in ask::sizes(asked, &at) {
                        unknown_size(&at, size, &sizes, &mut faults);
                    }
                    if let Ask::NudgeUntil { reading, .. } = asked {
                        unknown_reading(&at.field("reading"), reading, &readings, &mut faults);
                    }
                }
                StepKind::Change(change) => {
                    let at = at.field("change");
                    let at_values = at.field("values");
                    for (at, (id, value)) in entries(&at_values).iter().zip(&change.values) {
                        unknown_reading(at, id, &readings, &mut faults);
                        out_of_range(at, case, (id, *value), &mut faults);
                    }
                    for (index, id) in change.without.iter().enumerate() {
                        let at = at.field("without").item(index);
                        unknown_reading(&at, id, &readings, &mut faults);
                        readings.remove(id.0.as_str());
                    }
                    readings.extend(change.readings.iter().map(|one| one.id.0.as_str()));
                }
                StepKind::Tell(_) => {}
            }
        }
        faults.none().err().unwrap_or_default()
    }

    /// A fault of a step, from 0, in words of its own.
    pub(crate) fn step_fault(&self, step: usize, found: &str, expected: &str) -> Diagnostic {
        let at = self.root().field("steps").item(step);
        at.fault(found, expected, "Change the question, or the case.")
    }

    /// A fault of a point, from 0: the case does not show it.
    pub(crate) fn point_fault(&self, point: usize) -> Diagnostic {
        let at = self.root().field("points").item(point);
        let found = at.text().to_owned();
        let remedy = "The lesson has lost its point: change the case, or the lesson.";
        at.fault(&found, "a case that shows this", remedy)
    }

    /// That no case has the name which the lesson gives.
    pub(crate) fn case_fault(&self) -> Diagnostic {
        let at = self.root().field("case");
        let known = crate::shipped::SCENARIOS.iter().map(|(name, _)| *name);
        let remedy = crate::faults::did_you_mean(&self.value().case, known);
        let expected = "a case beside the lesson, or one that came with the program";
        at.fault(at.text(), expected, &remedy)
    }
}

/// The names of all sizes: `shape/size`.
fn names_of_sizes(catalogues: &[Catalogue]) -> BTreeSet<String> {
    let shapes = catalogues.iter().flat_map(|catalogue| &catalogue.shapes);
    let names = shapes.flat_map(|shape| {
        let sizes = shape.sizes.iter();
        sizes.map(|size| format!("{}/{}", shape.id, size.label))
    });
    names.collect()
}

fn unknown_size(at: &FieldPlace, size: &str, known: &BTreeSet<String>, faults: &mut Faults) {
    if !known.contains(size) {
        let known = known.iter().map(String::as_str);
        faults.unknown(at, size, known, "a size of the catalogue");
    }
}

fn unknown_reading(at: &FieldPlace, id: &ReadingId, known: &BTreeSet<&str>, faults: &mut Faults) {
    if !known.contains(id.0.as_str()) {
        let known = known.iter().copied();
        faults.unknown(at, &id.0, known, "a reading of the case");
    }
}

/// A new value outside what a case may have.
fn out_of_range(at: &FieldPlace, case: &Case, (id, value): (&ReadingId, f64), faults: &mut Faults) {
    if let Some(reading) = case.readings.iter().find(|one| one.id == *id) {
        let info = reading.quantity.info();
        faults.number(at, value, info.least..=info.most, info.unit.symbol());
    }
}

fn entries<'a>(at: &FieldPlace<'a>) -> Vec<FieldPlace<'a>> {
    at.entries().map(|(_, place)| place).collect()
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LessonForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    order: u32,
    case: String,
    points: Vec<PointForm>,
    steps: Vec<StepForm>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepForm {
    ask: Option<AskForm>,
    tell: Option<String>,
    change: Option<ChangeForm>,
    words: Option<String>,
    show: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ChangeForm {
    #[serde(default)]
    values: Entries<f64>,
    #[serde(default)]
    without: Vec<String>,
    #[serde(default)]
    readings: Vec<ReadingForm>,
}

fn lesson(form: LessonForm, at: &FieldPlace, faults: &mut Faults) -> LessonOfCase {
    let at_steps = at.field("steps");
    if form.steps.is_empty() || form.steps.len() > MOST_STEPS {
        let found = format!("{} steps", form.steps.len());
        faults.say(&at_steps, &found, format!("1 to {MOST_STEPS} steps"), "");
    }
    let at_points = at.field("points");
    if form.points.is_empty() {
        let remedy = "Say what the case must show, so that a test can see whether it still does.";
        faults.say(&at_points, "no point", "at least one point", remedy);
    }
    let steps: Vec<Step> = each_row(form.steps, &at_steps, |form, at| step(form, at, faults))
        .into_iter()
        .flatten()
        .collect();
    let is_change = |step: &&Step| matches!(step.what, StepKind::Change(_));
    let changes = steps.iter().filter(is_change).count();
    if changes > MOST_CHANGES {
        let found = format!("{changes} changes");
        let expected = format!("at most {MOST_CHANGES} changes of the case");
        faults.say(&at_steps, &found, expected, "");
    }
    let points = each_row(form.points, &at_points, |form, at| form.check(at, faults));
    LessonOfCase {
        lesson: Lesson {
            title: faults.text(&at.field("title"), form.title),
            order: form.order,
            points: points.into_iter().flatten().collect(),
            steps,
        },
        // A name and no path: a lesson opens what lies beside it, and nothing else.
        case: faults.name(&at.field("case"), form.case),
    }
}

fn step(form: StepForm, at: &FieldPlace, faults: &mut Faults) -> Option<Step> {
    let mut text =
        |field, text: Option<String>| text.map(|text| faults.text(&at.field(field), text));
    let words = text("words", form.words);
    let tell = text("tell", form.tell);
    let what = match (form.ask, tell, form.change) {
        (Some(ask), None, None) => StepKind::Ask(ask.check(&at.field("ask"), faults)),
        (None, Some(tell), None) => StepKind::Tell(tell),
        (None, None, Some(change)) => {
            StepKind::Change(checked_change(change, &at.field("change"), faults))
        }
        _ => {
            faults.add(at, "one of ask, tell or change", "A step does one thing.");
            return None;
        }
    };
    Some(Step {
        what,
        words,
        show: form.show,
    })
}

fn checked_change(form: ChangeForm, at: &FieldPlace, faults: &mut Faults) -> Change {
    let is_empty = form.values.0.is_empty() && form.without.is_empty() && form.readings.is_empty();
    if is_empty {
        faults.add(at, "values, without or readings", "");
    }
    let values = form.values.0.into_iter();
    let without = form.without.into_iter();
    Change {
        values: values.map(|(id, value)| (ReadingId(id), value)).collect(),
        without: without.map(ReadingId).collect(),
        readings: crate::case::readings(form.readings, &at.field("readings"), faults),
    }
}

#[cfg(test)]
mod tests;
