use super::interval::Interval;
use super::stretch::{Stretch, half_tangent, middle, past};
use crate::{Accuracy, Mm, Vec2};

/// A smooth function of a direction, as it goes round: the lip along an edge
/// (`EdgeWalk`), whose bend is known, or the least lip along the boundary of a play
/// (`Boundary`), of which only samples are. The defaults are those of the latter.
pub(super) trait Smooth {
    /// The function's value and slope at a unit vector.
    fn sample(&self, unit: Vec2) -> Sample;

    /// Whether the function could fall below a value between two unit vectors.
    fn may_undercut(&self, _value: Mm, _from: Vec2, _to: Vec2) -> bool {
        true
    }

    /// Bounds of the second derivative between two unit vectors, where they are known.
    fn bend(&self, _from: Vec2, _to: Vec2) -> Option<Interval> {
        None
    }
}

/// The value of a function at a direction, and its slope for each radian.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    pub(super) value: Mm,
    pub(super) slope: f64,
    /// Unit vector along which the value is measured.
    pub(super) toward: Vec2,
}

/// A search for the least value of a smooth function of a direction.
///
/// A dip is bracketed where the slope turns from falling to rising from one
/// sample to the next, and run down by false position on the slope. Pieces that
/// cannot undercut the least value found so far are left. Where the bend of the
/// function is known, a piece is halved until that shows that it holds one dip at
/// most, or none below what is found: the least is then proved, to a rounding. Where it is
/// not known, dips that the samples do not bracket are left to the caller.
pub(super) struct DipSearch<'a, F> {
    function: &'a F,
    allowed: Mm,
    least: Option<(Vec2, Mm)>,
}

/// One end of a piece: a direction, and the function there.
type End = (Vec2, Sample);

/// How often a piece is halved at most: enough for the spin at the sides of the
/// narrowest opening, and a stop where rounding makes a function rough.
pub(super) const HALVINGS: u32 = 32;

/// Within a piece, what is measured turns by 60° at most, however it spins.
const LEAST_COSINE: f64 = 0.5;

/// False position with the weight of a lagging end halved (the Illinois rule)
/// converges with order 1.44: a smooth function never uses up this many steps.
const SMOOTH_STEPS: u32 = 12;

/// Where a slope jumps, as at the place from which a ray just misses the disc, it
/// creeps: from then on every other step halves the bracket, to a millionth of a
/// degree with this many.
const STEPS: u32 = 72;

impl<'a, F: Smooth> DipSearch<'a, F> {
    /// A search that stays within half of `accuracy`: the other half is for a
    /// search around it.
    pub(super) fn new(function: &'a F, accuracy: Accuracy) -> Self {
        Self {
            function,
            allowed: 0.5 * accuracy.mm(),
            least: None,
        }
    }

    /// A search for what is less than a value.
    pub(super) fn below(function: &'a F, value: Mm, accuracy: Accuracy) -> Self {
        Self {
            least: Some((Vec2::ZERO, value)),
            ..Self::new(function, accuracy)
        }
    }

    /// The least value found, and where.
    pub(super) fn least(&self) -> Option<(Vec2, Mm)> {
        self.least
    }

    /// Samples the function at a unit vector and keeps the least value.
    pub(super) fn look(&mut self, unit: Vec2) -> Sample {
        let sample = self.function.sample(unit);
        if self.least.is_none_or(|(_, least)| sample.value < least) {
            self.least = Some((unit, sample.value));
        }
        sample
    }

    /// Searches all of a stretch.
    pub(super) fn walk(&mut self, stretch: &Stretch) {
        let mut known = Some(self.look(stretch.from));
        for [from, to] in stretch.pieces() {
            known = if self.may_undercut(from, to) {
                let left = known.unwrap_or_else(|| self.look(from));
                let right = self.look(to);
                self.search([(from, left), (to, right)], HALVINGS);
                Some(right)
            } else {
                None
            };
        }
        // The end counts even where the last piece was left.
        if known.is_none() {
            self.look(stretch.to);
        }
    }

    /// The value that is worth a search: less than the least so far.
    fn goal(&self) -> Mm {
        self.least
            .map_or(f64::INFINITY, |(_, least)| least - self.allowed)
    }

    fn may_undercut(&self, from: Vec2, to: Vec2) -> bool {
        self.function.may_undercut(self.goal(), from, to)
    }

    fn search(&mut self, piece: [End; 2], halvings: u32) {
        let [(from, left), (to, right)] = piece;
        let brackets = left.slope < 0.0 && right.slope > 0.0;
        match self.next(piece) {
            Next::Leave => {}
            Next::Halve if halvings > 0 => {
                let between = middle(from, to);
                let here = (between, self.look(between));
                for half in [[piece[0], here], [here, piece[1]]] {
                    if self.may_undercut(half[0].0, half[1].0) {
                        self.search(half, halvings - 1);
                    }
                }
            }
            Next::Halve | Next::RunDown => {
                if brackets {
                    self.run_down(piece);
                }
            }
        }
    }

    /// What to do with a piece, by its two ends.
    fn next(&self, piece: [End; 2]) -> Next {
        let [(from, left), (to, right)] = piece;
        if left.toward.dot(right.toward) < LEAST_COSINE {
            return Next::Halve;
        }
        let Some(bend) = self.function.bend(from, to) else {
            return Next::RunDown;
        };
        if bend.least >= 0.0 {
            Next::RunDown
        } else if bend.most <= 0.0 || floor(piece, -bend.least) >= self.goal() {
            Next::Leave
        } else {
            Next::Halve
        }
    }

    /// Runs down a dip between a falling and a rising end.
    fn run_down(&mut self, [(start, left), (end, right)]: [End; 2]) {
        let whole = half_tangent(start, end);
        let (mut left, mut right) = ((0.0, left.slope), (whole, right.slope));
        let mut last = Side::Neither;
        for step in 0..STEPS {
            let share = if step > SMOOTH_STEPS && step % 2 == 0 {
                0.5
            } else {
                left.1 / (left.1 - right.1)
            };
            let place = left.0 + (right.0 - left.0) * share;
            let slope = self.look(past(start, place)).slope;
            let side = if slope < 0.0 { Side::Left } else { Side::Right };
            // The bottom lies no lower than this slope would take it over the
            // rest of the bracket.
            let rest = if side == Side::Left {
                right.0 - place
            } else {
                place - left.0
            };
            if slope.abs() * 2.0 * rest <= self.allowed {
                return;
            }
            let weight = if side == last { 0.5 } else { 1.0 };
            if side == Side::Left {
                left = (place, slope);
                right.1 *= weight;
            } else {
                right = (place, slope);
                left.1 *= weight;
            }
            last = side;
        }
    }
}

/// What to do with a piece.
enum Next {
    /// Leave it: it holds nothing less than its ends, or nothing below the goal.
    Leave,
    /// Run down the dip that its ends bracket, the only one if the bend is known.
    RunDown,
    /// Halve it: its halves tell more.
    Halve,
}

/// A lower bound over a piece of a function whose second derivative is at least
/// −`down`.
///
/// Less the arch ½ `down` s (width − s), which is nowhere negative, the function is
/// convex, so it lies over the tangents of that difference at both ends.
fn floor([(from, left), (to, right)]: [End; 2], down: f64) -> Mm {
    let width = 2.0 * half_tangent(from, to);
    let arch = 0.5 * down * width;
    let (falls, rises) = (left.slope - arch, right.slope + arch);
    if falls >= 0.0 {
        return left.value;
    }
    if rises <= 0.0 {
        return right.value;
    }
    let meet = (right.value - left.value - rises * width) / (falls - rises);
    left.value + falls * meet
}

/// The end of the bracket that a step moved.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Neither,
    Left,
    Right,
}

#[cfg(test)]
mod tests;
