//! What is assumed of an annulus from the size of the body.

use measurement::{Cm, Feature, Kg, Law, Mm, Quantity, Structure, Valve, ZScore};
use physiology::BodySize;
use physiology::lopez_2017::{self as table, Lopez};

/// The row of the table that speaks of a quantity.
///
/// Annuli alone: the left outflow, which is often small in a large shunt, is never
/// worked out from the body, and the table has no rim, wall or vessel of the way
/// in. Pettersen 2008 is left out: sources disagree on which body surface it takes,
/// and it says nothing of the least child it covers.
fn row(quantity: Quantity) -> Option<&'static Lopez<Mm>> {
    let info = quantity.info();
    match (info.structure, info.feature) {
        (Structure::Valve(Valve::Aortic), Feature::Diameter) => Some(&table::AORTIC_ANNULUS),
        (Structure::Valve(Valve::Pulmonary), Feature::Diameter) => {
            Some(&table::PULMONARY_ANNULUS_SHORT_AXIS)
        }
        (Structure::Valve(Valve::Mitral), Feature::Diameter) => {
            Some(&table::MITRAL_ANNULUS_LATERAL)
        }
        (Structure::Valve(Valve::Tricuspid), Feature::Diameter) => {
            Some(&table::TRICUSPID_ANNULUS_LATERAL)
        }
        _ => None,
    }
}

/// The law of a quantity in healthy children of one size, with its source: z = 0
/// and the table's standard deviation. `None` where the table has no such row or
/// does not cover this weight and height: nothing is extrapolated.
pub(crate) fn assumed(quantity: Quantity, weight: f64, height: f64) -> Option<(Law, String)> {
    let row: &Lopez<Mm> = row(quantity)?;
    let body = BodySize {
        weight: Kg(weight),
        height: Cm(height),
    };
    let at = |z| row.size(ZScore(z), body);
    let middle = at(0.0);
    if middle.outside.is_some() {
        return None;
    }
    let (mean, sd) = (
        middle.value.value(),
        at(1.0).value.value() - middle.value.value(),
    );
    let source = format!(
        "{} of healthy children of {weight:.1} kg and {height:.0} cm, z 0: {}",
        row.structure(),
        table::SOURCE,
    );
    Some((Law::for_quantity(quantity.info().law, mean, sd), source))
}
