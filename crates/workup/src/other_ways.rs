//! The section of other ways than by catheter, named whatever fits.

use crate::{Input, Limits, Line, Section, State};

pub(crate) fn section(input: &Input, limits: &Limits) -> Section {
    let ways = limits.ways.iter().enumerate().map(|(index, way)| {
        Line::plain(format!("way_{}", index + 1), &way.way)
            .note(format!("For: {}. Against: {}", way.gives, way.loses))
            .source(&way.source)
    });
    let notes = input.notes.iter().enumerate().map(|(index, note)| {
        Line::plain(format!("note_{}", index + 1), "of this site and weight")
            .state(State::Warned)
            .note(note)
    });
    Section::new("other_ways", "Other ways", ways.chain(notes).collect())
}
