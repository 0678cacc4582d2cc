//! The section of derived figures, each with its interval, formula and remark.

use crate::drawn::FigureDraws;
use crate::remark::remark;
use crate::{Amount, Circumstances, Figure, Input, Line, Section, State};

/// Figures that have a line even where they cannot be worked out.
const ALWAYS: [Figure; 6] = [
    Figure::QpQs,
    Figure::PulmonaryFlow,
    Figure::PulmonaryResistanceIndexed,
    Figure::PressureRatio,
    Figure::LeftVentricleZ,
    Figure::LeftAtriumZ,
];

pub(crate) fn section(input: &Input, at: &Circumstances, drawn: &FigureDraws) -> Section {
    let lines = Figure::ALL
        .iter()
        .map(|info| info.figure)
        .filter(|figure| !matches!(figure, Figure::Weight | Figure::Age))
        // An absolute resistance means nothing in a child.
        .filter(|figure| at.is_adult || *figure != Figure::PulmonaryResistance)
        .filter_map(|figure| line(figure, input, at, drawn))
        .collect();
    Section::new("derived", "Worked out", lines)
}

/// The line of a figure; `None` where it has no value and needs no line.
pub(crate) fn line(
    figure: Figure,
    input: &Input,
    at: &Circumstances,
    drawn: &FigureDraws,
) -> Option<Line> {
    let info = figure.info();
    let value = drawn.nominal.get(figure);
    let remark = remark(figure, input, at);
    let mut line = Line::plain(info.id, info.label).source(info.source);
    line.amount = value.map(|value| Amount {
        value,
        unit: info.unit,
        decimals: info.decimals,
    });
    line.interval = value.and_then(|_| drawn.interval(figure));
    match (value, remark) {
        (Some(_), Some(remark)) => Some(line.state(remark.state).note(remark.note)),
        (Some(_), None) => Some(line),
        (None, Some(remark)) if remark.state == State::Refused => {
            Some(line.state(State::Refused).note(remark.note))
        }
        (None, _) => ALWAYS.contains(&figure).then(|| {
            line.state(State::NotKnown)
                .note(format!("needs {}", info.needs))
        }),
    }
}
