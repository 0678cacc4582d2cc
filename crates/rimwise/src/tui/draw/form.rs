//! Forms, line by line, over the page: of a reading, of a new case, of an exception.

use super::footer;
use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::{Word, visible};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{
    CaseForm, CaseLine, Editor, ExceptionForm, ReadingForm, ReadingLine, Session, ShelfForm, Typed,
};
use sizing::State;
use sizing::house_rules::Stated;

/// Columns of a line's name, at least.
const NAME: usize = 9;

/// Columns of a limit as it is typed.
const FIGURE: usize = 6;

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
        room: 0,
        beside: match line {
            ReadingLine::Sd if form.sd.is_empty() && form.line != line => {
                let sd = sizing::resolve::assumed_sd(&form.reading, session.document().rules());
                format!("{sd} by your centre's rule")
            }
            _ if form.line == line => others(line),
            _ => String::new(),
        },
    });
    let help = format!("{}. {range}", preferred(form.preference(session)));
    let asked = form.asks.as_ref().map(|asked| asked.asks.as_str());
    let form = Form {
        title: form.title(),
        asks: asked,
        error: form.error.as_deref(),
        help: &help,
    };
    draw(frame, session, &form, &rows, theme, area);
}

/// Draws the form of an exception from a rule of the house.
pub(super) fn exception(
    frame: &mut Frame,
    session: &Session,
    form: &ExceptionForm,
    theme: Theme,
    area: Rect,
) {
    let typed = &form.typed;
    let rows = rows(typed, |part| (part.label(), form.house(part)));
    let empty = match form.rule.stated {
        Stated::Limits { .. } => " An empty line is no limit.",
        Stated::Value(_) | Stated::Assumed { .. } => "",
    };
    let help = format!(
        "The reason stands beside every figure it changes.{empty} The house's source: {}. \
         In the case file: {}.",
        form.rule.source, form.rule.address
    );
    let form = Form {
        title: form.title(),
        asks: None,
        error: typed.error.as_deref(),
        help: &help,
    };
    draw(frame, session, &form, &rows, theme, area);
}

/// Draws the form of a shape or of a size of the shelf.
pub(super) fn shelf(
    frame: &mut Frame,
    session: &Session,
    form: &ShelfForm,
    theme: Theme,
    area: Rect,
) {
    let typed = &form.typed;
    let rows = rows(typed, |part| (part.label(), part.unit().to_owned()));
    let selected = typed.lines.get(typed.line);
    let help = selected.map_or("", |(part, _)| part.means());
    let told = Form {
        title: form.title(),
        asks: None,
        error: typed.error.as_deref(),
        help,
    };
    draw(frame, session, &told, &rows, theme, area);
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
        room: 0,
        beside: if form.line == line {
            kinds(line)
        } else {
            String::new()
        },
    });
    let form = Form {
        title: "new case: what it needs is asked for afterwards, one by one".to_owned(),
        asks: None,
        error: form.error.as_deref(),
        help: form.line.why(),
    };
    draw(frame, session, &form, &rows, theme, area);
}

/// What stands over and under the lines of a form.
struct Form<'a> {
    title: String,
    /// A question about what was typed, which waits for its answer.
    asks: Option<&'a str>,
    error: Option<&'a str>,
    help: &'a str,
}

/// One line of a form.
struct Row<'a> {
    label: &'static str,
    is_selected: bool,
    editor: Option<&'a Editor>,
    choice: Option<&'static str>,
    /// Columns that what it says takes at least.
    room: usize,
    beside: String,
}

/// A line for each part that is typed, by its name and what stands beside it; where
/// something does, what is typed is a figure.
fn rows<Part: Copy>(
    typed: &Typed<Part>,
    tell: impl Fn(Part) -> (&'static str, String),
) -> Vec<Row<'_>> {
    let lines = typed.lines.iter().enumerate();
    let row = |(index, line)| {
        let (part, editor): &(Part, Editor) = line;
        let (label, beside) = tell(*part);
        Row {
            label,
            is_selected: typed.line == index,
            editor: Some(editor),
            choice: None,
            room: if beside.is_empty() { 0 } else { FIGURE },
            beside,
        }
    };
    lines.map(row).collect()
}

/// Draws a form at the foot of the page.
fn draw(frame: &mut Frame, session: &Session, form: &Form, rows: &[Row], theme: Theme, area: Rect) {
    let title = visible(&form.title).into_owned();
    let labels = rows.iter().map(|row| row.label.len() + 1);
    let name = labels.max().unwrap_or(NAME).max(NAME);
    let (help, style) = match (form.asks, form.error) {
        (Some(asked), _) => (asked, theme.strong()),
        (None, Some(error)) => (error, theme.state(State::Caution)),
        (None, None) => (form.help, theme.dim()),
    };
    let help = wrapped(&visible(help), usize::from(area.width));
    // Title and keys stay in sight, and so does the selected line.
    let room = usize::from(area.height).saturating_sub(help.len() + 2);
    let selected = rows.iter().position(|row| row.is_selected).unwrap_or(0);
    let first = lines::first_shown(selected, rows.len(), room.min(rows.len()));
    let shown = rows.iter().skip(first).take(room);
    let mut told = vec![Line::styled(title, theme.strong())];
    told.extend(shown.map(|row| line(row, name, theme, area.width)));
    told.extend(help.into_iter().map(|line| Line::styled(line, style)));
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

fn line(row: &Row, name: usize, theme: Theme, width: u16) -> Line<'static> {
    let (mark, style) = if row.is_selected {
        ("›", theme.strong())
    } else {
        (" ", theme.text())
    };
    let mut spans = vec![Span::styled(format!("{mark} {:<name$}", row.label), style)];
    match (row.editor, row.choice) {
        (Some(editor), _) if row.is_selected => {
            let room = usize::from(width).saturating_sub(name + 2);
            spans.extend(lines::edited(editor, theme, room));
        }
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
    let taken: usize = spans.iter().skip(1).map(Span::width).sum();
    spans.push(Span::raw(" ".repeat(row.room.saturating_sub(taken))));
    spans.push(Span::styled(format!("  {}", row.beside), theme.dim()));
    Line::from(spans)
}

/// How many choices a line of a new case has.
fn kinds(line: CaseLine) -> String {
    let count = match line {
        CaseLine::Title => return String::new(),
        CaseLine::Site => measurement::Site::WORDS.len(),
        CaseLine::Edge => geometry::Edge::WORDS.len(),
        CaseLine::Route => sizing::Route::WORDS.len(),
    };
    format!("one of {count}: right and left show the others")
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
        Some(0) => "Your centre's rules take such a reading first".to_owned(),
        Some(place) => format!(
            "Your centre's rules take such a reading only where {} better {} missing",
            place,
            if place == 1 { "kind is" } else { "kinds are" }
        ),
        None => "Your centre's rules do not use such a reading".to_owned(),
    }
}
