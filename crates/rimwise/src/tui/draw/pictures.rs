//! The pictures of the bays: one scale, one level.

mod arrangement;
mod sitters;

use crate::tui::painting::paint;
use crate::tui::theme::Theme;
pub(super) use arrangement::Arrangement;
use arrangement::Bounds;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use scene::plate::{self, Cells};
use scene::{Extent, View};
use session::{Bay, SectionLeft, Session};
use sitters::Sitters;

/// How many times as high as wide a cell is, where the terminal does not say.
const CELL_HEIGHT: f64 = 2.0;

/// The pictures that were painted last, kept from frame to frame: most keys change
/// none of them.
#[derive(Default)]
pub(in crate::tui) struct Studio {
    of: Option<Sitters>,
    painted: Option<Painted>,
}

/// The pictures of every bay as they were painted into rooms of their sizes.
struct Painted {
    theme: Theme,
    cells: Vec<Buffer>,
    arrangement: Arrangement,
}

/// The two pictures of one bay.
struct Pictures<'a> {
    section: Option<plate::Bay<'a>>,
    face_on: Option<plate::Bay<'a>>,
}

impl Studio {
    /// Draws up the pictures of bays, at the turn at which each is set down.
    pub(super) fn draw_up(&mut self, session: &Session, bays: &[Bay]) {
        if self.of.as_ref().is_some_and(|of| of.are(session, bays)) {
            return;
        }
        self.painted = None;
        self.of = Some(Sitters::of(session, bays));
    }

    /// Draws the pictures of each bay into its room; the rooms are alike in size.
    pub(super) fn draw(&mut self, frame: &mut Frame, theme: Theme, rooms: &[Rect]) {
        let Some(sitters) = &self.of else { return };
        let rooms: Vec<Rect> = rooms
            .iter()
            .map(|room| room.intersection(frame.area()))
            .collect();
        let is_it = |it: &Painted| {
            let sizes = it.cells.iter().map(|cells| cells.area.as_size());
            it.theme == theme && sizes.eq(rooms.iter().map(|room| room.as_size()))
        };
        if !self.painted.as_ref().is_some_and(is_it) {
            self.painted = Some(painted(sitters, theme, &rooms));
        }
        let painted = self.painted.iter().flat_map(|painted| &painted.cells);
        for (room, cells) in rooms.iter().zip(painted) {
            for (to, from) in room.positions().zip(cells.area.positions()) {
                frame.buffer_mut()[to] = cells[from].clone();
            }
        }
    }

    /// Whether the bays have a section to show; without one a reading is missing.
    pub(super) fn has_section(&self) -> bool {
        self.of.as_ref().is_some_and(Sitters::have_section)
    }

    /// What the pictures that were drawn last show.
    pub(super) fn arrangement(&self) -> Arrangement {
        self.painted
            .as_ref()
            .map_or_else(Arrangement::default, |painted| painted.arrangement)
    }
}

/// Paints the pictures of all bays, each into a buffer of its room's size.
fn painted(sitters: &Sitters, theme: Theme, rooms: &[Rect]) -> Painted {
    let settings = sitters.pictured();
    let draw = |index: usize, view: View| {
        let piece = sitters.pieces.get(index)?;
        plate::Bay::of(
            &settings[index],
            &piece.candidate.as_ref()?.size,
            piece.candidate.as_ref()?.turn,
            view,
            piece.candidate.as_ref(),
            orientation(sitters.section_left),
        )
    };
    let pictures: Vec<Pictures> = (0..rooms.len())
        .map(|index| Pictures {
            section: draw(index, View::Section(sitters.valve)),
            face_on: draw(index, View::FaceOn(sitters.face)),
        })
        .collect();
    let all = |of: &dyn Fn(&Pictures) -> Option<Extent>| {
        let bounds = pictures.iter().filter_map(of);
        Extent::of(bounds.flat_map(|bounds| [bounds.least, bounds.most]))
    };
    let bounds = Bounds {
        section: all(&|it| Some(it.section.as_ref()?.bounds())),
        corner: all(&|it| Some(it.section.as_ref()?.corner())),
        face_on: all(&|it| Some(it.face_on.as_ref()?.bounds())),
    };
    // What finds room in the least of the rooms finds it in all.
    let least = rooms.iter().fold(None, |least: Option<Rect>, room| {
        let least = least.unwrap_or(*room);
        Some(Rect::new(
            0,
            0,
            least.width.min(room.width),
            least.height.min(room.height),
        ))
    });
    let arrangement = Arrangement::of(&bounds, least.unwrap_or_default(), CELL_HEIGHT);
    let cells = rooms.iter().zip(&pictures).map(|(room, pictures)| {
        let room = Rect::new(0, 0, room.width, room.height);
        let mut buffer = Buffer::empty(room);
        for (picture, shown) in [
            (&pictures.section, arrangement.section(room)),
            (&pictures.face_on, arrangement.face_on(room)),
        ] {
            let (Some(picture), Some((part, window))) = (picture, shown) else {
                continue;
            };
            let cells = Cells {
                columns: part.width,
                rows: part.height,
                height: CELL_HEIGHT,
            };
            paint(&picture.draw(&window, cells), theme, part, &mut buffer);
        }
        buffer
    });
    Painted {
        theme,
        cells: cells.collect(),
        arrangement,
    }
}

const fn orientation(left: SectionLeft) -> plate::Orientation {
    match left {
        SectionLeft::RightVentricle => plate::Orientation::RightVentricleLeft,
        SectionLeft::LeftVentricle => plate::Orientation::LeftVentricleLeft,
    }
}
