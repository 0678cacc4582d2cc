//! The work-up at a glance: what speaks for closing and what against, the circulation,
//! what is not measured, what does not add up. The lines below have the detail.

use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;
use workup::{Bearing, State, Workup};

/// Columns before the sentences.
const HEAD: usize = 19;

/// The sentences, each behind its head.
pub(super) fn lines(page: &Workup, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let met = |bearings: &[Bearing]| {
        labels(page, "published", |line| {
            let bears = line.bearing.is_some_and(|one| bearings.contains(&one));
            line.state == State::Met && bears
        })
    };
    let for_it = met(&[Bearing::ForClosing]);
    let against = met(&[Bearing::AgainstClosing]);
    let besides = met(&[Bearing::OfTheWay, Bearing::Before]);
    let unknown = labels(page, "not_measured", |_| true);
    let contradictions = labels(page, "contradictions", |_| true);
    let parts = [
        ("For closing", none_or(&for_it, "no guidance is met")),
        ("Against closing", none_or(&against, "no guidance is met")),
        ("Other guidance", none_or(&besides, "none is met")),
        ("Circulation", none_or(&figures(page), "nothing measured")),
        ("Not measured", none_or(&unknown, "nothing is missing")),
        (
            "Does not add up",
            none_or(&contradictions, "no contradiction in what was measured"),
        ),
    ];
    let mut lines = Vec::new();
    for (head, text) in parts {
        let text = visible(&text);
        let room = usize::from(width).saturating_sub(HEAD);
        for (index, part) in wrapped(&text, room).into_iter().enumerate() {
            let head = if index == 0 { head } else { "" };
            let gap = " ".repeat(HEAD.saturating_sub(head.width()));
            lines.push(Line::from(vec![
                Span::styled(head, theme.strong()),
                Span::styled(format!("{gap}{part}"), theme.text()),
            ]));
        }
    }
    lines.push(Line::raw(""));
    lines
}

fn none_or(texts: &[String], none: &str) -> String {
    if texts.is_empty() {
        format!("{none}.")
    } else {
        format!("{}.", texts.join("; "))
    }
}

/// The labels of some of a section's lines.
fn labels(page: &Workup, section: &str, is_told: impl Fn(&workup::Line) -> bool) -> Vec<String> {
    let lines = page.section(section).map(|it| it.lines.as_slice());
    let lines = lines.unwrap_or_default().iter();
    let told = lines.filter(|line| is_told(line));
    told.map(|line| line.label.clone()).collect()
}

/// The figures of the circulation with their intervals.
fn figures(page: &Workup) -> Vec<String> {
    let lines = page.section("indication").map(|it| it.lines.as_slice());
    let lines = lines.unwrap_or_default().iter();
    let figures = lines.filter(|line| line.amount.is_some());
    figures
        .map(|line| format!("{} {}", line.label, line.told()))
        .collect()
}
