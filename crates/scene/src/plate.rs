//! Plates: sizes in the heart as pages of strokes, and the same thinned for a bay
//! of a screen.
//!
//! What was measured is dark and solid, what is assumed dashed, what is drawn from
//! habit grey; none of it comes nearer to the device than the engine's model. Words
//! stand by rule: in the field of a picture where nothing dark lies under them, else
//! in its margin, else nowhere; key numbers are said over the pictures as well.

mod basis;
mod bay;
mod face_on;
mod footing;
mod heading;
mod judged;
mod lettering;
mod margin;
mod panel;
mod picture;
mod section;
mod texture;

#[cfg(test)]
mod tests;

pub use bay::{Bay, Cells};
pub use picture::Orientation;
pub use section::{OUTSIDE_CUT, OUTSIDE_CUT_MARK};

use crate::stroke::{Anchor, Drawing, Ink, Role, Stroke};
use crate::{Extent, Part, Point, View, nearest_valve, words};
use geometry::{Face, Mm};
use heading::Heading;
use lettering::{Lettered, Lettering};
use margin::Margin;
use measurement::Valve;
use panel::Panel;
use picture::Picture;
use sizing::{Candidate, Neighbour, Setting};

/// How much of the small things a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Detail {
    /// Grain, braid and every dimension: for files and large drawings.
    Full,
    /// What reads in a few cells.
    Thin,
}

/// A page of one to four sizes side by side, at one scale and one level.
#[derive(Clone, Debug)]
pub struct Plate<'a> {
    /// The case in one line, harmless text.
    pub title: &'a str,
    /// What stands at the foot, each on lines of its own: what the plate was made from,
    /// and its caution. Harmless text.
    pub notes: &'a [&'a str],
    /// The case.
    pub setting: &'a Setting,
    /// The sizes.
    pub columns: Vec<Column<'a>>,
    /// What is shown of each, one under the other. A face is seen from its own side.
    pub views: Vec<View>,
    /// Which ventricle a section has on its left.
    pub orientation: Orientation,
    /// Width of the page, mm.
    pub width: Mm,
}

/// One size of a plate.
#[derive(Clone, Copy, Debug)]
pub struct Column<'a> {
    /// Its name, harmless text.
    pub name: &'a str,
    /// Why it is judged no better, where the pictures do not show it; harmless text.
    pub reason: Option<&'a str>,
    /// The size as the engine judges it.
    pub candidate: &'a Candidate,
}

/// The scale at most, on a page of [`Plate::WIDTH`].
const LARGEST_SCALE: f64 = 5.0;

/// Round the page, between columns, and between what stands one under the other,
/// page mm.
const MARGIN: Mm = 10.0;
const GAP: Mm = 8.0;
const LEADING: Mm = 3.9;

/// What a column keeps free beside a field: for the ruler, and for names where the
/// column stands alone.
const RULER: Mm = 13.0;
const NAMES: Mm = 46.0;

/// How lines are to be read.
const LEGEND: &str = "Solid: measured. Dashed: assumed, or behind what is seen. Grey: from habit, not \
    measured. Bar at the hinge: ± 1 and ± 2 SD of the rim.";

/// Letters of the title, of captions, page mm.
const TITLE: Mm = 4.2;
const SMALL: Mm = 2.5;

impl Plate<'_> {
    /// The width of a page where none is asked for: A4, landscape.
    pub const WIDTH: Mm = 297.0;

    /// The page.
    pub fn draw(&self) -> Drawing {
        let rows = self.rows();
        let scale = self.scale(&rows, LARGEST_SCALE * self.width / Self::WIDTH);
        let mut page = PlateStrokes::default();
        let title = Lettered::new(Part::Caption, Role::Word, self.title.to_owned(), TITLE).bold();
        page.put(&title, MARGIN, MARGIN + TITLE);
        let y = self.pictures(&mut page, &rows, scale, MARGIN + TITLE + LEADING + 1.2);
        let printed = format!(
            "mm; {} : 1 where the page is printed {:.0} mm wide",
            words::short(scale),
            self.width
        );
        let y = footing::footing(
            &mut page.strokes,
            self.width,
            scale,
            &printed,
            self.notes,
            y,
        );
        Drawing {
            width: self.width,
            height: y + MARGIN,
            title: self.whole_title(),
            alternative_text: page.sentences.join(" "),
            strokes: page.strokes,
        }
    }

    /// The pictures as a part of a larger page, set close: without title and margin, at
    /// a scale of no more than the largest, and [`Self::width`] wide.
    pub fn inset(&self, largest: f64) -> Inset {
        let wider = Plate {
            width: self.width + 2.0 * MARGIN,
            ..self.clone()
        };
        let rows = wider.rows();
        let scale = if wider.has_halves() {
            let [[_, half], _] = wider.halves();
            scale_in(half - NAMES, &rows, largest)
        } else {
            wider.scale(&rows, largest)
        };
        let mut page = PlateStrokes::default();
        let mut y = MARGIN;
        if let Some((role, text)) = wider.unmeasured() {
            let words = Lettered::new(Part::Caption, role, text, SMALL);
            page.put(&words.fitted(wider.width - 2.0 * MARGIN), MARGIN, y + SMALL);
            y += LEADING;
        }
        y = wider.headings(&mut page, &rows, y, heading::Spacing::Close);
        if let ([first, second], true) = (rows.as_slice(), wider.has_halves()) {
            let [left, right] = wider.halves();
            let below = wider.row(&mut page, first, scale, y, Some(left));
            y = wider
                .row(&mut page, second, scale, y, Some(right))
                .max(below);
        } else {
            for row in &rows {
                y = wider.row(&mut page, row, scale, y, None);
            }
        }
        let y = footing::beside_ruler(&mut page.strokes, wider.width, scale, LEGEND, y - 0.8);
        for stroke in &mut page.strokes {
            stroke.move_by(-MARGIN, -MARGIN);
        }
        Inset {
            drawing: Drawing {
                width: self.width,
                height: y - MARGIN,
                title: self.whole_title(),
                alternative_text: page.sentences.join(" "),
                strokes: page.strokes,
            },
            scale,
            sentences: page.sentences,
        }
    }

    /// Whether both views of the only size stand side by side.
    const fn has_halves(&self) -> bool {
        self.columns.len() == 1 && self.views.len() == 2
    }

    /// The left end and the width of the two halves of the page.
    fn halves(&self) -> [[Mm; 2]; 2] {
        let width = 0.5 * (self.width - 2.0 * MARGIN - GAP);
        [[MARGIN, width], [MARGIN + width + GAP, width]]
    }

    /// Legend, headings and every row of pictures from a height down; gives the height
    /// below them.
    fn pictures(&self, page: &mut PlateStrokes, rows: &[ViewRow], scale: f64, y: Mm) -> Mm {
        let mut y = self.legend(page, scale, y);
        y = self.headings(page, rows, y, heading::Spacing::Wide);
        for row in rows {
            y = self.row(page, row, scale, y, None);
        }
        y
    }

    /// The title with what is shown and how it lies.
    fn whole_title(&self) -> String {
        let views: Vec<String> = self
            .views
            .iter()
            .map(|&view| picture::caption(self.setting, view, self.orientation))
            .collect();
        format!("{}: {}", self.title, views.join("; "))
    }

    fn rows(&self) -> Vec<ViewRow<'_>> {
        let row = |&view: &View| {
            let pictures: Vec<Option<Picture>> = self
                .columns
                .iter()
                .map(|column| Picture::of(self.setting, column.candidate, view, self.orientation))
                .collect();
            let corners = pictures.iter().flatten().flat_map(|picture| {
                let bounds = picture.bounds(Detail::Full);
                [bounds.least, bounds.most]
            });
            let window = Extent::of(corners);
            ViewRow {
                view,
                window,
                pictures,
            }
        };
        self.views.iter().map(row).collect()
    }

    fn column_width(&self) -> Mm {
        let count = self.columns.len().max(1);
        #[expect(clippy::cast_precision_loss, reason = "at most four")]
        let count = count as f64;
        (self.width - 2.0 * MARGIN - GAP * (count - 1.0)) / count
    }

    /// The left end of a column.
    fn column(&self, index: usize) -> Mm {
        #[expect(clippy::cast_precision_loss, reason = "at most four")]
        let index = index as f64;
        MARGIN + index * (self.column_width() + GAP)
    }

    /// The one scale of all pictures: the largest at which each finds room, in whole
    /// tenths.
    fn scale(&self, rows: &[ViewRow], largest: f64) -> f64 {
        let beside = if self.columns.len() > 1 {
            RULER
        } else {
            2.0 * NAMES
        };
        let room = (self.column_width() - beside).max(MARGIN);
        scale_in(room, rows, largest)
    }

    fn legend(&self, page: &mut PlateStrokes, scale: f64, mut y: Mm) -> Mm {
        let scale = words::short(scale);
        let mut lines = vec![(Role::Word, format!("Drawn at {scale} : 1. {LEGEND}"))];
        lines.extend(self.unmeasured());
        for (role, text) in lines {
            let words = Lettered::new(Part::Caption, role, text, SMALL);
            page.put(&words.fitted(self.width - 2.0 * MARGIN), MARGIN, y);
            y += LEADING;
        }
        y
    }

    /// The valves that stand beside the defect and were not measured: what is not
    /// drawn is not clear.
    fn unmeasured(&self) -> Option<(Role, String)> {
        let valves: Vec<&str> = Valve::ALL
            .into_iter()
            .filter(|&valve| !self.setting.case().is_absent(Neighbour::Valve(valve)))
            .filter(|valve| self.setting.anatomy().valves[*valve].is_none())
            .map(Valve::label)
            .collect();
        let said = format!("! Not drawn, for want of a reading: {}.", valves.join(", "));
        (!valves.is_empty()).then_some((Role::Warning, said))
    }

    /// Name, verdict and key numbers over each column.
    fn headings(
        &self,
        page: &mut PlateStrokes,
        rows: &[ViewRow],
        y: Mm,
        spacing: heading::Spacing,
    ) -> Mm {
        let mut end = y;
        for (index, column) in self.columns.iter().enumerate() {
            let pictures: Vec<(View, Option<&Picture>)> = rows
                .iter()
                .map(|row| (row.view, row.pictures[index].as_ref()))
                .collect();
            let heading = Heading::of(self.setting, *column, &pictures);
            page.sentences.push(heading.sentence());
            let below = heading.draw(
                &mut page.strokes,
                self.column(index),
                self.column_width(),
                y,
                spacing,
            );
            end = end.max(below);
        }
        end
    }

    /// A row of pictures, each in its column; or the only one between the left end and
    /// the width of a part of the page.
    fn row(
        &self,
        page: &mut PlateStrokes,
        row: &ViewRow,
        scale: f64,
        y: Mm,
        part: Option<[Mm; 2]>,
    ) -> Mm {
        let cell = |index| part.unwrap_or_else(|| [self.column(index), self.column_width()]);
        let caption = picture::caption(self.setting, row.view, self.orientation);
        let y = y + LEADING;
        let words = Lettered::new(Part::Caption, Role::Word, caption, SMALL).bold();
        page.put(&words, cell(0)[0], y);
        let Some(window) = row.window else {
            return y + LEADING;
        };
        let is_section = matches!(row.view, View::Section(_));
        let top = y + if is_section { 2.0 } else { 6.0 };
        let mut end_of_last: Option<Mm> = None;
        for (index, picture) in row.pictures.iter().enumerate() {
            let Some(picture) = picture else { continue };
            let [left, width] = cell(index);
            let free = width - scale * window.width();
            // The ruler stands on the left of a section.
            let beside = if is_section && self.columns.len() > 1 {
                free.min(RULER)
            } else {
                0.5 * free
            };
            let corner = Point::new(left + beside, top);
            let mut panel = Panel::new(corner, window, scale, picture.is_mirrored());
            picture.draw(&mut panel, Detail::Full);
            let mut strokes = Vec::new();
            if let (Some(from), Some(level)) = (end_of_last, picture.level()) {
                let y = panel.at(Point::new(window.least.x, level)).y;
                let to = panel.field.least.x - RULER;
                strokes.push(footing::level([Point::new(from, y), Point::new(to, y)]));
            }
            end_of_last = Some(panel.field.most.x);
            let numbers = picture
                .level()
                .map(|level| footing::ruler(&mut strokes, &panel, level));
            // Between columns a section has room for its ruler alone.
            if !is_section || self.columns.len() == 1 {
                let margin = Margin {
                    field: panel.field,
                    middle: picture.middle(&panel),
                    ends: [left - 0.5 * GAP, left + width + 0.5 * GAP],
                    ruler: if is_section { RULER - 4.0 } else { 0.0 },
                    numbers: numbers.unwrap_or_default(),
                };
                margin.letter(picture.names(&panel), &mut strokes);
            }
            let mut lettering = Lettering::new(panel.field);
            lettering.observe(&panel.strokes);
            lettering.observe(&strokes);
            picture.letter(&panel, &mut lettering, Detail::Full);
            page.strokes.append(&mut panel.strokes);
            page.strokes.append(&mut strokes);
            page.strokes.append(&mut lettering.strokes);
        }
        let bottom = top + scale * window.height();
        if is_section {
            return bottom + LEADING;
        }
        for (index, picture) in row.pictures.iter().enumerate() {
            if picture.is_some() {
                let [left, width] = cell(index);
                let middle = left + 0.5 * width;
                for (text, y) in [("12 base", top - 1.4), ("6 apex", bottom + 3.4)] {
                    let words = Lettered::new(Part::Clock, Role::Word, text.to_owned(), SMALL);
                    page.strokes
                        .push(words.at(Point::new(middle, y), Anchor::Middle, false));
                }
            }
        }
        bottom + LEADING + 3.4
    }
}

/// The largest scale, in whole tenths, at which every picture has so much room.
fn scale_in(room: Mm, rows: &[ViewRow], largest: f64) -> f64 {
    const TENTHS: f64 = 10.0;
    let scale = rows
        .iter()
        .filter_map(|row| row.window)
        .map(|window| room / window.width().max(f64::MIN_POSITIVE))
        .fold(largest, f64::min);
    ((scale * TENTHS).floor() / TENTHS).max(1.0 / TENTHS)
}

/// What is usually shown of sizes: the section toward the valve to which the first of
/// them comes nearest, and face-on from the left.
pub fn usual_views(setting: &Setting, first: &Candidate) -> Vec<View> {
    let nearest = nearest_valve(setting, &first.size, first.turn);
    vec![
        View::Section(nearest.unwrap_or(Valve::Aortic)),
        View::FaceOn(Face::Left),
    ]
}

/// Pictures as a part of a larger page.
#[derive(Clone, Debug, PartialEq)]
pub struct Inset {
    /// The pictures.
    pub drawing: Drawing,
    /// Their scale: millimetres of paper to a millimetre of the heart.
    pub scale: f64,
    /// What they show, a sentence a size.
    pub sentences: Vec<String>,
}

/// One view of every size.
struct ViewRow<'a> {
    view: View,
    /// What of the heart each picture shows; `None` where none can be drawn.
    window: Option<Extent>,
    pictures: Vec<Option<Picture<'a>>>,
}

/// A page while it is made.
#[derive(Default)]
struct PlateStrokes {
    strokes: Vec<Stroke>,
    sentences: Vec<String>,
}

impl PlateStrokes {
    /// Words that begin at a place of the bare page.
    fn put(&mut self, words: &Lettered, x: Mm, y: Mm) {
        self.strokes
            .push(words.at(Point::new(x, y), Anchor::Start, false));
    }
}

impl Drawing {
    /// What its words say, in the order in which they stand.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.strokes.iter().filter_map(|stroke| match &stroke.ink {
            Ink::Word(word) => Some(word.text.as_str()),
            Ink::Fill(_) | Ink::Line { .. } => None,
        })
    }
}
