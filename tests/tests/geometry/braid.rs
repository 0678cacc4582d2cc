//! The waist's length as it is squeezed, against the kinematics of a braid whose
//! wires do not stretch and whose ends do not rotate: L² + (πnD)² = s².
//!
//! Source: the relation L = √(h² + π²D²) a turn, of the chapter on braided stents
//! in "Advances in Biomechanics and Tissue Regeneration", p. 48; the figures were
//! worked out from it apart from this program, to the digits shown.

use geometry::{Waist, braid_stiffness, squeezed_length};
use std::f64::consts::PI;

/// n 3, D 8 mm, L 20 mm.
const TURNS: f64 = 3.0;
const WAIST: Waist = Waist {
    diameter: 8.0,
    length: 20.0,
};

/// s, mm.
const WIRE: f64 = 78.005_719;

/// β from the axis: L tan β = πnw.
fn braid_angle() -> f64 {
    (PI * TURNS * WAIST.diameter / WAIST.length).atan()
}

/// Half a unit of the last digit shown.
const SHOWN: f64 = 0.5e-6;

#[test]
fn the_stiffness_is_the_turns_squared() {
    let stiffness = braid_stiffness(&WAIST, braid_angle());
    assert!((stiffness - (PI * TURNS).powi(2)).abs() < 1e-12);
}

#[test]
fn the_wire_keeps_its_length() {
    for diameter in [8.0, 6.5, 5.0, 3.0, 2.0, 0.5] {
        let length = squeezed_length(&WAIST, braid_angle(), diameter);
        assert!(
            (length.hypot(PI * TURNS * diameter) - WIRE).abs() < SHOWN,
            "{diameter}"
        );
    }
}

#[test]
fn at_2_mm_it_is_as_long_as_the_source_says() {
    assert!((squeezed_length(&WAIST, braid_angle(), 2.0) - 75.694_031).abs() < SHOWN);
}

#[test]
fn squeezed_to_nothing_it_is_as_long_as_its_wire() {
    assert!((squeezed_length(&WAIST, braid_angle(), 0.0) - WIRE).abs() < SHOWN);
}

/// The wire's angle from the circumference, at 8 mm and at 2 mm.
#[test]
fn the_wire_steepens_as_the_source_says() {
    for (diameter, degrees) in [(8.0, 14.856_051), (2.0, 76.016_453)] {
        let length = squeezed_length(&WAIST, braid_angle(), diameter);
        let pitch = (length / (PI * TURNS * diameter)).atan();
        assert!((pitch.to_degrees() - degrees).abs() < SHOWN, "{diameter}");
    }
}

/// β of a braid of 35° from the circumference at 8 mm, as its diameter shrinks:
/// tan of the angle from the circumference is L/(πnD), with L from the squeeze.
#[test]
fn the_angle_follows_the_table() {
    let angle = 55.0_f64.to_radians();
    // One turn: L tan β = πw.
    let waist = Waist {
        diameter: 8.0,
        length: PI * 8.0 / angle.tan(),
    };
    for (diameter, degrees) in [(7.5, 39.829_393), (6.0, 52.094_276), (4.0, 65.821_796)] {
        let length = squeezed_length(&waist, angle, diameter);
        let from_circumference = (length / (PI * diameter)).atan();
        assert!(
            (from_circumference.to_degrees() - degrees).abs() < SHOWN,
            "{diameter}"
        );
    }
}
