use measurement::{MPerS, MmHg};

/// Coefficient of the simplified Bernoulli equation, mmHg per (m/s)²: ρ/(2 · 133.322),
/// which the trade rounds to 4.
const TRADE_COEFFICIENT: f64 = 4.0;

/// One mmHg in pascal.
const PASCAL_PER_MMHG: f64 = 133.322;

/// Density of blood in the trade's tables, kg/m³.
pub const BLOOD_DENSITY: f64 = 1060.0;

/// The coefficient of Bernoulli's equation for a density in kg/m³, in mmHg per
/// (m/s)²: ρ/(2 · 133.322); 3.975 for blood.
pub fn bernoulli_coefficient(density: f64) -> f64 {
    density / (2.0 * PASCAL_PER_MMHG)
}

/// Peak gradient by the simplified Bernoulli equation, 4 v².
///
/// Leaves out the velocity upstream, friction, inertia and the pressure regained
/// downstream.
pub fn simplified_bernoulli(peak: MPerS) -> MmHg {
    bernoulli(MPerS(0.0), peak)
}

/// Peak gradient by the Bernoulli equation with the velocity upstream,
/// 4 (v2² − v1²); negative where the flow slows.
///
/// Leaves out friction, inertia and the pressure regained downstream.
pub fn bernoulli(upstream: MPerS, peak: MPerS) -> MmHg {
    let [v1, v2] = [upstream.value(), peak.value()];
    MmHg(TRADE_COEFFICIENT * (v2 * v2 - v1 * v1))
}

/// Contraction of the jet behind an orifice that leaves a share of the tract
/// open: c0 + (1 − c0) f³, 1 where nothing narrows.
///
/// The form is Weisbach's; c0 is 0.63 for a sharp edge (from memory), 0.8 for a
/// rounded one (assumption). `open_share` is held within 0 and 1.
fn jet_contraction(open_share: f64, c0: f64) -> f64 {
    let f = open_share.clamp(0.0, 1.0);
    c0 + (1.0 - c0) * f * f * f
}

/// Share of the tract's area that the jet fills at its narrowest, f · C(f).
pub fn effective_share(open_share: f64, c0: f64) -> f64 {
    open_share.clamp(0.0, 1.0) * jet_contraction(open_share, c0)
}

/// Whether a tract counts as closed: its effective share is no more than the
/// least one for which a gradient is given.
pub fn is_closed(open_share: f64, c0: f64, least_effective_share: f64) -> bool {
    effective_share(open_share, c0) <= least_effective_share
}

/// Peak gradient that a narrowing adds to a tract with peak velocity v1 before
/// it, 4 v1² (1/f² − 1) with f the effective share; 0 where nothing narrows.
///
/// f is held at or above `least_effective_share`, which is above 0: below it the
/// tract [is closed](is_closed) and the flow would not be what it was. Assumes
/// the same flow at rest, and leaves out friction and the pressure regained
/// downstream.
pub fn cost_of_narrowing(v1: MPerS, open_share: f64, c0: f64, least_effective_share: f64) -> MmHg {
    let jet = effective_share(open_share, c0).max(least_effective_share);
    bernoulli(v1, MPerS(v1.value() / jet))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LEAST: f64 = 0.05;

    #[test]
    fn an_open_tract_costs_nothing() {
        assert_eq!(cost_of_narrowing(MPerS(1.1), 1.0, 0.8, LEAST), MmHg(0.0));
        assert_eq!(jet_contraction(1.0, 0.63), 1.0);
    }

    #[test]
    fn half_open_by_hand() {
        // C = 0.8 + 0.2/8 = 0.825, f_e = 0.4125, 4 (1/0.4125² − 1) = 19.5078.
        let cost = cost_of_narrowing(MPerS(1.0), 0.5, 0.8, LEAST).value();
        assert!((cost - 19.507_805_3).abs() < 1e-6, "{cost}");
    }

    #[test]
    fn a_closed_tract_is_said_and_costs_a_finite_sum() {
        assert!(is_closed(0.0, 0.8, LEAST));
        assert!(!is_closed(0.5, 0.8, LEAST));
        let cost = cost_of_narrowing(MPerS(1.0), 0.0, 0.8, LEAST).value();
        assert!((cost - 4.0 * 399.0).abs() < 1e-9, "{cost}");
    }

    proptest! {
        #[test]
        fn never_cheaper_when_narrower(v in 0.0..5.0_f64, f in -0.5..1.5_f64, g in -0.5..1.5_f64) {
            let cost = |share| cost_of_narrowing(MPerS(v), share, 0.8, LEAST);
            prop_assert!(cost(f.min(g)) >= cost(f.max(g)));
            prop_assert!(cost(f) >= MmHg(0.0));
        }

        #[test]
        fn grows_with_the_square_of_the_velocity(v in 0.0..5.0_f64, f in 0.0..1.0_f64) {
            let cost = |v| cost_of_narrowing(MPerS(v), f, 0.8, LEAST).value();
            prop_assert!((cost(2.0 * v) - 4.0 * cost(v)).abs() <= 1e-9 * cost(v));
        }
    }
}
