//! Forms, line by line, over the page: of a reading, of a new case.

use super::footer;
use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::{Word, visible};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{CaseForm, CaseLine, Editor, ReadingForm, ReadingLine, Session};
use sizing::State;

/// Columns of a line's name.
const NAME: usize = 9;

/// Draws the form of a reading.
pub(super) fn reading(
    frame: &mut Frame,
    session: &Session,
    form: &ReadingForm,
    theme: Theme,
    area: Rect,
) {
    let info = form.reading.quantity.info();
    let range = format!(
        "Asked because {}. Accepted: {} to {} {}.",
        info.why,
        info.least,
        info.most,
        info.unit.symbol()
    );
    let rows = ReadingLine::ALL.map(|line| Row {
        label: line.label(),
        is_selected: form.line == line,
        editor: form.editor(line),
        choice: form.choice(line),
        beside: match line {
            ReadingLine::Sd if form.sd.is_empty() && form.line != line => {
                let sd = sizing::resolve::assumed_sd(&form.reading, session.document().rules());
                format!("{sd} by the house rule")
            }
            _ if form.line == line => others(line),
            _ => String::new(),
        },
    });
    let help = format!("{}. {range}", preferred(form.preference(session)));
    let form = Form {
        title: form.title(),
        error: form.error.as_deref(),
        help: &help,
    };
    draw(frame, session, &form, &rows, theme, area);
}

/// Draws the form of a new case.
pub(super) fn case(
    frame: &mut Frame,
    session: &Session,
    form: &CaseForm,
    theme: Theme,
    area: Rect,
) {
    let rows = CaseLine::ALL.map(|line| Row {
        label: line.label(),
        is_selected: form.line == line,
        editor: (line == CaseLine::Title).then_some(&form.title),
        choice: form.choice(line),
        beside: String::new(),
    });
    let form = Form {
        title: "new case: what it needs is asked for afterwards, m goes from one to the next"
            .to_owned(),
        error: form.error.as_deref(),
        help: form.line.why(),
    };
    draw(frame, session, &form, &rows, theme, area);
}

/// What stands over and under the lines of a form.
struct Form<'a> {
    title: String,
    error: Option<&'a str>,
    help: &'a str,
}

/// One line of a form.
struct Row<'a> {
    label: &'static str,
    is_selected: bool,
    editor: Option<&'a Editor>,
    choice: Option<&'static str>,
    beside: String,
}

/// Draws a form at the foot of the page.
fn draw(frame: &mut Frame, session: &Session, form: &Form, rows: &[Row], theme: Theme, area: Rect) {
    let title = visible(&form.title).into_owned();
    let mut told = vec![Line::styled(title, theme.strong())];
    told.extend(rows.iter().map(|row| line(row, theme)));
    let (help, style) = match form.error {
        Some(error) => (error, theme.state(State::Caution)),
        None => (form.help, theme.dim()),
    };
    for line in wrapped(&visible(help), usize::from(area.width)) {
        told.push(Line::styled(line, style));
    }
    told.push(footer::keys(session, theme, area.width));
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

fn line(row: &Row, theme: Theme) -> Line<'static> {
    let (mark, style) = if row.is_selected {
        ("›", theme.strong())
    } else {
        (" ", theme.text())
    };
    let mut spans = vec![Span::styled(format!("{mark} {:<NAME$}", row.label), style)];
    match (row.editor, row.choice) {
        (Some(editor), _) if row.is_selected => spans.extend(lines::edited(editor, theme)),
        (Some(editor), _) => spans.push(Span::raw(visible(&editor.text()).into_owned())),
        (None, choice) => {
            let chosen = choice.unwrap_or_default().replace('_', " ");
            spans.push(if row.is_selected {
                Span::styled(format!("‹ {chosen} ›"), theme.selected(true))
            } else {
                Span::raw(format!("  {chosen}"))
            });
        }
    }
    spans.push(Span::styled(format!("  {}", row.beside), theme.dim()));
    Line::from(spans)
}

/// How many choices a line has.
fn others(line: ReadingLine) -> String {
    fn count<W: Word>() -> usize {
        W::WORDS.len()
    }
    let count = match line {
        ReadingLine::Modality => count::<measurement::Modality>(),
        ReadingLine::Side => count::<measurement::Side>(),
        ReadingLine::Phase => count::<measurement::Phase>(),
        ReadingLine::Method => count::<measurement::Method>(),
        ReadingLine::Value | ReadingLine::Sd => 0,
    };
    if count == 0 {
        String::new()
    } else {
        format!("one of {count}")
    }
}

/// What the house rules make of such a reading.
fn preferred(place: Option<usize>) -> String {
    match place {
        Some(0) => "The house rules take such a reading first".to_owned(),
        Some(place) => format!(
            "The house rules take such a reading only where {} better {} missing",
            place,
            if place == 1 { "kind is" } else { "kinds are" }
        ),
        None => "The house rules do not use such a reading".to_owned(),
    }
}
