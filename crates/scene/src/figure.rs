use crate::{Extent, Part, Point};
use geometry::Mm;

/// A picture in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What a back end has to show.
    pub bounds: Extent,
    /// Its figures, each drawn over those before it.
    pub figures: Vec<Figure>,
}

impl Scene {
    /// The figures with bounds that leave a margin round them. Without figures,
    /// the margin round nothing.
    pub(crate) fn new(figures: Vec<Figure>, margin: Mm) -> Self {
        const NOTHING: Extent = Extent {
            least: Point::new(0.0, 0.0),
            most: Point::new(0.0, 0.0),
        };
        let points = figures.iter().flat_map(|figure| figure.form.points());
        let bounds = Extent::of(points).unwrap_or(NOTHING).grown(margin);
        Self { bounds, figures }
    }

    /// The forms of one part.
    pub fn of(&self, part: Part) -> impl Iterator<Item = &Form> {
        self.figures
            .iter()
            .filter(move |figure| figure.part == part)
            .map(|figure| &figure.form)
    }
}

/// One thing in a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it is.
    pub part: Part,
    /// How it lies in the picture.
    pub form: Form,
}

/// How a thing lies in a picture.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A line, straight from point to point; closed where it ends at its start.
    Line(Vec<Point>),
    /// A filled outline; the last point joins the first.
    Area(Vec<Point>),
    /// A point to be marked.
    Mark(Point),
    /// A dimension line with its number.
    Measure {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// What is written beside it.
        label: Label,
    },
    /// Words.
    Text(Label),
    /// Words that would mislead outside their home, such as the name of a side.
    Home(Label, Home),
}

impl Form {
    /// The points it goes through; where its words stand is left to the layout.
    pub fn points(&self) -> Vec<Point> {
        match self {
            Self::Line(points) | Self::Area(points) => points.clone(),
            Self::Mark(point) => vec![*point],
            Self::Measure { from, to, .. } => vec![*from, *to],
            Self::Text(label) | Self::Home(label, _) => vec![label.at],
        }
    }

    /// Its words.
    pub const fn label(&self) -> Option<&Label> {
        match self {
            Self::Measure { label, .. } | Self::Text(label) | Self::Home(label, _) => Some(label),
            Self::Line(_) | Self::Area(_) | Self::Mark(_) => None,
        }
    }
}

/// Words to be set near a point.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The point.
    pub at: Point,
    /// The words, of one column a character.
    pub text: String,
    /// The side of the point on which they stand best.
    pub lean: Lean,
    /// What yields where there is no room for all.
    pub importance: Importance,
}

/// Where words must stand, from left to right, and what is written in their stead
/// where they find no room there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Home {
    /// Its left end.
    pub least: Mm,
    /// Its right end.
    pub most: Mm,
    /// The short form of the words.
    pub short: &'static str,
}

/// The side of a point on which words stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Lean {
    /// To its right.
    Right,
    /// To its left.
    Left,
    /// Over it.
    Above,
    /// Under it.
    Below,
    /// On it.
    Upon,
}

impl Lean {
    /// Every side.
    pub const ALL: [Self; 5] = [
        Self::Right,
        Self::Left,
        Self::Above,
        Self::Below,
        Self::Upon,
    ];
}

/// What yields where there is no room for all words, the least important first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Importance {
    /// Good to know.
    Aside,
    /// The name of a thing.
    Name,
    /// A length.
    Length,
    /// Which side is which: without it the picture can be misread.
    Orientation,
}
