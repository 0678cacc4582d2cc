//! Body surface and z-scores.

use super::{Figures, read};
use crate::{Circumstances, Figure};
use measurement::{Cm, Kg, Mm, Values};
use physiology::lopez_2017::{self, Lopez};
use physiology::{AreaFormula, BodySize, pettersen_2008};

/// The body, where weight and height were read.
pub(crate) fn body(values: &Values) -> Option<BodySize> {
    Some(BodySize {
        weight: Kg(read(values, "patient.weight")?),
        height: Cm(read(values, "patient.height")?),
    })
}

pub(super) fn set(figures: &mut Figures, values: &Values, at: &Circumstances) {
    figures.set(Figure::Weight, read(values, "patient.weight"));
    figures.set(Figure::Age, read(values, "patient.age"));
    let Some(body) = body(values) else { return };
    let surface = AreaFormula::Haycock.area(body).value;
    figures.set(Figure::BodySurface, Some(surface.value()));
    if at.is_adult {
        return;
    }
    let z = |row: &Lopez<Mm>, address| {
        read(values, address).map(|size| row.z(Mm(size), body).value.value())
    };
    let rows = [
        (
            Figure::LeftVentricleZ,
            lopez_2017::LEFT_VENTRICLE_DIASTOLIC,
            "left_ventricle.diameter",
        ),
        (
            Figure::AorticAnnulusZ,
            lopez_2017::AORTIC_ANNULUS,
            "aortic.diameter",
        ),
        (
            Figure::PulmonaryAnnulusZ,
            lopez_2017::PULMONARY_ANNULUS_SHORT_AXIS,
            "pulmonary.diameter",
        ),
        (
            Figure::MitralAnnulusZ,
            lopez_2017::MITRAL_ANNULUS_LATERAL,
            "mitral.diameter",
        ),
        (
            Figure::TricuspidAnnulusZ,
            lopez_2017::TRICUSPID_ANNULUS_LATERAL,
            "tricuspid.diameter",
        ),
    ];
    for (figure, row, address) in rows {
        figures.set(figure, z(&row, address));
    }
    let atrium = read(values, "left_atrium.diameter").map(|size| {
        pettersen_2008::LEFT_ATRIUM
            .z(Mm(size), body)
            .haycock
            .value
            .value()
    });
    figures.set(Figure::LeftAtriumZ, atrium);
}
