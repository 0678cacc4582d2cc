//! Jets, Doppler flow, Gorlin's area and the flow through a hole.
//!
//! Worked figures were worked from the stated formulas outside this project, to
//! six decimals unless said otherwise.

use measurement::{BeatsPerMin, Cm, LPerMin, MPerS, Mm, MmHg, Ratio, Seconds, SquareCm};
use physiology::{
    DefectFlowAndShunt, DopplerTract, FlowTime, LeftSide, Obstruction, before_tricuspid_jet,
    behind_defect, circle, doppler_qp_qs, loss_free_jet, orifice_flow,
};
use std::f64::consts::PI;

/// Half the last decimal printed.
const PRINTED: f64 = 5e-7;

#[track_caller]
fn near(got: f64, wanted: f64, tolerance: f64) {
    assert!((got - wanted).abs() <= tolerance, "{got}, not {wanted}");
}

const SHUNT_TIME: FlowTime = FlowTime {
    rate: BeatsPerMin(130.0),
    period: Seconds(0.22),
};

/// Rao, Vessel Plus 2022;6:24 (doi 10.20517/2574-1209.2021.91), table 3: systemic
/// less 4 v². 90 mmHg with 4.2 and with 3.0 m/s, by hand.
#[test]
fn right_ventricle_behind_the_defect() {
    let free = LeftSide {
        outflow: Obstruction::Absent,
        arch: Obstruction::Absent,
    };
    let pressure = |jet| {
        behind_defect(MmHg(90.0), MPerS(jet), free)
            .unwrap()
            .pressure
    };
    near(pressure(4.2).value(), 19.44, 1e-12);
    near(pressure(3.0).value(), 54.0, 1e-12);
}

/// Rao 2022: a tricuspid jet of 3.74 m/s is 56 mmHg over the right atrium.
#[test]
fn right_ventricle_before_the_tricuspid_jet() {
    near(
        before_tricuspid_jet(MmHg(5.0), MPerS(3.74)).value(),
        61.0,
        0.5,
    );
}

fn tract(diameter: f64, integral: f64) -> DopplerTract {
    DopplerTract {
        diameter: Mm(diameter),
        velocity_integral: Cm(integral),
    }
}

/// A worked example as courses print it (common practice, no source): right tract
/// 2.41 cm and 23 cm, left 1.9 cm and 22 cm, Qp:Qs 1.7; exactly 1.682023.
#[test]
fn published_ratio_by_doppler() {
    let ratio = doppler_qp_qs(tract(24.1, 23.0), tract(19.0, 22.0)).value();
    near(ratio, 1.7, 0.05);
    near(ratio, 1.682_023, PRINTED);
}

/// 1.2 cm, 14 cm, 120 a minute, by hand.
#[test]
fn flow_by_doppler() {
    let tract = tract(12.0, 14.0);
    near(tract.stroke_volume().value(), 15.833_627, PRINTED);
    near(tract.flow(BeatsPerMin(120.0)).value(), 1.900_035, PRINTED);
}

/// Gorlin's constants, cm/s per √mmHg: of the aortic valve, and 0.85 times it of the
/// mitral one (from memory).
const AORTIC: f64 = 44.3;
const MITRAL: f64 = 37.7;

/// Gorlin's area in cm²: flow over constant × seconds of flow a minute × √mean gradient.
/// The formula stands here alone: it is what the flow through an orifice is held to.
fn area(litres: f64, rate: f64, period: f64, gradient: f64, constant: f64) -> f64 {
    1000.0 * litres / (rate * period * constant * gradient.sqrt())
}

/// Gorlin 1951, Am Heart J 41:1, doi 10.1016/0002-8703(51)90002-6 (from memory): 5000
/// mL/min, 75 a minute, 0.33 s, 30 mmHg give 0.83 cm².
#[test]
fn gorlin_s_published_example() {
    let aortic = area(5.0, 75.0, 0.33, 30.0, AORTIC);
    near(aortic, 0.83, 0.005);
    near(aortic, 0.832_589, PRINTED);
    let mitral = area(4.0, 80.0, 0.40, 16.0, MITRAL);
    near(mitral, 0.828_912, PRINTED);
}

/// The same sum for a shunt of 1.6 L/min at 40 mmHg: a hole of 5.0421 mm. The
/// arithmetic is checked; its use for defects is from memory.
#[test]
fn gorlin_of_a_defect() {
    let FlowTime { rate, period } = SHUNT_TIME;
    let found = area(1.6, rate.value(), period.value(), 40.0, AORTIC);
    near(found, 0.199_673, PRINTED);
    near(10.0 * (4.0 * found / PI).sqrt(), 5.0421, 5e-5);
}

/// A loss-free jet of blood at 1060 kg/m³ makes 50.155 cm/s per √mmHg, so that
/// Gorlin's constants are discharge coefficients of 0.883 and 0.752.
#[test]
fn gorlin_s_constants_as_discharge() {
    let jet = 100.0 * loss_free_jet(MmHg(1.0)).value();
    near(jet, 50.155, 5e-4);
    near(AORTIC / jet, 0.883, 5e-4);
    near(MITRAL / jet, 0.752, 5e-4);
    near(loss_free_jet(MmHg(64.0)).value(), 8.0 * jet / 100.0, 1e-12);
}

/// Holes of 3, 4, 5 and 6 mm at 40 mmHg, discharge 0.8, worked with the jet rounded
/// to 50.16 cm/s.
#[test]
fn flow_through_round_holes() {
    let rounded = 0.5016 / loss_free_jet(MmHg(1.0)).value();
    for (diameter, wanted) in [
        (3.0, 0.513_069),
        (4.0, 0.912_123),
        (5.0, 1.425_192),
        (6.0, 2.052_277),
    ] {
        let hole = circle(Mm(diameter));
        let flow = orifice_flow(hole, MmHg(40.0), SHUNT_TIME, Ratio(0.8)).unwrap();
        near(flow.value() * rounded, wanted, PRINTED);
    }
}

/// Gorlin's area lets Gorlin's flow through again, with his discharge.
#[test]
fn a_flow_goes_through_its_own_hole() {
    let discharge = Ratio(0.443 / loss_free_jet(MmHg(1.0)).value());
    let hole = SquareCm(area(1.6, 130.0, 0.22, 40.0, AORTIC));
    let through_hole = orifice_flow(hole, MmHg(40.0), SHUNT_TIME, discharge).unwrap();
    near(through_hole.value(), 1.6, 1e-12);
    let both = |shunt| DefectFlowAndShunt {
        through_defect: through_hole,
        shunt: LPerMin(shunt),
    };
    assert!(!both(1.6).disagree(Ratio(2.0)));
    assert!(both(3.3).disagree(Ratio(2.0)) && both(0.7).disagree(Ratio(2.0)));
}
