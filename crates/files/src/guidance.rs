mod conditions;
mod questions;
mod rows;

use crate::document::Checked;
use crate::faults::{Faults, LineOfName};
use crate::form::BareWord;
use crate::kind::GUIDANCE_CAP;
use crate::parameters::{self, ParameterForm};
use crate::place::FieldPlace;
use crate::{Diagnostic, FileError, FileKind, Source, shipped};
use questions::{QuestionForm, WayForm};
use rows::RowForm;
use serde::Deserialize;
use std::path::Path;
use workup::{Limits, Parameter};

/// Guidance with the text it came from.
pub type GuidanceFile = Checked<Limits>;

/// Reads guidance from a file.
pub fn read_guidance(path: &Path) -> Result<GuidanceFile, FileError> {
    Ok(Checked::read(
        FileKind::Guidance,
        Source::read(path, GUIDANCE_CAP)?,
        limits,
    )?)
}

/// Reads guidance from a text; all faults at once where it is RON of the
/// right form, the first one otherwise.
pub fn parse_guidance(name: &str, text: &str) -> Result<GuidanceFile, Vec<Diagnostic>> {
    Checked::read(FileKind::Guidance, Source::new(name, text), limits)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsForm {
    #[serde(rename = "format")]
    _format: u32,
    title: String,
    mixed_venous: BareWord,
    parameters: Vec<ParameterForm>,
    children: Vec<RowForm>,
    adults: Vec<RowForm>,
    not_measured: Vec<QuestionForm>,
    other_ways: Vec<WayForm>,
}

fn limits(form: LimitsForm, at: &FieldPlace, faults: &mut Faults) -> Limits {
    let mut ids = LineOfName::new();
    let given = parameters::given::<Parameter>(form.parameters, &at.field("parameters"), faults);
    let (parameters, from_shipped) = with_shipped(given);
    Limits {
        title: faults.text(&at.field("title"), form.title),
        mixed_venous: faults.word(&at.field("mixed_venous"), &form.mixed_venous.0),
        parameters,
        from_shipped,
        children: rows::rows(form.children, &at.field("children"), &mut ids, faults),
        adults: rows::rows(form.adults, &at.field("adults"), &mut ids, faults),
        questions: questions::questions(form.not_measured, &at.field("not_measured"), faults),
        ways: questions::ways(form.other_ways, &at.field("other_ways"), faults),
    }
}

/// The parameters that a file gives, each that it lacks taken from the shipped guidance,
/// and the words of those taken: a version may know more parameters than a file of your
/// own.
fn with_shipped(given: Vec<Option<(f64, String)>>) -> (Vec<(f64, String)>, Vec<&'static str>) {
    let rows = Parameter::ALL.iter().zip(&given);
    let lacking = rows.filter(|(_, given)| given.is_none());
    let lacking: Vec<&str> = lacking.map(|(info, _)| info.name).collect();
    let lent = if lacking.is_empty() {
        Vec::new()
    } else {
        // The shipped guidance lacks none, so this reads no file but that one.
        let (name, text) = shipped::GUIDANCE;
        let file = parse_guidance(name, text);
        file.map_or_else(|_| Vec::new(), |file| file.into_value().parameters)
    };
    let rows = given.into_iter().enumerate();
    let parameters = rows.filter_map(|(index, given)| given.or_else(|| lent.get(index).cloned()));
    (parameters.collect(), lacking)
}
