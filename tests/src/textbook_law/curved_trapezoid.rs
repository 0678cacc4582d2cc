//! The curvilinear trapezoid of JCGM 101:2008, 6.4.3, about its midpoint.
//!
//! The half-width is rectangular between `half` − `doubt` and `half` + `doubt`.

/// Halvings of [0, 1] that leave less than the last place of an `f64`.
const HALVINGS: usize = 53;

/// Signed distance from the midpoint that is not exceeded with probability `p`.
///
/// In the flat middle the density is ln((h + d)/(h − d)) / 4d. Beyond it, the
/// probability of lying further out than y (h + d) on one side is
/// (h + d)(1 − y + y ln y) / 4d, which has no elementary inverse.
pub(super) fn quantile(p: f64, half: f64, doubt: f64) -> f64 {
    let tail = p.min(1.0 - p);
    let outward = if p < 0.5 { -1.0 } else { 1.0 };
    if doubt <= 0.0 {
        return outward * half * (1.0 - 2.0 * tail);
    }
    let widest = half + doubt;
    let narrowest = (half - doubt).max(0.0);
    let beyond = |y: f64| widest * (1.0 - y + y_log_y(y)) / (4.0 * doubt);
    let flat_end = narrowest / widest;
    let in_tail = beyond(flat_end);
    if tail > in_tail {
        return outward * narrowest * (0.5 - tail) / (0.5 - in_tail);
    }
    let (mut inner, mut outer) = (flat_end, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (inner + outer);
        if beyond(middle) > tail {
            inner = middle;
        } else {
            outer = middle;
        }
    }
    outward * widest * inner
}

/// y ln y, with its limit at 0.
fn y_log_y(y: f64) -> f64 {
    if y > 0.0 { y * libm::log(y) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_limits_make_it_rectangular() {
        assert!((quantile(0.9, 2.0, 0.0) - 1.6).abs() < 1e-15);
        assert!((quantile(0.9, 2.0, 1e-9) - 1.6).abs() < 1e-8);
    }

    /// The probability of at most x, averaged over the half-width itself.
    #[test]
    fn agrees_with_the_mixture_it_comes_from() {
        let (half, doubt, steps) = (1.0, 0.4, 200_000);
        for p in [0.02, 0.1, 0.3, 0.5, 0.77, 0.99] {
            let x = quantile(p, half, doubt);
            let average = (0..steps)
                .map(|i| {
                    let share = (f64::from(i) + 0.5) / f64::from(steps);
                    let width = half - doubt + 2.0 * doubt * share;
                    (0.5 + 0.5 * x / width).clamp(0.0, 1.0)
                })
                .sum::<f64>()
                / f64::from(steps);
            assert!((average - p).abs() < 1e-7, "{p}: {average}");
        }
    }

    #[test]
    fn limits_that_may_meet_are_covered() {
        assert_eq!(quantile(0.5, 1.0, 1.0), 0.0);
        assert!(quantile(0.9, 1.0, 1.0) > 0.0);
    }
}
