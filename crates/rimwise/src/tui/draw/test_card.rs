//! What a terminal and its font make of dots, styles and widths, on one screen.

use super::footer;
use super::lines;
use crate::told;
use crate::tui::theme::Theme;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use ratatui::widgets::canvas::{Canvas, Circle, Line as Stroke};
use session::{Dots, Looks, Session};
use sizing::{State, Verdict};
use unicode_width::UnicodeWidthStr;

/// Texts of characters of every width; the mark behind them stands in one column.
const WIDTHS: [(&str, &str); 4] = [
    ("plain", "aortic rim"),
    ("wide", "心室中隔"),
    ("marks", "e\u{301}a\u{308}o\u{302}"),
    ("signs", "≤ ± → ● ◐ ○ ✓ ✗ ≠"),
];
/// Columns of a text of them.
const TEXT: usize = 20;

/// Draws the card over the whole page.
pub(super) fn draw(frame: &mut Frame, session: &Session, theme: Theme, area: Rect) {
    frame.render_widget(Clear, area);
    let beside = "each circle round, each bar in one column";
    let area = lines::headed(frame, "Test card", beside, true, theme, area);
    let told = [states(theme), verdicts(theme), styles(theme)];
    let told: Vec<Line> = told.into_iter().chain(WIDTHS.map(width)).collect();
    let height = u16::try_from(told.len()).unwrap_or(u16::MAX);
    let [pictures, said, foot] = Layout::vertical([
        Constraint::Min(1),
        Constraint::Length(height),
        Constraint::Length(1),
    ])
    .areas(area);
    let columns = Layout::horizontal(Dots::ALL.map(|_| Constraint::Fill(1))).spacing(1);
    for ((name, dots), room) in Dots::ALL.into_iter().zip(columns.split(pictures).iter()) {
        let looks = Looks {
            dots,
            ..session.view().looks
        };
        picture(frame, name, Theme::of(looks), *room);
    }
    lines::draw(frame, told, said);
    lines::draw(frame, vec![footer::keys(session, theme, foot.width)], foot);
}

/// A circle with a line through it, under the name of its dots.
fn picture(frame: &mut Frame, name: &'static str, theme: Theme, room: Rect) {
    let [head, body] = Layout::vertical([Constraint::Length(1), Constraint::Min(1)]).areas(room);
    lines::draw(frame, vec![Line::styled(name, theme.strong())], head);
    if body.is_empty() {
        return;
    }
    // A cell is twice as high as wide.
    let (across, down) = (f64::from(body.width), 2.0 * f64::from(body.height));
    let radius = 0.45 * across.min(down);
    let colour = theme.text().fg.unwrap_or_default();
    let card = Canvas::default()
        .marker(theme.marker())
        .x_bounds([-0.5 * across, 0.5 * across])
        .y_bounds([-0.5 * down, 0.5 * down])
        .paint(move |context| {
            context.draw(&Circle::new(0.0, 0.0, radius, colour));
            context.draw(&Stroke::new(-radius, -radius, radius, radius, colour));
        });
    frame.render_widget(card, body);
}

fn states(theme: Theme) -> Line<'static> {
    let all = [State::Ok, State::Caution, State::Stop, State::NotAssessed];
    let said = |state: State| {
        let text = format!("{} {}  ", told::state_glyph(state), state.word());
        Span::styled(text, theme.state(state))
    };
    Line::from(all.map(said).to_vec())
}

fn verdicts(theme: Theme) -> Line<'static> {
    let all = [
        Verdict::Fits,
        Verdict::Borderline,
        Verdict::DoesNotFit,
        Verdict::NotRated,
    ];
    let said = |verdict: Verdict| {
        let text = format!("{} {}  ", told::verdict_glyph(verdict), verdict.word());
        Span::styled(text, theme.verdict(verdict))
    };
    Line::from(all.map(said).to_vec())
}

fn styles(theme: Theme) -> Line<'static> {
    Line::from(vec![
        Span::styled("plain  ", theme.text()),
        Span::styled("strong  ", theme.strong()),
        Span::styled("dim  ", theme.dim()),
        Span::styled("selected", theme.selected(true)),
        Span::raw("  "),
        Span::styled("selected elsewhere", theme.selected(false)),
    ])
}

fn width((name, text): (&'static str, &'static str)) -> Line<'static> {
    let blanks = " ".repeat(TEXT.saturating_sub(text.width()));
    Line::raw(format!("{name:<6} {text}{blanks}│"))
}
