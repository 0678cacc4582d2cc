use super::{ExaminedCase, contradiction, leaves_out};
use crate::figures::{read, systemic_systolic};
use crate::{Figure, Line, Parameter};
use measurement::{Quantity, Values};

/// Says in words how a jet came to its pressure; `None` where it was not read.
type Sum = fn(&Values) -> Option<[String; 2]>;

/// The pressures that jets give, each with its sum and what may be wrong.
const JETS: [(Figure, Sum); 2] = [
    (Figure::PressureBehindDefect, by_the_defects_jet),
    (Figure::PressureBeforeTricuspidJet, by_the_tricuspid_jet),
];

/// Compares the right ventricle's pressure as measured with that behind the defect's jet,
/// and with that before the tricuspid jet.
pub(super) fn look(at: &ExaminedCase) -> Vec<Line> {
    JETS.into_iter()
        .filter_map(|(figure, sum)| against(at, figure, sum))
        .collect()
}

fn against(at: &ExaminedCase, figure: Figure, sum: Sum) -> Option<Line> {
    let by_jet = at.drawn.nominal.get(figure)?;
    let read = at.input.read(Quantity::RIGHT_VENTRICLE_SYSTOLIC)?;
    // The reading's own doubt stands beside that of the jet.
    let toward_jet = read.value + read.sd.copysign(by_jet - read.value);
    let interval = at.drawn.interval(figure);
    let apart = (by_jet - read.value).abs() >= at.limits.parameter(Parameter::PressureApart);
    if !(apart && leaves_out(interval, read.value) && leaves_out(interval, toward_jet)) {
        return None;
    }
    let [sum, wrong] = sum(&at.input.joint.nominal())?;
    let said = format!(
        "{sum} = {by_jet:.0} mmHg in the right ventricle by the jet, and {:.0} mmHg were measured: \
         {wrong}",
        read.value
    );
    let info = figure.info();
    Some(
        contradiction(info.id, "pressure against gradient", said, info.source)
            .on(&[Quantity::RIGHT_VENTRICLE_SYSTOLIC]),
    )
}

fn by_the_defects_jet(values: &Values) -> Option<[String; 2]> {
    let jet = read(values, Quantity::DEFECT_VELOCITY)?;
    let systemic = systemic_systolic(values)?.value();
    Some([
        format!("{systemic:.0} − 4 × {jet:.1}²"),
        "the beam was not along the jet, or the jet not the defect's, or one pressure is wrong"
            .into(),
    ])
}

fn by_the_tricuspid_jet(values: &Values) -> Option<[String; 2]> {
    let jet = read(values, Quantity::RIGHT_VENTRICLE_VELOCITY)?;
    let atrial = read(values, Quantity::RIGHT_ATRIUM_MEAN)?;
    Some([
        format!("{atrial:.0} + 4 × {jet:.1}²"),
        "the defect's own jet may have been taken for it, or one pressure is wrong".into(),
    ])
}
