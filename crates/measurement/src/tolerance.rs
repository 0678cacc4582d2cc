//! Comparison of a value with a limit, where rounding alone never crosses the limit.

/// The difference up to which a value counts as on its limit, in the unit of both: far
/// more than sums round, far less than anything is measured to.
pub const TOLERANCE: f64 = 1e-9;

/// The difference of a value from a limit: 0 within [`TOLERANCE`], negative under the
/// limit.
pub fn over(value: f64, limit: f64) -> f64 {
    let over = value - limit;
    if over.abs() <= TOLERANCE { 0.0 } else { over }
}

/// Whether a value is over a limit. NaN never is.
pub fn is_over(value: f64, limit: f64) -> bool {
    over(value, limit) > 0.0
}

/// Whether a value is under a limit. NaN never is.
pub fn is_under(value: f64, limit: f64) -> bool {
    over(value, limit) < 0.0
}

/// Whether a value is on a limit or over it. NaN never is.
pub fn is_at_least(value: f64, limit: f64) -> bool {
    over(value, limit) >= 0.0
}

/// Whether a value is on a limit or under it. NaN never is.
pub fn is_at_most(value: f64, limit: f64) -> bool {
    over(value, limit) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_crosses_no_limit() {
        // 0.1 + 0.2 is 0.30000000000000004.
        assert_eq!(over(0.1 + 0.2, 0.3), 0.0);
        assert!(!is_over(0.1 + 0.2, 0.3) && is_at_most(0.1 + 0.2, 0.3));
        assert!(!is_under(0.3, 0.1 + 0.2) && is_at_least(0.3, 0.1 + 0.2));
        let beyond = 2.0 * TOLERANCE;
        assert!(is_over(0.3 + beyond, 0.3) && !is_at_most(0.3 + beyond, 0.3));
        assert!(is_under(0.3 - beyond, 0.3) && !is_at_least(0.3 - beyond, 0.3));
    }

    #[test]
    fn what_is_no_number_stands_nowhere() {
        for stands in [is_over, is_under, is_at_least, is_at_most] {
            assert!(!stands(f64::NAN, 0.3));
        }
    }
}
