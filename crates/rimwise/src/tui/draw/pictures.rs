//! The pictures of the bays: one scale, one level.

mod arrangement;
mod sitters;

use crate::tui::painter::PixelOrder;
use crate::tui::painting::paint;
use crate::tui::theme::Theme;
pub(super) use arrangement::Arrangement;
use arrangement::Bounds;
use geometry::Face;
use measurement::Valve;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use scene::plate::{self, Cells};
use scene::{Extent, View};
use session::{Bay, SectionLeft, Session};
use sitters::PictureSubjects;
use sizing::{Candidate, Setting};
use std::sync::Arc;

/// How many times as high as wide a cell is, where the terminal does not say.
const CELL_HEIGHT: f64 = 2.0;

/// Width and height of a cell in pixels, where the terminal does not say.
const CELL_PIXELS: [u16; 2] = [10, 20];

/// Pixels a millimetre of a page that is painted in pixels: its letters are then
/// about as large as those of the screen.
const PIXELS_PER_MM: f64 = 5.0;

/// The pictures that were painted last, kept from frame to frame: most keys change
/// none of them.
#[derive(Default)]
pub(in crate::tui) struct Studio {
    of: Option<PictureSubjects>,
    painted: Option<Painted>,
    /// How many pictures were wanted in pixels: the number of the last one.
    count: u64,
    /// Whether the pictures stand alone in the frame and are wanted in pixels.
    wants_pixels: bool,
    leaves_out: LeavesOut,
}

/// Whether pictures are left out, so that the first frame waits for none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum LeavesOut {
    #[default]
    Nothing,
    /// Of the frame that comes.
    Next,
    /// Of the frame that was drawn last: another is to follow.
    Last,
}

/// The pictures of every bay as they were painted into rooms of their sizes.
struct Painted {
    theme: Theme,
    cells: Vec<Buffer>,
    arrangement: Arrangement,
    /// The same in pixels, and the rooms in which they lie, once that was wanted.
    pixels: Option<(Vec<Rect>, PixelOrder)>,
}

/// The two pictures of one bay.
struct Pictures<'a> {
    section: Option<plate::Bay<'a>>,
    face_on: Option<plate::Bay<'a>>,
}

impl Studio {
    /// A studio that leaves the pictures out of its first frame.
    pub(in crate::tui) fn beginning_with_words() -> Self {
        Self {
            leaves_out: LeavesOut::Next,
            ..Self::default()
        }
    }

    /// Whether the frame that was drawn last is to be followed by one with pictures.
    pub(in crate::tui) fn has_left_out(&self) -> bool {
        self.leaves_out == LeavesOut::Last
    }

    /// Draws up the pictures of bays, at the turn at which each is set down.
    pub(super) fn draw_up(&mut self, session: &Session, bays: &[Bay]) {
        if self.leaves_out == LeavesOut::Next {
            self.leaves_out = LeavesOut::Last;
            return;
        }
        self.leaves_out = LeavesOut::Nothing;
        if self.of.as_ref().is_some_and(|of| of.are(session, bays)) {
            return;
        }
        self.painted = None;
        self.of = Some(PictureSubjects::of(session, bays));
    }

    /// Draws up the picture of one size of any case, that of a lesson or a neighbour of a
    /// size: through a valve, of a face, one ventricle on the left.
    pub(super) fn draw_up_one(
        &mut self,
        setting: &Arc<Setting>,
        candidate: &Candidate,
        seen: (Valve, Face),
        left: SectionLeft,
    ) {
        self.leaves_out = LeavesOut::Nothing;
        let of = self.of.as_ref();
        if of.is_some_and(|of| of.is_one(setting, candidate, seen, left)) {
            return;
        }
        self.painted = None;
        self.of = Some(PictureSubjects::of_one(setting, candidate, seen, left));
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

    /// Draws pictures that stand alone on the page, and wants them in pixels as well
    /// where the theme has those.
    pub(super) fn draw_alone(&mut self, frame: &mut Frame, theme: Theme, rooms: &[Rect]) {
        self.draw(frame, theme, rooms);
        let (Some(protocol), Some(sitters), Some(painted)) =
            (theme.pixels(), &self.of, &mut self.painted)
        else {
            return;
        };
        let cell = cell_pixels();
        self.wants_pixels = true;
        let is_it = |(of, order): &(Vec<Rect>, PixelOrder)| of == rooms && order.cell == cell;
        if painted.pixels.as_ref().is_some_and(is_it) {
            return;
        }
        let area = frame.area();
        let pages = drawn(sitters, rooms.len(), |pictures| {
            let rooms = rooms.iter().map(|room| room.intersection(area));
            let parts = rooms
                .zip(pictures)
                .flat_map(|(room, pictures)| parts(pictures, painted.arrangement, room));
            parts
                .map(|(part, picture, window)| {
                    let page =
                        [(part.width, cell[0]), (part.height, cell[1])].map(|(cells, pixels)| {
                            f64::from(cells) * f64::from(pixels) / PIXELS_PER_MM
                        });
                    (part, picture.draw_whole(&window, page))
                })
                .collect()
        });
        self.count += 1;
        painted.pixels = Some((
            rooms.to_vec(),
            PixelOrder {
                id: self.count,
                protocol,
                ground: theme.page_ground(),
                cell,
                pages,
            },
        ));
    }

    /// What of the frame is wanted in pixels; asked for once a frame.
    pub(in crate::tui) fn take_pixels(&mut self) -> Option<&PixelOrder> {
        let is_wanted = std::mem::take(&mut self.wants_pixels);
        let pixels = self.painted.as_ref()?.pixels.as_ref()?;
        is_wanted.then_some(&pixels.1)
    }

    /// Leaves pixels out of the frame: something lies over the pictures.
    pub(super) const fn hide_pixels(&mut self) {
        self.wants_pixels = false;
    }

    /// Whether the bays have a section to show; without one a reading is missing.
    pub(super) fn has_section(&self) -> bool {
        self.of.as_ref().is_some_and(PictureSubjects::have_section)
    }

    /// What the mark behind the number of a picture stands for, in so many columns;
    /// `None` where it has none.
    pub(super) fn legend(&self, index: usize, width: u16) -> Option<String> {
        let sitters = self.of.as_ref()?;
        let says = format!("{} {}", plate::OUTSIDE_CUT_MARK, plate::OUTSIDE_CUT);
        let is_short = says.chars().count() > usize::from(width);
        let says = if is_short {
            says.replace("nearest point ", "")
        } else {
            says
        };
        sitters.is_nearest_outside(index).then_some(says)
    }

    /// What the pictures that were drawn last show.
    pub(super) fn arrangement(&self) -> Arrangement {
        self.painted
            .as_ref()
            .map_or_else(Arrangement::default, |painted| painted.arrangement)
    }
}

/// The pictures of so many bays, as long as something is done with them.
fn drawn<T>(sitters: &PictureSubjects, count: usize, with: impl FnOnce(&[Pictures]) -> T) -> T {
    let settings = sitters.pictured();
    let draw = |index: usize, view: View| {
        let candidate = sitters.pieces.get(index)?.candidate.as_ref()?;
        plate::Bay::of(
            &settings[index],
            candidate,
            view,
            orientation(sitters.section_left),
        )
    };
    let pictures: Vec<Pictures> = (0..count)
        .map(|index| Pictures {
            section: draw(index, View::Section(sitters.valve)),
            face_on: draw(index, View::FaceOn(sitters.face)),
        })
        .collect();
    with(&pictures)
}

/// The pictures of a bay that are shown in its room: where each lies, and what of the
/// heart it shows.
fn parts<'a>(
    pictures: &'a Pictures<'a>,
    arrangement: Arrangement,
    room: Rect,
) -> impl Iterator<Item = (Rect, &'a plate::Bay<'a>, Extent)> {
    let both = [
        (&pictures.section, arrangement.section(room)),
        (&pictures.face_on, arrangement.face_on(room)),
    ];
    both.into_iter().filter_map(|(picture, shown)| {
        let (part, window) = shown?;
        Some((part, picture.as_ref()?, window))
    })
}

/// Paints the pictures of all bays, each into a buffer of its room's size.
fn painted(sitters: &PictureSubjects, theme: Theme, rooms: &[Rect]) -> Painted {
    let least = |of: fn(&Rect) -> u16| rooms.iter().map(of).min().unwrap_or_default();
    // What finds room in the least of the rooms finds it in all.
    let least = Rect::new(0, 0, least(|room| room.width), least(|room| room.height));
    drawn(sitters, rooms.len(), |pictures| {
        let arrangement = Arrangement::of(&bounds(pictures), least, CELL_HEIGHT);
        let of_bay = |(room, pictures): (&Rect, &Pictures)| {
            let room = Rect::new(0, 0, room.width, room.height);
            let mut buffer = Buffer::empty(room);
            for (part, picture, window) in parts(pictures, arrangement, room) {
                let cells = Cells {
                    columns: part.width,
                    rows: part.height,
                    height: CELL_HEIGHT,
                };
                paint(&picture.draw(&window, cells), theme, part, &mut buffer);
            }
            buffer
        };
        let bays: Vec<(&Rect, &Pictures)> = rooms.iter().zip(pictures).collect();
        Painted {
            theme,
            cells: in_two(&bays, of_bay),
            arrangement,
            pixels: None,
        }
    })
}

/// What is made of each item, in their order: the later half on a thread of its own.
fn in_two<T: Copy + Sync, R: Send>(items: &[T], made: impl Fn(T) -> R + Sync) -> Vec<R> {
    let (now, later) = items.split_at(items.len().div_ceil(2));
    let each = |items: &[T]| -> Vec<R> { items.iter().map(|&item| made(item)).collect() };
    if later.is_empty() {
        return each(now);
    }
    std::thread::scope(|scope| {
        let later = scope.spawn(|| each(later));
        let mut all = each(now);
        let later = later.join();
        all.extend(later.unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        all
    })
}

/// What the pictures of all bays are to show.
fn bounds(pictures: &[Pictures]) -> Bounds {
    let all = |of: fn(&Pictures) -> Option<Extent>| {
        let bounds = pictures.iter().filter_map(of);
        Extent::of(bounds.flat_map(|bounds| [bounds.least, bounds.most]))
    };
    Bounds {
        section: all(|it| Some(it.section.as_ref()?.bounds())),
        corner: all(|it| it.section.as_ref()?.corner()),
        face_on: all(|it| Some(it.face_on.as_ref()?.bounds())),
    }
}

/// Width and height of a cell in pixels, as the system knows it: the terminal itself
/// is not asked.
fn cell_pixels() -> [u16; 2] {
    let Ok(window) = crossterm::terminal::window_size() else {
        return CELL_PIXELS;
    };
    let cell = [(window.width, window.columns), (window.height, window.rows)]
        .map(|(pixels, cells)| pixels.checked_div(cells).unwrap_or(0));
    if cell.contains(&0) { CELL_PIXELS } else { cell }
}

/// The side on which a section has the right ventricle.
pub(in crate::tui) const fn orientation(left: SectionLeft) -> plate::Orientation {
    match left {
        SectionLeft::RightVentricle => plate::Orientation::RightVentricleLeft,
        SectionLeft::LeftVentricle => plate::Orientation::LeftVentricleLeft,
    }
}
