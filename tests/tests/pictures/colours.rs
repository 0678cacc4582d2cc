//! The table of colours as those see it who confuse colours.
//!
//! Sources: Machado, Oliveira and Fernandes, A physiologically-based model for
//! simulation of color vision deficiency, IEEE Trans Vis Comput Graph
//! 2009;15(6):1291-1298 (doi 10.1109/TVCG.2009.113), matrices at severity 1.0, on
//! linear RGB; IEC 61966-2-1 for sRGB, its white D65; CIE 15 for L*a*b* and the
//! colour difference of 1976; WCAG 2.2, 1.4.3, for the contrast of words (4.5 : 1).

#![expect(
    clippy::unreadable_literal,
    reason = "figures stand as their source prints them"
)]

use scene::stroke::colours::{colour, index};
use scene::stroke::{PageGround, Rgb, Role};

/// The least colour difference at which two roles are told apart (the project's
/// own choice; a difference of 2.3 is just noticed side by side).
const LEAST_DIFFERENCE: f64 = 15.0;

/// The least contrast of words with what they lie on.
const LEAST_CONTRAST: f64 = 4.5;

type Triple = [f64; 3];
type Matrix = [Triple; 3];

const SIGHTS: [(&str, Matrix); 4] = [
    (
        "normal sight",
        [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    ),
    (
        "protanopia",
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ],
    ),
    (
        "deuteranopia",
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ],
    ),
    (
        "tritanopia",
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ],
    ),
];

/// Linear RGB to XYZ.
const XYZ: Matrix = [
    [0.4124564, 0.3575761, 0.1804375],
    [0.2126729, 0.7151522, 0.0721750],
    [0.0193339, 0.1191920, 0.9503041],
];

fn times(matrix: &Matrix, vector: Triple) -> Triple {
    matrix.map(|row| row.iter().zip(vector).map(|(a, b)| a * b).sum())
}

fn linear(colour: Rgb) -> Triple {
    colour.channels().map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    })
}

/// L*a*b* of a colour as a sight sees it.
fn lab(colour: Rgb, sight: &Matrix) -> Triple {
    let seen = times(sight, linear(colour)).map(|share| share.clamp(0.0, 1.0));
    let white = times(&XYZ, [1.0; 3]);
    let xyz = times(&XYZ, seen);
    let [x, y, z] = [0, 1, 2].map(|axis| {
        let share: f64 = xyz[axis] / white[axis];
        let knee: f64 = 6.0 / 29.0;
        if share > knee.powi(3) {
            share.cbrt()
        } else {
            share / (3.0 * knee * knee) + 4.0 / 29.0
        }
    });
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn difference(one: Rgb, other: Rgb, sight: &Matrix) -> f64 {
    let (one, other) = (lab(one, sight), lab(other, sight));
    let squares = one.iter().zip(other).map(|(a, b)| (a - b) * (a - b));
    squares.sum::<f64>().sqrt()
}

fn contrast(one: Rgb, other: Rgb) -> f64 {
    let [one, other] = [one, other].map(|colour| times(&XYZ, linear(colour))[1]);
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// The colour of a role, in 24-bit and as its index is shown; black for an index
/// that is none, which then is told from nothing.
fn shades(role: Role, ground: PageGround) -> [(&'static str, Rgb); 2] {
    let indexed = Rgb::of_index(index(role, ground)).unwrap_or_default();
    [("24-bit", colour(role, ground)), ("256 colours", indexed)]
}

#[track_caller]
fn assert_apart(one: Role, other: Role) {
    for ground in PageGround::ALL {
        for ((depth, a), (_, b)) in shades(one, ground).into_iter().zip(shades(other, ground)) {
            for (name, sight) in &SIGHTS {
                let apart = difference(a, b, sight);
                assert!(
                    apart >= LEAST_DIFFERENCE,
                    "{one:?} and {other:?} are {apart:.1} apart: {ground:?}, {depth}, {name}"
                );
            }
        }
    }
}

#[test]
fn states_plate_conduction_axis_and_outlines_are_told_apart() {
    let roles = [
        Role::Ok,
        Role::Warning,
        Role::Beyond,
        Role::Plate,
        Role::ConductionAxis,
        Role::Outline,
        Role::DeviceOutline,
    ];
    for (place, &one) in roles.iter().enumerate() {
        for &other in &roles[..place] {
            assert_apart(one, other);
        }
    }
}

#[test]
fn device_muscle_and_blood_are_told_apart() {
    for blood in [Role::LeftBlood, Role::RightBlood] {
        assert_apart(Role::Muscle, blood);
        assert_apart(Role::Device, blood);
    }
    assert_apart(Role::Device, Role::Muscle);
}

#[test]
fn what_lies_on_device_and_muscle_is_told_from_them() {
    for under in [Role::Device, Role::Muscle] {
        for over in [Role::Warning, Role::Beyond, Role::Plate] {
            assert_apart(over, under);
        }
    }
    assert_apart(Role::Outline, Role::Muscle);
    assert_apart(Role::DeviceOutline, Role::Device);
}

#[test]
fn words_are_read_on_the_page_and_on_blood() {
    for ground in PageGround::ALL {
        for role in [
            Role::Word,
            Role::Dimension,
            Role::Ok,
            Role::Warning,
            Role::Beyond,
        ] {
            for under in [Role::Ground, Role::LeftBlood, Role::RightBlood] {
                for ((depth, word), (_, page)) in
                    shades(role, ground).into_iter().zip(shades(under, ground))
                {
                    let contrast = contrast(word, page);
                    assert!(
                        contrast >= LEAST_CONTRAST,
                        "{role:?} on {under:?}: {contrast:.2}, {ground:?}, {depth}"
                    );
                }
            }
        }
    }
}

/// The first sixteen are the terminal's own: their colours are not known.
#[test]
fn no_index_is_one_of_the_terminals_own_sixteen() {
    for ground in PageGround::ALL {
        for role in Role::ALL {
            assert!(index(role, ground) >= 16, "{role:?}");
        }
    }
    assert_eq!(Rgb::of_index(15), None);
}

/// The sight of colours is the published one: primaries as the matrices leave
/// them, and L*a*b* of sRGB red (53.24, 80.09, 67.20; from memory).
#[test]
fn the_ruler_is_right() {
    let red = Rgb {
        red: 255,
        green: 0,
        blue: 0,
    };
    let [l, a, b] = lab(red, &SIGHTS[0].1);
    assert!((l - 53.24).abs() < 0.02 && (a - 80.09).abs() < 0.02 && (b - 67.20).abs() < 0.02);
    for (name, sight) in &SIGHTS {
        for row in sight {
            let sum: f64 = row.iter().sum();
            assert!((sum - 1.0).abs() < 2e-6, "{name} keeps white white");
        }
    }
}
