use super::draw::{Seen, Target};
use ratatui::layout::Position;
use session::Session;

/// What the mouse holds while its button is down.
///
/// Along a reading it nudges its value, a fine step a column, all in one step to
/// undo; anywhere else what is pointed at is selected, as by a press.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Drag(Option<Held>);

#[derive(Clone, Copy, Debug)]
struct Held {
    on: Target,
    at: Position,
    /// Whether a value was nudged: the line is held then.
    nudges: bool,
}

impl Drag {
    /// The button goes down.
    pub(super) fn press(&mut self, session: &mut Session, seen: &Seen, at: Position) {
        let target = seen.at(at);
        self.0 = target.map(|on| Held {
            on,
            at,
            nudges: false,
        });
        select(session, target);
    }

    /// It moves with the button down.
    pub(super) fn drag(&mut self, session: &mut Session, seen: &Seen, at: Position) {
        let Some(held) = &mut self.0 else { return };
        let columns = i32::from(at.x) - i32::from(held.at.x);
        if let Target::Row(_) = held.on
            && (held.nudges || at.y == held.at.y)
        {
            held.nudges |= columns != 0;
            held.at.x = at.x;
            return session.nudge_by(columns);
        }
        let under = seen.at(at);
        if under.is_some_and(|under| under.is_of_list(held.on)) && under != Some(held.on) {
            held.at = at;
            held.on = under.unwrap_or(held.on);
            select(session, under);
        }
    }

    /// The button goes up.
    pub(super) const fn release(&mut self) {
        self.0 = None;
    }
}

/// Does what pressing the mouse on something asks for.
fn select(session: &mut Session, target: Option<Target>) {
    match target {
        None => {}
        Some(Target::Panel(focus)) => session.select_panel(focus),
        Some(Target::Page(page)) => session.select_page(page),
        Some(Target::Row(row)) => session.select_row(row),
        Some(Target::Bay(bay)) => session.select_bay(bay),
        Some(Target::Candidate(place)) => session.select_candidate(place),
        Some(Target::Line(focus, line)) => session.select_line(focus, line),
        Some(Target::Cell(column, row)) => session.select_cell(column, row),
    }
}
