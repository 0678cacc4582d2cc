//! The readings, grouped by structure, with what is missing, disputed, assumed.

use super::footer::modality;
use super::has_keys;
use super::lines::{self, first_shown};
use super::seen::Seen;
use crate::text::fitted;
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Law, Phase, Quantity, Reading};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use session::{Focus, Row, Session, Target};
use sizing::house_rules::RuleAddress;
use sizing::resolve::Basis;
use sizing::{Answer, State};

/// Columns of a line's name.
const NAME: usize = 17;

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
    let beside = if open == 0 {
        String::new()
    } else {
        format!("{open} missing")
    };
    let area = lines::headed(frame, "Readings", &beside, focused, theme, area);
    let entries = entries(session);
    let is_selected = |entry: &Entry| matches!(entry, Entry::Row(row) if *row == session.view().selected[Focus::Readings]);
    let selected = entries.iter().position(is_selected).unwrap_or(0);
    let room = usize::from(area.height);
    let first = first_shown(selected, entries.len(), room);
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

/// The whole list.
pub(super) fn all(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let entries = entries(session).into_iter();
    entries
        .map(|entry| entry.line(session, theme, false, width))
        .collect()
}

/// A line of the list.
enum Entry {
    /// The heading of a group.
    Group(&'static str),
    /// A line of the readings, by its place among them.
    Row(usize),
}

/// Every line of the readings under the headings of their groups.
fn entries(session: &Session) -> Vec<Entry> {
    let mut entries = Vec::new();
    let mut group = "";
    for (index, row) in session.rows().iter().enumerate() {
        let its = group_of(row);
        if its != group {
            entries.push(Entry::Group(its));
            group = its;
        }
        entries.push(Entry::Row(index));
    }
    entries
}

impl Entry {
    fn line(&self, session: &Session, theme: Theme, focused: bool, width: u16) -> Line<'static> {
        let index = match *self {
            Self::Group(group) => return Line::styled(group.replace('_', " "), theme.dim()),
            Self::Row(index) => index,
        };
        let Some(row) = session.rows().get(index) else {
            return Line::default();
        };
        let (mark, name, value, mut style) = told(session, row, theme);
        if index == session.view().selected[Focus::Readings] {
            style = style.patch(theme.selected(focused));
        }
        let text = format!("{mark} {} {value}", fitted(&visible(&name), NAME));
        let text = fitted(&visible(&text), usize::from(width));
        Line::from(Span::styled(text, style))
    }
}

/// The heading a line stands under: its structure.
fn group_of(row: &Row) -> &'static str {
    match row {
        Row::Reading(_, quantity) | Row::Unread(quantity) => {
            let address = quantity.address();
            address.split_once('.').map_or(address, |(group, _)| group)
        }
        Row::Absent(_) => "out of reach of any disc",
        Row::Fact(_) => "facts",
        Row::Exclusion(_) => "exclusions: a yes stops every shape",
        Row::Finding(_) => "findings, for the work-up",
    }
}

/// Mark, name, value and style of a line.
fn told(session: &Session, row: &Row, theme: Theme) -> (&'static str, String, String, Style) {
    match row {
        Row::Reading(id, quantity) => {
            let reading = session.document().reading(id);
            reading.map_or_else(
                || (" ", String::new(), String::new(), theme.text()),
                |reading| read(session, reading, *quantity, theme),
            )
        }
        Row::Unread(quantity) => unread(session, *quantity, theme),
        Row::Absent(neighbour) => (
            "–",
            neighbour.name().replace('_', " "),
            "out of reach".to_owned(),
            theme.dim(),
        ),
        Row::Fact(fact) => {
            let value = session.document().case().facts.get(*fact);
            let (mark, style) = match (value.is_unknown(), value.is_clear()) {
                (true, _) if session.is_open(row) => ("?", theme.state(State::Caution)),
                (true, _) => (" ", theme.dim()),
                (false, true) => (" ", theme.text()),
                (false, false) => ("✓", theme.strong()),
            };
            (mark, value.says(), fact.label().to_owned(), style)
        }
        Row::Finding(finding) => {
            let findings = &session.document().case().findings;
            let answer = findings.get(finding).copied().unwrap_or_default();
            let (mark, name, value, style) = answered(finding.label(), answer, theme);
            match answer {
                Answer::Unknown => (" ", name, value, theme.dim()),
                _ => (mark, name, value, style),
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
            let (mark, name, value, style) = answered(fact, answer, theme);
            let grave = if answer == Answer::Yes {
                theme.state(State::Stop)
            } else {
                style
            };
            if session.exclusion_is_of_before(id) {
                return (mark, name, format!("{value} (before)"), theme.stale());
            }
            (mark, name, value, grave)
        }
    }
}

/// A reading: value ± SD, how and when; set aside, disputed or second choice.
fn read(
    session: &Session,
    reading: &Reading,
    quantity: Quantity,
    theme: Theme,
) -> (&'static str, String, String, Style) {
    let unit = quantity.unit().symbol();
    let sd = reading.sd.map_or_else(
        || {
            let sd = sizing::resolve::assumed_sd(reading, session.document().rules());
            // No more digits than an assumption carries.
            let tenths = (10.0 * sd).round() / 10.0;
            format!("~{}", figure(if sd < 0.1 { sd } else { tenths }))
        },
        figure,
    );
    let when = short_phase(reading.phase);
    let value = format!(
        "{} ± {sd} {unit}  {} {when}",
        figure(reading.value),
        modality(reading.modality)
    );
    let selection = session.setting().resolved()[quantity.index()].selection();
    let (mark, style) = if reading.set_aside.is_some() {
        ("×", theme.dim())
    } else if let Some(selection) = selection {
        if !selection.used.contains(&reading.id) {
            ("·", theme.dim())
        } else if selection.fused.dispute.is_some() {
            ("≠", theme.state(State::Caution))
        } else if selection.place > 0 {
            ("!", theme.state(State::Caution))
        } else {
            (" ", theme.text())
        }
    } else {
        ("·", theme.dim())
    };
    (mark, feature(quantity), value, style)
}

/// A quantity nobody read: what serves in its place, or that nothing does.
fn unread(
    session: &Session,
    quantity: Quantity,
    theme: Theme,
) -> (&'static str, String, String, Style) {
    let unit = quantity.unit().symbol();
    let resolved = &session.setting().resolved()[quantity.index()];
    match &resolved.basis {
        Basis::Assumed { .. } => {
            let mut exceptions = session.document().case().exceptions.iter();
            let (mark, word, style) =
                if exceptions.any(|one| one.rule == RuleAddress::Assumed(quantity)) {
                    ("!", "exception", theme.state(State::Caution))
                } else {
                    ("~", "assumed", theme.dim())
                };
            let value = match resolved.law {
                Some(Law::Rectangular { .. }) => format!("any  {word}"),
                // As it was built, before values below 0 are counted as 0.
                Some(Law::NormalAtLeastZero { mean, sd }) => {
                    format!("{} ± {} {unit}  {word}", figure(mean), figure(sd))
                }
                Some(law) => {
                    let (value, sd) = (figure(law.nominal()), figure(law.sd()));
                    format!("{value} ± {sd} {unit}  {word}")
                }
                None => String::new(),
            };
            (mark, feature(quantity), value, style)
        }
        Basis::Follows(other) => (
            "=",
            feature(quantity),
            format!("as {}", address(*other)),
            theme.dim(),
        ),
        Basis::Nil => (
            "=",
            feature(quantity),
            format!("0 {unit}, not seen"),
            theme.dim(),
        ),
        _ if session.is_open(&Row::Unread(quantity)) => (
            "?",
            feature(quantity),
            "missing".to_owned(),
            theme.state(State::Caution),
        ),
        _ => (" ", feature(quantity), "not read".to_owned(), theme.dim()),
    }
}

fn answered(label: &str, answer: Answer, theme: Theme) -> (&'static str, String, String, Style) {
    let (mark, style) = match answer {
        Answer::Yes => ("✓", theme.strong()),
        Answer::No => (" ", theme.text()),
        Answer::Unknown => ("?", theme.state(State::Caution)),
    };
    (mark, answer.to_string(), label.to_owned(), style)
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

fn address(quantity: Quantity) -> String {
    quantity.address().replace(['.', '_'], " ")
}

fn feature(quantity: Quantity) -> String {
    quantity
        .address()
        .split('.')
        .nth(1)
        .unwrap_or_default()
        .replace('_', " ")
}

/// A figure without zeros that say nothing.
fn figure(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
