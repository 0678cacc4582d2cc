//! Forms, line by line, over the page: of a reading, of a new case, of an exception.

use super::footer;
use super::lines;
use crate::text::wrapped;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::Clear;
use session::{
    CaseForm, CaseLine, CriterionForm, ExceptionForm, Form, FormEntry, ObservationForm,
    ReadingForm, ReadingLine, Session, ShelfForm,
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
    let info = form.of.reading.quantity.info();
    let range = format!(
        "It is asked because {}. Accepted are {} to {} {}.",
        info.why,
        info.least,
        info.most,
        info.unit.symbol()
    );
    let rows = rows(form, |line, choices| {
        let is_selected = form.part() == Some(line);
        let beside = match line {
            ReadingLine::Sd if form.text(line).is_empty() && !is_selected => {
                let sd = sizing::resolve::assumed_sd(&form.reading(), session.document().rules());
                format!("{sd} by your centre's rule")
            }
            _ if is_selected && choices > 0 => format!("one of {choices}"),
            _ => String::new(),
        };
        (line.label(), 0, beside)
    });
    let help = format!("{}. {range}", preferred(form.preference(session)));
    draw(
        frame,
        session,
        (form, &rows),
        (&form.title(), &help),
        theme,
        area,
    );
}

/// Draws the form of an exception from a rule of the house.
pub(super) fn exception(
    frame: &mut Frame,
    session: &Session,
    form: &ExceptionForm,
    theme: Theme,
    area: Rect,
) {
    let rows = rows(form, |part, _| {
        let house = form.house(part);
        let room = if house.is_empty() { 0 } else { FIGURE };
        (part.label(), room, house)
    });
    let empty = match form.of.stated {
        Stated::Limits { .. } => " An empty line sets no limit.",
        Stated::Value(_) | Stated::Assumed { .. } => "",
    };
    let help = format!(
        "The reason is shown beside every figure that changes.{empty} Your centre's source: {}. \
         In the case file: {}.",
        form.of.source, form.of.address
    );
    draw(
        frame,
        session,
        (form, &rows),
        (&form.title(), &help),
        theme,
        area,
    );
}

/// Draws the form of a release criterion.
pub(super) fn criterion(
    frame: &mut Frame,
    session: &Session,
    form: &CriterionForm,
    theme: Theme,
    area: Rect,
) {
    let rows = rows(form, |part, _| (part.label(), 0, String::new()));
    let help = format!(
        "Inside and beyond: {}. The old bounds, the minute and the reason stay. Source: {}.",
        form.accepted(),
        form.of.source
    );
    draw(
        frame,
        session,
        (form, &rows),
        (&form.title(), &help),
        theme,
        area,
    );
}

/// Draws the form of what was seen.
pub(super) fn observation(
    frame: &mut Frame,
    session: &Session,
    form: &ObservationForm,
    theme: Theme,
    area: Rect,
) {
    let rows = rows(form, |part, _| {
        (part.label(), 0, ObservationForm::beside(part).to_owned())
    });
    let help = "What stood there before can be undone.";
    draw(
        frame,
        session,
        (form, &rows),
        (&form.title(), help),
        theme,
        area,
    );
}

/// Draws the form of a shape or of a size of the shelf.
pub(super) fn shelf(
    frame: &mut Frame,
    session: &Session,
    form: &ShelfForm,
    theme: Theme,
    area: Rect,
) {
    let rows = rows(form, |part, _| {
        let unit = part.unit();
        let room = if unit.is_empty() { 0 } else { FIGURE };
        (part.label(), room, unit.to_owned())
    });
    let help = form.part().map_or("", session::ShelfPart::means);
    draw(
        frame,
        session,
        (form, &rows),
        (&form.title(), help),
        theme,
        area,
    );
}

/// Draws the form of a new case.
pub(super) fn case(
    frame: &mut Frame,
    session: &Session,
    form: &CaseForm,
    theme: Theme,
    area: Rect,
) {
    let rows = rows(form, |line, choices| {
        let beside = if form.part() == Some(line) && choices > 0 {
            format!("one of {choices}: right and left show the others")
        } else {
            String::new()
        };
        (line.label(), 0, beside)
    });
    let title = "new case: its questions follow one by one";
    let help = form.part().map_or("", CaseLine::why);
    draw(frame, session, (form, &rows), (title, help), theme, area);
}

/// One line of a form.
struct FormLine<'a> {
    label: &'static str,
    is_selected: bool,
    entry: &'a FormEntry,
    /// Columns that what it says takes at least.
    room: usize,
    beside: String,
}

/// The lines of a form. Of each is told, by its part and how many choices it has, its
/// label, the columns it takes at least, and what stands beside it.
fn rows<Of, Part: Copy + PartialEq>(
    form: &Form<Of, Part>,
    tell: impl Fn(Part, usize) -> (&'static str, usize, String),
) -> Vec<FormLine<'_>> {
    let lines = form.lines.iter().enumerate();
    let row = |(index, line)| {
        let (part, entry): &(Part, FormEntry) = line;
        let choices = match entry {
            FormEntry::Typed(_) => 0,
            FormEntry::Chosen { words, .. } => words.len(),
        };
        let (label, room, beside) = tell(*part, choices);
        FormLine {
            label,
            is_selected: form.selected == index,
            entry,
            room,
            beside,
        }
    };
    lines.map(row).collect()
}

/// Draws a form at the foot of the page, under its title and over its help.
fn draw<Of, Part: Copy + PartialEq>(
    frame: &mut Frame,
    session: &Session,
    (form, rows): (&Form<Of, Part>, &[FormLine]),
    (title, help): (&str, &str),
    theme: Theme,
    area: Rect,
) {
    let title = visible(title).into_owned();
    let labels = rows.iter().map(|row| row.label.len() + 1);
    let name = labels.max().unwrap_or(NAME).max(NAME);
    let (help, style) = match (&form.asks, &form.error) {
        (Some(asked), _) => (&*asked.asks, theme.strong()),
        (None, Some(error)) => (&**error, theme.state(State::Caution)),
        (None, None) => (help, theme.dim()),
    };
    let help = wrapped(&visible(help), usize::from(area.width));
    // Title and keys stay in sight, and so does the selected line.
    let room = usize::from(area.height).saturating_sub(help.len() + 2);
    let first = lines::first_shown(form.selected, rows.len(), room.min(rows.len()));
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

fn line(row: &FormLine, name: usize, theme: Theme, width: u16) -> Line<'static> {
    let (mark, style) = if row.is_selected {
        ("›", theme.strong())
    } else {
        (" ", theme.text())
    };
    let mut spans = vec![Span::styled(format!("{mark} {:<name$}", row.label), style)];
    match row.entry {
        FormEntry::Typed(editor) if row.is_selected => {
            let room = usize::from(width).saturating_sub(name + 2);
            spans.extend(lines::edited(editor, theme, room));
        }
        FormEntry::Typed(editor) => spans.push(Span::raw(visible(&editor.text()).into_owned())),
        FormEntry::Chosen { words, index } => {
            let chosen = words.get(*index).unwrap_or(&"").replace('_', " ");
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

/// What the house rules make of such a reading.
fn preferred(place: Option<usize>) -> String {
    match place {
        Some(0) => "Your centre's rules prefer such a reading".to_owned(),
        Some(place) => format!(
            "Your centre's rules use such a reading only where {} better {} missing",
            place,
            if place == 1 { "kind is" } else { "kinds are" }
        ),
        None => "Your centre's rules do not use such a reading".to_owned(),
    }
}
