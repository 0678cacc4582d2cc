use geometry::Mm;

/// A point of a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: Mm,
    /// Upward.
    pub y: Mm,
}

impl Point {
    /// The point (x, y).
    pub const fn new(x: Mm, y: Mm) -> Self {
        Self { x, y }
    }

    /// The distance from another point.
    pub fn distance(self, other: Self) -> Mm {
        let (x, y) = (other.x - self.x, other.y - self.y);
        (x * x + y * y).sqrt()
    }

    /// The point halfway to another.
    #[must_use]
    pub const fn midpoint(self, other: Self) -> Self {
        Self::new(0.5 * (self.x + other.x), 0.5 * (self.y + other.y))
    }
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Its lower left corner.
    pub least: Point,
    /// Its upper right corner.
    pub most: Point,
}

impl Extent {
    /// The smallest rectangle that holds every point; `None` without points.
    pub fn of(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points
            .into_iter()
            .map(|point| Self {
                least: point,
                most: point,
            })
            .reduce(|all, one| Self {
                least: Point::new(all.least.x.min(one.least.x), all.least.y.min(one.least.y)),
                most: Point::new(all.most.x.max(one.most.x), all.most.y.max(one.most.y)),
            })
    }

    /// The rectangle with a margin all round.
    #[must_use]
    pub const fn grown(self, margin: Mm) -> Self {
        Self {
            least: Point::new(self.least.x - margin, self.least.y - margin),
            most: Point::new(self.most.x + margin, self.most.y + margin),
        }
    }

    /// Its width.
    pub const fn width(&self) -> Mm {
        self.most.x - self.least.x
    }

    /// Its height.
    pub const fn height(&self) -> Mm {
        self.most.y - self.least.y
    }
}
