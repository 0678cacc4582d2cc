//! Cases and sizes for tests.

use crate::worst_place::WorstPlace;
use geometry::{
    Disc, Edge, HingedPlate, Mm, Occluder, PerFace, Radians, Seat, Vec2, Waist, degrees, radial,
};
use measurement::{
    Choose, GroupPattern, Method, Modality, Phase, Quantity, Reading, ReadingId, Side, Site, Valve,
};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use sizing::house_rules::{Band, DangerArc, LimitRow, Parameter, PreferenceRow, Sourced};
use sizing::{Case, HouseRules, Route, Setting, Shape, Sheath, Size, Turn, nominal_seat};
use std::sync::Arc;

/// A perimembranous case of exact readings, each an address and a value.
pub(crate) fn setting(values: &[(&str, f64)]) -> Setting {
    let site = Site::CentralPerimembranous;
    let case = Case {
        readings: values.iter().map(reading).collect(),
        ..Case::new(String::new(), site, Edge::Soft, Route::Antegrade)
    };
    Setting::new(Arc::new(case), Arc::new(rules()))
}

/// Discs so much wider than the waist, the left one moved down by its offset.
pub(crate) fn size(waist: Mm, wider: Mm, offset: Mm) -> Size {
    let disc = |down: Mm| Disc {
        radius: 0.5 * (waist + wider),
        thickness: 1.2,
        offset: Vec2::new(-down, 0.0),
    };
    Size {
        label: String::new(),
        occluder: Occluder {
            conformability: 0.6,
            braid_angle: degrees(45.0),
            ..Occluder::new(
                Waist {
                    diameter: waist,
                    length: 3.5,
                },
                PerFace::new(Some(disc(offset)), Some(disc(0.0))),
            )
        },
        sheath: Sheath {
            french: 5.0,
            outer_diameter: None,
        },
    }
}

fn reading(&(address, value): &(&str, f64)) -> Reading {
    Reading {
        id: ReadingId(address.to_owned()),
        quantity: Quantity::from_address(address).expect(address),
        value,
        sd: Some(0.0),
        modality: Modality::TransthoracicEcho,
        side: Side::NoSide,
        phase: Phase::AnyPhase,
        method: Method::Direct,
        image: None,
        set_aside: None,
    }
}

/// A check with limits, so that it is assessed.
fn limit(check: &str) -> LimitRow {
    let least = |low| Band {
        low: Some(low),
        high: None,
    };
    LimitRow {
        id: None,
        check: check.to_owned(),
        of: Vec::new(),
        sites: Vec::new(),
        when: Vec::new(),
        stop: least(0.0),
        caution: least(0.5),
        source: String::new(),
    }
}

fn rules() -> HouseRules {
    HouseRules {
        parameters: Parameter::ALL
            .iter()
            .map(|info| Sourced {
                value: match info.parameter {
                    Parameter::LeftSlackShare => 0.5,
                    Parameter::HingeArc => 45.0,
                    _ => info.least,
                },
                source: String::new(),
            })
            .collect(),
        limits: [
            "clearance",
            "rim_overlap_left",
            "rim_overlap_right",
            "outflow_share_left",
            "outflow_share_right",
        ]
        .map(limit)
        .to_vec(),
        preferences: vec![PreferenceRow {
            of: Vec::new(),
            when_prolapse: false,
            prefer: vec![GroupPattern::default()],
            choose: Choose::Largest,
            source: String::new(),
        }],
        danger_arcs: vec![DangerArc {
            sites: vec![Site::CentralPerimembranous],
            from_degrees: 90.0,
            to_degrees: 180.0,
            source: String::new(),
        }],
        ..HouseRules::new(String::new())
    }
}

/// Anatomies and sizes of every kind, each with a turn: the valve is the aortic
/// one, or in its place the pulmonary. Every other one is `aligned`: its disc's
/// centre lies in the plane of the valve's section.
pub(crate) fn any_candidate(aligned: bool) -> impl Strategy<Value = Candidate> {
    let hole = (
        2.0..10.0,
        0.3..1.0,
        -180.0..180.0,
        1.0..8.0,
        -1.5..1.5,
        0.0..4.0,
    );
    let valve = (
        any::<bool>(),
        -180.0..180.0,
        0.0..6.0,
        6.0..16.0,
        0.6..1.0,
        45.0..135.0,
        0.0..1.5,
    );
    let shape = (2.0..12.0, 1.0..10.0, 0.3..2.0_f64, -2.0..3.0, -3.2..3.2);
    (hole, valve, shape).prop_map(move |(hole, valve, shape)| {
        let (major, share, turn, wall, shift, wider) = hole;
        let (is_aortic, azimuth, rim, diameter, across, lean, sag) = valve;
        let (waist, wider_disc, thickness, offset, shape_turn) = shape;
        let (name, opening, valve): (_, _, Valve) = if is_aortic {
            ("aortic", "left_opening", Valve::Aortic)
        } else {
            ("pulmonary", "right_opening", Valve::Pulmonary)
        };
        let toward = radial(degrees(azimuth)) * shift;
        let (turn, toward) = if aligned {
            (azimuth, toward)
        } else {
            (turn, toward.turned(1.0))
        };
        let of = |part: &str, feature: &str, value: f64| (format!("{part}.{feature}"), value);
        let values = vec![
            of("defect", "long_axis", major),
            of("defect", "short_axis", major * share),
            of("defect", "rotation", turn),
            of("wall", "thickness", wall),
            of(opening, "long_axis", major + wider),
            of(opening, "offset_toward_12", toward.u),
            of(opening, "offset_toward_3", toward.v),
            of(name, "clock_position", azimuth),
            of(name, "rim", rim),
            of(name, "diameter", diameter),
            of(name, "diameter_across", diameter * across),
            of(name, "annulus_angle", lean),
            of(name, "cusp_depth", sag),
            of("left_outflow", "depth", 0.9 * diameter),
            of("left_outflow", "width", diameter),
            of("right_outflow", "depth", 1.1 * diameter),
            of("right_outflow", "width", diameter),
        ];
        let mut size = size(waist, wider_disc, if aligned { 0.0 } else { offset });
        for disc in size.occluder.discs.iter_mut().flatten() {
            disc.thickness = thickness.min(2.0 * disc.radius);
        }
        let values: Vec<(&str, f64)> = values
            .iter()
            .map(|(address, value)| (address.as_str(), *value))
            .collect();
        Candidate {
            setting: setting(&values),
            size,
            turn: shape_turn,
            valve,
        }
    })
}

/// One size at one turn in one anatomy.
#[derive(Debug)]
pub(crate) struct Candidate {
    pub(crate) setting: Setting,
    pub(crate) size: Size,
    pub(crate) turn: Radians,
    pub(crate) valve: Valve,
}

impl Candidate {
    /// It as the engine judges it, without draws.
    pub(crate) fn assessed(&self) -> sizing::Candidate {
        let shape = Shape {
            id: "sample".to_owned(),
            name: String::new(),
            about: String::new(),
            sizes: Vec::new(),
        };
        let turn = Turn::ByHand(self.turn);
        let size = (0, &shape, &self.size);
        sizing::Candidate::assess(&self.setting, size, turn, None)
    }

    /// The seat, the plate of the valve and the place of the worst clearance.
    pub(crate) fn worst(&self) -> (Seat, HingedPlate, WorstPlace) {
        let seat = nominal_seat(&self.setting, &self.size, self.turn);
        let plate = self.setting.anatomy().valves[self.valve].expect("read");
        let place = WorstPlace::of(&self.size.occluder, &seat, &plate);
        (seat, plate, place)
    }
}

/// The same candidates on every run, every other one aligned.
pub(crate) fn candidates(count: usize) -> Vec<Candidate> {
    let mut runner = TestRunner::deterministic();
    let strategies = [any_candidate(true), any_candidate(false)];
    (0..count)
        .map(|index| {
            let tree = strategies[index % 2].new_tree(&mut runner);
            tree.expect("no filter").current()
        })
        .collect()
}
