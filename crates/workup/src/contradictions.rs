//! Contradictions: figures of a case that cannot all be right, each with the sum that
//! shows it.

mod echo_against_catheter;
mod flow_against_hole;
mod heart_against_shunt;
mod pressure_against_gradient;
mod pressures_out_of_order;
mod resistance_as_reported;
mod shunt_elsewhere;
mod two_ratios;

#[cfg(test)]
mod tests;

use crate::drawn::FigureDraws;
use crate::{Input, Limits, Line, Section, State};
use measurement::Interval;

/// The case in which contradictions are looked for, and its figures.
pub(crate) struct ExaminedCase<'a> {
    pub(crate) input: &'a Input,
    pub(crate) limits: &'a Limits,
    pub(crate) drawn: &'a FigureDraws,
}

/// A search for one kind of contradiction; a new one is a file and a line here.
type Look = fn(&ExaminedCase) -> Vec<Line>;

const LOOKS: [Look; 8] = [
    pressure_against_gradient::look,
    flow_against_hole::look,
    echo_against_catheter::look,
    two_ratios::look,
    resistance_as_reported::look,
    heart_against_shunt::look,
    pressures_out_of_order::look,
    shunt_elsewhere::look,
];

/// The lines of every contradiction, each with the quantities it rests on.
pub(crate) fn lines(input: &Input, limits: &Limits, drawn: &FigureDraws) -> Vec<Line> {
    let examined = ExaminedCase {
        input,
        limits,
        drawn,
    };
    LOOKS.iter().flat_map(|look| look(&examined)).collect()
}

pub(crate) fn section(input: &Input, limits: &Limits, drawn: &FigureDraws) -> Section {
    let of_case = input.contradictions.iter();
    let of_case = of_case.map(|one| contradiction(&one.id, one.label, one.says.clone(), ""));
    let lines = of_case.chain(lines(input, limits, drawn)).collect();
    let mut section = Section::new("contradictions", "Does not add up", lines);
    if section.lines.is_empty() {
        section.says = "No contradiction was found in what was measured.".into();
    }
    section
}

/// The line of a contradiction, with the sum that shows it.
fn contradiction(id: &str, label: &str, sum: String, source: &str) -> Line {
    Line::plain(id, label)
        .state(State::Contradiction)
        .note(sum)
        .source(source)
}

/// Whether an interval leaves a value out; without an interval it does.
fn leaves_out(interval: Option<Interval>, value: f64) -> bool {
    interval.is_none_or(|it| value < it.low || it.high < value)
}
