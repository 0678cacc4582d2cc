//! The status line and the keys that work now.

use super::lines;
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::visible;
use measurement::Modality;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use session::{Focus, Hint, Overlay, Row, Session, Status, amount};
use sizing::State;
use unicode_width::UnicodeWidthStr;

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
        Some(Status::Undone(what)) => (format!("↶ taken back: {what}"), theme.text()),
        Some(Status::Refused(why)) => (format!("! {why}"), theme.state(State::Caution)),
        None if session.says_it_works() => (working(session), theme.dim()),
        None => (detail(session), theme.dim()),
    };
    Line::styled(fitted(&visible(&text), usize::from(width)), style)
}

/// What is being worked out, and how far it has come.
fn working(session: &Session) -> String {
    let results = session.results();
    if !results.is_awaited() {
        return "… working on this page; any change stops it".to_owned();
    }
    let draws = results
        .assessed()
        .filter(|it| !results.is_of_before(it.generation))
        .map_or(0, |it| it.draws);
    let all = session::Request::STAGES.last().copied().unwrap_or(0);
    format!("… ranking: {draws} of {all} draws; any change stops it")
}

/// Where nothing else is to be said: what the selected line is and why it is
/// asked.
fn detail(session: &Session) -> String {
    if let Some(Overlay::Guide(_)) = session.overlays().last() {
        return "each answer is in the case at once; what is left out stays open".to_owned();
    }
    let of_panel = match session.view().focus {
        Focus::Readings => None,
        Focus::Bays if !session.view().is_presented() => {
            Some("bar: margin to the nearer limit, right of its line it holds; = alike in all")
        }
        Focus::WorkUp => Some("what published limits say; the decision is the clinicians'"),
        Focus::Rules => Some("each rule with its source; an exception is of this case alone"),
        Focus::Shelf if !session.keeps_shelf() => {
            Some("changes are lost when the program ends; what came stays as it came")
        }
        Focus::Shelf => Some("changes are kept in your own catalogue; what came stays as it came"),
        Focus::Bays | Focus::Ranking | Focus::Doubt | Focus::FitMap => {
            Some("inside limits: by geometry alone, not the chance of a good procedure")
        }
    };
    if let Some(says) = of_panel {
        return says.to_owned();
    }
    let Some(row) = session.row() else {
        return String::new();
    };
    let Some(quantity) = row.quantity() else {
        return "space: yes, no or unknown".to_owned();
    };
    let why = quantity.info().why;
    let reading = match row {
        Row::Reading(id, _) => session.document().reading(id),
        _ => None,
    };
    // On the drawing alone, which a nudge moves, the list is not seen.
    let is_alone = session.overlays().contains(&Overlay::Drawing);
    let value = reading
        .filter(|_| is_alone)
        .map_or_else(String::new, |it| format!(" {}", amount(quantity, it.value)));
    let how = reading.map(|reading| {
        let words = [
            modality(reading.modality),
            reading.side.label(),
            reading.phase.label(),
            reading.method.label(),
        ];
        let image = reading.image.as_deref().unwrap_or_default();
        let told = words
            .into_iter()
            .chain([image])
            .filter(|word| !word.is_empty());
        told.collect::<Vec<_>>().join(", ")
    });
    how.map_or_else(
        || format!("{quantity}: {why}"),
        |how| format!("{quantity}{value}: {how} · {why}"),
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
