//! Values of a quantity: how they are nudged, said and typed.

use measurement::{Age, Quantity, QuantityInfo, Unit};

/// A nudge of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nudge {
    /// One fine step up.
    Up,
    /// One fine step down.
    Down,
    /// One coarse step up.
    CoarseUp,
    /// One coarse step down.
    CoarseDown,
}

/// Share of a fine step within which a value counts as on the grid: what dividing
/// decimal fractions in binary leaves, and far less than anyone types.
const ON_GRID: f64 = 1e-6;

/// The value after a nudge, on the grid of the fine step and within what is
/// accepted. A value between two points of the grid goes to the next one.
pub fn nudged(quantity: Quantity, value: f64, nudge: Nudge) -> f64 {
    let info = quantity.info();
    let (fine, coarse) = info.steps;
    let steps = (coarse / fine).round();
    let at = value / fine;
    let below = (at + ON_GRID).floor();
    let above = (at - ON_GRID).ceil();
    let to = match nudge {
        Nudge::Up => below + 1.0,
        Nudge::Down => above - 1.0,
        Nudge::CoarseUp => below + steps,
        Nudge::CoarseDown => above - steps,
    };
    on_grid(info, to).clamp(info.least, info.most)
}

/// A number of fine steps, as the decimal fraction that a person writes: a tenth
/// three times is 0.3 and not 0.1 + 0.1 + 0.1.
fn on_grid(info: &QuantityInfo, steps: f64) -> f64 {
    let fine = info.steps.0;
    if fine < 1.0 {
        steps / (1.0 / fine).round()
    } else {
        steps * fine
    }
}

/// A value with at least the decimals of its fine step: `1.5`, `1.53`.
pub fn number(quantity: Quantity, value: f64) -> String {
    let fine = quantity.info().steps.0;
    let decimals = match fine {
        _ if fine >= 1.0 => 0,
        _ if fine >= 0.1 => 1,
        _ => 2,
    };
    let rounded = format!("{value:.decimals$}");
    if rounded.parse() == Ok(value) {
        rounded
    } else {
        value.to_string()
    }
}

/// A value with its unit: `1.5 mm`; a ratio has none. The age of a small child also
/// as people say it: `0.92 years (11 months)`.
pub fn amount(quantity: Quantity, value: f64) -> String {
    if quantity.unit() == Unit::Years && value < Age::SAID_IN_YEARS {
        return format!("{value:.2} years ({})", Age(value));
    }
    format!("{}{}", number(quantity, value), unit(quantity))
}

/// A value in a question: an age in the unit in which people say it.
pub(crate) fn said(quantity: Quantity, value: f64) -> String {
    match quantity.unit() {
        Unit::Years => Age(value).to_string(),
        _ => amount(quantity, value),
    }
}

/// The unit behind a number, with its space.
pub(crate) fn unit(quantity: Quantity) -> String {
    match quantity.unit() {
        Unit::Ratio => String::new(),
        unit => format!(" {}", unit.symbol()),
    }
}

/// The value of a typed text, in the quantity's unit: a number with a point or a
/// comma, with or without its unit, or in another unit that people use for it; an
/// age also as years and months. `None` where the text is nothing of the kind: a
/// power of ten (`3e1`) is a slip, not a number.
pub(crate) fn typed(quantity: Quantity, text: &str) -> Option<f64> {
    let unit = quantity.unit();
    let (number, rest) = number_before(text)?;
    if is_unit(rest, unit.symbol()) {
        return Some(number);
    }
    let mut sum = in_unit(unit, number, rest);
    // Years and months: every part has its unit, and the parts are added up.
    if sum.is_none() && unit == Unit::Years {
        let next = rest.find(|letter: char| letter.is_ascii_digit())?;
        let (word, others) = rest.split_at(next);
        sum = Some(in_unit(unit, number, word)? + typed_with_unit(quantity, others)?);
    }
    // As a person would write it down.
    sum.map(|value| (value * CONVERTED).round() / CONVERTED)
}

/// A typed number, with or without the unit that is shown beside it; `None` where it
/// is none.
pub(crate) fn plain(text: &str, unit: &str) -> Option<f64> {
    let (number, rest) = number_before(text)?;
    is_unit(rest, unit).then_some(number)
}

/// What is converted is written to a ten-thousandth: an age to an hour.
const CONVERTED: f64 = 1e4;

/// A value whose unit is said, not left out.
fn typed_with_unit(quantity: Quantity, text: &str) -> Option<f64> {
    let (_, rest) = number_before(text)?;
    typed(quantity, text).filter(|_| !rest.is_empty())
}

/// A number in a unit, which may be the quantity's own, in the quantity's unit.
fn in_unit(unit: Unit, number: f64, word: &str) -> Option<f64> {
    let word = word.trim();
    if word.eq_ignore_ascii_case(unit.symbol()) {
        return Some(number);
    }
    let mut also = unit.also().iter();
    let (_, one) = also.find(|(symbol, _)| word.eq_ignore_ascii_case(symbol))?;
    Some(number * one)
}

/// Whether a text behind a number is its unit, or nothing.
fn is_unit(text: &str, unit: &str) -> bool {
    text.is_empty() || text.eq_ignore_ascii_case(unit)
}

/// The number at the beginning of a text, and what stands behind it without the
/// space between.
fn number_before(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let is_of_number = |letter: char| letter.is_ascii_digit() || "+-.,".contains(letter);
    let end = text.find(|letter| !is_of_number(letter));
    let (number, rest) = text.split_at(end.unwrap_or(text.len()));
    let value: f64 = number.replace(',', ".").parse().ok()?;
    // Minus nought is nought.
    value
        .is_finite()
        .then_some((value + 0.0, rest.trim_start()))
}

/// Whether a typed number may begin with a letter.
pub(crate) const fn begins_number(letter: char) -> bool {
    matches!(letter, '0'..='9' | '.' | ',' | '-' | '+' | ' ')
}

/// What is accepted of a quantity: `mm, 0.0 to 60.0`.
pub(crate) fn range(quantity: Quantity) -> String {
    let info = quantity.info();
    let ends = format!(
        "{} to {}",
        number(quantity, info.least),
        number(quantity, info.most)
    );
    format!("{}, {ends}{}", info.unit.symbol(), also(quantity))
}

/// How else it may be typed.
pub(crate) fn also(quantity: Quantity) -> &'static str {
    match quantity.unit() {
        Unit::Years => ", or as 3 weeks, 5 months, 1 year 2 months",
        Unit::Kg => ", or as 3600 g",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(address: &str) -> Quantity {
        Quantity::from_address(address).unwrap()
    }

    #[test]
    fn a_nudge_goes_to_the_grid_and_does_not_drift() {
        let rim = of("aortic.rim");
        let mut value = 0.0;
        for tenth in 1..=600 {
            value = nudged(rim, value, Nudge::Up);
            assert_eq!(value, f64::from(tenth) / 10.0);
        }
        assert_eq!(nudged(rim, value, Nudge::CoarseUp), 60.0);
        assert_eq!(nudged(rim, 1.53, Nudge::Up), 1.6);
        assert_eq!(nudged(rim, 1.53, Nudge::Down), 1.5);
        assert_eq!(nudged(rim, 1.7, Nudge::CoarseUp), 2.2);
        assert_eq!(nudged(rim, 0.2, Nudge::CoarseDown), 0.0);
        assert_eq!(nudged(of("flow.qp_qs"), 0.1 + 0.2, Nudge::Up), 0.35);
        assert_eq!(nudged(of("defect.rotation"), -0.5, Nudge::Up), 0.0);
    }

    #[test]
    fn down_takes_back_what_up_did_on_every_grid() {
        for quantity in Quantity::all() {
            let info = quantity.info();
            for steps in 0..40 {
                let start = on_grid(info, (info.least / info.steps.0).ceil() + f64::from(steps));
                let up = nudged(quantity, start, Nudge::Up);
                if up < info.most {
                    assert_eq!(
                        nudged(quantity, up, Nudge::Down),
                        start,
                        "{quantity} {start}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_number_is_said_with_its_decimals_and_typed_with_or_without_unit() {
        assert_eq!(amount(of("aortic.rim"), 2.0), "2.0 mm");
        assert_eq!(amount(of("aortic.rim"), 1.53), "1.53 mm");
        assert_eq!(amount(of("aortic.annulus_angle"), 90.0), "90 deg");
        assert_eq!(amount(of("flow.qp_qs"), 2.6), "2.60");
        assert_eq!(amount(of("patient.age"), 0.9167), "0.92 years (11 months)");
        assert_eq!(amount(of("patient.age"), 2.4), "2.40 years");
        assert_eq!(range(of("aortic.rim")), "mm, 0.0 to 60.0");
        for text in ["1.5", "1,5", " 1.5mm ", "1.5 mm"] {
            assert_eq!(typed(of("aortic.rim"), text), Some(1.5));
        }
        for (text, years) in [
            ("3 weeks", 0.0575),
            ("1 week", 0.0192),
            ("45days", 0.1232),
            ("5 months", 0.4167),
            ("1 year", 1.0),
            ("2 years", 2.0),
            ("0,15", 0.15),
            ("11 mo", 0.9167),
            ("11mos", 0.9167),
            ("1 Year 2 Months", 1.1667),
            ("1y2mo", 1.1667),
            ("6 wk", 0.115),
        ] {
            assert_eq!(typed(of("patient.age"), text), Some(years), "{text}");
        }
        assert_eq!(
            also(of("patient.age")),
            ", or as 3 weeks, 5 months, 1 year 2 months"
        );
        assert_eq!(typed(of("patient.weight"), "3600 g"), Some(3.6));
        assert_eq!(typed(of("patient.weight"), "3.6 kg"), Some(3.6));
        for text in ["", "inf", "NaN", "1.5 cm", "1.5.2", "mm", "1e1", "1 2"] {
            assert_eq!(typed(of("aortic.rim"), text), None, "{text}");
        }
        for text in ["2 months 3", "1 year 2 kg", "3 moons"] {
            assert_eq!(typed(of("patient.age"), text), None, "{text}");
        }
        assert_eq!(
            typed(of("patient.oxygen_uptake"), "150 ml/min/m2"),
            Some(150.0)
        );
        assert_eq!(typed(of("aortic.annulus_angle"), "80°"), Some(80.0));
    }
}
