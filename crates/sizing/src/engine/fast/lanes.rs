//! Arithmetic on many draws side by side.
//!
//! A lane is one draw. Loops run over whole arrays of fixed length with nothing
//! but arithmetic and choices inside, which is what the compiler turns into
//! vector instructions.

use std::f32::consts::FRAC_PI_2;

/// Draws that are worked on side by side: as many as there are bits in a [`Mask`].
pub(super) const LANES: usize = 64;

/// One number in each lane.
pub(super) type Lane = [f32; LANES];

/// One answer in each lane, by bit.
pub(super) type Mask = u64;

/// The smaller, as one instruction; `a` where that is not a number, so that the
/// decision is left open.
#[inline(always)]
pub(super) fn min(a: f32, b: f32) -> f32 {
    if a > b { b } else { a }
}

/// The larger, as one instruction; `a` where that is not a number.
#[inline(always)]
pub(super) fn max(a: f32, b: f32) -> f32 {
    if a < b { b } else { a }
}

/// Held within two ends.
#[inline(always)]
pub(super) fn clamp(x: f32, low: f32, high: f32) -> f32 {
    min(max(x, low), high)
}

/// √x, 0 for what rounding took below 0.
#[inline(always)]
pub(super) fn root(x: f32) -> f32 {
    max(x, 0.0).sqrt()
}

/// sin x and cos x for |x| ≤ 1, by their series to x⁹ and x⁸: the next terms are
/// below 3e-8 and 3e-7.
#[inline(always)]
pub(super) fn small_angle(x: f32) -> (f32, f32) {
    let square = x * x;
    let sin = x
        * (1.0
            - square / 6.0 * (1.0 - square / 20.0 * (1.0 - square / 42.0 * (1.0 - square / 72.0))));
    let cos =
        1.0 - square / 2.0 * (1.0 - square / 12.0 * (1.0 - square / 30.0 * (1.0 - square / 56.0)));
    (sin, cos)
}

/// The largest angle for which [`small_angle`] stands.
pub(super) const SMALL_ANGLE: f32 = 1.0;

/// asin x for 0 ≤ x ≤ 1 from x and √(1 − x): Hastings' polynomial, error below
/// 2e-8 (Abramowitz & Stegun 4.4.46, from memory).
#[inline(always)]
pub(super) fn asin(x: f32) -> f32 {
    let polynomial = HASTINGS
        .iter()
        .rev()
        .fold(0.0, |sum, coefficient| sum * x + coefficient);
    FRAC_PI_2 - root(1.0 - x) * polynomial
}

const HASTINGS: [f32; 8] = [
    FRAC_PI_2,
    -0.214_598_8,
    0.088_978_99,
    -0.050_174_305,
    0.030_891_88,
    -0.017_088_126,
    0.006_670_09,
    -0.001_262_491_1,
];

/// Bytes of 0 and 1 as bits.
#[inline(always)]
pub(super) fn mask(bytes: &[u8; LANES]) -> Mask {
    // Each product gathers the low bits of eight bytes in its highest byte.
    const GATHER: u64 = 0x0102_0408_1020_4080;
    let (eights, _) = bytes.as_chunks::<8>();
    eights.iter().rev().fold(0, |mask, &eight| {
        mask << 8 | u64::from_le_bytes(eight).wrapping_mul(GATHER) >> 56
    })
}

/// The first lanes, as many as there are.
pub(super) const fn first(lanes: usize) -> Mask {
    if lanes >= LANES {
        Mask::MAX
    } else {
        (1 << lanes) - 1
    }
}

/// The lanes of a mask, lowest first.
pub(super) fn each(mask: Mask) -> impl Iterator<Item = usize> {
    let mut left = mask;
    std::iter::from_fn(move || {
        let lane = left.trailing_zeros() as usize;
        let here = (lane < LANES).then_some(lane)?;
        left &= left - 1;
        Some(here)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sine_and_cosine_of_what_a_disc_may_tilt() {
        for step in -1000..=1000_i16 {
            let x = f32::from(step) / 1000.0;
            let (sin, cos) = small_angle(x);
            assert!(
                (f64::from(sin) - libm::sin(f64::from(x))).abs() < 2e-7,
                "{x}"
            );
            assert!(
                (f64::from(cos) - libm::cos(f64::from(x))).abs() < 4e-7,
                "{x}"
            );
        }
    }

    #[test]
    fn arc_sine_from_nothing_to_a_quarter_turn() {
        for step in 0..=10_000_u16 {
            let x = f32::from(step) / 10_000.0;
            assert!(
                (f64::from(asin(x)) - libm::asin(f64::from(x))).abs() < 4e-7,
                "{x}"
            );
        }
    }

    #[test]
    fn bytes_become_bits_and_bits_lanes() {
        let bytes = std::array::from_fn(|lane| u8::from(lane % 5 == 2 || lane == 63));
        let wanted: Vec<usize> = (0..LANES).filter(|&lane| bytes[lane] == 1).collect();
        assert_eq!(each(mask(&bytes)).collect::<Vec<_>>(), wanted);
        assert_eq!((first(0), first(3), first(64)), (0, 7, u64::MAX));
    }
}
