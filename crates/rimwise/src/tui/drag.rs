use super::draw::Seen;
use ratatui::layout::Position;
use session::{Event, Focus, Target};

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
    /// The button goes down; what that does.
    pub(super) fn press(&mut self, seen: &Seen, at: Position) -> Option<Event> {
        let target = seen.at(at);
        self.0 = target.map(|on| Held {
            on,
            at,
            nudges: false,
        });
        target.map(Event::Point)
    }

    /// It moves with the button down; what that does.
    pub(super) fn drag(&mut self, seen: &Seen, at: Position) -> Option<Event> {
        let held = self.0.as_mut()?;
        let columns = i32::from(at.x) - i32::from(held.at.x);
        if let Target::Line(Focus::Readings, _) = held.on
            && (held.nudges || at.y == held.at.y)
        {
            held.nudges |= columns != 0;
            held.at.x = at.x;
            return Some(Event::Nudge(columns));
        }
        let under = seen.at(at)?;
        if !under.is_of_list(held.on) || under == held.on {
            return None;
        }
        held.at = at;
        held.on = under;
        Some(Event::Point(under))
    }

    /// The button goes up.
    pub(super) const fn release(&mut self) {
        self.0 = None;
    }
}
