use crate::Document;
use measurement::{
    Feature, GroupPattern, Method, Modality, Phase, Quantity, Reading, ReadingId, Side, Structure,
    Unit, Valve,
};

/// A new reading of a quantity, taken as another of the same structure and unit
/// was, or else as such quantities mostly are; but on the side, in the phase and
/// by the method that the house rules prefer, so that it counts. Not said to be
/// from the same image: that would correlate the two.
pub(crate) fn reading(document: &Document, quantity: Quantity, value: f64) -> Reading {
    let (modality, side, phase, method) =
        as_a_neighbour(document, quantity).unwrap_or_else(|| as_is_usual(quantity));
    let preferred = preferred(document, quantity).unwrap_or_default();
    Reading {
        id: free_id(document, quantity),
        quantity,
        value,
        sd: None,
        modality,
        side: among(&preferred.sides, side),
        phase: among(&preferred.phases, own_phase(quantity).unwrap_or(phase)),
        method: among(&preferred.methods, method),
        image: None,
        set_aside: None,
    }
}

/// The group that the house rules take first for a quantity.
fn preferred(document: &Document, quantity: Quantity) -> Option<GroupPattern> {
    let rule = sizing::resolve::preference(document.case(), document.rules(), quantity)?;
    rule.patterns.into_iter().next()
}

/// One of those accepted: this one if it can be, else the first. Nothing named
/// accepts all.
fn among<T: Copy + PartialEq>(accepted: &[T], one: T) -> T {
    match accepted.first() {
        Some(first) if !accepted.contains(&one) => *first,
        _ => one,
    }
}

/// How, where, when and between what a reading is taken.
type ReadingKind = (Modality, Side, Phase, Method);

/// As a reading of the same quantity was taken, or of the same structure in the
/// same unit; one in use before one set aside.
fn as_a_neighbour(document: &Document, quantity: Quantity) -> Option<ReadingKind> {
    let info = quantity.info();
    let readings = &document.case().readings;
    readings
        .iter()
        .filter(|reading| {
            let other = reading.quantity.info();
            other.structure == info.structure && other.unit == info.unit
        })
        .min_by_key(|reading| (reading.quantity != quantity, reading.set_aside.is_some()))
        .map(|reading| {
            (
                reading.modality,
                reading.side,
                reading.phase,
                reading.method,
            )
        })
}

/// The phase in which a quantity is read by its nature, in whatever phase its
/// neighbours were: an annulus with its valve open, an outflow as it empties.
/// Common practice, no source.
fn own_phase(quantity: Quantity) -> Option<Phase> {
    let info = quantity.info();
    match (info.structure, info.feature) {
        (
            Structure::Valve(Valve::Aortic | Valve::Pulmonary)
            | Structure::Aorta
            | Structure::PulmonaryArtery,
            Feature::Diameter | Feature::DiameterAcross,
        )
        | (Structure::LeftOutflow | Structure::RightOutflow, _)
        | (_, Feature::SystolicPressure | Feature::Velocity | Feature::VelocityIntegral) => {
            Some(Phase::Systole)
        }
        (
            Structure::Valve(Valve::Mitral | Valve::Tricuspid) | Structure::LeftVentricle,
            Feature::Diameter | Feature::DiameterAcross,
        ) => Some(Phase::EndDiastole),
        (Structure::LeftAtrium, Feature::Diameter) => Some(Phase::EndSystole),
        (_, Feature::DiastolicPressure) => Some(Phase::Diastole),
        (_, Feature::MeanPressure | Feature::OxygenTension) => Some(Phase::AnyPhase),
        _ => None,
    }
}

/// Common practice, no source: lengths in the heart by transthoracic echo from
/// edge to edge at the end of diastole, pressures by catheter.
fn as_is_usual(quantity: Quantity) -> ReadingKind {
    let info = quantity.info();
    if matches!(info.structure, Structure::Patient | Structure::Blood) {
        return (
            Modality::Bedside,
            Side::NoSide,
            Phase::AnyPhase,
            Method::Direct,
        );
    }
    let echo = Modality::TransthoracicEcho;
    match info.unit {
        _ if matches!(info.feature, Feature::VelocityIntegral | Feature::Gradient) => {
            (echo, Side::NoSide, Phase::Systole, Method::Doppler)
        }
        Unit::MPerS => (echo, Side::NoSide, Phase::Systole, Method::Doppler),
        Unit::MmHg => (
            Modality::Catheter,
            Side::NoSide,
            Phase::Systole,
            Method::Direct,
        ),
        Unit::Percent | Unit::GPerDl | Unit::MlPerMinM2 | Unit::PerMin => (
            Modality::Catheter,
            Side::NoSide,
            Phase::AnyPhase,
            Method::Direct,
        ),
        Unit::Ratio => (
            Modality::Catheter,
            Side::NoSide,
            Phase::AnyPhase,
            Method::Derived,
        ),
        Unit::Degrees => (echo, side(info.structure), Phase::AnyPhase, Method::Direct),
        // Millimetres, and the units in which nothing is read.
        _ => (
            echo,
            side(info.structure),
            Phase::EndDiastole,
            Method::EdgeToEdge,
        ),
    }
}

const fn side(structure: Structure) -> Side {
    match structure {
        Structure::Defect => Side::Within,
        Structure::LeftOpening | Structure::Valve(Valve::Aortic | Valve::Mitral) => Side::Left,
        Structure::RightOpening | Structure::Valve(Valve::Tricuspid | Valve::Pulmonary) => {
            Side::Right
        }
        _ => Side::NoSide,
    }
}

/// The address, with the first number that no reading bears yet.
fn free_id(document: &Document, quantity: Quantity) -> ReadingId {
    let mut number = 1;
    loop {
        let id = ReadingId(format!("{}-{number}", quantity.address()));
        if document.reading(&id).is_none() {
            return id;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edit, fixture};
    use sizing::Setting;
    use sizing::resolve::Basis;
    use std::sync::Arc;

    #[test]
    fn a_first_reading_of_any_quantity_is_one_the_house_prefers() {
        for quantity in Quantity::all() {
            let mut case = fixture::case();
            case.readings.retain(|one| one.quantity != quantity);
            case.absent.clear();
            let mut document = fixture::open(case).document().clone();
            let new = reading(&document, quantity, quantity.info().least);
            let id = new.id.clone();
            Edit::Insert(0, new).apply(&mut document).unwrap();
            let setting = Setting::new(Arc::clone(&document.case), Arc::clone(&document.rules));
            match setting.basis(quantity) {
                Basis::Read(selection) => {
                    assert_eq!(
                        (&selection.used, selection.pattern),
                        (&vec![id], 0),
                        "{quantity}"
                    );
                }
                other => panic!("{quantity}: {other:?}"),
            }
        }
    }
}
