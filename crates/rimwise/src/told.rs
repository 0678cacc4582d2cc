//! Outcomes in few letters, the same on the screen and in print.

use geometry::Face;
use sizing::{Candidate, Outcome, State, Subject, Verdict};

/// The least error of a chance that one decimal shows, in per cent.
const LEAST_SHOWN: f64 = 0.1;

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
        Verdict::Borderline => "◐",
        Verdict::DoesNotFit => "○",
    }
}

/// A check with its subject.
pub(crate) fn check(outcome: &Outcome) -> String {
    format!("{} {}", outcome.title, subject(outcome.of))
        .trim_end()
        .to_owned()
}

/// A subject in a word; nothing for the shape as a whole.
fn subject(of: Subject) -> &'static str {
    match of {
        Subject::Shape => "",
        Subject::Valve(valve) => valve.label().trim_end_matches(" valve"),
        Subject::Face(Face::Left) => "left",
        Subject::Face(Face::Right) => "right",
        Subject::Vein => "vein",
        Subject::Artery => "artery",
    }
}

/// The value of a check with its unit, a length with its sign.
pub(crate) fn value(outcome: &Outcome) -> Option<String> {
    let value = outcome.value?;
    let shown = outcome.amount(value, outcome.decimals());
    let is_signed = outcome.unit == "mm" && !shown.starts_with('-');
    Some(if is_signed {
        format!("+{shown}")
    } else {
        shown
    })
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

/// The chance with its error, in per cent.
pub(crate) fn chance(candidate: &Candidate) -> String {
    candidate.chances.as_ref().map_or_else(
        || "–".to_owned(),
        |it| {
            let (value, error) = (100.0 * it.chance.value, 100.0 * it.chance.error);
            let at_most = at_most(candidate);
            // A rounded error of 0 would claim too much.
            if error < LEAST_SHOWN {
                format!("{at_most}{value:.1} ± <{LEAST_SHOWN} %")
            } else {
                format!("{at_most}{value:.1} ± {error:.1} %")
            }
        },
    )
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
    let shown = outcome.amount(margin, outcome.margin_decimals(margin));
    let sign = if shown.starts_with('-') { "" } else { "+" };
    Some(format!("{sign}{shown} {}", brief(outcome)))
}

/// A check with its subject in the fewest letters: its value's unit tells what of
/// the outflow is meant.
fn brief(outcome: &Outcome) -> String {
    let of = subject(outcome.of);
    let check = match outcome.check {
        "clearance" => "",
        "waist_fit" => "waist",
        "length_fit" => "length",
        "grip" => "grip",
        "hold_left" | "hold_right" => "hold",
        "hinge_lip_left" | "hinge_lip_right" => "lip",
        "chamber" => "chamber",
        "leaflet_chordae" => "chordae",
        check if check.starts_with("tract_") => "tract",
        _ => outcome.title,
    };
    format!("{check} {of}").trim().to_owned()
}
