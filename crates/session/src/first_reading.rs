use crate::Document;
use measurement::{
    Method, Modality, Phase, Quantity, Reading, ReadingId, Side, Structure, Unit, Valve,
};

/// A new reading of a quantity, taken as another of the same structure and unit
/// was, or else as such quantities mostly are. Not said to be from the same
/// image: that would correlate the two.
pub(crate) fn reading(document: &Document, quantity: Quantity, value: f64) -> Reading {
    let (modality, side, phase, method) =
        as_a_neighbour(document, quantity).unwrap_or_else(|| as_is_usual(quantity));
    Reading {
        id: free_id(document, quantity),
        quantity,
        value,
        sd: None,
        modality,
        side,
        phase,
        method,
        image: None,
        set_aside: None,
    }
}

type Taken = (Modality, Side, Phase, Method);

/// As a reading of the same quantity was taken, or of the same structure in the
/// same unit; one in use before one set aside.
fn as_a_neighbour(document: &Document, quantity: Quantity) -> Option<Taken> {
    let info = quantity.info();
    let readings = &document.case().readings;
    readings
        .iter()
        .filter(|reading| {
            let other = reading.quantity.info();
            other.structure == info.structure && other.unit == info.unit
        })
        .min_by_key(|reading| (reading.quantity != quantity, reading.set_aside.is_some()))
        .map(|reading| (reading.modality, reading.side, reading.phase, reading.method))
}

/// Common practice, no source: lengths in the heart by transthoracic echo from
/// edge to edge at the end of diastole, pressures by catheter.
fn as_is_usual(quantity: Quantity) -> Taken {
    let info = quantity.info();
    if info.structure == Structure::Patient {
        return (Modality::Bedside, Side::NoSide, Phase::AnyPhase, Method::Direct);
    }
    let echo = Modality::TransthoracicEcho;
    match info.unit {
        Unit::MPerS => (echo, Side::NoSide, Phase::Systole, Method::Doppler),
        Unit::MmHg => (Modality::Catheter, Side::NoSide, Phase::Systole, Method::Direct),
        Unit::Ratio => (Modality::Catheter, Side::NoSide, Phase::AnyPhase, Method::Derived),
        Unit::Degrees => (echo, side(info.structure), Phase::AnyPhase, Method::Direct),
        Unit::Mm | Unit::Cm | Unit::Kg | Unit::Years => {
            (echo, side(info.structure), Phase::EndDiastole, Method::EdgeToEdge)
        }
    }
}

const fn side(structure: Structure) -> Side {
    match structure {
        Structure::Throat => Side::Within,
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
