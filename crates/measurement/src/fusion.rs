use crate::{Reading, ReadingId};

/// A reading after its method's bias is taken off and a missing standard
/// deviation is filled in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corrected<'a> {
    /// The reading as entered.
    pub reading: &'a Reading,
    /// The value without the bias, in the quantity's unit.
    pub value: f64,
    /// The standard deviation in the same unit; 0 for an exact reading.
    pub sd: f64,
}

/// One value from several like readings of a quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct Fused {
    /// The mean, weighted by inverse variances.
    pub value: f64,
    /// Standard deviation of the value, widened by the Birge ratio.
    pub sd: f64,
    /// The weight of each reading, in the order given; they sum to 1.
    pub weights: Vec<f64>,
    /// Birge ratio √(χ²/(k − 1)), at least 1; infinite where exact readings
    /// differ.
    pub birge: f64,
    /// The two readings furthest apart, if they contradict each other.
    pub dispute: Option<Dispute>,
}

/// Two readings of one quantity that contradict each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Dispute {
    /// The lower reading.
    pub first: ReadingId,
    /// The higher reading.
    pub second: ReadingId,
    /// Their difference in combined standard deviations; infinite where both are exact.
    pub separation: f64,
}

/// Fuses like readings: weights 1/u², u = (Σ 1/u²)^−½ · max(1, Birge ratio).
///
/// Readings at least `dispute_limit` combined standard deviations apart are in
/// dispute. Exact readings (standard deviation 0) count alone; where they differ
/// the standard deviation is the limit of the formula, that of their mean. The
/// answer does not depend on the order of the readings. `None` without readings.
///
/// Birge, Physical Review 40 (1932) 207–227 (from memory).
pub fn fuse(readings: &[Corrected], dispute_limit: f64) -> Option<Fused> {
    let ordered = in_order(readings);
    let lowest = ordered.first()?.value;
    let least_sd = readings
        .iter()
        .map(|reading| reading.sd)
        .fold(f64::INFINITY, f64::min);
    // Precisions are relative to the smallest deviation, so that no square overflows.
    let precision = |sd: f64| {
        if sd <= least_sd {
            1.0
        } else {
            (least_sd / sd) * (least_sd / sd)
        }
    };
    let total: f64 = ordered.iter().map(|reading| precision(reading.sd)).sum();
    let shift: f64 = ordered
        .iter()
        .map(|reading| precision(reading.sd) * (reading.value - lowest))
        .sum();
    let value = lowest + shift / total;
    let spread = Spread::of(&ordered, value);
    let birge = spread.birge();
    let sd = if least_sd > 0.0 {
        least_sd / total.sqrt() * birge
    } else {
        (spread.exact / spread.freedom / total).sqrt()
    };
    Some(Fused {
        value,
        sd,
        weights: readings
            .iter()
            .map(|reading| precision(reading.sd) / total)
            .collect(),
        birge,
        dispute: furthest_apart(&ordered).filter(|pair| pair.separation >= dispute_limit),
    })
}

/// The readings from low to high, so that sums do not depend on a file's order.
fn in_order<'a>(readings: &[Corrected<'a>]) -> Vec<Corrected<'a>> {
    let mut ordered = readings.to_vec();
    ordered.sort_by(|a, b| {
        a.value
            .total_cmp(&b.value)
            .then(a.sd.total_cmp(&b.sd))
            .then_with(|| a.reading.id.cmp(&b.reading.id))
    });
    ordered
}

/// The scatter of readings about their mean.
struct Spread {
    /// Sum of squares of the exact readings.
    exact: f64,
    /// χ² of the readings that are not exact.
    chi_squared: f64,
    /// Degrees of freedom: one less than the readings, at least 1.
    freedom: f64,
}

impl Spread {
    fn of(readings: &[Corrected], mean: f64) -> Self {
        let mut spread = Self {
            exact: 0.0,
            chi_squared: 0.0,
            freedom: readings.len().saturating_sub(1).max(1) as f64,
        };
        for reading in readings {
            let deviation = reading.value - mean;
            if reading.sd > 0.0 {
                spread.chi_squared += (deviation / reading.sd) * (deviation / reading.sd);
            } else {
                spread.exact += deviation * deviation;
            }
        }
        spread
    }

    fn birge(&self) -> f64 {
        if self.exact > 0.0 {
            return f64::INFINITY;
        }
        (self.chi_squared / self.freedom).sqrt().max(1.0)
    }
}

/// The two readings with the largest separation; of several the lowest pair.
fn furthest_apart(ordered: &[Corrected]) -> Option<Dispute> {
    let mut furthest: Option<Dispute> = None;
    for (index, low) in ordered.iter().enumerate() {
        for high in &ordered[index + 1..] {
            let separation = separation(low, high);
            if furthest
                .as_ref()
                .is_none_or(|known| separation > known.separation)
            {
                furthest = Some(Dispute {
                    first: low.reading.id.clone(),
                    second: high.reading.id.clone(),
                    separation,
                });
            }
        }
    }
    furthest
}

fn separation(low: &Corrected, high: &Corrected) -> f64 {
    let apart = high.value - low.value;
    if apart > 0.0 {
        apart / libm::hypot(low.sd, high.sd)
    } else {
        0.0
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::{Method, Modality, Phase, Quantity, Side};
    use proptest::prelude::*;

    pub(crate) fn reading(name: &str) -> Reading {
        Reading {
            id: ReadingId(name.into()),
            quantity: Quantity::from_address("defect.long_axis").unwrap(),
            value: 0.0,
            sd: None,
            modality: Modality::TransthoracicEcho,
            side: Side::Within,
            phase: Phase::EndDiastole,
            method: Method::EdgeToEdge,
            image: None,
            set_aside: None,
        }
    }

    fn fuse_all(pairs: &[(f64, f64)]) -> Option<Fused> {
        let readings: Vec<Reading> = (0..pairs.len())
            .map(|i| reading(&format!("r{i}")))
            .collect();
        let corrected: Vec<Corrected> = readings
            .iter()
            .zip(pairs)
            .map(|(reading, &(value, sd))| Corrected { reading, value, sd })
            .collect();
        fuse(&corrected, 2.0)
    }

    #[test]
    fn nothing_fuses_to_nothing() {
        assert_eq!(fuse_all(&[]), None);
    }

    #[test]
    fn one_reading_stays_as_it_is() {
        let fused = fuse_all(&[(5.2, 0.6)]).unwrap();
        assert_eq!((fused.value, fused.sd, fused.birge), (5.2, 0.6, 1.0));
        assert_eq!(fused.weights, [1.0]);
        assert_eq!(fused.dispute, None);
    }

    #[test]
    fn the_surer_reading_weighs_more() {
        let fused = fuse_all(&[(5.0, 0.5), (5.5, 1.0)]).unwrap();
        assert!((fused.value - 5.1).abs() < 1e-12);
        assert!((fused.sd - 0.2_f64.sqrt()).abs() < 1e-12);
        assert!((fused.weights[0] - 0.8).abs() < 1e-15);
        assert_eq!(fused.birge, 1.0);
    }

    #[test]
    fn readings_that_scatter_widen_the_doubt_and_are_disputed() {
        // χ² = 2·2² = 8 about 6, so Birge √8; mean of two ±1: 1/√2 · √8 = 2.
        let fused = fuse_all(&[(8.0, 1.0), (4.0, 1.0)]).unwrap();
        assert!((fused.birge - 8.0_f64.sqrt()).abs() < 1e-12);
        assert!((fused.sd - 2.0).abs() < 1e-12);
        let dispute = fused.dispute.unwrap();
        assert_eq!(
            (dispute.first.0.as_str(), dispute.second.0.as_str()),
            ("r1", "r0")
        );
        assert!((dispute.separation - 8.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn disputed_from_the_limit_itself() {
        assert!(
            fuse_all(&[(1.0, 3.0), (11.0, 4.0)])
                .unwrap()
                .dispute
                .is_some()
        );
        assert!(
            fuse_all(&[(1.0, 3.0), (10.9, 4.0)])
                .unwrap()
                .dispute
                .is_none()
        );
    }

    #[test]
    fn an_exact_reading_wins() {
        let fused = fuse_all(&[(5.0, 0.0), (5.4, 0.5)]).unwrap();
        assert_eq!((fused.value, fused.sd), (5.0, 0.0));
        assert_eq!(fused.weights, [1.0, 0.0]);
        assert_eq!(fused.dispute, None);
    }

    #[test]
    fn exact_readings_that_differ_are_disputed() {
        let fused = fuse_all(&[(5.0, 0.0), (6.0, 0.0)]).unwrap();
        assert_eq!((fused.value, fused.sd), (5.5, 0.5));
        assert_eq!(fused.birge, f64::INFINITY);
        assert_eq!(fused.dispute.unwrap().separation, f64::INFINITY);
        let near = fuse_all(&[(5.0, 1e-9), (6.0, 1e-9)]).unwrap();
        assert!(
            (near.sd - fused.sd).abs() < 1e-12,
            "the limit of small doubt"
        );
    }

    #[test]
    fn exact_readings_that_agree_are_not() {
        let fused = fuse_all(&[(0.1, 0.0), (0.1, 0.0), (0.1, 0.0)]).unwrap();
        assert_eq!((fused.value, fused.sd, fused.birge), (0.1, 0.0, 1.0));
        assert_eq!(fused.dispute, None);
    }

    #[test]
    fn three_readings_scatter_over_two_degrees_of_freedom() {
        // Deviations −3, 0 and 3 of deviation 1: χ² = 18, Birge √(18/2) = 3.
        let fused = fuse_all(&[(2.0, 1.0), (5.0, 1.0), (8.0, 1.0)]).unwrap();
        assert_eq!(fused.value, 5.0);
        assert!((fused.birge - 3.0).abs() < 1e-12);
        assert!((fused.sd - 3.0 / 3.0_f64.sqrt()).abs() < 1e-12);
        // Exact ones: a standard deviation of √(18/2) among them, of their mean √(18/2/3).
        let exact = fuse_all(&[(2.0, 0.0), (5.0, 0.0), (8.0, 0.0)]).unwrap();
        assert!((exact.sd - 3.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn the_pair_furthest_apart_is_in_dispute_and_of_several_the_lowest() {
        let pair = |pairs: &[(f64, f64)]| {
            let dispute = fuse_all(pairs).unwrap().dispute.unwrap();
            (dispute.first.0, dispute.second.0, dispute.separation)
        };
        let named = |first: &str, second: &str, separation| {
            (first.to_owned(), second.to_owned(), separation)
        };
        // 3/√2, 6/√2 and 3/√2 deviations apart.
        let spread = [(5.0, 1.0), (2.0, 1.0), (8.0, 1.0)];
        assert_eq!(pair(&spread), named("r1", "r2", 6.0 / 2.0_f64.sqrt()));
        let alike = [
            (9.0, 3.0),
            (0.0, 4.0),
            (10.0, 0.0),
            (20.0, 3.0),
            (20.0, 3.0),
        ];
        let (first, second, _) = pair(&alike);
        assert_eq!((first.as_str(), second.as_str()), ("r1", "r3"));
        // Two exact ones agree, a third does not.
        let exact = [(5.0, 0.0), (5.0, 0.0), (6.0, 0.0)];
        assert_eq!(pair(&exact), named("r0", "r2", f64::INFINITY));
    }

    #[test]
    fn readings_of_one_value_are_no_deviation_apart() {
        let readings = [reading("a"), reading("b")];
        let corrected = readings.each_ref().map(|reading| Corrected {
            reading,
            value: 5.0,
            sd: 0.5,
        });
        assert_eq!(fuse(&corrected, 1e-9).unwrap().dispute, None);
    }

    fn pairs() -> impl Strategy<Value = Vec<(f64, f64)>> {
        prop::collection::vec((0.0..40.0_f64, 0.05..3.0_f64), 1..6)
    }

    proptest! {
        #[test]
        fn order_does_not_matter(pairs in pairs(), turn in 0_usize..6) {
            let mut other = pairs.clone();
            other.rotate_left(turn % pairs.len());
            other.reverse();
            let (a, b) = (fuse_all(&pairs).unwrap(), fuse_all(&other).unwrap());
            prop_assert_eq!(a.value.to_bits(), b.value.to_bits());
            prop_assert_eq!(a.sd.to_bits(), b.sd.to_bits());
        }

        #[test]
        fn shift_and_scale_go_through(pairs in pairs(), shift in -9.0..9.0_f64, scale in 0.1..9.0_f64) {
            let moved: Vec<_> =
                pairs.iter().map(|&(value, sd)| (scale * value + shift, scale * sd)).collect();
            let (a, b) = (fuse_all(&pairs).unwrap(), fuse_all(&moved).unwrap());
            prop_assert!((scale * a.value + shift - b.value).abs() < 1e-9);
            prop_assert!((scale * a.sd - b.sd).abs() < 1e-9);
            prop_assert!((a.birge - b.birge).abs() < 1e-9 * a.birge);
        }

        #[test]
        fn within_the_readings_and_shares_sum_to_one(pairs in pairs()) {
            let fused = fuse_all(&pairs).unwrap();
            let low = pairs.iter().map(|pair| pair.0).fold(f64::INFINITY, f64::min);
            let high = pairs.iter().map(|pair| pair.0).fold(f64::NEG_INFINITY, f64::max);
            prop_assert!(low <= fused.value + 1e-12 && fused.value <= high + 1e-12);
            prop_assert!((fused.weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        }
    }
}
