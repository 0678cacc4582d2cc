//! Anatomies in which the nearest points of disc and annulus are hardest to find.

use crate::sample::{reading, scenario};
use measurement::{Quantity, Reading};
use sizing::Case;

/// A demonstration case with rings leaning 50° and 130°, with narrow rings, and
/// with discs tilted three times as far.
pub fn cases() -> Vec<(&'static str, Case)> {
    vec![
        ("rings leaning 50°", with("annulus_angle", |_| 50.0)),
        ("rings leaning 130°", with("annulus_angle", |_| 130.0)),
        (
            "rings of ratio 0.6",
            with("diameter_across", |diameter| 0.6 * diameter),
        ),
    ]
}

/// The demonstration case with a feature of every valve read anew, from the
/// diameter that was read.
fn with(feature: &str, value: impl Fn(f64) -> f64) -> Case {
    let mut case = scenario("outlet-infant");
    for valve in ["aortic", "mitral", "tricuspid", "pulmonary"] {
        let address = format!("{valve}.{feature}");
        let is_of = |reading: &Reading, address: &str| {
            Some(reading.quantity) == Quantity::from_address(address)
        };
        let diameter = case
            .readings
            .iter()
            .find(|reading| is_of(reading, &format!("{valve}.diameter")))
            .map(|reading| reading.value);
        let Some(diameter) = diameter else { continue };
        case.readings.retain(|reading| !is_of(reading, &address));
        let sd = if feature == "annulus_angle" {
            10.0
        } else {
            0.4
        };
        case.readings.push(reading(&address, value(diameter), sd));
    }
    case
}
