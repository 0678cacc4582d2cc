//! The status line and the keys that work now.

use super::lines;
use super::readings::{self, modality};
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Quantity, Reading};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Hint, Overlay, Row, Session, Status, TrialRow, amount};
use sizing::State;
use unicode_width::UnicodeWidthStr;
use workup::Figure;

/// Its lines.
pub(super) const HEIGHT: u16 = 2;

/// Draws status and keys.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    let mut told = refused(session, theme, area.width);
    if told.len() < usize::from(HEIGHT) {
        told = vec![
            status(session, theme, area.width),
            keys(session, theme, area.width),
        ];
    }
    lines::draw(frame, told, area);
}

/// Why something was not done, whole: what to do about it stands at its end.
fn refused(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let Some(Status::Refused(why)) = session.status() else {
        return Vec::new();
    };
    let lines = wrapped(&visible(&format!("! {why}")), usize::from(width));
    let style = theme.state(State::Caution);
    lines
        .into_iter()
        .map(|line| Line::styled(line, style))
        .collect()
}

fn status(session: &Session, theme: Theme, width: u16) -> Line<'static> {
    let (text, style) = match session.status() {
        Some(Status::Done(what)) => (format!("✓ {what}"), theme.text()),
        Some(Status::Undone(what)) => (format!("↶ undone: {what}"), theme.text()),
        Some(Status::Refused(why)) => (format!("! {why}"), theme.state(State::Caution)),
        None if matches!(session.overlays().last(), Some(Overlay::Lesson(_))) => {
            (String::new(), theme.dim())
        }
        None if session.says_it_works() => (working(session), theme.dim()),
        None if is_folded(session) => (detail(session), theme.selected(true)),
        None => (detail(session), theme.dim()),
    };
    Line::styled(fitted(&visible(&text), usize::from(width)), style)
}

/// What is being worked out, and how far it has come.
fn working(session: &Session) -> String {
    let results = session.results();
    if !results.is_awaited() {
        return "… working on this page; any change starts it again".to_owned();
    }
    let draws = results
        .assessed()
        .filter(|it| !results.is_of_before(it.generation))
        .map_or(0, |it| it.draws);
    let all = session::Request::STAGES.last().copied().unwrap_or(0);
    format!("… ranking with {draws} of {all} simulated variations")
}

/// What pressures and flow of the case give for a resistance that a report gives too;
/// `None` where the report's is all there is.
fn worked_out(session: &Session, quantity: Quantity) -> Option<String> {
    let (worked_out, reported) = match quantity {
        Quantity::PULMONARY_RESISTANCE_INDEXED => (
            Figure::PulmonaryResistanceIndexed,
            Figure::PulmonaryResistanceReported,
        ),
        Quantity::SYSTEMIC_RESISTANCE_INDEXED => (
            Figure::SystemicResistanceIndexed,
            Figure::SystemicResistanceReported,
        ),
        _ => return None,
    };
    let page = &session.results().worked_up()?.page;
    let amount = |figure: Figure| {
        let mut lines = page.sections.iter().flat_map(|section| &section.lines);
        lines.find(|line| line.id == figure.info().id)?.amount
    };
    let by_flow = amount(worked_out)?;
    let is_other = amount(reported).is_none_or(|reported| reported.value != by_flow.value);
    let (value, unit) = (by_flow.number(by_flow.value), by_flow.unit.symbol());
    is_other.then(|| format!("{value} {unit} by the pressures and flow of the case"))
}

/// Where nothing else is to be said: what the selected line is and why it is
/// asked.
fn detail(session: &Session) -> String {
    if let Some(Overlay::Guide(_)) = session.overlays().last() {
        return "each answer counts at once; a question left out stays open".to_owned();
    }
    // Nothing of the case under a lesson stands beside that of the lesson.
    if let Some(Overlay::Lesson(_) | Overlay::Why(_)) = session.overlays().last() {
        return String::new();
    }
    let of_panel = match session.view().focus {
        Focus::Readings => None,
        Focus::Bays if !session.view().is_presented() => Some(
            "the bar is the margin to the nearer limit, right of the line inside it; = the same in all",
        ),
        Focus::WorkUp => Some("what published guidance says; the clinicians decide"),
        Focus::Rules => Some("each rule with its source; an exception counts for this case alone"),
        Focus::Shelf if !session.keeps_shelf() => {
            Some("changes last until the program ends; the shipped catalogue stays as it is")
        }
        Focus::Before => Some("written before the procedure; nothing here is judged but by you"),
        Focus::Trials => return of_row(session),
        Focus::FollowUp => Some("days after the procedure; nothing counts before Enter"),
        Focus::Shelf => Some("changes go into your own catalogue; the shipped one stays as it is"),
        Focus::Bays | Focus::Ranking | Focus::Doubt | Focus::FitMap => {
            Some("inside limits by geometry alone; this is not the chance of a good procedure")
        }
    };
    if let Some(says) = of_panel {
        return says.to_owned();
    }
    let Some(row) = session.row() else {
        return String::new();
    };
    let answers = session.key_of("answer");
    let Some(quantity) = row.quantity() else {
        return match row {
            Row::Exclusion(id) => {
                let mut all = session.document().rules().exclusions.iter();
                let fact = all.find(|one| one.id == *id).map_or(id, |one| &one.fact);
                format!("{fact}: {answers} answers yes, no or unknown")
            }
            Row::Finding(finding) => {
                format!("{}: {answers} answers yes, no or unknown", finding.label())
            }
            Row::Fact(fact) => format!("{}: {answers} goes through the answers", fact.label()),
            _ => String::new(),
        };
    };
    let why = worked_out(session, quantity).unwrap_or_else(|| quantity.info().why.to_owned());
    // On the drawing alone, which a nudge moves, and where the list is folded to its
    // selected line, no list tells the value.
    let is_alone = session.overlays().contains(&Overlay::Drawing) || is_folded(session);
    let reading = match row {
        Row::Quantity(quantity) => session.document().sole_reading(*quantity),
        row => session.reading_of(row),
    };
    let Some(reading) = reading else {
        return match counted(session, quantity) {
            counted if counted.is_empty() => format!("{quantity}: {why}"),
            counted if is_alone => {
                let value = readings::in_a_line(session, quantity, Theme::of(session.view().looks));
                format!("{quantity} {value}: {counted}")
            }
            counted => format!("{quantity}: {counted} · {why}"),
        };
    };
    let value = if is_alone {
        format!(" {}", amount(quantity, reading.value))
    } else {
        String::new()
    };
    format!("{quantity}{value}: {} · {why}", how_taken(reading))
}

/// Whether the selected reading has this line alone.
fn is_folded(session: &Session) -> bool {
    let view = session.view();
    let is_of_readings = view.focus == Focus::Readings && session.overlays().is_empty();
    is_of_readings && view.visible.readings_lie_over && !view.lists_readings()
}

/// How, where and when a reading was taken, and why it is set aside.
fn how_taken(reading: &Reading) -> String {
    let words = [
        modality(reading.modality),
        reading.side.label(),
        reading.phase.label(),
        reading.method.label(),
        reading.image.as_deref().unwrap_or_default(),
    ];
    let told = words.into_iter().filter(|word| !word.is_empty());
    let how = told.collect::<Vec<_>>().join(", ");
    match &reading.set_aside {
        Some(why) => format!("{how} · set aside: {why}"),
        None => how,
    }
}

/// Which readings count of a quantity that has several.
fn counted(session: &Session, quantity: Quantity) -> String {
    let resolved = &session.setting().resolved()[quantity.index()];
    let Some(selection) = resolved.selection() else {
        return String::new();
    };
    let used = selection.used.iter().filter_map(|id| {
        let reading = session.document().reading(id)?;
        let value = amount(quantity, reading.value);
        Some(format!("{} {value}", modality(reading.modality)))
    });
    let used: Vec<String> = used.collect();
    let disputed = if selection.fused.dispute.is_some() {
        ", in dispute"
    } else {
        ""
    };
    let others = session.document().readings_of(quantity).count() - used.len();
    let others = match others {
        0 => String::new(),
        others => format!("; {others} not used"),
    };
    format!("{} counts{disputed}{others}", used.join(" with "))
}

/// Who looks at the selected row of the trials, and how.
fn of_row(session: &Session) -> String {
    let procedure = &session.document().case().procedure;
    let size = procedure.open().map(|open| open.size.as_str());
    let mut criteria = procedure.criteria_of(size.unwrap_or_default());
    let found = match session.trial_row() {
        Some(TrialRow::Observation(what, of)) => {
            criteria.find(|one| one.row == what && one.of == of)
        }
        _ => None,
    };
    found.map_or_else(
        || "nothing counts before Enter; u takes it back".to_owned(),
        |one| match one.bounds.says_beyond(one.row) {
            Some(beyond) => format!("{beyond} · {}, {}", one.who, one.view),
            None => format!("{}, {}", one.who, one.view),
        },
    )
}

/// The keys that work now, as many as there is room for.
pub(super) fn keys(session: &Session, theme: Theme, width: u16) -> Line<'static> {
    let hints = session.footer();
    let takes = |hint: &Hint| hint.key.width() + hint.does.width() + BETWEEN.width() + 1;
    // The last hint tells where all others are: it is always shown.
    let mut room = usize::from(width).saturating_sub(hints.last().map_or(0, takes));
    let mut spans = Vec::new();
    for (index, hint) in hints.iter().enumerate() {
        let is_last = index + 1 == hints.len();
        if !is_last && takes(hint) > room {
            continue;
        }
        if !is_last {
            room -= takes(hint);
        }
        spans.push(Span::styled(hint.key.clone(), theme.strong()));
        spans.push(Span::styled(
            format!(" {}{BETWEEN}", hint.does),
            theme.text(),
        ));
    }
    Line::from(spans)
}

/// What stands between two hints.
const BETWEEN: &str = "   ";
