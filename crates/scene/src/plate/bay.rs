use super::Detail;
use super::lettering::Lettering;
use super::panel::Panel;
use super::picture::{Orientation, Picture};
use crate::stroke::{Drawing, Ink, Path, Role, Stroke};
use crate::{Extent, Part, Point, View};
use geometry::Mm;
use sizing::{Candidate, Setting};

/// One size in one view, thinned for a few cells of a screen: no grain, no braid,
/// few words.
#[derive(Debug)]
pub struct Bay<'a> {
    picture: Picture<'a>,
    title: String,
}

/// The room of a bay in cells of a screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cells {
    /// Cells side by side.
    pub columns: u16,
    /// Cells one over the other.
    pub rows: u16,
    /// The height of a cell over its width; 2 as a rule.
    pub height: f64,
}

impl<'a> Bay<'a> {
    /// A size as it was assessed; `None` while a reading that the view needs is missing.
    pub fn of(
        setting: &'a Setting,
        candidate: &'a Candidate,
        view: View,
        orientation: Orientation,
    ) -> Option<Self> {
        Some(Self {
            picture: Picture::of(setting, candidate, view, orientation)?,
            title: super::picture::caption(setting, view, orientation),
        })
    }

    /// What of the heart it shows whole, mm. Bays that share the union of theirs have
    /// one scale and one level.
    pub fn bounds(&self) -> Extent {
        self.picture.bounds(Detail::Thin)
    }

    /// The corner at the valve of a section, to be shown enlarged where there is no
    /// room for all; `None` where no valve stands in it.
    pub fn corner(&self) -> Option<Extent> {
        self.picture.corner()
    }

    /// The picture of a window of the heart in some cells, one page millimetre a
    /// column: as large as they hold it, and more of the heart where they are wider
    /// or taller. Words begin at a column and lie in one row, a letter a cell.
    pub fn draw(&self, window: &Extent, cells: Cells) -> Drawing {
        let page = [
            f64::from(cells.columns),
            f64::from(cells.rows) * cells.height,
        ];
        self.drawing(window, page, Some(cells.height))
    }

    /// The same with grain, braid and every dimension, on a page so many millimetres
    /// wide and high: for pixels.
    pub fn draw_whole(&self, window: &Extent, page: [Mm; 2]) -> Drawing {
        self.drawing(window, page, None)
    }

    /// The picture on a page, in cells of a height or in the whole of its detail.
    fn drawing(&self, window: &Extent, [width, height]: [Mm; 2], cell: Option<Mm>) -> Drawing {
        let page = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        let mut drawing = Drawing {
            width,
            height,
            title: self.title.clone(),
            alternative_text: String::new(),
            strokes: vec![Stroke {
                part: Part::Caption,
                role: Role::Ground,
                ink: Ink::Fill(Path::polygon(page.map(|(x, y)| Point::new(x, y)))),
            }],
        };
        let scale = (width / window.width().max(f64::MIN_POSITIVE))
            .min(height / window.height().max(f64::MIN_POSITIVE));
        // Without a cell there is no scale.
        if scale <= 0.0 {
            return drawing;
        }
        let grown = |least: f64, most: f64, room: f64| {
            let more = 0.5 * (room / scale - (most - least)).max(0.0);
            [least - more, most + more]
        };
        let [left, right] = grown(window.least.x, window.most.x, width);
        let [bottom, top] = grown(window.least.y, window.most.y, height);
        let window = Extent {
            least: Point::new(left, bottom),
            most: Point::new(right, top),
        };
        let corner = Point::new(0.0, 0.0);
        let mut panel = Panel::new(corner, window, scale, self.picture.is_mirrored());
        let (detail, mut lettering) = match cell {
            Some(height) => (Detail::Thin, Lettering::in_cells(panel.field, height)),
            None => (Detail::Full, Lettering::new(panel.field)),
        };
        self.picture.draw(&mut panel, detail);
        lettering.observe(&panel.strokes);
        // A face in the whole of its detail has its names in a margin, which is not here.
        let is_face = self.picture.face_on().is_some();
        let lettered = if is_face { Detail::Thin } else { detail };
        self.picture.letter(&panel, &mut lettering, lettered);
        if detail == Detail::Thin {
            // In a few cells a length says nothing without its number.
            let has_words = |part| lettering.strokes.iter().any(|words| words.part == part);
            panel
                .strokes
                .retain(|stroke| !matches!(stroke.part, Part::Rim(_)) || has_words(stroke.part));
        }
        drawing.strokes.append(&mut panel.strokes);
        drawing.strokes.append(&mut lettering.strokes);
        drawing
    }
}
