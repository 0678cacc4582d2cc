//! The standard normal law: density, probability and quantile.
//!
//! It stands on `libm` alone, so that every machine gives the same digits.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// The least probability that a quantile is taken of, and the greatest below.
const LEAST: f64 = f64::MIN_POSITIVE;
const MOST: f64 = 1.0 - f64::EPSILON / 2.0;

/// Clamps a probability strictly inside (0, 1).
pub(crate) fn inside(probability: f64) -> f64 {
    probability.clamp(LEAST, MOST)
}

/// Density of the standard normal law at a deviate.
pub fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / (2.0 * PI).sqrt()
}

/// Probability that a standard normal value lies at or below a deviate.
pub fn probability(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// The deviate at or below which a standard normal value lies with a probability, which
/// is clamped strictly inside (0, 1).
///
/// Wichura's PPND16, algorithm AS 241, Applied Statistics 37 (1988) 477–484:
/// about 16 digits.
pub fn quantile(probability: f64) -> f64 {
    let probability = inside(probability);
    let from_half = probability - 0.5;
    if from_half.abs() <= CENTRE {
        let r = CENTRE * CENTRE - from_half * from_half;
        return from_half * polynomial(&A, r) / polynomial(&B, r);
    }
    let tail = if from_half < 0.0 {
        probability
    } else {
        1.0 - probability
    };
    let r = (-libm::log(tail)).sqrt();
    let deviate = if r <= FAR {
        polynomial(&C, r - NEAR_SHIFT) / polynomial(&D, r - NEAR_SHIFT)
    } else {
        polynomial(&E, r - FAR) / polynomial(&F, r - FAR)
    };
    deviate.copysign(from_half)
}

/// A polynomial by Horner's rule, lowest coefficient first.
fn polynomial(coefficients: &[f64; 8], x: f64) -> f64 {
    coefficients
        .iter()
        .rev()
        .fold(0.0, |sum, coefficient| sum * x + coefficient)
}

/// Half-width of the central range of probabilities.
const CENTRE: f64 = 0.425;
/// Where the far tail begins, in √(−ln tail).
const FAR: f64 = 5.0;
/// Shift of the variable in the near tail.
const NEAR_SHIFT: f64 = 1.6;

const A: [f64; 8] = [
    3.387_132_872_796_366_5,
    133.141_667_891_784_38,
    1_971.590_950_306_551_3,
    13_731.693_765_509_46,
    45_921.953_931_549_87,
    67_265.770_927_008_7,
    33_430.575_583_588_13,
    2_509.080_928_730_122_7,
];
const B: [f64; 8] = [
    1.0,
    42.313_330_701_600_91,
    687.187_007_492_057_9,
    5_394.196_021_424_751,
    21_213.794_301_586_597,
    39_307.895_800_092_71,
    28_729.085_735_721_943,
    5_226.495_278_852_854,
];
const C: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    0.241_780_725_177_450_6,
    0.022_723_844_989_269_184,
    0.000_774_545_014_278_341_4,
];
const D: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    0.689_767_334_985_1,
    0.148_103_976_427_480_08,
    0.015_198_666_563_616_457,
    0.000_547_593_808_499_534_5,
    1.050_750_071_644_416_9e-9,
];
const E: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    0.296_560_571_828_504_87,
    0.026_532_189_526_576_124,
    0.001_242_660_947_388_078_4,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const F: [f64; 8] = [
    1.0,
    0.599_832_206_555_888,
    0.136_929_880_922_735_8,
    0.014_875_361_290_850_615,
    0.000_786_869_131_145_613_3,
    1.846_318_317_510_054_8e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_7e-15,
];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Wichura's claim for PPND16 is about 1 part in 10¹⁶; a few last places
    /// are lost in `libm::log` and the polynomials.
    const RELATIVE: f64 = 2e-15;

    #[test]
    fn symmetric_and_zero_at_a_half() {
        assert_eq!(quantile(0.5), 0.0);
        assert_eq!(quantile(0.25), -quantile(0.75));
    }

    #[test]
    fn finite_at_and_beyond_the_ends() {
        for p in [-1.0, 0.0, 1.0, 2.0] {
            assert!(quantile(p).is_finite());
        }
    }

    #[test]
    fn slope_is_one_over_density() {
        for z in [-5.0, -1.7, -0.3, 0.0, 0.9, 2.5] {
            let step = 1e-6;
            let slope = (probability(z + step) - probability(z - step)) / (2.0 * step);
            assert!((slope - density(z)).abs() < 1e-9, "{z}");
        }
    }

    proptest! {
        #[test]
        fn probability_undoes_quantile(exponent in -300.0..-0.302_f64) {
            let p = libm::exp10(exponent);
            let z = quantile(p);
            // An error dz of z moves the probability by dz·z in relative terms.
            let allowed = RELATIVE * (1.0 + z * z);
            prop_assert!((probability(z) / p - 1.0).abs() < allowed);
        }

        #[test]
        fn quantile_never_falls(p in 0.0..1.0_f64, q in 0.0..1.0_f64) {
            prop_assert!(quantile(p.min(q)) <= quantile(p.max(q)));
        }
    }
}
