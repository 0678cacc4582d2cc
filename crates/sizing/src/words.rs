//! Numbers in sentences: always with unit and, where it matters, with a sign.

use measurement::{Age, Law, Quantity, Unit};

/// A length: `1.3 mm`.
pub(crate) fn mm(length: f64) -> String {
    // A rounded zero has no sign.
    format!("{:.1} mm", if length.abs() < 0.05 { 0.0 } else { length })
}

/// A value with its unit, in no more digits than are measured: `1.5 mm`, `11 months`.
pub(crate) fn amount(quantity: Quantity, value: f64) -> String {
    match quantity.unit() {
        Unit::Years => Age(value).to_string(),
        Unit::Ratio => number(quantity, value),
        unit => format!("{} {}", number(quantity, value), unit.symbol()),
    }
}

/// Values from one to another: `1.5 to 9.0 mm`, `0 days to 3.4 years`.
pub(crate) fn range(quantity: Quantity, low: f64, high: f64) -> String {
    let high = amount(quantity, high);
    let low = match quantity.unit() {
        Unit::Years => Age(low).to_string(),
        _ => number(quantity, low),
    };
    // A unit that both have is said once.
    let unit = high.split_once(' ').map_or("", |(_, unit)| unit);
    let low = low.strip_suffix(unit).unwrap_or(&low).trim_end();
    format!("{low} to {high}")
}

/// A value with the decimals of its fine step.
pub(crate) fn number(quantity: Quantity, value: f64) -> String {
    let fine = quantity.info().steps.0;
    let decimals = match fine {
        _ if fine >= 1.0 => 0,
        _ if fine >= 0.1 => 1,
        _ => 2,
    };
    format!("{value:.decimals$}")
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
    const HALF_A_TURN: f64 = 180.0;
    let tenths = |value: f64| (value * TENTHS).round() / TENTHS;
    let is_rotation = unit == Unit::Degrees;
    let unit = match unit {
        Unit::Degrees => "°".to_owned(),
        other => format!(" {other}"),
    };
    match law {
        Law::Rectangular { low, high } if is_rotation && high - low >= HALF_A_TURN => "any".into(),
        Law::Rectangular { low, high } => format!("any from {low} to {high}{unit}"),
        // As it was built, before values below 0 are counted as 0.
        Law::NormalAtLeastZero { mean, sd } => format!("{} ± {}{unit}", tenths(mean), tenths(sd)),
        _ => format!("{} ± {}{unit}", tenths(law.nominal()), tenths(law.sd())),
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

/// A phrase as the beginning of a sentence.
pub(crate) fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
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
        let of = |address| Quantity::from_address(address).unwrap();
        assert_eq!(range(of("aortic.rim"), 0.0, 9.7), "0.0 to 9.7 mm");
        assert_eq!(range(of("patient.age"), 0.0, 3.4), "0 days to 3.4 years");
        assert_eq!(range(of("patient.age"), 5.9, 120.0), "5.9 to 120 years");
    }
}
