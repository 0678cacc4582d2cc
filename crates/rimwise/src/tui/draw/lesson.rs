//! A lesson on the whole page, under a title of its own: nobody takes its case for a
//! patient's.

use super::footer;
use super::lines;
use super::pictures::Studio;
use crate::text::{fitted, wrapped};
use crate::tui::theme::Theme;
use files::{StepContent, visible};
use geometry::Face;
use measurement::Valve;
use paper::CAUTION_IN_A_LINE;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use scene::View;
use session::{LessonPlay, Session};
use sizing::lesson::{Choices, GivenAnswer, Mark, Question, Right};
use sizing::{Setting, State, device_name};
use std::collections::BTreeSet;
use unicode_width::UnicodeWidthStr;

/// From this width on a picture stands beside the words.
const TWO_COLUMNS: u16 = 72;
/// From this height on it does.
const LEAST_HEIGHT: u16 = 15;
/// What stands under the title.
const MADE_UP: &str = "A made-up case for teaching, and no patient's.";

/// Draws a lesson over the whole page.
pub(super) fn draw(
    frame: &mut Frame,
    session: &Session,
    play: &LessonPlay,
    theme: Theme,
    (area, studio): (Rect, &mut Studio),
) {
    frame.render_widget(Clear, area);
    let width = usize::from(area.width);
    let caution = wrapped(&format!("{MADE_UP} {CAUTION_IN_A_LINE}"), width);
    let lines_of_it = u16::try_from(caution.len()).unwrap_or(0).min(2);
    // A line of air under it, where there is room.
    let under = lines_of_it + u16::from(area.height >= LEAST_HEIGHT);
    let [top, under, body, foot] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Length(under),
        Constraint::Min(1),
        Constraint::Length(footer::HEIGHT),
    ])
    .areas(area);
    let (place, count) = play.place();
    let beside = if place > count {
        "the end".to_owned()
    } else {
        format!("step {place} of {count}")
    };
    let title = format!("LESSON · {}", play.title());
    let room = width.saturating_sub(beside.width() + 4);
    let title = fitted(&visible(&title), room.min(title.width()));
    lines::headed(frame, title.trim_end(), &beside, true, theme, top);
    let caution = caution.into_iter();
    let caution = caution.map(|line| Line::styled(line, theme.state(State::Caution)));
    lines::draw(frame, caution.collect(), under);
    footer::draw(frame, session, theme, foot);
    let is_wide = area.width >= TWO_COLUMNS && area.height >= LEAST_HEIGHT;
    if !is_wide || play.picture().is_none() {
        // Long lines are hard to read in a room.
        let words = Rect {
            width: body.width.min(76),
            ..body
        };
        lines::draw(frame, told(play, theme, words.width), words);
        return;
    }
    let [words, picture] = Layout::horizontal([Constraint::Fill(11), Constraint::Fill(9)])
        .spacing(2)
        .areas(body);
    lines::draw(frame, told(play, theme, words.width), words);
    draw_picture(frame, session, play, theme, (picture, studio));
}

/// The size of the step in the heart of its case.
fn draw_picture(
    frame: &mut Frame,
    session: &Session,
    play: &LessonPlay,
    theme: Theme,
    (area, studio): (Rect, &mut Studio),
) {
    let (Some(name), Some(step)) = (play.picture(), play.step()) else {
        return;
    };
    let ranking = &step.ranking;
    let Some(candidate) = ranking.find(name) else {
        return;
    };
    let under = lines::headed(frame, &visible(&device_name(name)), "", false, theme, area);
    let seen = (valve(&ranking.setting), Face::Left);
    let left = session.view().looks.section_left;
    studio.draw_up_one(&ranking.setting, candidate, seen, left);
    studio.draw(frame, theme, &[under]);
}

/// The first valve toward which a section of a case can be drawn.
fn valve(setting: &Setting) -> Valve {
    let mut valves = Valve::ALL.into_iter();
    let can_be_drawn = |valve: &Valve| View::Section(*valve).missing(setting).is_empty();
    valves.find(can_be_drawn).unwrap_or(Valve::Aortic)
}

/// What the step says.
fn told(play: &LessonPlay, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let width = usize::from(width);
    let Some(step) = play.step() else {
        return end(play, theme, width);
    };
    let words = step.words.as_deref();
    match &step.shown {
        StepContent::Told(text) => paragraph(text, theme.text(), width),
        StepContent::Changed(what) => {
            let mut lines = words.map_or_else(Vec::new, |it| paragraph(it, theme.text(), width));
            lines.push(Line::raw(""));
            lines.push(Line::styled("Changed", theme.strong()));
            let each = what.iter();
            lines.extend(each.flat_map(|one| paragraph(one, theme.text(), width)));
            lines
        }
        StepContent::Question(Err(why)) => {
            let mut lines = words.map_or_else(Vec::new, |it| paragraph(it, theme.strong(), width));
            let says = format!("! The program has no answer: {why}.");
            lines.extend(paragraph(&says, theme.state(State::Caution), width));
            lines
        }
        StepContent::Question(Ok(question)) => asked(play, question, words, theme, width),
    }
}

/// A question, and once it is answered what the program answers.
fn asked(
    play: &LessonPlay,
    question: &Question,
    words: Option<&str>,
    theme: Theme,
    width: usize,
) -> Vec<Line<'static>> {
    let mut lines = Vec::new();
    for (index, says) in question.asked(words).into_iter().enumerate() {
        let style = if index == 0 {
            theme.strong()
        } else {
            theme.text()
        };
        lines.extend(paragraph(says, style, width));
    }
    lines.push(Line::raw(""));
    match &question.choices {
        Choices::Number(unit) => lines.push(number(play, unit, theme, width)),
        Choices::One(choices) | Choices::Any(choices) => {
            let each = choices.iter().enumerate();
            lines.extend(each.map(|(index, says)| choice(play, (index, says), theme, width)));
        }
    }
    if !play.refused.is_empty() {
        let says = format!("! {}", play.refused);
        lines.extend(paragraph(&says, theme.state(State::Caution), width));
    }
    if let Some((_, mark)) = play.given() {
        lines.push(Line::raw(""));
        lines.extend(answered(question, *mark, theme, width));
    }
    lines
}

/// The number that is typed, or that was.
fn number(play: &LessonPlay, unit: &str, theme: Theme, width: usize) -> Line<'static> {
    if let Some((GivenAnswer::Number(number), _)) = play.given() {
        return Line::raw(format!("  you: {number} {unit}").trim_end().to_owned());
    }
    let mut field = vec![Span::raw("› ")];
    let room = width.saturating_sub(unit.width() + 3);
    field.extend(lines::edited(&play.editor, theme, room));
    field.push(Span::raw(format!(" {unit}")));
    Line::from(field)
}

/// A choice: ticked or not, and once it is answered whether it is right.
fn choice(
    play: &LessonPlay,
    (index, says): (usize, &str),
    theme: Theme,
    width: usize,
) -> Line<'static> {
    let question = play.question();
    let is_any = play.takes_several();
    let chosen = match play.given() {
        Some((GivenAnswer::Chosen(chosen), _)) => chosen.clone(),
        _ if is_any => play.ticked.clone(),
        _ => BTreeSet::from([play.cursor]),
    };
    let is_chosen = chosen.contains(&index);
    let mark = match (is_any, is_chosen) {
        (true, true) => "[x]",
        (true, false) => "[ ]",
        (false, true) => "(•)",
        (false, false) => "( )",
    };
    let letter = char::from(b'a' + u8::try_from(index.min(25)).unwrap_or(0));
    let is_right = match question.map(|it| &it.right) {
        Some(Right::OneOf(right) | Right::All(right)) => right.contains(&index),
        _ => false,
    };
    let is_answered = play.given().is_some();
    let verdict = if is_answered && is_right { " ✓" } else { "" };
    let room = width.saturating_sub(verdict.width());
    let line = format!("{mark} {letter}) {}", visible(says));
    let line = fitted(&line, room.min(line.width()));
    let style = if !is_answered && index == play.cursor {
        theme.selected(true)
    } else if is_answered && is_right {
        theme.strong()
    } else {
        theme.text()
    };
    Line::styled(format!("{line}{verdict}"), style)
}

/// The program's answer: whether it was met, what it is, and why.
fn answered(question: &Question, mark: Mark, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let (says, style) = if mark.is_right {
        ("✓ Right.", theme.state(State::Ok))
    } else {
        ("✗ Not so.", theme.state(State::Stop))
    };
    let mut lines = vec![Line::styled(says, style)];
    lines.extend(paragraph(&question.answer, theme.strong(), width));
    lines.extend(paragraph(&question.why, theme.text(), width));
    let best = question.mark(&question.right_answer()).brier;
    if let (Some(brier), Some(best)) = (mark.brier, best) {
        let says = format!(
            "Brier score {brier:.2}; 0 is best, and here no less than {best:.2} can be had."
        );
        lines.extend(paragraph(&says, theme.dim(), width));
    }
    lines
}

/// The score at the end.
fn end(play: &LessonPlay, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let score = play.score();
    let says = format!("{} of {} answers right.", score.right, score.asked);
    let mut lines = paragraph(&says, theme.strong(), width);
    if let Some(brier) = play.mean_brier() {
        let says = format!("Brier score of the chances, on average {brier:.2}; 0 is best.");
        lines.extend(paragraph(&says, theme.text(), width));
    }
    lines.push(Line::raw(""));
    let says = "The score names nobody, and its file may be deleted. Every answer was worked out from the case as it is; another \
                centre's rules may give others.";
    lines.extend(paragraph(says, theme.text(), width));
    lines
}

fn paragraph(text: &str, style: Style, width: usize) -> Vec<Line<'static>> {
    let lines = wrapped(&visible(text), width).into_iter();
    lines.map(|line| Line::styled(line, style)).collect()
}
