use super::columns::Added;
use super::lanes::{LANES, Lane, Mask, mask, max, min};
use crate::house_rules::Band;
use measurement::{TOLERANCE, is_under};
use multiversion::multiversion;

/// Two bounds of a value in each lane: the value in `f64` lies between them.
///
/// Where nothing is known they are infinite; where something is not a number
/// nothing is decided.
#[derive(Clone)]
pub(super) struct Enclosure {
    pub(super) low: Lane,
    pub(super) high: Lane,
}

/// Lanes in which a band is known to hold, and in which it is known to be broken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct LaneStates {
    pub(super) holds: Mask,
    pub(super) broken: Mask,
}

/// A band as bounds in `f32` are held against it, its tolerance in it: a bound on
/// one side of such a limit is on that side in `f64`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Limits {
    /// The least number that is not under the low limit.
    low: f32,
    /// The largest number that is not over the high limit.
    high: f32,
}

impl Limits {
    const NONE: Self = Self {
        low: f32::NEG_INFINITY,
        high: f32::INFINITY,
    };

    /// Whether there is a low limit and no other.
    fn is_low_alone(self) -> bool {
        self.high == f32::INFINITY && self.low != f32::NEG_INFINITY
    }

    pub(super) fn of(band: &Band) -> Self {
        let not_under = |limit: f64| {
            let mut least = ((limit - TOLERANCE) as f32).next_down();
            while is_under(f64::from(least), limit) {
                least = least.next_up();
            }
            least
        };
        Self {
            low: band.low.map_or(f32::NEG_INFINITY, not_under),
            high: band.high.map_or(f32::INFINITY, |limit| -not_under(-limit)),
        }
    }
}

impl LaneStates {
    /// A band without a limit holds, whatever the value.
    pub(super) const HOLDS: Self = Self {
        holds: Mask::MAX,
        broken: 0,
    };

    /// Broken in every lane.
    const BROKEN: Self = Self {
        holds: 0,
        broken: Mask::MAX,
    };

    /// Known in every lane.
    pub(super) const fn by(holds: Mask) -> Self {
        Self {
            holds,
            broken: !holds,
        }
    }

    /// The lanes in which nothing is known.
    pub(super) const fn open(self) -> Mask {
        !(self.holds | self.broken)
    }
}

impl Enclosure {
    /// Nothing is known.
    pub(super) const OPEN: Self = Self {
        low: [f32::NEG_INFINITY; LANES],
        high: [f32::INFINITY; LANES],
    };

    /// One known value in every lane.
    pub(super) const fn same(value: f32) -> Self {
        Self {
            low: [value; LANES],
            high: [value; LANES],
        }
    }

    /// Nothing is known any more.
    pub(super) fn forget(&mut self) {
        self.low.fill(f32::NEG_INFINITY);
        self.high.fill(f32::INFINITY);
    }

    /// Moves the value by what lies between two bounds in each lane.
    pub(super) fn add(&mut self, by: &Added) {
        for lane in 0..LANES {
            // Rounding to nearest passes an exact sum by less than one step.
            self.low[lane] = (self.low[lane] + by.low[lane]).next_down();
            self.high[lane] = (self.high[lane] + by.high[lane]).next_up();
        }
    }

    /// What the bounds say of two bands.
    pub(super) fn held_against(&self, bands: &[Limits; 2]) -> [LaneStates; 2] {
        let [first, second] = bands;
        // Most rows have low limits alone, and most draws are on one side of both.
        if first.is_low_alone() && second.is_low_alone() {
            return at_least_both(&self.low, &self.high, [first.low, second.low]);
        }
        bands.map(|band| {
            // Many rows have a caution alone, or a stop.
            if band == Limits::NONE {
                LaneStates::HOLDS
            } else if band.is_low_alone() {
                at_least(&self.low, &self.high, band.low)
            } else if band.low == f32::NEG_INFINITY {
                at_most(&self.low, &self.high, band.high)
            } else {
                within(&self.low, &self.high, band)
            }
        })
    }
}

/// Whether values lie at or over each of two limits.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn at_least_both(low: &Lane, high: &Lane, limits: [f32; 2]) -> [LaneStates; 2] {
    let (strict, easy) = (max(limits[0], limits[1]), min(limits[0], limits[1]));
    if every(|lane| low[lane] >= strict) {
        return [LaneStates::HOLDS; 2];
    }
    if every(|lane| high[lane] < easy) {
        return [LaneStates::BROKEN; 2];
    }
    let [first, second] = limits;
    [
        settled(|lane| low[lane] >= first, |lane| high[lane] < first),
        settled(|lane| low[lane] >= second, |lane| high[lane] < second),
    ]
}

/// Whether values lie at or over a limit.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn at_least(low: &Lane, high: &Lane, limit: f32) -> LaneStates {
    settled(|lane| low[lane] >= limit, |lane| high[lane] < limit)
}

/// Whether values lie at or under a limit.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn at_most(low: &Lane, high: &Lane, limit: f32) -> LaneStates {
    settled(|lane| high[lane] <= limit, |lane| low[lane] > limit)
}

/// Whether values lie within a pair of limits.
#[expect(
    clippy::needless_bitwise_bool,
    reason = "without a branch, so that lanes are compared side by side"
)]
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn within(low: &Lane, high: &Lane, band: Limits) -> LaneStates {
    settled(
        |lane| (low[lane] >= band.low) & (high[lane] <= band.high),
        |lane| (high[lane] < band.low) | (low[lane] > band.high),
    )
}

/// Two of three groups of draws have one answer in every lane: that takes a third of
/// the work of a mask.
#[inline(always)]
pub(super) fn settled(holds: impl Fn(usize) -> bool, broken: impl Fn(usize) -> bool) -> LaneStates {
    if every(&holds) {
        return LaneStates::HOLDS;
    }
    if every(&broken) {
        return LaneStates::BROKEN;
    }
    LaneStates {
        holds: lanes_where(&holds),
        broken: lanes_where(&broken),
    }
}

#[inline(always)]
fn every(is: impl Fn(usize) -> bool) -> bool {
    let mut all = true;
    for lane in 0..LANES {
        all &= is(lane);
    }
    all
}

#[inline(always)]
fn lanes_where(is: impl Fn(usize) -> bool) -> Mask {
    let mut bytes = [0; LANES];
    for lane in 0..LANES {
        bytes[lane] = u8::from(is(lane));
    }
    mask(&bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_across_a_limit_or_is_no_number_stays_open() {
        let mut enclosure = Enclosure {
            low: [1.0; LANES],
            high: [1.5; LANES],
        };
        (enclosure.low[3], enclosure.high[3]) = (0.5, 1.5);
        (enclosure.low[4], enclosure.high[4]) = (0.0, 0.5);
        enclosure.low[5] = f32::NAN;
        enclosure.high[5] = f32::NAN;
        let band = Band {
            low: Some(1.0),
            high: Some(2.0),
        };
        let [settled, free] = enclosure.held_against(&[Limits::of(&band), Limits::of(&Band::NONE)]);
        assert_eq!(settled.broken, 1 << 4);
        assert_eq!(settled.open(), 1 << 3 | 1 << 5);
        assert_eq!(free.open(), 0, "no limit is broken by what is no number");
        enclosure.forget();
        assert_eq!(
            enclosure.held_against(&[Limits::of(&band); 2])[1].open(),
            Mask::MAX
        );
    }

    #[test]
    fn a_limit_is_where_f64_sees_it() {
        for limit in [0.0, 0.1, 0.3, 0.5, 1.0, -2.0, 20.0, 1000.0] {
            let band = Band {
                low: Some(limit),
                high: Some(limit),
            };
            let Limits { low, high } = Limits::of(&band);
            let is_broken = |at: f32| band.is_broken(f64::from(at));
            assert!(low <= high + f32::EPSILON * high.abs(), "{limit}");
            assert!(
                is_under(f64::from(low.next_down()), limit) && !is_under(f64::from(low), limit)
            );
            assert!(
                is_broken(low.next_down()) && is_broken(high.next_up()),
                "{limit}"
            );
        }
    }
}
