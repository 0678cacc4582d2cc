//! Remarks beside figures: where a figure may mislead, and why there is none.

use crate::figures::{across_body, across_lungs, behind_defect, body, left_atrial, read, samples};
use crate::{Circumstances, Figure, Figures, Input, State};
use measurement::{BeatsPerMin, Method, Mm, MmHg, Percent, Quantity, Values, Years};
use physiology::{
    SUPPLEMENTAL, Sex, assumed_uptake, lopez_2017, outside_z_score_ages, pettersen_2008,
    qp_qs_by_saturations,
};

/// The state of a figure, and the note beside it.
pub(crate) struct Remark {
    pub(crate) state: State,
    pub(crate) note: String,
}

impl Remark {
    fn of(state: State, note: impl Into<String>) -> Self {
        let note = note.into();
        Self { state, note }
    }
}

/// The remark on a figure, if there is one; it counts where the figure has a value or
/// is refused one.
pub(crate) fn remark(figure: Figure, input: &Input, at: &Circumstances) -> Option<Remark> {
    let values = input.joint.nominal();
    match figure {
        Figure::MixedVenous => Some(Remark::of(State::Plain, at.mixed_venous.name())),
        Figure::QpQs => Some(way_to_the_ratio(&values, at)),
        Figure::QpQsBySaturations => on_saturations(&values, at),
        Figure::PulmonaryFlow => on_uptake(input, &values),
        Figure::PulmonaryResistanceIndexed => match behind_the_lungs(&values) {
            Some(refused) if refused.state == State::Refused => Some(refused),
            other => {
                as_reported(across_lungs(&values), Figure::PulmonaryFlow, &values, at).or(other)
            }
        },
        Figure::SystemicResistanceIndexed => {
            as_reported(across_body(&values), Figure::SystemicFlow, &values, at)
        }
        Figure::PressureBehindDefect => on_the_jet(&values, at),
        Figure::FlowThroughHole => Some(Remark::of(
            State::Warned,
            format!(
                "{:.0} % of the beat, mean {:.0} % of the peak gradient, discharge {}: assumptions",
                100.0 * at.systole_share,
                100.0 * at.mean_over_peak,
                at.discharge
            ),
        )),
        Figure::LeftVentricleZ => on_the_left_ventricle(&values),
        Figure::LeftAtriumZ => on_the_left_atrium(&values),
        _ => None,
    }
}

/// The remark by which way Qp:Qs was worked out.
fn way_to_the_ratio(values: &Values, at: &Circumstances) -> Remark {
    let figures = Figures::of(values, at);
    let inspired = read(values, Quantity::PATIENT_INSPIRED_OXYGEN).map(Percent);
    let is_dissolved = inspired.is_some_and(|inspired| inspired > SUPPLEMENTAL);
    let tensions = [
        Quantity::PULMONARY_VEIN_OXYGEN_TENSION,
        Quantity::PULMONARY_ARTERY_OXYGEN_TENSION,
    ]
    .map(|tension| read(values, tension));
    if figures.get(Figure::QpQsBySaturations).is_some() {
        if !is_dissolved {
            return Remark::of(State::Plain, "by saturations");
        }
        if figures.get(Figure::PulmonaryFlow).is_some() && tensions.iter().all(Option::is_some) {
            return Remark::of(State::Plain, "by contents, with dissolved oxygen");
        }
        return Remark::of(
            State::Warned,
            "by saturations on oxygen: what is dissolved was not counted, and it is too high",
        );
    }
    if figures.get(Figure::QpQsByDoppler).is_some() {
        return Remark::of(State::Plain, "by Doppler");
    }
    Remark::of(State::Plain, AS_MEASURED)
}

/// What is said of a figure that is a reading, not worked out.
const AS_MEASURED: &str = "as reported: the case does not hold what it was worked out from";

/// That a resistance is the one of a report: pressures or flow are not in the case.
fn as_reported(
    across: Option<(MmHg, MmHg)>,
    flow: Figure,
    values: &Values,
    at: &Circumstances,
) -> Option<Remark> {
    let is_worked_out = across.is_some() && Figures::of(values, at).get(flow).is_some();
    (!is_worked_out).then(|| Remark::of(State::Plain, AS_MEASURED))
}

fn on_saturations(values: &Values, at: &Circumstances) -> Option<Remark> {
    let inspired = read(values, Quantity::PATIENT_INSPIRED_OXYGEN).map(Percent);
    let samples = samples(values, at)?;
    match qp_qs_by_saturations(samples, inspired) {
        Err(none) => Some(Remark::of(State::Refused, none.to_string())),
        Ok(ratio) => match ratio.warning {
            Some(warning) => Some(Remark::of(State::Warned, warning.to_string())),
            None if read(values, Quantity::PULMONARY_VEIN_SATURATION).is_none() => {
                Some(Remark::of(
                    State::Warned,
                    "no pulmonary vein was entered: the left side stands for it, which hides a \
                 shunt to the left or lungs that do not fill the blood",
                ))
            }
            None => None,
        },
    }
}

fn on_uptake(input: &Input, values: &Values) -> Option<Remark> {
    match input.method(Quantity::PATIENT_OXYGEN_UPTAKE) {
        Some(Method::Direct) => None,
        Some(_) => Some(Remark::of(
            State::Warned,
            "oxygen uptake assumed, not measured: in ventilated children under 3 years the usual \
             formula gave 53 ± 52 % too much, above 11 ± 21 % (Rutledge 2010, Am Heart J 160:109)",
        )),
        None => {
            let age = Years(read(values, Quantity::PATIENT_AGE)?);
            let rate = BeatsPerMin(read(values, Quantity::PATIENT_HEART_RATE)?);
            match (
                assumed_uptake(Sex::Female, age, rate),
                assumed_uptake(Sex::Male, age, rate),
            ) {
                (Ok(girl), Ok(boy)) => Some(Remark::of(
                    State::Refused,
                    format!(
                        "oxygen uptake was not measured; by the usual formula {:.0} (girl) or \
                         {:.0} mL/min/m² (boy): enter it as a reading, `method: derived`",
                        girl.formula.value(),
                        boy.formula.value()
                    ),
                )),
                (Err(refused), _) | (_, Err(refused)) => {
                    Some(Remark::of(State::Refused, refused.to_string()))
                }
            }
        }
    }
}

fn behind_the_lungs(values: &Values) -> Option<Remark> {
    let upstream = read(values, Quantity::PULMONARY_ARTERY_MEAN)?;
    let behind = left_atrial(values)?.value();
    if behind > upstream {
        return Some(Remark::of(
            State::Refused,
            "the mean pressure behind the lungs is the higher one",
        ));
    }
    read(values, Quantity::LEFT_ATRIUM_MEAN)
        .is_none()
        .then(|| Remark::of(State::Plain, "wedge for the left atrium"))
}

fn on_the_jet(values: &Values, at: &Circumstances) -> Option<Remark> {
    match behind_defect(values, at)? {
        Err(refused) => Some(Remark::of(State::Refused, refused.to_string())),
        Ok(behind) => {
            let mut notes = Vec::new();
            if behind.not_excluded().next().is_some() {
                notes.push("too low if outflow or arch is narrow, and that was not excluded");
            }
            if behind.unrestrictive {
                notes.push("so slow a jet that the defect does not restrict");
            }
            (!notes.is_empty()).then(|| Remark::of(State::Warned, notes.join("; ")))
        }
    }
}

fn on_the_left_ventricle(values: &Values) -> Option<Remark> {
    let size = Mm(read(values, Quantity::LEFT_VENTRICLE_DIAMETER)?);
    let z = lopez_2017::LEFT_VENTRICLE_DIASTOLIC.z(size, body(values)?);
    let age = read(values, Quantity::PATIENT_AGE).and_then(|age| outside_z_score_ages(Years(age)));
    let outside = z.outside.or(age)?;
    Some(Remark::of(State::Warned, outside.to_string()))
}

fn on_the_left_atrium(values: &Values) -> Option<Remark> {
    let size = Mm(read(values, Quantity::LEFT_ATRIUM_DIAMETER)?);
    let either = pettersen_2008::LEFT_ATRIUM.z(size, body(values)?);
    Some(Remark::of(
        State::Warned,
        format!(
            "{:.1} by Du Bois' surface; sources disagree which of the two the table was made with",
            either.du_bois.value.value()
        ),
    ))
}
