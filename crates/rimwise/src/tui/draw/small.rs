//! A page too small for panels: the essentials, line by line.

use super::lines;
use super::ranking::chance;
use crate::text::{fitted, wrapped};
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use session::{Row, Session};
use sizing::State;
use unicode_width::UnicodeWidthStr;

/// Draws as many of the essentials as there are lines for, the most needed first.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    let width = usize::from(area.width);
    let mut told = Vec::new();
    if let Some(candidate) = session.candidate() {
        let verdict = candidate.judged.verdict;
        let short = format!(
            "{} {} {}",
            told::verdict_glyph(verdict),
            chance(candidate),
            candidate.name()
        );
        let text = format!(
            "{} {} {} {}",
            told::verdict_glyph(verdict),
            candidate.name(),
            verdict.word(),
            chance(candidate)
        );
        let text = if text.width() <= width { text } else { short };
        told.push(Line::styled(
            fitted(&visible(&text), width),
            theme.verdict(verdict),
        ));
        if let Some(because) = candidate.judged.because.first() {
            let because = wrapped(&visible(because), usize::from(area.width));
            told.extend(
                because
                    .into_iter()
                    .take(2)
                    .map(|line| Line::styled(line, theme.text())),
            );
        }
    } else {
        told.push(Line::styled(fitted("assessing …", width), theme.dim()));
    }
    for says in session.setting().exceptions() {
        let says = format!("! exception: {says}");
        told.push(Line::styled(
            fitted(&visible(&says), width),
            theme.state(State::Caution),
        ));
    }
    if let Some(text) = reading(session) {
        told.push(Line::styled(
            fitted(&visible(&text), width),
            theme.selected(true),
        ));
    }
    let headline = session.headline().unwrap_or_default();
    let headline = wrapped(&visible(&headline), usize::from(area.width));
    told.extend(
        headline
            .into_iter()
            .map(|line| Line::styled(line, theme.text())),
    );
    told.push(Line::styled(
        fitted("not an order to close or release; ? keys, q leave", width),
        theme.dim(),
    ));
    lines::draw(frame, told, area);
}

/// The selected reading.
fn reading(session: &Session) -> Option<String> {
    match session.row()? {
        Row::Reading(id, quantity) => {
            let reading = session.document().reading(id)?;
            Some(format!(
                "{} {} {}",
                quantity.address(),
                reading.value,
                quantity.unit().symbol()
            ))
        }
        row => row
            .quantity()
            .map(|quantity| format!("{} not read", quantity.address())),
    }
}
