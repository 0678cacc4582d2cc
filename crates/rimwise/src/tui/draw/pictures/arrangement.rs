use geometry::Mm;
use ratatui::layout::{Constraint, Direction, Layout, Rect};
use scene::{Extent, Point};

/// In fewer columns or rows than these a section shows the corner at the valve alone,
/// enlarged.
const WHOLE: (u16, u16) = (30, 10);

/// The least columns and rows of each of two pictures.
const EACH: (u16, u16) = (24, 9);

/// How much smaller a section may be drawn for the sake of a face beside it.
const LEAST_SHARE: f64 = 0.55;

/// What the pictures of all bays are to show, mm of the heart.
pub(super) struct Bounds {
    /// Every section whole.
    pub(super) section: Option<Extent>,
    /// The corner of each section at its valve.
    pub(super) corner: Option<Extent>,
    /// Every face.
    pub(super) face_on: Option<Extent>,
}

/// Where the pictures of a bay lie, and how large: alike in all bays.
#[derive(Clone, Copy, Default)]
pub(in crate::tui::draw) struct Arrangement {
    section: Option<HeartExtent>,
    face_on: Option<HeartExtent>,
    split: Option<(Direction, [u16; 2])>,
    /// Whether sections show the corner at the valve alone.
    pub(in crate::tui::draw) is_corner: bool,
}

/// What of the heart a picture shows, about a centre and at a scale.
#[derive(Clone, Copy)]
struct HeartExtent {
    centre: Point,
    /// Columns a millimetre.
    scale: f64,
    cell_height: f64,
}

impl Arrangement {
    /// The arrangement that shows most in rooms of a size: both pictures side by side
    /// or one over the other where the section loses little by it, else the section
    /// alone, else its corner at the valve.
    pub(super) fn of(bounds: &Bounds, room: Rect, cell_height: f64) -> Self {
        let shown = |extent: &Extent, room: Rect| HeartExtent::of(extent, room, cell_height);
        let Some(section) = &bounds.section else {
            return Self {
                face_on: bounds.face_on.map(|face| shown(&face, room)),
                ..Self::default()
            };
        };
        if (room.width < WHOLE.0 || room.height < WHOLE.1)
            && let Some(corner) = &bounds.corner
        {
            return Self {
                section: Some(shown(corner, room)),
                is_corner: true,
                ..Self::default()
            };
        }
        let alone = shown(section, room);
        let both = bounds.face_on.and_then(|face| {
            [
                (Direction::Horizontal, [section.width(), face.width()]),
                (Direction::Vertical, [section.height(), face.height()]),
            ]
            .into_iter()
            .filter_map(|(direction, lengths)| {
                let shares = lengths.map(share);
                let [first, second] = split(room, direction, shares);
                let is_legible = [first, second]
                    .iter()
                    .all(|part| part.width >= EACH.0 && part.height >= EACH.1);
                let both = Self {
                    section: Some(shown(section, first)),
                    face_on: Some(shown(&face, second)),
                    split: Some((direction, shares)),
                    is_corner: false,
                };
                is_legible.then_some(both)
            })
            .max_by(|one, other| one.scale().total_cmp(&other.scale()))
        });
        both.filter(|both| both.scale() >= LEAST_SHARE * alone.scale)
            .unwrap_or(Self {
                section: Some(alone),
                ..Self::default()
            })
    }

    /// Whether faces are shown.
    pub(in crate::tui::draw) const fn has_face_on(&self) -> bool {
        self.face_on.is_some()
    }

    /// The scale of the section, columns a millimetre.
    pub(in crate::tui::draw) fn scale(&self) -> f64 {
        self.section.map_or(0.0, |shown| shown.scale)
    }

    /// Where the section lies in a room, and what of the heart it shows there.
    pub(super) fn section(&self, room: Rect) -> Option<(Rect, Extent)> {
        let [first, _] = self.parts(room);
        Some((first, self.section?.window(first)))
    }

    /// The same of the face.
    pub(super) fn face_on(&self, room: Rect) -> Option<(Rect, Extent)> {
        let [_, second] = self.parts(room);
        Some((second, self.face_on?.window(second)))
    }

    fn parts(&self, room: Rect) -> [Rect; 2] {
        match self.split {
            Some((direction, shares)) => split(room, direction, shares),
            None => [room; 2],
        }
    }
}

impl HeartExtent {
    /// What of an extent a room shows. Scale and centre are rounded, so that a nudge
    /// moves what it changes and not the whole picture.
    fn of(extent: &Extent, room: Rect, cell_height: f64) -> Self {
        /// Steps of the scale in a column a millimetre.
        const SCALES: f64 = 10.0;
        /// Steps of the centre in a millimetre.
        const CENTRES: f64 = 2.0;
        let across = f64::from(room.width) / extent.width().max(f64::MIN_POSITIVE);
        let down = cell_height * f64::from(room.height) / extent.height().max(f64::MIN_POSITIVE);
        let scale = (across.min(down) * SCALES).floor().max(1.0) / SCALES;
        let centre = extent.least.midpoint(extent.most);
        let round = |at: Mm| (at * CENTRES).round() / CENTRES;
        Self {
            centre: Point::new(round(centre.x), round(centre.y)),
            scale,
            cell_height,
        }
    }

    fn window(&self, room: Rect) -> Extent {
        let half_width = 0.5 * f64::from(room.width) / self.scale;
        let half_height = 0.5 * self.cell_height * f64::from(room.height) / self.scale;
        Extent {
            least: Point::new(self.centre.x - half_width, self.centre.y - half_height),
            most: Point::new(self.centre.x + half_width, self.centre.y + half_height),
        }
    }
}

fn split(room: Rect, direction: Direction, shares: [u16; 2]) -> [Rect; 2] {
    Layout::new(direction, shares.map(Constraint::Fill))
        .spacing(1)
        .areas(room)
}

/// A share of the room in proportion to a length.
fn share(length: Mm) -> u16 {
    // A tenth of a millimetre is finer than any cell.
    const TENTHS: f64 = 10.0;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to what it holds"
    )]
    let share = (length * TENTHS).clamp(1.0, f64::from(u16::MAX)) as u16;
    share
}
