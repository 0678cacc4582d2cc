use ratatui::layout::{Position, Rect};
use session::{Focus, Target, VisibleLines};

/// What of the session is seen on the screen, and where: for pages of lists and
/// for the pointer.
#[derive(Clone, Debug, Default)]
pub(in crate::tui) struct Seen {
    /// How many lines of each list.
    pub(in crate::tui) visible: VisibleLines,
    targets: Vec<(Rect, Target)>,
    /// Where the fit map lies, and how many columns and rows it has.
    map: Option<(Rect, (usize, usize))>,
}

impl Seen {
    /// Nothing that can be pointed at yet.
    pub(super) fn new(visible: VisibleLines) -> Self {
        Self {
            visible,
            ..Self::default()
        }
    }

    /// Notes where something is seen; over what was noted before.
    pub(super) fn note(&mut self, area: Rect, target: Target) {
        self.targets.push((area, target));
    }

    /// Notes where the fit map is seen, and how many columns and rows it has.
    pub(super) const fn note_map(&mut self, field: Rect, cells: (usize, usize)) {
        self.map = Some((field, cells));
    }

    /// Notes a line of an area, counted from its top, where it lies within.
    pub(super) fn note_line(&mut self, area: Rect, line: usize, target: Target) {
        let line = u16::try_from(line).unwrap_or(u16::MAX);
        if line < area.height {
            let y = area.y + line;
            self.note(
                Rect {
                    y,
                    height: 1,
                    ..area
                },
                target,
            );
        }
    }

    /// What is pointed at.
    pub(in crate::tui) fn at(&self, at: Position) -> Option<Target> {
        if let Some((field, cells)) = self.map
            && field.contains(at)
        {
            let (column, row) = cell_at(cells, field, at.x, at.y)?;
            return Some(Target::Cell(column, row));
        }
        let mut targets = self.targets.iter().rev();
        targets
            .find(|(area, _)| area.contains(at))
            .map(|(_, target)| *target)
    }

    /// The panel that is pointed at.
    pub(in crate::tui) fn panel_at(&self, at: Position) -> Option<Focus> {
        self.targets
            .iter()
            .rev()
            .find_map(|(area, target)| match target {
                Target::Panel(focus) if area.contains(at) => Some(*focus),
                _ => None,
            })
    }
}

/// The cell of the map at a place of the field.
pub(super) fn cell_at(
    (columns, rows): (usize, usize),
    field: Rect,
    x: u16,
    y: u16,
) -> Option<(usize, usize)> {
    let share = |at: u16, of: u16, count: usize| usize::from(at) * count / usize::from(of.max(1));
    let column = share(x.checked_sub(field.x)?, field.width, columns);
    let up = field.bottom().checked_sub(y + 1)?;
    Some((column, share(up, field.height, rows)))
}
