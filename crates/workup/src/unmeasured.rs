//! The section of what was not measured, and which question each would settle.

use crate::figures::read;
use crate::{Input, Limits, Line, Section, State};
use measurement::Quantity;

pub(crate) fn section(input: &Input, limits: &Limits) -> Section {
    let nominal = input.joint.nominal();
    let weight = read(&nominal, Quantity::PATIENT_WEIGHT);
    let age = read(&nominal, Quantity::PATIENT_AGE);
    let lines: Vec<Line> = limits
        .questions
        .iter()
        .filter(|question| question.reach.may_hold(input.site, weight, age))
        .filter(|question| question.is_open(|it| input.is_read(it), &input.findings))
        .map(|question| {
            Line::plain(&question.id, &question.what)
                .state(State::NotKnown)
                .note(format!("would settle: {}", question.settles))
                .source(&question.source)
        })
        .collect();
    let mut section = Section::new("not_measured", "Not measured", lines);
    if section.lines.is_empty() {
        section.says = "Nothing that the file asks for is missing.".into();
    }
    section
}
