use crate::Setting;
use geometry::Mm;

/// Values at equal steps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// The first value.
    pub first: Mm,
    /// From one value to the next.
    pub step: Mm,
    /// How many values there are, at least 1.
    pub count: usize,
}

/// How far waists reach from the first: the width of any house's waist limits.
const WAISTS: Mm = 6.0;
/// How far under the hole's fit diameter waists begin.
const UNDER_THE_HOLE: Mm = 1.0;
/// How far overhangs reach.
const OVERHANGS: Mm = 4.0;
/// Ends of an axis are whole tenths.
const TENTHS: f64 = 10.0;

impl Axis {
    /// A value; beyond the last as if the axis went on.
    pub fn value(&self, index: usize) -> Mm {
        self.first + self.step * index as f64
    }

    /// The last value.
    pub fn last(&self) -> Mm {
        self.value(self.count.saturating_sub(1))
    }

    /// The index whose value lies nearest to a value, be it beyond the ends.
    pub fn nearest(&self, value: Mm) -> usize {
        let last = self.count.saturating_sub(1);
        let apart = |index: &usize| (self.value(*index) - value).abs();
        let nearest = (0..=last).min_by(|one, other| apart(one).total_cmp(&apart(other)));
        nearest.unwrap_or(0)
    }

    /// The place of a value between 0 and the last, in steps; `None` outside by
    /// more than half a step.
    pub fn index_of(&self, value: Mm) -> Option<usize> {
        let steps = ((value - self.first) / self.step).round();
        let count = u32::try_from(self.count).ok()?;
        measurement::whole(0..count, steps).map(|index| index as usize)
    }

    /// Waists about the hole of a case, from 1 mm under its fit diameter.
    pub fn of_waists(setting: &Setting, count: usize) -> Self {
        let count = count.max(1);
        let step = WAISTS / count as f64;
        let from = setting.anatomy().defect.fit_diameter() - UNDER_THE_HOLE;
        Self {
            first: ((from * TENTHS).floor() / TENTHS).max(1.0 / TENTHS),
            step,
            count,
        }
    }

    /// Overhangs up to 4 mm.
    pub fn of_overhangs(count: usize) -> Self {
        let count = count.max(1);
        let step = OVERHANGS / count as f64;
        Self {
            first: step,
            step,
            count,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_finds_its_place() {
        let axis = Axis::of_overhangs(40);
        assert_eq!((axis.first, axis.count), (0.1, 40));
        for index in 0..axis.count {
            assert_eq!(axis.index_of(axis.value(index)), Some(index));
        }
        assert_eq!(axis.index_of(0.0), None);
        assert!((axis.last() - 4.0).abs() < 1e-12);
    }
}
