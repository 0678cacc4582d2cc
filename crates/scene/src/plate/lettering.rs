use crate::clip::{is_inside, segment_in};
use crate::stroke::{Anchor, Ink, Path, PathStep, Role, Stroke, Word};
use crate::{Extent, Part, Point};
use geometry::Mm;

/// How far letters rise over their baseline and fall under it, in ems.
const RISE: f64 = 0.74;
const FALL: f64 = 0.21;

/// Half the height of a capital, in ems: words whose baseline lies so far under a
/// line stand in the middle of it.
pub(super) const HALF_CAPITAL: f64 = 0.36;

/// What stays free round words, mm.
const CLEAR: Mm = 0.3;

/// Words to be set, without their place.
#[derive(Clone, Debug)]
pub(super) struct Lettered {
    pub(super) part: Part,
    pub(super) role: Role,
    pub(super) text: String,
    pub(super) size: Mm,
    pub(super) is_bold: bool,
}

impl Lettered {
    pub(super) const fn new(part: Part, role: Role, text: String, size: Mm) -> Self {
        Self {
            part,
            role,
            text,
            size,
            is_bold: false,
        }
    }

    pub(super) const fn bold(mut self) -> Self {
        self.is_bold = true;
        self
    }

    pub(super) fn width(&self) -> Mm {
        self.word(Point::new(0.0, 0.0), Anchor::Start, false)
            .width()
    }

    /// The words, cut where they are longer than some room, with a mark of the cut.
    pub(super) fn fitted(mut self, room: Mm) -> Self {
        if self.width() <= room {
            return self;
        }
        while self.text.pop().is_some() {
            let cut = Self {
                text: format!("{}…", self.text.trim_end()),
                ..self.clone()
            };
            if cut.width() <= room {
                return cut;
            }
        }
        self
    }

    /// The words on as many lines as they need; a word longer than a line is cut.
    pub(super) fn wrapped(&self, width: Mm) -> Vec<Self> {
        let line = |text: String| Self {
            text,
            ..self.clone()
        };
        let mut lines = vec![line(String::new())];
        for word in self.text.split_whitespace() {
            let longer = match lines.last() {
                Some(last) if !last.text.is_empty() => line(format!("{} {word}", last.text)),
                _ => line(word.to_owned()),
            };
            let is_first = lines.last().is_none_or(|last| last.text.is_empty());
            if is_first || longer.width() <= width {
                lines.pop();
                lines.push(longer);
            } else {
                lines.push(line(word.to_owned()));
            }
        }
        lines.into_iter().map(|line| line.fitted(width)).collect()
    }

    fn word(&self, at: Point, anchor: Anchor, has_halo: bool) -> Word {
        Word {
            at,
            text: self.text.clone(),
            size: self.size,
            anchor,
            is_bold: self.is_bold,
            has_halo,
        }
    }

    /// The words with their anchor at a point.
    pub(super) fn at(&self, at: Point, anchor: Anchor, has_halo: bool) -> Stroke {
        Stroke {
            part: self.part,
            role: self.role,
            ink: Ink::Word(self.word(at, anchor, has_halo)),
        }
    }
}

/// What words on a page take up.
pub(crate) fn word_box(word: &Word) -> Extent {
    let width = word.width();
    let left = match word.anchor {
        Anchor::Start => word.at.x,
        Anchor::Middle => word.at.x - 0.5 * width,
        Anchor::End => word.at.x - width,
    };
    Extent {
        least: Point::new(left, word.at.y - RISE * word.size),
        most: Point::new(left + width, word.at.y + FALL * word.size),
    }
}

/// Finds places for words: inside a field, on no device, over no edge, over no
/// other word. What finds none is left out.
#[derive(Clone, Debug)]
pub(super) struct Lettering {
    field: Extent,
    edges: Vec<[Point; 2]>,
    solids: Vec<Vec<Point>>,
    boxes: Vec<Extent>,
    /// The height of a cell, where words stand in cells one page millimetre wide.
    cell: Option<Mm>,
    pub(super) strokes: Vec<Stroke>,
}

impl Lettering {
    pub(super) const fn new(field: Extent) -> Self {
        Self {
            field,
            edges: Vec::new(),
            solids: Vec::new(),
            boxes: Vec::new(),
            cell: None,
            strokes: Vec::new(),
        }
    }

    /// For words in cells one page millimetre wide and `height` high.
    pub(super) const fn in_cells(field: Extent, height: Mm) -> Self {
        let mut lettering = Self::new(field);
        lettering.cell = Some(height);
        lettering
    }

    /// Keeps words off what is drawn.
    pub(super) fn observe(&mut self, strokes: &[Stroke]) {
        for stroke in strokes {
            match &stroke.ink {
                Ink::Line { path, .. } if is_dark(stroke.role) => {
                    self.edges.extend(stretches(path));
                }
                Ink::Fill(path) if is_solid(stroke.role) => self.solids.push(corners(path)),
                Ink::Word(word) => self.boxes.push(word_box(word)),
                Ink::Fill(_) | Ink::Line { .. } => {}
            }
        }
    }

    /// Sets words at the first of some places that is free; whether there is one.
    pub(super) fn set(
        &mut self,
        words: &Lettered,
        places: impl IntoIterator<Item = (Point, Anchor)>,
    ) -> bool {
        for (at, anchor) in places {
            let (stroke, room) = match self.cell {
                None => {
                    let room = word_box(&words.word(at, anchor, true));
                    (words.at(at, anchor, true), room)
                }
                Some(height) => in_cells(words, at, anchor, height),
            };
            if self.is_free(&room) {
                self.boxes.push(room);
                self.strokes.push(stroke);
                return true;
            }
        }
        false
    }

    /// Sets each of some words at the first of its places that is free, or none of
    /// them where one finds none; whether they are set.
    pub(super) fn set_all(&mut self, all: &[(Lettered, Vec<(Point, Anchor)>)]) -> bool {
        let before = (self.boxes.len(), self.strokes.len());
        let are_set = all
            .iter()
            .all(|(words, places)| self.set(words, places.iter().copied()));
        if !are_set {
            self.boxes.truncate(before.0);
            self.strokes.truncate(before.1);
        }
        are_set
    }

    /// How wide words run.
    pub(super) fn width_of(&self, words: &Lettered) -> Mm {
        #[expect(clippy::cast_precision_loss, reason = "a few letters")]
        let cells = words.text.chars().count() as f64;
        if self.cell.is_some() {
            cells
        } else {
            words.width()
        }
    }

    /// Places for words of a size all over the field, those nearest to a point first.
    pub(super) fn places_about(&self, near: Point, size: Mm) -> Vec<(Point, Anchor)> {
        /// Between places, page mm; on cells, every one.
        const STEP: Mm = 2.0;
        /// How far off a word may stand and still be taken for that of its line.
        const FARTHEST: Mm = 24.0;
        let across = if self.cell.is_some() { 1.0 } else { STEP };
        let Extent { least, most } = self.field;
        let mut places = Vec::new();
        let mut y = least.y;
        while y < most.y {
            let mut x = least.x;
            while x < most.x {
                let at = Point::new(x, y);
                let away = at.distance(near);
                if away <= FARTHEST {
                    let baseline = Point::new(x, y + HALF_CAPITAL * size);
                    places.push((away, (baseline, Anchor::Middle)));
                }
                x += across;
            }
            y += STEP;
        }
        places.sort_by(|one, other| one.0.total_cmp(&other.0));
        places.into_iter().map(|(_, place)| place).collect()
    }

    fn is_free(&self, room: &Extent) -> bool {
        let Extent { least, most } = self.field;
        let is_in = room.least.x >= least.x
            && room.most.x <= most.x
            && room.least.y >= least.y
            && room.most.y <= most.y;
        let wide = room.grown(CLEAR);
        is_in
            && !self.boxes.iter().any(|other| touch(&wide, other))
            && !self
                .edges
                .iter()
                .any(|&edge| segment_in(&wide, edge).is_some())
            && !self.solids.iter().any(|solid| is_over(&wide, solid))
    }
}

/// Words in the cells nearest to a place, a letter a cell, and those cells.
fn in_cells(words: &Lettered, at: Point, anchor: Anchor, height: Mm) -> (Stroke, Extent) {
    /// From the top of a cell down to the foot of its letters, as a share of it.
    const FOOT: f64 = 0.78;
    /// The size of letters, as a share of a cell's height.
    const LETTERS: f64 = 0.75;
    #[expect(clippy::cast_precision_loss, reason = "a few letters")]
    let width = words.text.chars().count() as f64;
    let middle = at.y - HALF_CAPITAL * words.size;
    let size = LETTERS * height;
    let words = &Lettered {
        size,
        ..words.clone()
    };
    let left = match anchor {
        Anchor::Start => at.x.ceil(),
        Anchor::Middle => (at.x - 0.5 * width).round(),
        Anchor::End => at.x.floor() - width,
    };
    let top = (middle / height).floor() * height;
    let stroke = words.at(Point::new(left, top + FOOT * height), Anchor::Start, false);
    let room = Extent {
        least: Point::new(left, top),
        most: Point::new(left + width, top + height),
    };
    (stroke, room)
}

/// Whether ink of a role is darker than fibre, so that words over it would be lost.
pub(crate) const fn is_dark(role: Role) -> bool {
    !matches!(
        role,
        Role::Ground
            | Role::LeftBlood
            | Role::RightBlood
            | Role::Muscle
            | Role::Fibre
            | Role::FarWall
            | Role::Wire
            | Role::Casing
            | Role::Word
    )
}

/// Whether a filled area of a role bears no words.
pub(crate) const fn is_solid(role: Role) -> bool {
    matches!(role, Role::Device) || is_dark(role)
}

pub(crate) const fn touch(one: &Extent, other: &Extent) -> bool {
    one.least.x < other.most.x
        && other.least.x < one.most.x
        && one.least.y < other.most.y
        && other.least.y < one.most.y
}

/// Whether a rectangle and a filled outline share a point.
pub(crate) fn is_over(room: &Extent, solid: &[Point]) -> bool {
    let edges = solid.iter().zip(solid.iter().cycle().skip(1));
    let centre = room.least.midpoint(room.most);
    is_inside(solid, centre)
        || edges
            .into_iter()
            .any(|(&a, &b)| segment_in(room, [a, b]).is_some())
}

/// The corners of a path, taken as one piece.
pub(crate) fn corners(path: &Path) -> Vec<Point> {
    let point = |step: &PathStep| match *step {
        PathStep::Move(to) | PathStep::Line(to) | PathStep::Cubic(_, _, to) => Some(to),
        PathStep::Close => None,
    };
    path.0.iter().filter_map(point).collect()
}

/// The straight stretches of a path, a curve as its chord.
pub(crate) fn stretches(path: &Path) -> Vec<[Point; 2]> {
    let mut stretches = Vec::new();
    let (mut start, mut last) = (None, None);
    for step in &path.0 {
        let to = match *step {
            PathStep::Move(to) => {
                start = Some(to);
                last = Some(to);
                continue;
            }
            PathStep::Line(to) | PathStep::Cubic(_, _, to) => Some(to),
            PathStep::Close => start,
        };
        stretches.extend(last.zip(to).map(|(from, to)| [from, to]));
        last = to;
    }
    stretches
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field() -> Extent {
        Extent {
            least: Point::new(0.0, 0.0),
            most: Point::new(60.0, 20.0),
        }
    }

    fn words(text: &str) -> Lettered {
        Lettered::new(Part::Caption, Role::Word, text.to_owned(), 2.5)
    }

    #[test]
    fn words_keep_off_devices_edges_and_each_other() {
        let mut lettering = Lettering::new(field());
        let square = [(20.0, 5.0), (30.0, 5.0), (30.0, 15.0), (20.0, 15.0)];
        let square = Path::polygon(square.map(|(x, y)| Point::new(x, y)));
        lettering.observe(&[Stroke {
            part: Part::Waist,
            role: Role::Device,
            ink: Ink::Fill(square),
        }]);
        let upon = (Point::new(25.0, 10.0), Anchor::Middle);
        let beside = (Point::new(34.0, 10.0), Anchor::Start);
        assert!(!lettering.set(&words("left disc"), [upon]));
        assert!(lettering.set(&words("left disc"), [upon, beside]));
        assert!(!lettering.set(&words("right disc"), [beside]));
        let outside = (Point::new(59.0, 18.0), Anchor::Start);
        assert!(!lettering.set(&words("wall"), [outside]));
        assert_eq!(lettering.strokes.len(), 1);
    }
}
