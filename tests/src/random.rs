//! Random valid cases and sizes for properties.

use crate::sample::{case, reading};
use geometry::{Disc, Edge, Occluder, PerFace, Vec2, Waist, degrees};
use measurement::{Reading, Site};
use proptest::prelude::*;
use sizing::{Case, Sheath, Size};

/// Any case with one reading of every length it is asked for.
pub fn any_case() -> impl Strategy<Value = Case> {
    let site = prop::sample::select(Site::ALL.to_vec());
    let edge = prop_oneof![Just(Edge::Soft), Just(Edge::Stiff)];
    (site, edge, openings(), valves(), around()).prop_map(
        |(site, edge, openings, valves, around)| {
            let mut case = case(site, [openings, valves, around].concat());
            case.edge = edge;
            case
        },
    )
}

/// Readings of throat, openings and wall.
fn openings() -> impl Strategy<Value = Vec<Reading>> {
    (
        2.5..9.0_f64,
        0.3..1.0_f64,
        -90.0..90.0_f64,
        1.0..10.0_f64,
        opening(),
        opening(),
    )
        .prop_map(|(major, ratio, turn, wall, left, right)| {
            let mut readings = vec![
                reading("defect.long_axis", major, 0.4),
                reading("defect.short_axis", major * ratio, 0.4),
                reading("defect.rotation", turn, 10.0),
                reading("wall.thickness", wall, 0.5),
            ];
            for (name, (wider, rounder, turn, shift)) in [("left", left), ("right", right)] {
                let address = |feature: &str| format!("{name}_opening.{feature}");
                let longer = major * wider;
                readings.push(reading(&address("long_axis"), longer, 0.4));
                readings.push(reading(
                    &address("short_axis"),
                    longer * ratio.max(rounder),
                    0.4,
                ));
                readings.push(reading(&address("rotation"), turn, 10.0));
                readings.push(reading(&address("offset_toward_12"), shift.0, 0.3));
                readings.push(reading(&address("offset_toward_3"), shift.1, 0.3));
            }
            readings
        })
}

fn opening() -> impl Strategy<Value = (f64, f64, f64, (f64, f64))> {
    (
        1.0..1.5_f64,
        0.4..1.0_f64,
        -90.0..90.0_f64,
        (-1.0..1.0_f64, -1.0..1.0_f64),
    )
}

/// Readings of the four valves.
fn valves() -> impl Strategy<Value = Vec<Reading>> {
    let valve = (
        0.0..9.0_f64,
        -180.0..180.0_f64,
        6.0..16.0_f64,
        0.6..1.0_f64,
        60.0..120.0_f64,
        0.0..1.5_f64,
    );
    prop::array::uniform4(valve).prop_map(|valves| {
        let names = ["aortic", "mitral", "tricuspid", "pulmonary"];
        let mut readings = Vec::new();
        for (name, (rim, azimuth, diameter, flat, lean, sag)) in names.into_iter().zip(valves) {
            let address = |feature: &str| format!("{name}.{feature}");
            readings.push(reading(&address("rim"), rim, 0.5));
            readings.push(reading(&address("clock_position"), azimuth, 10.0));
            readings.push(reading(&address("diameter"), diameter, 0.5));
            readings.push(reading(&address("diameter_across"), diameter * flat, 0.5));
            readings.push(reading(&address("annulus_angle"), lean, 10.0));
            readings.push(reading(&address("cusp_depth"), sag, 0.3));
            if matches!(name, "mitral" | "tricuspid") {
                readings.push(reading(&address("leaflet"), diameter, 1.0));
            }
        }
        readings
    })
}

/// Readings of tracts, ventricles, vessels and the child.
fn around() -> impl Strategy<Value = Vec<Reading>> {
    let tract = (5.0..16.0_f64, 5.0..16.0_f64, 0.6..2.5_f64);
    (
        (tract.clone(), tract),
        (8.0..40.0_f64, 8.0..40.0_f64),
        2.5..8.0_f64,
        3.0..20.0_f64,
        (60.0..110.0_f64, 20.0..110.0_f64),
    )
        .prop_map(|((left, right), ventricles, vein, weight, pressures)| {
            let mut readings = vec![
                reading("left_ventricle.length", ventricles.0, 1.0),
                reading("right_ventricle.length", ventricles.1, 1.0),
                reading("left_ventricle.systolic", pressures.0, 3.0),
                reading("right_ventricle.systolic", pressures.1, 3.0),
                reading("vein.diameter", vein, 0.4),
                reading("patient.weight", weight, 0.1),
                reading("flow.qp_qs", 1.0, 0.2),
            ];
            for (name, (depth, width, velocity)) in [("left", left), ("right", right)] {
                readings.push(reading(&format!("{name}_outflow.depth"), depth, 0.5));
                readings.push(reading(&format!("{name}_outflow.width"), width, 0.5));
                readings.push(reading(&format!("{name}_outflow.velocity"), velocity, 0.1));
            }
            readings
        })
}

/// Any size: even or uneven discs, off the axis or on it, or one missing.
pub fn any_size() -> impl Strategy<Value = Size> {
    let disc = (0.4..4.0_f64, 0.5..2.0_f64, -1.5..1.5_f64, -1.5..1.5_f64);
    let discs = prop::array::uniform2(prop::option::weighted(0.9, disc));
    (
        3.0..9.0_f64,
        1.5..9.0_f64,
        discs,
        0.0..1.0_f64,
        0.0..50.0_f64,
    )
        .prop_map(|(waist, length, discs, conformability, braid)| Size {
            label: "any".into(),
            occluder: Occluder {
                conformability,
                braid_angle: degrees(braid),
                ..Occluder::new(
                    Waist {
                        diameter: waist,
                        length,
                    },
                    PerFace::of(|face| {
                        discs[face.index()].map(|(overhang, thickness, u, v)| Disc {
                            radius: 0.5 * waist + overhang,
                            thickness,
                            offset: Vec2::new(u, v),
                        })
                    }),
                )
            },
            sheath: Sheath {
                french: 5.0,
                outer_diameter: Some(2.4),
            },
        })
}
