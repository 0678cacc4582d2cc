//! A page too small for panels: the essentials, line by line.

use super::header::guidance;
use super::lines;
use super::ranking::chance;
use crate::text::{fitted, wrapped};
use crate::told;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use session::{Session, amount};
use sizing::{Outcome, State, device_name};
use unicode_width::UnicodeWidthStr;

/// What is told, the last to go first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Need {
    Caution,
    Guidance,
    AvBlock,
    Candidate,
    Because,
    Headline,
    Exceptions,
    Reading,
}

/// Draws as many of the essentials as there are lines for; the least needed go first.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    let told = essentials(session, theme, usize::from(area.width));
    lines::draw(frame, within(told, usize::from(area.height)), area);
}

/// The lines that have room, in their order.
fn within(mut told: Vec<(Need, Line<'static>)>, room: usize) -> Vec<Line<'static>> {
    while told.len() > room {
        let least = told.iter().map(|(need, _)| *need).max();
        let last = told.iter().rposition(|(need, _)| Some(*need) == least);
        told.remove(last.unwrap_or_default());
    }
    told.into_iter().map(|(_, line)| line).collect()
}

/// The essentials, line by line.
fn essentials(session: &Session, theme: Theme, width: usize) -> Vec<(Need, Line<'static>)> {
    let mut told = Vec::new();
    let mut say = |need, says: &str, most, style| {
        let lines = wrapped(&visible(says), width).into_iter().take(most);
        told.extend(lines.map(|line| (need, Line::styled(line, style))));
    };
    if let Some(candidate) = session.candidate() {
        let verdict = candidate.judged.verdict;
        let (glyph, name) = (told::verdict_glyph(verdict), device_name(&candidate.name()));
        let text = format!("{glyph} {name} {} {}", verdict.word(), chance(candidate));
        let short = format!("{glyph} {} {name}", chance(candidate));
        let text = if text.width() <= width {
            text
        } else {
            fitted(&short, width)
        };
        say(Need::Candidate, &text, 1, theme.verdict(verdict));
        let av_block = told::av_block(candidate).map(Outcome::says_with_limit);
        if let Some(because) = candidate.judged.because.first()
            && av_block.as_ref() != Some(because)
        {
            say(Need::Because, because, 2, theme.text());
        }
        if let Some(says) = av_block {
            let style = theme.state(State::Caution);
            say(Need::AvBlock, &format!("! {says}"), 2, style);
        }
    } else {
        say(Need::Candidate, "assessing …", 1, theme.dim());
    }
    if let Some(says) = guidance(session) {
        say(Need::Guidance, &says, 2, theme.state(State::Stop));
    }
    for says in session.setting().exceptions() {
        let says = fitted(&visible(&format!("! exception: {says}")), width);
        say(Need::Exceptions, &says, 1, theme.state(State::Caution));
    }
    if let Some(text) = reading(session) {
        let text = fitted(&visible(&text), width);
        say(Need::Reading, &text, 1, theme.selected(true));
    }
    let headline = session.headline().unwrap_or_default();
    if !headline.is_empty() {
        say(Need::Headline, &headline, usize::MAX, theme.text());
    }
    let caution = fitted("not an order to close or release; ? keys, q leave", width);
    told.push((Need::Caution, Line::styled(caution, theme.text())));
    told
}

/// The selected reading, or what counts of the selected quantity.
fn reading(session: &Session) -> Option<String> {
    let row = session.row()?;
    let quantity = row.quantity()?;
    let law = session.setting().resolved()[quantity.index()].law;
    let counts = law.map(|law| (10.0 * law.nominal()).round() / 10.0);
    let value = session.reading_of(row).map(|reading| reading.value);
    Some(match value.or(counts) {
        Some(value) => format!("{quantity} {}", amount(quantity, value)),
        None => format!("{quantity} not measured"),
    })
}
