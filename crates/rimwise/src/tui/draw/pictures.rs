//! The pictures of the bays: one scale, one level.

use crate::tui::painting::{Scale, paint};
use crate::tui::theme::Theme;
use geometry::Mm;
use ratatui::Frame;
use ratatui::layout::{Constraint, Direction, Layout, Rect};
use scene::{Extent, Scene, View};
use session::{Bay, Session};

/// The pictures of one bay.
#[derive(Default)]
pub(super) struct Pictures {
    section: Option<Scene>,
    face_on: Option<Scene>,
}

/// The pictures of every bay with what they share.
pub(super) struct Gallery {
    pictures: Vec<Pictures>,
    section: Option<Extent>,
    face_on: Option<Extent>,
}

impl Gallery {
    /// Draws up the pictures of bays, at the turn at which each is set down.
    pub(super) fn of(session: &Session, bays: &[Bay]) -> Self {
        let shown = session.document().shown();
        let setting = session.setting();
        let pictures: Vec<Pictures> = bays
            .iter()
            .map(|bay| {
                let size = bay.find(session.document().shelf()).map(|(_, size)| size);
                let results = session.results().assessed();
                let turn = results.and_then(|it| it.candidate(bay)).map_or_else(
                    || {
                        bay.turn
                            .map_or(0.0, |degrees| f64::from(degrees).to_radians())
                    },
                    |candidate| candidate.turn,
                );
                let draw = |view: View| view.draw(setting, size.as_ref()?, turn);
                Pictures {
                    section: draw(View::Section(shown.valve)),
                    face_on: draw(View::FaceOn(shown.face)),
                }
            })
            .collect();
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

    /// Draws the pictures of one bay into an area of the size every bay has.
    pub(super) fn draw(&self, frame: &mut Frame, theme: Theme, bay: usize, area: Rect) {
        let (Some(plan), Some(pictures)) = (self.plan(area), self.pictures.get(bay)) else {
            return;
        };
        let mut draw = |scene: Option<&Scene>, bounds: Option<Extent>, room: Rect| {
            if let (Some(scene), Some(bounds)) = (scene, bounds) {
                paint(scene, &bounds, plan.scale, theme, room, frame.buffer_mut());
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

    /// Whether a bay has a section to show; without one a reading is missing.
    pub(super) fn has_section(&self, bay: usize) -> bool {
        self.pictures
            .get(bay)
            .is_some_and(|pictures| pictures.section.is_some())
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
