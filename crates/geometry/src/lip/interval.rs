use super::stretch::lies_between;
use crate::Vec2;
use std::ops::{Add, Mul, Neg, Sub};

/// An interval of values, from the least to the most; an end may be infinite.
///
/// Ends are rounded to nearest, not outward, so a bound holds to a rounding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Interval {
    pub(super) least: f64,
    pub(super) most: f64,
}

impl Interval {
    /// The interval between two values, in either order.
    pub(super) fn between(one: f64, other: f64) -> Self {
        Self {
            least: one.min(other),
            most: one.max(other),
        }
    }

    /// The intervals that both components pass through while a vector turns from one
    /// direction to another of the same length, by less than half a turn.
    pub(super) fn of_turning(from: Vec2, to: Vec2) -> [Self; 2] {
        let length = from.length();
        let through = |axis: Vec2| {
            let of_axis = |vector: Vec2| vector.dot(axis);
            let mut through = Self::between(of_axis(from), of_axis(to));
            if lies_between(axis, from, to) {
                through.most = length;
            }
            if lies_between(-axis, from, to) {
                through.least = -length;
            }
            through
        };
        [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)].map(through)
    }

    /// The interval of the squares.
    pub(super) fn square(self) -> Self {
        let most = self.least.abs().max(self.most.abs());
        let least = self.least.max(-self.most).max(0.0);
        Self {
            least: least * least,
            most: most * most,
        }
    }

    /// The interval of a function that never falls; negative values count as 0.
    pub(super) fn rising(self, function: impl Fn(f64) -> f64) -> Self {
        Self {
            least: function(self.least.max(0.0)),
            most: function(self.most.max(0.0)),
        }
    }

    /// The interval of the reciprocals; no value may be negative.
    pub(super) fn inverse(self) -> Self {
        Self {
            least: 1.0 / self.most,
            most: 1.0 / self.least,
        }
    }
}

impl Add for Interval {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            least: self.least + other.least,
            most: self.most + other.most,
        }
    }
}

impl Add<f64> for Interval {
    type Output = Self;
    fn add(self, more: f64) -> Self {
        Self {
            least: self.least + more,
            most: self.most + more,
        }
    }
}

impl Neg for Interval {
    type Output = Self;
    fn neg(self) -> Self {
        Self {
            least: -self.most,
            most: -self.least,
        }
    }
}

impl Sub for Interval {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Mul for Interval {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        // 0 of something without bound is 0: the bound is never reached.
        let product = |one: f64, other: f64| {
            if one == 0.0 || other == 0.0 {
                0.0
            } else {
                one * other
            }
        };
        let from_least = Self::between(
            product(self.least, other.least),
            product(self.least, other.most),
        );
        let from_most = Self::between(
            product(self.most, other.least),
            product(self.most, other.most),
        );
        Self {
            least: from_least.least.min(from_most.least),
            most: from_least.most.max(from_most.most),
        }
    }
}

impl Mul<f64> for Interval {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::between(factor * self.least, factor * self.most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::radial;
    use proptest::prelude::*;

    fn intervals() -> impl Strategy<Value = Interval> {
        (-5.0..5.0_f64, -5.0..5.0_f64).prop_map(|(one, other)| Interval::between(one, other))
    }

    impl Interval {
        fn at(self, share: f64) -> f64 {
            self.least + share * (self.most - self.least)
        }

        fn holds(self, value: f64) -> bool {
            self.least - 1e-12 <= value && value <= self.most + 1e-12
        }
    }

    proptest! {
        #[test]
        fn what_is_worked_out_of_two_values_lies_within(
            one in intervals(), other in intervals(), s in 0.0..=1.0_f64, t in 0.0..=1.0_f64,
        ) {
            let (x, y) = (one.at(s), other.at(t));
            prop_assert!((one + other).holds(x + y));
            prop_assert!((one - other).holds(x - y));
            prop_assert!((one * other).holds(x * y));
            prop_assert!((one * y).holds(x * y));
            prop_assert!(one.square().holds(x * x));
            let positive = one.square();
            prop_assert!(positive.rising(f64::sqrt).holds(x.abs()));
            prop_assert!(x == 0.0 || positive.inverse().least <= 1.0 / (x * x) + 1e-12);
            prop_assert!(x == 0.0 || positive.inverse().most >= 1.0 / (x * x) - 1e-12);
        }

        #[test]
        fn a_vector_that_turns_stays_within(
            start in -4.0..4.0_f64, width in 0.0..3.1_f64, share in 0.0..=1.0_f64,
            length in 0.0..5.0_f64,
        ) {
            let vector = |angle| radial(angle) * length;
            let [u, v] = Interval::of_turning(vector(start), vector(start + width));
            let between = vector(start + share * width);
            prop_assert!(u.holds(between.u) && v.holds(between.v));
        }
    }

    #[test]
    fn nothing_of_what_has_no_bound_is_nothing() {
        let without_bound = Interval::between(0.0, f64::INFINITY);
        let product = without_bound * Interval::between(-2.0, 0.0);
        assert_eq!(product, Interval::between(f64::NEG_INFINITY, 0.0));
    }

    #[test]
    fn what_is_negative_counts_as_nothing_where_a_function_only_rises() {
        let root = |least, most| Interval::between(least, most).rising(f64::sqrt);
        assert_eq!(root(-3.0, -1.0), Interval::between(0.0, 0.0));
        assert_eq!(root(-3.0, 0.25), Interval::between(0.0, 0.5));
        assert_eq!(root(0.25, 4.0), Interval::between(0.5, 2.0));
    }

    #[test]
    fn a_reciprocal_has_the_ends_the_other_way_round() {
        let reciprocal = Interval::between(0.5, 4.0).inverse();
        assert_eq!(reciprocal, Interval::between(0.25, 2.0));
        let without_bound = Interval::between(0.0, 2.0).inverse();
        assert_eq!(without_bound, Interval::between(0.5, f64::INFINITY));
    }

    #[test]
    fn an_interval_without_bound_times_one_about_nothing_has_none_either() {
        let without_bound = Interval::between(1.0, f64::INFINITY);
        let all = Interval::between(f64::NEG_INFINITY, f64::INFINITY);
        assert_eq!(without_bound * Interval::between(-2.0, 3.0), all);
        let nothing = Interval::between(0.0, 0.0);
        assert_eq!(nothing * all, nothing);
        assert_eq!(all * nothing, nothing);
    }
}
