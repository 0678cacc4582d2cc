//! Values of a quantity: how they are nudged, said and typed.

use measurement::{Quantity, QuantityInfo, Unit};

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

/// A value with its unit: `1.5 mm`; a ratio has none.
pub fn amount(quantity: Quantity, value: f64) -> String {
    format!("{}{}", number(quantity, value), unit(quantity))
}

/// The unit behind a number, with its space.
pub(crate) fn unit(quantity: Quantity) -> String {
    match quantity.unit() {
        Unit::Ratio => String::new(),
        unit => format!(" {}", unit.symbol()),
    }
}

/// A typed value, with a point or a comma, with or without its unit, or in another
/// that people use for it.
pub(crate) fn typed(quantity: Quantity, text: &str) -> Option<f64> {
    let text = text.trim();
    let unit = quantity.unit();
    let own = text.strip_suffix(unit.symbol());
    let other = unit.also().iter().find_map(|(symbol, one)| {
        let number = text.strip_suffix(symbol).filter(|_| own.is_none())?;
        Some((number, *one))
    });
    let (number, one) = other.unwrap_or((own.unwrap_or(text), 1.0));
    let value: f64 = number.trim_end().replace(',', ".").parse().ok()?;
    let value = if other.is_some() {
        // As a person would write it down.
        (value * one * CONVERTED).round() / CONVERTED
    } else {
        value
    };
    value.is_finite().then_some(value)
}

/// What is converted is written to a ten-thousandth: an age to an hour.
const CONVERTED: f64 = 1e4;

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
        Unit::Years => ", or as 3 weeks, 5 months",
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
        assert_eq!(nudged(of("throat.turn"), -0.5, Nudge::Up), 0.0);
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
        assert_eq!(amount(of("aortic.lean"), 90.0), "90 deg");
        assert_eq!(amount(of("flow.qp_qs"), 2.6), "2.60");
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
        ] {
            assert_eq!(typed(of("patient.age"), text), Some(years), "{text}");
        }
        assert_eq!(also(of("patient.age")), ", or as 3 weeks, 5 months");
        assert_eq!(typed(of("patient.weight"), "3600 g"), Some(3.6));
        assert_eq!(typed(of("patient.weight"), "3.6 kg"), Some(3.6));
        for text in ["", "inf", "NaN", "1.5 cm", "1.5.2", "mm"] {
            assert_eq!(typed(of("aortic.rim"), text), None);
        }
    }
}
