//! The readings in the groups of a report, with what is missing, disputed, assumed.

use super::has_keys;
use super::lines::{self, first_shown};
use super::seen::Seen;
use crate::text::fitted;
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Feature, Law, Modality, Phase, Quantity, Reading, Unit};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use session::{Focus, Row, Session, Target, number};
use sizing::house_rules::RuleAddress;
use sizing::resolve::Basis;
use sizing::{Answer, Fact, State};
use unicode_width::UnicodeWidthStr;

/// Draws the list.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    seen.note(area, Target::Panel(Focus::Readings));
    let focused = has_keys(session, Focus::Readings);
    let open = session
        .rows()
        .iter()
        .filter(|row| session.is_open(row))
        .count();
    let entries = entries(session, &session.listed_rows());
    let is_selected = |entry: &Entry| matches!(entry, Entry::Row(row) if *row == session.view().selected[Focus::Readings]);
    let selected = entries.iter().position(is_selected).unwrap_or(0);
    let room = usize::from(area.height.saturating_sub(1));
    let first = first_shown(selected, entries.len(), room);
    let mut beside = Vec::new();
    if open > 0 {
        beside.push(format!("{open} missing"));
    }
    if entries.len() > room {
        beside.push(format!(
            "lines {}",
            lines::shown_of(first, room, entries.len())
        ));
    }
    let beside = beside.join(" · ");
    let area = lines::headed(frame, "Readings", &beside, focused, theme, area);
    let shown = entries.iter().skip(first).take(room);
    let mut rows = 0;
    for (line, entry) in shown.clone().enumerate() {
        if let Entry::Row(row) = entry {
            seen.note_line(area, line, Target::Line(Focus::Readings, *row));
            rows += 1;
        }
    }
    seen.visible.panels[Focus::Readings] = rows;
    let told = shown.map(|entry| entry.line(session, theme, focused, area.width));
    lines::draw(frame, told.collect(), area);
}

/// The whole list, every reading beneath its quantity.
pub(super) fn all(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let listed = session.listed_rows();
    let is_shown = |index: &usize| {
        listed.contains(index) || matches!(session.rows().get(*index), Some(Row::Reading(..)))
    };
    let rows: Vec<usize> = (0..session.rows().len()).filter(is_shown).collect();
    let entries = entries(session, &rows).into_iter();
    entries
        .map(|entry| entry.line(session, theme, false, width))
        .collect()
}

/// What counts of a quantity, in a few words.
pub(super) fn in_a_line(session: &Session, quantity: Quantity, theme: Theme) -> String {
    quantity_told(session, quantity, theme).value
}

/// A line of the list.
enum Entry {
    /// The heading of a group.
    Group(&'static str),
    /// A line of the readings, by its place among them.
    Row(usize),
    /// How many quantities are not listed.
    Unlisted(usize),
}

/// Lines of the readings under the headings of their groups.
fn entries(session: &Session, rows: &[usize]) -> Vec<Entry> {
    let mut entries = Vec::new();
    let mut heading = "";
    for &index in rows {
        let Some(row) = session.rows().get(index) else {
            continue;
        };
        if row.heading() != heading {
            heading = row.heading();
            entries.push(Entry::Group(heading));
        }
        entries.push(Entry::Row(index));
    }
    let unlisted = session.unlisted();
    if unlisted > 0 {
        entries.push(Entry::Unlisted(unlisted));
    }
    entries
}

impl Entry {
    fn line(&self, session: &Session, theme: Theme, focused: bool, width: u16) -> Line<'static> {
        let width = usize::from(width);
        let index = match *self {
            Self::Group(group) => return Line::styled(fitted(group, width), theme.heading(false)),
            Self::Unlisted(count) => {
                let find = session.key_of("find_quantity");
                let says = format!("  {count} more not measured: {find} finds one");
                return Line::styled(fitted(&says, width), theme.dim());
            }
            Self::Row(index) => index,
        };
        let Some(row) = session.rows().get(index) else {
            return Line::default();
        };
        let told = told(session, row, theme);
        let mut style = told.style;
        if index == session.view().selected[Focus::Readings] {
            style = style.patch(theme.selected(focused));
        }
        Line::from(Span::styled(told.in_columns(width), style))
    }
}

/// What a line says.
struct LineText {
    mark: &'static str,
    name: String,
    value: String,
    style: Style,
}

impl LineText {
    /// Mark and name, and the value at the right edge: it is never cut for the name.
    fn in_columns(&self, width: usize) -> String {
        let (name, value) = (visible(&self.name), visible(&self.value));
        let room = width.saturating_sub(self.mark.width() + 1);
        if value.is_empty() {
            return format!("{} {}", self.mark, fitted(&name, room));
        }
        let rest = room.saturating_sub(value.width() + 1);
        let text = format!("{} {} {value}", self.mark, fitted(&name, rest));
        fitted(&text, width)
    }
}

/// What a line says, and how.
fn told(session: &Session, row: &Row, theme: Theme) -> LineText {
    match row {
        Row::Quantity(quantity) => quantity_told(session, *quantity, theme),
        Row::Reading(id, quantity) => {
            let reading = session.document().reading(id);
            let (mark, style) =
                reading.map_or((" ", theme.dim()), |it| standing(session, it, theme));
            LineText {
                mark,
                name: reading.map_or_else(String::new, |it| {
                    let taken = format!("  {} {}", modality(it.modality), short_phase(it.phase));
                    taken.trim_end().to_owned()
                }),
                value: reading.map_or_else(String::new, |it| measured(session, it, *quantity)),
                style,
            }
        }
        Row::Absent(neighbour) => LineText {
            mark: "–",
            name: neighbour.name().replace('_', " "),
            value: "out of reach".to_owned(),
            style: theme.dim(),
        },
        Row::Fact(fact) => {
            let value = session.document().case().facts.get(*fact);
            let (mark, style) = match (value.is_unknown(), value.is_clear()) {
                (true, _) if session.is_open(row) => ("?", theme.state(State::Caution)),
                (true, _) => (" ", theme.dim()),
                (false, true) => (" ", theme.text()),
                (false, false) => ("✓", theme.strong()),
            };
            LineText {
                mark,
                name: short_fact(*fact).to_owned(),
                value: value.says(),
                style,
            }
        }
        Row::Finding(finding) => {
            let findings = &session.document().case().findings;
            let answer = findings.get(finding).copied().unwrap_or_default();
            let told = answered(finding.label(), answer, theme);
            match answer {
                Answer::Unknown => LineText {
                    mark: " ",
                    style: theme.dim(),
                    ..told
                },
                _ => told,
            }
        }
        Row::Exclusion(id) => {
            let case = session.document().case();
            let typed = case.exclusions.get(id).copied().unwrap_or_default();
            let answer = session.exclusion(id).map_or(typed, |one| one.answer);
            let exclusions = &session.document().rules().exclusions;
            let fact = exclusions
                .iter()
                .find(|one| one.id == *id)
                .map_or(id, |one| &one.fact);
            let mut told = answered(fact, answer, theme);
            if session.exclusion_is_of_before(id) {
                told.value.push_str(" (before)");
                told.style = theme.stale();
            } else if answer == Answer::Yes {
                told.style = theme.state(State::Stop);
            }
            told
        }
    }
}

/// A quantity with what counts of it; how many readings it has, where they stand
/// beneath it.
fn quantity_told(session: &Session, quantity: Quantity, theme: Theme) -> LineText {
    let document = session.document();
    let count = document.readings_of(quantity).count();
    if let Some(reading) = document.sole_reading(quantity) {
        let (mark, style) = standing(session, reading, theme);
        return LineText {
            mark,
            name: name(quantity, Some(reading.value)),
            value: measured(session, reading, quantity),
            style,
        };
    }
    let resolved = &session.setting().resolved()[quantity.index()];
    let mut told = unmeasured(session, quantity, theme);
    if let Some((selection, law)) = resolved.selection().zip(resolved.law) {
        told.value = value_with_sd(quantity, law.nominal(), law.sd());
        (told.mark, told.style) = if selection.fused.dispute.is_some() {
            ("≠", theme.state(State::Caution))
        } else if selection.pattern > 0 {
            ("!", theme.state(State::Caution))
        } else {
            (" ", theme.text())
        };
    }
    if count > 0 {
        told.name = format!("{} ({count})", told.name);
    }
    told
}

/// Value ± SD of a reading with its unit; `~` before an SD that is your centre's.
fn measured(session: &Session, reading: &Reading, quantity: Quantity) -> String {
    let unit = unit(quantity);
    let sd = reading.sd.map_or_else(
        || {
            let sd = sizing::resolve::assumed_sd(reading, session.document().rules());
            format!("~{}", rounded(quantity, sd))
        },
        |sd| rounded(quantity, sd),
    );
    format!("{} ± {sd}{unit}", number(quantity, reading.value))
}

/// The mark and style of a reading: set aside, not used, disputed or not measured the
/// preferred way.
fn standing(session: &Session, reading: &Reading, theme: Theme) -> (&'static str, Style) {
    let selection = session.setting().resolved()[reading.quantity.index()].selection();
    if reading.set_aside.is_some() {
        return ("×", theme.dim());
    }
    match selection {
        Some(selection) if !selection.used.contains(&reading.id) => ("·", theme.dim()),
        Some(selection) if selection.fused.dispute.is_some() => ("≠", theme.state(State::Caution)),
        Some(selection) if selection.pattern > 0 => ("!", theme.state(State::Caution)),
        Some(_) => (" ", theme.text()),
        None => ("·", theme.dim()),
    }
}

/// A quantity that was not measured: what serves in its place, or that nothing does.
fn unmeasured(session: &Session, quantity: Quantity, theme: Theme) -> LineText {
    let resolved = &session.setting().resolved()[quantity.index()];
    let is_open = session.is_open(&Row::Quantity(quantity));
    let (mark, value, style) = match &resolved.basis {
        Basis::Assumed { .. } => {
            let mut exceptions = session.document().case().exceptions.iter();
            let is_excepted = exceptions.any(|one| one.rule == RuleAddress::Assumed(quantity));
            let (mark, style) = if is_excepted {
                ("!", theme.state(State::Caution))
            } else {
                ("~", theme.dim())
            };
            let value = match resolved.law {
                Some(Law::Rectangular { .. }) => "any".to_owned(),
                // As it was built, before values below 0 are counted as 0.
                Some(Law::NormalAtLeastZero { mean, sd }) => value_with_sd(quantity, mean, sd),
                Some(law) => value_with_sd(quantity, law.nominal(), law.sd()),
                None => String::new(),
            };
            (mark, value, style)
        }
        Basis::Follows(other) => ("=", format!("as {}", other.short_name()), theme.dim()),
        Basis::Nil => ("=", format!("0{}, not seen", unit(quantity)), theme.dim()),
        _ if is_open => ("?", "missing".to_owned(), theme.state(State::Caution)),
        _ => (" ", "not measured".to_owned(), theme.dim()),
    };
    let is_any = matches!(resolved.law, Some(Law::Rectangular { .. }));
    let nominal = resolved.law.map(|law| law.nominal()).filter(|_| !is_any);
    LineText {
        mark,
        name: name(quantity, nominal),
        value,
        style,
    }
}

fn answered(label: &str, answer: Answer, theme: Theme) -> LineText {
    let (mark, style) = match answer {
        Answer::Yes => ("✓", theme.strong()),
        Answer::No => (" ", theme.text()),
        Answer::Unknown => ("?", theme.state(State::Caution)),
    };
    LineText {
        mark,
        name: label.to_owned(),
        value: answer.to_string(),
        style,
    }
}

/// A fact in the words of a list.
const fn short_fact(fact: Fact) -> &'static str {
    match fact {
        Fact::Round => "round, one plane",
        Fact::Prolapse => "cusp prolapse",
        Fact::AorticRegurgitation => "aortic regurgitation",
        Fact::PulmonaryRegurgitation => "pulmonary regurgitation",
        Fact::Pouch => "pouch of tissue",
        Fact::Holes => "number of defects",
        Fact::BandInTheWay => "muscle in the way",
        Fact::MitralChordae => "mitral chordae",
        Fact::TricuspidChordae => "tricuspid chordae",
        Fact::Conduction => "conduction before",
    }
}

/// A value and its SD with their unit.
fn value_with_sd(quantity: Quantity, value: f64, sd: f64) -> String {
    let unit = unit(quantity);
    format!(
        "{} ± {}{unit}",
        rounded(quantity, value),
        rounded(quantity, sd)
    )
}

/// A value with the decimals of its fine step, and one more where that leaves nothing.
fn rounded(quantity: Quantity, value: f64) -> String {
    let decimals = match quantity.info().steps.0 {
        fine if fine >= 1.0 => 0,
        fine if fine >= 0.1 => 1,
        _ => 2,
    };
    let text = format!("{value:.decimals$}");
    let is_nothing = value != 0.0 && text.parse() == Ok(0.0);
    if is_nothing {
        let decimals = decimals + 1;
        return format!("{value:.decimals$}");
    }
    text
}

/// The name of a quantity, and where its value points on the clock.
fn name(quantity: Quantity, value: Option<f64>) -> String {
    /// Degrees of an hour on the clock.
    const HOUR: f64 = 30.0;
    let name = quantity.short_name();
    let is_on_clock = matches!(
        quantity.info().feature,
        Feature::Rotation | Feature::ClockPosition
    );
    match value.filter(|_| is_on_clock) {
        Some(value) => {
            let hour = (value / HOUR).round().rem_euclid(12.0);
            let hour = if hour == 0.0 { 12.0 } else { hour };
            format!("{name}, {hour} o'clock")
        }
        None => name,
    }
}

/// The unit behind a number; a ratio has none.
fn unit(quantity: Quantity) -> String {
    match quantity.unit() {
        Unit::Ratio => String::new(),
        Unit::Degrees => "°".to_owned(),
        unit => format!(" {}", unit.symbol()),
    }
}

/// A phase as it is written on echo images.
const fn short_phase(phase: Phase) -> &'static str {
    match phase {
        Phase::Diastole => "dia",
        Phase::EndDiastole => "ED",
        Phase::Systole => "sys",
        Phase::EndSystole => "ES",
        Phase::AnyPhase => "",
    }
}

/// A modality in a word.
pub(super) const fn modality(modality: Modality) -> &'static str {
    match modality {
        Modality::TransthoracicEcho => "TTE",
        Modality::TransoesophagealEcho => "TOE",
        Modality::ThreeDimensionalEcho => "3-D",
        Modality::Angiography => "angio",
        Modality::ComputedTomography => "CT",
        Modality::MagneticResonance => "MR",
        Modality::Catheter => "catheter",
        Modality::Bedside => "bedside",
    }
}
