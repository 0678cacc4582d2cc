//! The pictures of the bays: one scale, one level.

use crate::tui::painting::{Scale, paint};
use crate::tui::theme::Theme;
use geometry::{Face, Mm, Radians};
use measurement::Valve;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Direction, Layout, Rect};
use scene::{Extent, Scene, View};
use session::{Bay, Session};
use sizing::{Setting, Size};
use std::sync::Arc;

/// The pictures that were painted last, kept from frame to frame: most keys change
/// none of them, and painting took a third of a frame.
#[derive(Default)]
pub(in crate::tui) struct Studio {
    of: Option<Sitters>,
    gallery: Gallery,
    painted: Vec<Painted>,
}

/// A size at its turn, and the rotation in degrees at which a defect whose rotation
/// nobody read is pictured.
type Piece = (Option<Size>, Radians, Option<f64>);

/// All that the pictures tell of.
struct Sitters {
    setting: Arc<Setting>,
    pieces: Vec<Piece>,
    valve: Valve,
    face: Face,
}

/// The pictures of one bay as they were painted into an area of its size.
struct Painted {
    bay: usize,
    theme: Theme,
    cells: Buffer,
}

/// The pictures of one bay.
#[derive(Default)]
struct Pictures {
    section: Option<Scene>,
    face_on: Option<Scene>,
}

/// The pictures of every bay with what they share.
#[derive(Default)]
struct Gallery {
    pictures: Vec<Pictures>,
    section: Option<Extent>,
    face_on: Option<Extent>,
}

impl Studio {
    /// Draws up the pictures of bays, at the turn at which each is set down.
    pub(super) fn draw_up(&mut self, session: &Session, bays: &[Bay]) {
        let sitters = Sitters::of(session, bays);
        if self.of.as_ref().is_some_and(|of| of.are(&sitters)) {
            return;
        }
        self.gallery = Gallery::of(&sitters);
        self.painted.clear();
        self.of = Some(sitters);
    }

    /// Draws the pictures of one bay into an area of the size every bay has.
    pub(super) fn draw(&mut self, frame: &mut Frame, theme: Theme, bay: usize, area: Rect) {
        let area = area.intersection(frame.area());
        let room = Rect::new(0, 0, area.width, area.height);
        let is_it = |it: &Painted| it.bay == bay && it.theme == theme && it.cells.area == room;
        if !self.painted.iter().any(is_it) {
            // What a bay showed in another size or theme is not shown again soon.
            self.painted.retain(|it| it.bay != bay);
            let mut cells = Buffer::empty(room);
            self.gallery.paint(&mut cells, theme, bay, room);
            self.painted.push(Painted { bay, theme, cells });
        }
        let Some(painted) = self.painted.iter().find(|it| is_it(it)) else {
            return;
        };
        for (to, from) in area.rows().zip(room.rows()) {
            for (to, from) in to.positions().zip(from.positions()) {
                frame.buffer_mut()[to] = painted.cells[from].clone();
            }
        }
    }

    /// Whether a bay has a section to show; without one a reading is missing.
    pub(super) fn has_section(&self, bay: usize) -> bool {
        let pictures = self.gallery.pictures.get(bay);
        pictures.is_some_and(|pictures| pictures.section.is_some())
    }
}

impl Sitters {
    fn of(session: &Session, bays: &[Bay]) -> Self {
        let results = session.results().assessed();
        let piece = |bay: &Bay| {
            let size = bay.find(session.document().shelf()).map(|(_, size)| size);
            let by_hand = || bay.turn.map_or(0.0, |turn| f64::from(turn).to_radians());
            let candidate = results.and_then(|it| it.candidate(bay));
            let turn = candidate.map_or_else(by_hand, |candidate| candidate.turn);
            let rotation = candidate.and_then(sizing::Candidate::pictured_rotation);
            (size, turn, rotation)
        };
        let shown = session.document().shown();
        Self {
            setting: Arc::clone(session.setting()),
            pieces: bays.iter().map(piece).collect(),
            valve: shown.valve,
            face: shown.face,
        }
    }

    /// Whether they are the same as others. The same allocation is the same setting:
    /// nobody changes one, and while it is kept its address is not given away.
    fn are(&self, others: &Self) -> bool {
        Arc::ptr_eq(&self.setting, &others.setting)
            && self.pieces == others.pieces
            && self.valve == others.valve
            && self.face == others.face
    }
}

impl Gallery {
    fn of(sitters: &Sitters) -> Self {
        let draw = |(size, turn, rotation): &Piece, view: View| {
            view.draw(&sitters.setting.pictured(*rotation), size.as_ref()?, *turn)
        };
        let pictures = sitters.pieces.iter().map(|piece| Pictures {
            section: draw(piece, View::Section(sitters.valve)),
            face_on: draw(piece, View::FaceOn(sitters.face)),
        });
        let pictures: Vec<Pictures> = pictures.collect();
        let all = |of: fn(&Pictures) -> Option<&Scene>| {
            let bounds = pictures.iter().filter_map(of).map(|scene| scene.bounds);
            Extent::of(bounds.flat_map(|bounds| [bounds.least, bounds.most]))
        };
        Self {
            section: all(|it| it.section.as_ref()),
            face_on: all(|it| it.face_on.as_ref()),
            pictures,
        }
    }

    /// Paints the pictures of one bay into an area.
    fn paint(&self, buffer: &mut Buffer, theme: Theme, bay: usize, area: Rect) {
        let (Some(plan), Some(pictures)) = (self.plan(area), self.pictures.get(bay)) else {
            return;
        };
        let mut draw = |scene: Option<&Scene>, bounds: Option<Extent>, room: Rect| {
            if let (Some(scene), Some(bounds)) = (scene, bounds) {
                paint(scene, &bounds, plan.scale, theme, room, buffer);
            }
        };
        draw(pictures.section.as_ref(), self.section, plan.section);
        draw(pictures.face_on.as_ref(), self.face_on, plan.face_on);
    }

    /// The arrangement that shows most: both pictures beside each other, one under
    /// the other, or, where neither leaves enough of them, the section alone.
    fn plan(&self, area: Rect) -> Option<Plan> {
        let (Some(section), Some(face_on)) = (self.section, self.face_on) else {
            let only = self.section.or(self.face_on)?;
            return Some(Plan {
                section: area,
                face_on: area,
                scale: Scale::fitting(&only, area),
            });
        };
        let arranged = |direction: Direction, shares: [f64; 2]| {
            let [first, second] = Layout::new(direction, shares.map(fill))
                .spacing(1)
                .areas(area);
            let scale = Scale::fitting(&section, first).coarser(Scale::fitting(&face_on, second));
            Plan {
                section: first,
                face_on: second,
                scale,
            }
        };
        let beside = arranged(Direction::Horizontal, [section.width(), face_on.width()]);
        let stacked = arranged(Direction::Vertical, [section.height(), face_on.height()]);
        let both = if stacked.scale < beside.scale {
            stacked
        } else {
            beside
        };
        let alone = Scale::fitting(&section, area);
        Some(if both.scale <= Scale::COARSEST {
            both
        } else {
            Plan {
                section: area,
                face_on: Rect::ZERO,
                scale: alone,
            }
        })
    }
}

/// Where the pictures lie, and their one scale.
struct Plan {
    section: Rect,
    face_on: Rect,
    scale: Scale,
}

/// A share of the room in proportion to a length.
fn fill(length: Mm) -> Constraint {
    // A tenth of a millimetre is finer than any cell.
    const TENTHS: f64 = 10.0;
    const MOST: f64 = 1e4;
    let tenths = (length * TENTHS).clamp(1.0, MOST);
    Constraint::Fill(
        (1..u16::MAX)
            .find(|&share| f64::from(share) >= tenths)
            .unwrap_or(1),
    )
}
