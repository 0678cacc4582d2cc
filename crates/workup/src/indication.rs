//! Should it be closed at all: shown, never decided.

use crate::derived::line;
use crate::drawn::FigureDraws;
use crate::published::Standing;
use crate::{
    Bearing, Circumstances, Figure, Figures, Input, Limits, Line, Parameter, Section, State, Truth,
};
use measurement::{Answer, Finding, is_at_least};

/// Whether published guidance indicates closing the defect at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Indication {
    /// At least one limit for closing is met, and none against it.
    Met,
    /// No limit for closing is met, or one against it is.
    No,
    /// No limit for closing is met, but not all are known.
    NotKnown,
}

/// The banner above a ranking: a size that fits is no reason to close.
#[derive(Clone, Debug, PartialEq)]
pub struct Banner {
    /// What the guidance comes to.
    pub indication: Indication,
    /// The indication in a sentence; empty where a limit for closing is met.
    pub says: String,
    /// The reasons, one sentence each.
    pub reasons: Vec<String>,
}

impl Indication {
    /// The indication's word in output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::No => "no",
            Self::NotKnown => "not known",
        }
    }
}

/// The banner of a case, by where it stands against each row of guidance.
pub(crate) fn banner(standings: &[Standing]) -> Banner {
    let of = |bearing, truth| {
        standings
            .iter()
            .filter(move |one| one.bearing == bearing && one.truth == truth)
    };
    let reasons = |bearing, truth: Truth, word: &str| -> Vec<String> {
        of(bearing, truth)
            .map(|one| format!("{word}: {} ({})", one.line.label, one.line.source))
            .collect()
    };
    let mut against = reasons(Bearing::AgainstClosing, Truth::Met, "met");
    if !against.is_empty() {
        against.extend(reasons(Bearing::ForClosing, Truth::NotMet, "not met"));
        return Banner {
            indication: Indication::No,
            says: "Published guidance speaks against closing this defect.".into(),
            reasons: against,
        };
    }
    let unknown = |bearing| {
        let mut unknown: Vec<&str> = Vec::new();
        for about in of(bearing, Truth::NotKnown).flat_map(|one| &one.unknown) {
            if !unknown.contains(about) {
                unknown.push(about);
            }
        }
        unknown
    };
    if of(Bearing::ForClosing, Truth::Met).next().is_some() {
        let unknown = unknown(Bearing::AgainstClosing);
        if unknown.is_empty() {
            return Banner {
                indication: Indication::Met,
                says: String::new(),
                reasons: Vec::new(),
            };
        }
        return Banner {
            indication: Indication::NotKnown,
            says: "Whether a published limit speaks against closing is not known.".into(),
            reasons: vec![format!("not known: {}", unknown.join("; "))],
        };
    }
    let unknown = unknown(Bearing::ForClosing);
    if unknown.is_empty() {
        Banner {
            indication: Indication::No,
            says: "Closing is not indicated by any published limit in the file: that a size fits \
                   is no reason to close."
                .into(),
            reasons: reasons(Bearing::ForClosing, Truth::NotMet, "not met"),
        }
    } else {
        Banner {
            indication: Indication::NotKnown,
            says: "Whether closing is indicated is not known: that a size fits is no reason to \
                   close."
                .into(),
            reasons: std::iter::once(format!("not known: {}", unknown.join("; ")))
                .chain(reasons(Bearing::ForClosing, Truth::NotMet, "not met"))
                .collect(),
        }
    }
}

/// The figures that bear on closing at all.
const FIGURES: [Figure; 7] = [
    Figure::LeftVentricleZ,
    Figure::LeftAtriumZ,
    Figure::QpQs,
    Figure::PressureRatio,
    Figure::PulmonaryResistanceIndexed,
    Figure::ResistanceRatio,
    Figure::PressureAfterClosing,
];

const FINDINGS: [Finding; 3] = [
    Finding::FailureToThrive,
    Finding::HeartFailure,
    Finding::Shrinking,
];

pub(crate) fn section(
    input: &Input,
    at: &Circumstances,
    limits: &Limits,
    drawn: &FigureDraws,
) -> Section {
    let mut lines: Vec<Line> = FIGURES
        .into_iter()
        .filter_map(|figure| line(figure, input, at, drawn))
        .map(|line| over_a_small_shunt(line, limits, drawn))
        .collect();
    lines.extend(FINDINGS.into_iter().map(|finding| {
        let answer = input.finding(finding);
        Line::plain(finding.name(), finding.label())
            .state(if answer == Answer::Unknown {
                State::NotKnown
            } else {
                State::Plain
            })
            .note(answer.to_string())
    }));
    lines.push(natural_course(input));
    lines.extend(change(drawn));
    lines.push(
        Line::plain("would_not_change", "closing would not change").note(
            "the resistance of the lungs, another shunt, a narrow arch or outflow, the function \
             of the ventricle, a leak of a valve that does not come from the shunt",
        ),
    );
    Section::new("indication", "Should it be closed at all", lines)
}

/// Adds to the line of Qp:Qs the chance that the shunt is not small; leaves any other line
/// as it is.
fn over_a_small_shunt(mut line: Line, limits: &Limits, drawn: &FigureDraws) -> Line {
    if line.id == Figure::QpQs.info().id {
        let small = limits.parameter(Parameter::SmallShunt);
        let over = |figures: &Figures| {
            figures
                .get(Figure::QpQs)
                .map(|ratio| is_at_least(ratio, small))
        };
        line.chance = drawn.chance(|figures| Truth::of(over(figures)));
        if let Some(chance) = line.chance {
            let percent = 100.0 * chance;
            line.note = format!("{}; {small} or more in {percent:.0} % of draws", line.note);
        }
    }
    line
}

/// The line of the natural course, without closing.
fn natural_course(input: &Input) -> Line {
    let note = if input.site.is_muscular() {
        "many small muscular defects close of themselves in the first years, a large one or one \
         in the outlet seldom"
    } else if input.site.is_perimembranous() {
        "small perimembranous defects often narrow or close behind tricuspid tissue; a defect \
         with a malaligned septum does not"
    } else {
        "a juxta-arterial defect does not close of itself, but a cusp may come to lie in it"
    };
    Line::plain("natural_course", "without closing")
        .note(note)
        .source("common practice, no source")
}

/// The line of what closing would change: Qp = Qs, with the systemic flow as it is.
fn change(drawn: &FigureDraws) -> Option<Line> {
    let pulmonary = drawn.nominal.get(Figure::PulmonaryFlow)?;
    let systemic = drawn.nominal.get(Figure::SystemicFlow)?;
    Some(
        Line::plain("would_change", "closing would change")
            .note(format!(
                "pulmonary flow, and what returns to the left heart, from {pulmonary:.1} to \
                 {systemic:.1} L/min/m²"
            ))
            .source("assumption: Qp = Qs, the systemic flow as it is, no shunt left"),
    )
}
