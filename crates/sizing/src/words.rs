//! Numbers in sentences: always with unit and, where it matters, with a sign.

use measurement::{Law, Unit};

/// A length: `1.3 mm`.
pub(crate) fn mm(length: f64) -> String {
    // A rounded zero has no sign.
    format!("{:.1} mm", if length.abs() < 0.05 { 0.0 } else { length })
}

/// A signed difference in words: `0.4 mm wider`, `0.1 mm narrower`.
pub(crate) fn by(difference: f64, more: &str, less: &str) -> String {
    format!(
        "{} {}",
        mm(difference.abs()),
        if difference < 0.0 { less } else { more }
    )
}

/// What is assumed of a quantity in a unit, to a tenth of it: `3 ± 1 mm`.
pub(crate) fn assumed(law: Law, unit: Unit) -> String {
    const TENTHS: f64 = 10.0;
    let tenths = |value: f64| (value * TENTHS).round() / TENTHS;
    let unit = unit.symbol();
    match law {
        Law::Rectangular { low, high } => format!("any from {low} to {high} {unit}"),
        // As it was built, before values below 0 are counted as 0.
        Law::NormalAtLeastZero { mean, sd } => format!("{} ± {} {unit}", tenths(mean), tenths(sd)),
        _ => format!("{} ± {} {unit}", tenths(law.nominal()), tenths(law.sd())),
    }
}

/// A share: `42 %`.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

/// A list in a sentence: `a`, `a and b`, `a, b and c`.
pub(crate) fn list<S: AsRef<str>>(items: &[S]) -> String {
    match items {
        [] => String::new(),
        [only] => only.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", first.join(", "), last.as_ref())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_a_person_says_them() {
        assert_eq!(mm(-0.04), "0.0 mm");
        assert_eq!(by(-0.1, "wider", "narrower"), "0.1 mm narrower");
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
        assert_eq!(percent(0.416), "42 %");
    }
}
