//! Outcomes in few letters, the same on the screen and in print.

use crate::text::fitted;
use geometry::Face;
use sizing::{Candidate, Harm, Outcome, State, Subject, Verdict};
use std::cmp::Ordering;
use unicode_width::UnicodeWidthStr;

/// The glyph of a state: never told by colour alone.
pub(crate) const fn state_glyph(state: State) -> &'static str {
    match state {
        State::Ok => "✓",
        State::Caution => "!",
        State::Stop => "✗",
        State::NotAssessed => "?",
    }
}

/// Everything a candidate is held against, the gravest first.
pub(crate) fn in_order_of_harm(candidate: &Candidate) -> Vec<&Outcome> {
    let mut outcomes: Vec<&Outcome> = candidate.outcomes.iter().collect();
    outcomes.sort_by(|one, other| told_before(one, other));
    outcomes
}

/// The order in which outcomes are told: by state, what is broken by its harm, what
/// holds by its margin.
pub(crate) fn told_before(one: &Outcome, other: &Outcome) -> Ordering {
    let margin = |outcome: &Outcome| outcome.scaled_margin().unwrap_or(f64::INFINITY);
    let graver = gravity(one.state).cmp(&gravity(other.state));
    graver.then_with(|| match one.state {
        State::Ok => margin(one).total_cmp(&margin(other)),
        _ => one.by_harm(other),
    })
}

/// How grave a state is, the gravest at 0.
const fn gravity(state: State) -> u8 {
    match state {
        State::Stop => 0,
        State::Caution => 1,
        State::NotAssessed => 2,
        State::Ok => 3,
    }
}

/// The glyph of a verdict: never told by colour alone.
pub(crate) const fn verdict_glyph(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "●",
        Verdict::Borderline => "◐",
        Verdict::DoesNotFit => "○",
        Verdict::NotRated => "◌",
    }
}

/// Where the short side of an offset disc points as the size is set down, on the
/// clock seen from the left: `short side toward 12 o'clock`; `None` for discs on the
/// axis.
pub(crate) fn short_side(candidate: &Candidate) -> Option<String> {
    /// Degrees of an hour on the clock.
    const HOUR: f64 = 30.0;
    let occluder = &candidate.size.occluder;
    let mut discs = Face::BOTH
        .into_iter()
        .filter_map(|face| occluder.disc(face));
    let disc = discs.find(|disc| disc.offset.length() > 0.0)?;
    let toward = (-disc.offset.v).atan2(-disc.offset.u) + candidate.turn;
    let hour = (toward.to_degrees() / HOUR).round().rem_euclid(12.0);
    let hour = if hour == 0.0 { 12.0 } else { hour };
    Some(format!("short side toward {hour} o'clock"))
}

/// What a check found, as it is said at a conference: harm and number in one phrase.
pub(crate) fn phrase(outcome: &Outcome, columns: usize) -> String {
    let whole = said(outcome);
    match whole {
        Some(whole) if whole.width() <= columns => whole,
        _ => {
            let value = value(outcome).unwrap_or_else(|| "–".to_owned());
            let name = name(outcome, columns.saturating_sub(value.width() + 1));
            format!("{} {value}", name.trim_end())
        }
    }
}

/// The phrase of the checks that have one.
fn said(outcome: &Outcome) -> Option<String> {
    let value = value(outcome)?;
    let of = subject(outcome.of);
    let below = is_below(outcome);
    let only = match outcome.state {
        State::Caution | State::Stop if !value.starts_with('<') => "only ",
        _ => "",
    };
    let tract = match outcome.of {
        Subject::Face(Face::Left) => "LVOT",
        Subject::Face(Face::Right) => "RVOT",
        _ => "outflow",
    };
    Some(match outcome.check {
        "clearance" if below => format!("{value} into the {of} valve"),
        "clearance" => format!("{value} clear of the {of} valve"),
        "rim_overlap_left" | "rim_overlap_right" if !below => {
            format!("rim overlap {only}{value} on the {of}")
        }
        "rim_overlap_toward_valve_left" | "rim_overlap_toward_valve_right" if !below => {
            format!("rim overlap toward the valve {only}{value}, {of}")
        }
        "outflow_share_left" | "outflow_share_right" => format!("{tract} {value} open"),
        "outflow_gradient_left" | "outflow_gradient_right" => format!("{tract} gradient {value}"),
        "waist_fit" if !below => format!("waist {value} wider than the defect"),
        _ => return None,
    })
}

/// A check with its subject, as it is said: `aortic clearance`, `LVOT gradient`,
/// `sheath in vein`.
pub(crate) fn check(outcome: &Outcome) -> String {
    of_subject(outcome.title, outcome.of)
}

/// The words of a check with their subject, as they are said.
fn of_subject(words: &str, of: Subject) -> String {
    let tract = |tract: &str| words.replacen("outflow", tract, 1);
    match of {
        Subject::Shape => words.to_owned(),
        Subject::Face(Face::Left) if words.starts_with("outflow") => tract("LVOT"),
        Subject::Face(Face::Right) if words.starts_with("outflow") => tract("RVOT"),
        Subject::Face(_) if words.contains("ventricle") => {
            words.replacen("ventricle", &format!("{} ventricle", subject(of)), 1)
        }
        Subject::Valve(_) if words.contains("chordae") => {
            words.replacen("chordae", &format!("{} chordae", subject(of)), 1)
        }
        Subject::Valve(_) | Subject::Face(_) => format!("{} {words}", subject(of)),
        // No word is for a vessel but where the words name one.
        Subject::Vein | Subject::Artery => words.replacen("vessel", subject(of), 1),
    }
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

/// The name of what a check found, in so many columns: what a value under zero is
/// called stands in place of its sign. Where a name has no room its first words
/// stand alone, whole, or its short name does.
pub(crate) fn name(outcome: &Outcome, columns: usize) -> String {
    let below = outcome.below.filter(|_| is_below(outcome));
    let title = below.map_or_else(|| check(outcome), |below| of_subject(below, outcome.of));
    let brief = (below.is_none() && !outcome.short.is_empty()).then(|| brief(outcome));
    longest_that_fits(title, brief, columns)
}

/// The name of a check, whatever its value: whole where it has room, else its short
/// one.
pub(crate) fn check_in(outcome: &Outcome, columns: usize) -> String {
    let brief = (!outcome.short.is_empty()).then(|| brief(outcome));
    longest_that_fits(check(outcome), brief, columns)
}

/// A title, its first words or its short form: the first that has room, else the
/// title cut.
fn longest_that_fits(title: String, brief: Option<String>, columns: usize) -> String {
    let lead = title.split_once(", ").map(|(lead, _)| lead.to_owned());
    let fits = |name: &String| name.width() <= columns;
    let mut names = std::iter::once(title.clone()).chain(lead).chain(brief);
    fitted(&names.find(fits).unwrap_or(title), columns)
}

/// The gravest warning of AV block, where a size brings one: no screen leaves it out.
pub(crate) fn av_block(candidate: &Candidate) -> Option<&Outcome> {
    let warns = |one: &&Outcome| one.harm == Harm::AvBlock && one.state != State::Ok;
    let warnings = candidate.outcomes.iter().filter(warns);
    warnings.min_by(|one, other| told_before(one, other))
}

/// Whether the value lies under zero and has a name for that.
fn is_below(outcome: &Outcome) -> bool {
    outcome.below.is_some() && outcome.value.is_some_and(|value| value < 0.0)
}

/// The value of a check with its unit, as it stands beside its [`name`]: without a
/// sign, which is a margin's alone.
pub(crate) fn value(outcome: &Outcome) -> Option<String> {
    outcome.value_amount()
}

/// The value of a check where no name stands beside it: one under zero with what it
/// is called.
pub(crate) fn value_with_name(outcome: &Outcome) -> Option<String> {
    let value = value(outcome)?;
    Some(match outcome.below.filter(|_| is_below(outcome)) {
        Some(below) => format!("{below} {value}"),
        None => value,
    })
}

/// The chance as people read it; `–` where there is none.
pub(crate) fn chance(candidate: &Candidate) -> String {
    candidate
        .chance_in_per_cent()
        .unwrap_or_else(|| "–".to_owned())
}

/// The outcome whose margin to a stop is least in units of the checks' scales, with
/// that margin.
fn nearest(candidate: &Candidate) -> Option<(&Outcome, f64)> {
    let (_, outcome) = candidate
        .outcomes
        .iter()
        .filter_map(|outcome| Some((outcome.scaled_margin()?, outcome)))
        .min_by(|(one, _), (other, _)| one.total_cmp(other))?;
    Some((outcome, outcome.margin_stop()?))
}

/// The least margin to a stop and whose it is, in words: the longest form that has
/// room in so many columns, so that no name is cut where a shorter one says it whole.
pub(crate) fn nearest_stop(candidate: &Candidate, columns: usize) -> Option<String> {
    let (outcome, margin) = nearest(candidate)?;
    let shown = outcome.margin_amount(margin);
    let value = outcome.value?;
    let (side, short) = match outcome.stop.broken(value) {
        None => ("to spare", "spare"),
        Some(limit) if value < limit => ("under the limit", "under"),
        Some(_) => ("over the limit", "over"),
    };
    // The margin first: where room is short the name gives way, and a margin
    // without its word reads as a value.
    let (name, brief, least) = (brief(outcome), briefest(outcome), least(outcome));
    let forms = [
        format!("{shown} {side}, {name}"),
        format!("{shown} {side}, {brief}"),
        format!("{shown} {short}, {brief}"),
        format!("{shown} {short}, {least}"),
    ];
    let last = forms.last().cloned();
    forms
        .into_iter()
        .find(|form| form.width() <= columns)
        .or(last)
}

/// The same under a heading that says it is a margin: with a sign, `< +0.1 mm` and
/// `> -0.1 mm` where it rounds to nothing.
pub(crate) fn margin(candidate: &Candidate) -> Option<String> {
    let (outcome, margin) = nearest(candidate)?;
    let (sign, side) = if margin < 0.0 { ("-", ">") } else { ("+", "<") };
    let amount = outcome.margin_amount(margin);
    let shown = match amount.strip_prefix("< ") {
        Some(least) => format!("{side} {sign}{least}"),
        None => format!("{sign}{amount}"),
    };
    Some(format!("{shown} {}", briefest(outcome)))
}

/// A check with its subject in few letters: its value's unit tells what of the
/// outflow is meant.
fn brief(outcome: &Outcome) -> String {
    of_subject(outcome.short, outcome.of)
}

/// The same in the fewest: which edge of a rim is meant is left out.
fn briefest(outcome: &Outcome) -> String {
    let brief = brief(outcome);
    let lead = brief.strip_suffix(" to valve").map(str::to_owned);
    lead.unwrap_or(brief)
}

/// The same in a word or two: of a valve the valve alone, of a rim no side.
fn least(outcome: &Outcome) -> String {
    match (outcome.short, outcome.of) {
        ("clearance", Subject::Valve(valve)) => valve.label().to_owned(),
        ("ventricle", Subject::Face(Face::Left)) => "LV".to_owned(),
        ("ventricle", Subject::Face(Face::Right)) => "RV".to_owned(),
        ("rim overlap" | "rim overlap to valve", _) => "rim overlap".to_owned(),
        _ => briefest(outcome),
    }
}
