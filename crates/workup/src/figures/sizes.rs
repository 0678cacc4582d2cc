//! Body surface and z-scores.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{Cm, Kg, Mm, Quantity, Values};
use physiology::lopez_2017::{self, Lopez};
use physiology::{AreaFormula, BodySize, pettersen_2008};

/// The body size, where weight and height were measured.
pub(crate) fn body(values: &Values) -> Option<BodySize> {
    Some(BodySize {
        weight: Kg(read(values, Quantity::PATIENT_WEIGHT)?),
        height: Cm(read(values, Quantity::PATIENT_HEIGHT)?),
    })
}

pub(super) fn set(figures: &mut Figures, values: &Values, at: &Circumstances) {
    figures.set(Figure::Weight, read(values, Quantity::PATIENT_WEIGHT));
    figures.set(Figure::Age, read(values, Quantity::PATIENT_AGE));
    let Some(body) = body(values) else { return };
    let surface = AreaFormula::Haycock.area(body).value;
    figures.set(Figure::BodySurface, Some(surface.value()));
    if at.is_adult {
        return;
    }
    let z = |row: &Lopez<Mm>, quantity| {
        read(values, quantity).map(|size| row.z(Mm(size), body).value.value())
    };
    let rows = [
        (
            Figure::LeftVentricleZ,
            lopez_2017::LEFT_VENTRICLE_DIASTOLIC,
            Quantity::LEFT_VENTRICLE_DIAMETER,
        ),
        (
            Figure::AorticAnnulusZ,
            lopez_2017::AORTIC_ANNULUS,
            Quantity::AORTIC_DIAMETER,
        ),
        (
            Figure::PulmonaryAnnulusZ,
            lopez_2017::PULMONARY_ANNULUS_SHORT_AXIS,
            Quantity::PULMONARY_DIAMETER,
        ),
        (
            Figure::MitralAnnulusZ,
            lopez_2017::MITRAL_ANNULUS_LATERAL,
            Quantity::MITRAL_DIAMETER,
        ),
        (
            Figure::TricuspidAnnulusZ,
            lopez_2017::TRICUSPID_ANNULUS_LATERAL,
            Quantity::TRICUSPID_DIAMETER,
        ),
    ];
    for (figure, row, quantity) in rows {
        figures.set(figure, z(&row, quantity));
    }
    let atrium = read(values, Quantity::LEFT_ATRIUM_DIAMETER).map(|size| {
        pettersen_2008::LEFT_ATRIUM
            .z(Mm(size), body)
            .haycock
            .value
            .value()
    });
    figures.set(Figure::LeftAtriumZ, atrium);
}
