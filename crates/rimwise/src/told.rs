//! Outcomes in few letters, the same on the screen and in print.

use sizing::{Candidate, Outcome, State, Subject, Verdict};

/// The glyph of a state: never told by colour alone.
pub(crate) const fn state_glyph(state: State) -> &'static str {
    match state {
        State::Ok => "✓",
        State::Caution => "!",
        State::Stop => "✗",
        State::NotAssessed => "?",
    }
}

/// The glyph of a verdict: never told by colour alone.
pub(crate) const fn verdict_glyph(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "●",
        Verdict::Tight => "◐",
        Verdict::DoesNotFit => "○",
    }
}

/// A check with its subject.
pub(crate) fn check(outcome: &Outcome) -> String {
    let of = match outcome.of {
        Subject::Shape => "",
        Subject::Valve(valve) => valve.label().trim_end_matches(" valve"),
        Subject::Face(geometry::Face::Left) => "left",
        Subject::Face(geometry::Face::Right) => "right",
        Subject::Vein => "vein",
        Subject::Artery => "artery",
    };
    format!("{} {of}", outcome.title).trim_end().to_owned()
}

/// The value of a check with its unit, a length with its sign.
pub(crate) fn value(outcome: &Outcome) -> Option<String> {
    outcome.value.map(|value| match outcome.unit {
        "share" => format!("{:.0} %", 100.0 * value),
        "ratio" => format!("{value:.2}"),
        "mmHg" => format!("{value:.0} mmHg"),
        unit => format!("{} {unit}", signed(value)),
    })
}

/// A figure of one decimal with its sign; a rounded zero has none below it.
fn signed(value: f64) -> String {
    const ROUNDED_AWAY: f64 = 0.05;
    let value = if value.abs() < ROUNDED_AWAY {
        0.0
    } else {
        value
    };
    format!("{value:+.1}")
}

/// What stands before a chance: `≤` where a stop was not assessed, so that the
/// chance of the others does not pass for the chance of all.
pub(crate) fn at_most(candidate: &Candidate) -> &'static str {
    if candidate.is_chance_whole() {
        ""
    } else {
        "≤"
    }
}

/// The margin to the stop that is least in units of the checks' scales, and whose
/// it is.
pub(crate) fn nearest_stop(candidate: &Candidate) -> Option<String> {
    let (_, outcome) = candidate
        .outcomes
        .iter()
        .filter_map(|outcome| Some((outcome.scaled_margin()?, outcome)))
        .min_by(|(one, _), (other, _)| one.total_cmp(other))?;
    let margin = outcome.margin_stop()?;
    let margin = match outcome.unit {
        "share" => format!("{:+.0} %", 100.0 * margin),
        "ratio" => format!("{margin:+.2}"),
        "mmHg" => format!("{margin:+.0} mmHg"),
        unit => format!("{} {unit}", signed(margin)),
    };
    Some(format!("{margin} {}", check(outcome)))
}
