//! The section of published limits: which of them a case meets, and with what chance.

use crate::drawn::FigureDraws;
use crate::figures::read;
use crate::{Bearing, Input, LimitRow, Limits, Line, NamedFigure, Section, State, Truth};
use measurement::Quantity;
use std::fmt::Write as _;

/// A row of guidance that may speak of the case, and whether the case meets it.
pub(crate) struct Standing {
    pub(crate) line: Line,
    pub(crate) truth: Truth,
    pub(crate) bearing: Bearing,
    /// What is missing for the row to be known.
    pub(crate) unknown: Vec<&'static str>,
}

/// Every row, for adults or for children, that may speak of the case.
pub(crate) fn standings(
    input: &Input,
    limits: &Limits,
    is_adult: bool,
    drawn: &FigureDraws,
) -> Vec<Standing> {
    if is_adult {
        of_rows(&limits.adults, input, drawn)
    } else {
        of_rows(&limits.children, input, drawn)
    }
}

fn of_rows<M: NamedFigure>(
    rows: &[LimitRow<M>],
    input: &Input,
    drawn: &FigureDraws,
) -> Vec<Standing> {
    let nominal = input.joint.nominal();
    let weight = read(&nominal, Quantity::PATIENT_WEIGHT);
    let age = read(&nominal, Quantity::PATIENT_AGE);
    rows.iter()
        .filter(|row| row.reach.may_hold(input.site, weight, age))
        .map(|row| standing(row, input, drawn))
        .collect()
}

fn standing<M: NamedFigure>(row: &LimitRow<M>, input: &Input, drawn: &FigureDraws) -> Standing {
    let truth = row.truth(&drawn.nominal, &input.findings);
    let unknown = if truth == Truth::NotKnown {
        row.unknown(&drawn.nominal, &input.findings)
    } else {
        Vec::new()
    };
    let class = row
        .class
        .as_ref()
        .map_or_else(String::new, |class| format!("class {class}; "));
    let memory = if row.from_memory { "from memory: " } else { "" };
    let mut line = Line::plain(&row.id, &row.says)
        .state(match truth {
            Truth::Met => State::Met,
            Truth::NotMet => State::NotMet,
            Truth::NotKnown => State::NotKnown,
        })
        .source(format!("{class}{memory}{}", row.source));
    if !unknown.is_empty() {
        line = line.note(format!("not known: {}", unknown.join(", ")));
    }
    line.bearing = Some(row.bearing);
    line.chance = drawn.chance(|figures| row.truth(figures, &input.findings));
    Standing {
        line,
        truth,
        bearing: row.bearing,
        unknown,
    }
}

pub(crate) fn section(standings: &[Standing], limits: &Limits, is_adult: bool) -> Section {
    let lines = standings.iter().map(|one| one.line.clone()).collect();
    let mut section = Section::new("published", "Published guidance", lines);
    section.says = if is_adult {
        "Rows for adults: resistance is that of the whole body, in WU.".into()
    } else {
        "Rows for children: resistance is indexed, in WU·m². Rows for adults, whose resistance is \
         not, are never held against a child."
            .into()
    };
    if !limits.from_shipped.is_empty() {
        let lacking = limits.from_shipped.join(", ");
        let _ = write!(
            section.says,
            " The guidance lacks {lacking}: the shipped values count."
        );
    }
    section
}
