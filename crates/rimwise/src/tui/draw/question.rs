//! A question with its answers, over the page.

use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::Question;
use sizing::State;

/// Draws a question at the foot of the page. What it is about is cut where there
/// is no room for it, the oldest first.
pub(super) fn draw(frame: &mut Frame, question: &Question, theme: Theme, area: Rect) {
    let width = usize::from(area.width);
    let mut told: Vec<Line> = wrapped(&visible(&question.asks), width)
        .into_iter()
        .map(|line| Line::styled(line, theme.strong()))
        .collect();
    let mut answers = answers(question, theme);
    if !question.refused.is_empty() {
        let refused = wrapped(&visible(&format!("! {}", question.refused)), width);
        let style = theme.state(State::Caution);
        answers.extend(refused.into_iter().map(|line| Line::styled(line, style)));
    }
    let room = usize::from(area.height).saturating_sub(told.len() + answers.len());
    told.extend(about(question, theme, width, room));
    told.extend(answers);
    let height = u16::try_from(told.len())
        .unwrap_or(u16::MAX)
        .min(area.height);
    let room = Rect {
        y: area.bottom() - height,
        height,
        ..area
    };
    frame.render_widget(Clear, room);
    lines::draw(frame, told, room);
}

fn about(question: &Question, theme: Theme, width: usize, room: usize) -> Vec<Line<'static>> {
    let all = &question.about;
    let cut = if all.len() > room {
        all.len() + 1 - room.max(1)
    } else {
        0
    };
    let first =
        (cut > 0 && room > 0).then(|| Line::styled(format!("  … {cut} more above"), theme.dim()));
    let rest = all.iter().skip(cut).flat_map(|line| {
        let line = visible(line);
        let lines = wrapped(&format!("· {line}"), width);
        lines.into_iter().take(1)
    });
    let rest = rest.map(|line| Line::styled(line, theme.text()));
    first.into_iter().chain(rest).collect()
}

fn answers(question: &Question, theme: Theme) -> Vec<Line<'static>> {
    let answer = |key: String, does: &'static str| {
        Line::from(vec![
            Span::styled(key, theme.strong()),
            Span::styled(format!(" {does}"), theme.text()),
        ])
    };
    let choices = question
        .choices
        .iter()
        .map(|choice| answer(choice.key.to_string(), choice.does));
    let wait = question.wait.map(|wait| answer("esc".to_owned(), wait));
    choices.chain(wait).collect()
}
