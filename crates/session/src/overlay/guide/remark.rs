//! What is odd in a case, though each answer alone can be.

use crate::{Model, amount};
use measurement::{Feature, Quantity, Structure};

/// What cannot both be so, or seldom is, each in a sentence.
pub(super) fn remarks(model: &Model) -> Vec<String> {
    let mut remarks: Vec<String> = sizing::contradictions(model.setting())
        .into_iter()
        .map(|one| one.says)
        .collect();
    remarks.extend(PRESSURES.iter().filter_map(|&of| out_of_order(model, of)));
    remarks.extend(longer_than_ventricle(model));
    remarks
}

/// Structures whose pressures stand in an order.
const PRESSURES: [Structure; 4] = [
    Structure::LeftVentricle,
    Structure::RightVentricle,
    Structure::PulmonaryArtery,
    Structure::Aorta,
];

/// A lower pressure of one place over a higher one.
fn out_of_order(model: &Model, of: Structure) -> Option<String> {
    let order = [
        Feature::DiastolicPressure,
        Feature::MeanPressure,
        Feature::SystolicPressure,
    ];
    let read: Vec<(Quantity, f64)> = order
        .into_iter()
        .filter_map(|feature| {
            let quantity = Quantity::find(of, feature)?;
            Some((quantity, model.setting().nominal(quantity)?))
        })
        .collect();
    read.windows(2).find_map(|pair| {
        let [(low, less), (high, more)] = pair else {
            return None;
        };
        (less > more).then(|| {
            format!(
                "{low} ({}) is over {high} ({})",
                amount(*low, *less),
                amount(*high, *more)
            )
        })
    })
}

/// A hole longer than the ventricle beside it.
fn longer_than_ventricle(model: &Model) -> Option<String> {
    let nominal = |quantity| model.setting().nominal(quantity);
    let hole = nominal(Quantity::DEFECT_LONG_AXIS)?;
    let ventricle = nominal(Quantity::LEFT_VENTRICLE_LENGTH)?;
    (hole > ventricle).then(|| {
        format!("the defect ({hole} mm) is longer than the left ventricle's free length ({ventricle} mm)")
    })
}
