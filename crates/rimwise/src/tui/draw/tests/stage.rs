//! A session on the stage: opened, given keys, assessed, drawn.

use crate::tui::draw::{Seen, Studio, page};
use crate::tui::theme::Theme;
use files::{parse_case, parse_catalogue, parse_house_rules, shipped};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Position;
use ratatui::style::{Color, Modifier};
use session::{Event, Keeper, MapGrain, Reply, Request, Session, Worker};
use sizing::engine::Fast;
use sizing::{Case, Catalogue, HouseRules};
use std::sync::mpsc::channel;
use unicode_width::UnicodeWidthStr;

/// Enough draws that the chances on a page look as they do in use.
pub(super) const MANY: &[usize] = &[512];
/// Where only the form of the page matters.
pub(in crate::tui) const FEW: &[usize] = &[64];

/// A map that takes no time.
const COARSE: MapGrain = MapGrain {
    waists: 60,
    overhangs: 40,
    draws: 64,
};

pub(in crate::tui) fn case(scenario: &str) -> Case {
    let (name, text) = shipped::scenario(scenario).unwrap();
    parse_case(name, text).unwrap().into_value()
}

pub(in crate::tui) fn shapes() -> Catalogue {
    parse_catalogue(shipped::SHAPES.0, shipped::SHAPES.1)
        .unwrap()
        .into_value()
}

pub(in crate::tui) fn house_rules() -> HouseRules {
    parse_house_rules(shipped::HOUSE_RULES.0, shipped::HOUSE_RULES.1)
        .unwrap()
        .into_value()
}

/// A shipped scenario before its first result.
pub(super) fn opened(scenario: &str) -> Session {
    let (name, text) = shipped::GUIDANCE;
    let limits = files::parse_guidance(name, text).unwrap().into_value();
    Session::open(case(scenario), vec![shapes()], house_rules()).with_limits(limits)
}

/// A shipped scenario with its result.
pub(in crate::tui) fn assessed(scenario: &str, draws: &'static [usize]) -> Session {
    let mut session = opened(scenario);
    assess(&mut session, draws);
    session
}

/// Has the worker assess what the session asks for, and waits for it.
pub(super) fn assess(session: &mut Session, draws: &'static [usize]) {
    if !session.is_working() {
        return;
    }
    let request = session.request();
    let (sender, replies) = channel();
    let worker = Worker::start(Fast, 1, move |reply| sender.send(reply).is_ok()).unwrap();
    let wanted = request.wanted;
    worker.submit(Request {
        stages: draws,
        map: COARSE,
        work_up_draws: 512,
        ..request
    });
    let is_wanting = |session: &Session| {
        session.results().is_awaited() || wanted.is_some_and(|it| !session.results().is_there(it))
    };
    while is_wanting(session) {
        session.update(Event::Reply(replies.recv().unwrap()));
    }
}

/// A copy of a session on a page, with what the page asks for.
pub(super) fn on_page(session: &Session, keys: &str) -> Session {
    let mut session = after(session, keys);
    assess(&mut session, FEW);
    session
}

/// The assessment of the open document fails with a message.
pub(super) fn fail(session: &mut Session, message: &str) {
    let generation = session.results().generation();
    session.update(Event::Reply(Reply::Failed {
        generation,
        message: message.into(),
    }));
}

/// Presses keys, written with spaces between.
pub(super) fn press(session: &mut Session, keys: &str) {
    for key in keys.split_whitespace() {
        session.update(Event::Key(key.parse().unwrap()));
    }
}

/// Presses keys and has a keeper run what follows on them.
pub(super) fn kept(session: &mut Session, keys: &str) {
    for key in keys.split_whitespace() {
        let effects = session.update(Event::Key(key.parse().unwrap()));
        Keeper::default().run(session, effects, std::time::Instant::now());
    }
}

/// A copy of a session after some keys.
pub(in crate::tui) fn after(session: &Session, keys: &str) -> Session {
    let mut session = session.clone();
    press(&mut session, keys);
    session
}

/// The page as a terminal of a size shows it.
pub(super) fn drawn(session: &Session, theme: Theme, size: (u16, u16)) -> Buffer {
    drawn_in(session, theme, size, &mut Studio::default())
}

/// The page as a terminal of a size shows it, with the pictures that are kept.
pub(super) fn drawn_in(
    session: &Session,
    theme: Theme,
    (width, height): (u16, u16),
    studio: &mut Studio,
) -> Buffer {
    let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
    terminal
        .draw(|frame| {
            page(frame, session, theme, studio);
        })
        .unwrap();
    terminal.backend().buffer().clone()
}

/// What of the page can be pointed at.
pub(super) fn seen(session: &Session, (width, height): (u16, u16)) -> Seen {
    let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
    let mut seen = Seen::default();
    terminal
        .draw(|frame| seen = page(frame, session, Theme::COLOUR, &mut Studio::default()))
        .unwrap();
    seen
}

/// Where a text first begins on the page.
pub(super) fn place(page: &Buffer, word: &str) -> Position {
    let page = text(page);
    let mut lines = page.lines().enumerate();
    let found = lines.find_map(|(row, line)| Some((row, line.split_once(word)?.0)));
    let (row, before) = found.unwrap_or_else(|| panic!("{word} is not on\n{page}"));
    let cells = |count: usize| u16::try_from(count).unwrap();
    Position::new(cells(before.chars().count()), cells(row))
}

/// What stands on the page, a line for each row, without blanks at its end.
pub(in crate::tui) fn text(page: &Buffer) -> String {
    let rows = rows(page).map(|cells| {
        // A wide character hides the cell behind it.
        let mut hidden = 0;
        let mut row = String::new();
        for cell in cells {
            if hidden == 0 {
                row.push_str(cell.symbol());
            }
            hidden = hidden.max(cell.symbol().width()).saturating_sub(1);
        }
        row.trim_end().to_owned()
    });
    rows.collect::<Vec<_>>().join("\n")
}

/// The page with a line of marks under each row that is not plain: `r` reversed,
/// `u` underlined, `B` bold, `d` dim, `C` coloured.
pub(super) fn styled(page: &Buffer) -> String {
    let marks = rows(page).map(|cells| {
        let marks: String = cells.map(mark).collect();
        marks.trim_end().to_owned()
    });
    let text = text(page);
    let both = text.lines().zip(marks).flat_map(|(row, marks)| {
        let marks = (!marks.is_empty()).then(|| format!("  {marks}"));
        std::iter::once(format!("│ {row}")).chain(marks)
    });
    both.collect::<Vec<_>>().join("\n")
}

pub(super) fn mark(cell: &Cell) -> char {
    match modifier(cell) {
        ' ' if has_colour(cell) => 'C',
        mark => mark,
    }
}

/// A letter for how a cell is set off, whatever its colour.
pub(super) fn modifier(cell: &Cell) -> char {
    let marks = [
        (Modifier::REVERSED, 'r'),
        (Modifier::UNDERLINED, 'u'),
        (Modifier::BOLD, 'B'),
        (Modifier::DIM, 'd'),
    ];
    let mark = marks
        .into_iter()
        .find(|(modifier, _)| cell.modifier.contains(*modifier));
    mark.map_or(' ', |(_, mark)| mark)
}

pub(super) fn has_colour(cell: &Cell) -> bool {
    cell.fg != Color::Reset || cell.bg != Color::Reset
}

/// The cells of each row.
pub(super) fn rows(page: &Buffer) -> impl Iterator<Item = impl Iterator<Item = &Cell>> {
    let area = page.area;
    area.rows()
        .map(|row| row.columns().map(|at| &page[Position::new(at.x, at.y)]))
}
