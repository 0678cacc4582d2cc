mod conditions;
mod questions;
mod rows;

use crate::document::Checked;
use crate::faults::{Faults, Seen};
use crate::form::Bare;
use crate::kind::GUIDANCE_CAP;
use crate::parameters::{self, ParameterForm};
use crate::place::Place;
use crate::{Diagnostic, FileError, FileKind, Source};
use questions::{QuestionForm, WayForm};
use rows::RowForm;
use serde::Deserialize;
use std::path::Path;
use workup::{Limits, Parameter};

/// Published limits with the text they came from.
pub type GuidanceFile = Checked<Limits>;

/// Reads published limits from a file.
pub fn read_guidance(path: &Path) -> Result<GuidanceFile, FileError> {
    Ok(Checked::read(
        FileKind::Guidance,
        Source::read(path, GUIDANCE_CAP)?,
        limits,
    )?)
}

/// Reads published limits from a text; all faults at once where it is RON of the
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
    mixed_venous: Bare,
    parameters: Vec<ParameterForm>,
    children: Vec<RowForm>,
    adults: Vec<RowForm>,
    not_measured: Vec<QuestionForm>,
    other_ways: Vec<WayForm>,
}

fn limits(form: LimitsForm, at: &Place, faults: &mut Faults) -> Limits {
    let mut ids = Seen::new();
    Limits {
        title: faults.text(&at.field("title"), form.title),
        mixed_venous: faults.word(&at.field("mixed_venous"), &form.mixed_venous.0),
        parameters: parameters::all::<Parameter>(form.parameters, &at.field("parameters"), faults),
        children: rows::rows(form.children, &at.field("children"), &mut ids, faults),
        adults: rows::rows(form.adults, &at.field("adults"), &mut ids, faults),
        questions: questions::questions(form.not_measured, &at.field("not_measured"), faults),
        ways: questions::ways(form.other_ways, &at.field("other_ways"), faults),
    }
}
