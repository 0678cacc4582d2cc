//! Lips against the definition itself, tried at 20,000 azimuths and, where the
//! disc has play, round its boundary; then on ever finer grids about the least.
//!
//! The bound: the program's value lies within its accuracy, 10⁻⁶ mm, of the
//! least so found, either way.

use geometry::lip::{ArcSet, least_lip, lip_toward};
use geometry::{
    Accuracy, Disc, Ellipse, Face, Occluder, Opening, OverLeftOpening, PerFace, Play, Seat,
    StandOff, Tilt, Vec2, Waist, degrees,
};
use proptest::prelude::*;
use std::f64::consts::{FRAC_PI_4, PI, TAU};

const AZIMUTHS: u32 = 20_000;

/// Places tried round the play to begin with.
const PLACES: u32 = 48;

/// Each finer grid reaches this many steps to either side of the least so far,
/// and is half as wide as the one before.
const FINER: i32 = 10;

/// Half the width of the last grid, radians.
const FINEST: f64 = 1e-6;

const BOUND: f64 = 1e-6;

#[derive(Clone, Debug)]
struct Case {
    opening: Opening,
    radius: f64,
    play: Play,
    hinges: Vec<f64>,
}

#[derive(Clone, Copy, Debug)]
struct Tried {
    lip: f64,
    place: f64,
    azimuth: f64,
}

impl Tried {
    fn less(self, other: Self) -> Self {
        if other.lip < self.lip { other } else { self }
    }
}

impl Case {
    /// The lip by its definition, for a disc at one place of the play's edge.
    fn lip(&self, place: f64, azimuth: f64) -> f64 {
        let Play {
            centre,
            semi_major,
            semi_minor,
            rotation,
        } = self.play;
        let (across, along) = place.sin_cos();
        let on_edge = Vec2::new(semi_major * along, semi_minor * across);
        let (sin, cos) = rotation.sin_cos();
        let turned = Vec2::new(
            on_edge.u * cos - on_edge.v * sin,
            on_edge.u * sin + on_edge.v * cos,
        );
        let sigma = centre + turned - self.opening.centre;

        let edge = self.opening.edge;
        let (out_v, out_u) = azimuth.sin_cos();
        let along = sigma.u * out_u + sigma.v * out_v;
        let aside = sigma.u * out_v - sigma.v * out_u;
        let distance = sigma.u.hypot(sigma.v);
        if distance > self.radius && (along < 0.0 || aside.abs() > self.radius) {
            return self.radius - distance - edge.semi_major;
        }
        let (sin, cos) = (azimuth - edge.rotation).sin_cos();
        let rho = 1.0 / (cos / edge.semi_major).hypot(sin / edge.semi_minor);
        along + (self.radius * self.radius - aside * aside).max(0.0).sqrt() - rho
    }

    fn is_near_a_hinge(&self, azimuth: f64) -> bool {
        self.hinges.iter().any(|hinge| {
            let off = (azimuth - hinge).rem_euclid(TAU);
            off.min(TAU - off) <= FRAC_PI_4
        })
    }

    /// The least by trying, near the hinges or away from them.
    fn least(&self, near: bool) -> Option<f64> {
        let single = self.play.semi_major == 0.0;
        let steps = if single { 1 } else { PLACES };
        let grid = (0..AZIMUTHS).map(|step| TAU * f64::from(step) / f64::from(AZIMUTHS));
        let ends = self
            .hinges
            .iter()
            .flat_map(|hinge| [hinge - FRAC_PI_4, hinge + FRAC_PI_4]);
        let ends: Vec<f64> = ends.filter(|&end| self.counts(end, near)).collect();
        let azimuths: Vec<f64> = grid
            .filter(|&azimuth| self.is_near_a_hinge(azimuth) == near)
            .chain(ends)
            .collect();
        // The least at each place; then finer about each place that no
        // neighbour undercuts.
        let at = |step: u32| {
            let place = TAU * f64::from(step) / f64::from(steps);
            let tried = azimuths.iter().map(|&azimuth| Tried {
                lip: self.lip(place, azimuth),
                place,
                azimuth,
            });
            tried.reduce(Tried::less)
        };
        let least: Vec<Tried> = (0..steps).map(at).collect::<Option<_>>()?;
        let lip = |step: usize| least[step % least.len()].lip;
        let valleys = (0..least.len())
            .filter(|&step| lip(step) <= lip(step + 1) && lip(step) <= lip(step + least.len() - 1));
        valleys
            .map(|step| self.finer(least[step], near).lip)
            .reduce(f64::min)
    }

    /// The least on ever finer grids about a place and azimuth.
    fn finer(&self, start: Tried, near: bool) -> Tried {
        let single = self.play.semi_major == 0.0;
        let mut best = start;
        // Another place may have its least at another azimuth: as wide in both.
        let mut width = TAU / f64::from(if single { AZIMUTHS } else { PLACES });
        while width > FINEST {
            let Tried { place, azimuth, .. } = best;
            for i in -FINER..=FINER {
                let place = place + f64::from(i) / f64::from(FINER) * width;
                for j in -FINER..=FINER {
                    let azimuth = azimuth + f64::from(j) / f64::from(FINER) * width;
                    if self.counts(azimuth, near) {
                        best = best.less(Tried {
                            lip: self.lip(place, azimuth),
                            place,
                            azimuth,
                        });
                    }
                }
            }
            width *= 0.5;
        }
        best
    }

    /// As `is_near_a_hinge`, the ends belonging to both kinds.
    fn counts(&self, azimuth: f64, near: bool) -> bool {
        let rounding = 1e-12;
        if near {
            [-rounding, rounding]
                .iter()
                .any(|step| self.is_near_a_hinge(azimuth + step))
        } else {
            [-rounding, rounding]
                .iter()
                .any(|step| !self.is_near_a_hinge(azimuth + step))
        }
    }

    fn occluder(&self) -> Occluder {
        let disc = Disc {
            radius: self.radius,
            thickness: 0.0,
            offset: Vec2::ZERO,
        };
        Occluder::new(
            Waist {
                diameter: 1.0,
                length: 1.0,
            },
            PerFace::new(Some(disc), None),
        )
    }

    fn seat(&self) -> Seat {
        Seat::OverLeftOpening(OverLeftOpening {
            waist_diameter: 1.0,
            length: 1.0,
            slack: 0.0,
            stand_off: PerFace::of(|_| StandOff {
                least: 0.0,
                most: 0.0,
            }),
            play: self.play,
            rotation: 0.0,
            tilt: PerFace::of(|_| Tilt::NONE),
        })
    }

    fn computed(&self, near: bool) -> Option<f64> {
        let arcs = ArcSet::about(&self.hinges, FRAC_PI_4);
        let arcs = if near { arcs } else { arcs.complement() };
        let (occluder, seat) = (self.occluder(), self.seat());
        least_lip(
            &occluder,
            &seat,
            &self.opening,
            Face::Left,
            &arcs,
            Accuracy::DEFAULT,
        )
    }
}

/// Openings down to a tenth as wide as long, discs from far too small to large.
fn any_case(play: impl Strategy<Value = (f64, f64)>) -> impl Strategy<Value = Case> {
    let edge = (0.5..6.0_f64, 0.1..=1.0_f64, -4.0..4.0_f64);
    let places = (
        -1.0..1.0_f64,
        -1.0..1.0_f64,
        -1.5..1.5_f64,
        -1.5..1.5_f64,
        -4.0..4.0_f64,
    );
    let hinges = prop::collection::vec(-7.0..7.0_f64, 0..=2);
    (edge, places, 0.5..3.0_f64, play, hinges).prop_map(
        |(
            (a, ratio, rotation),
            (o_u, o_v, s_u, s_v, play_turn),
            larger,
            (p_a, p_ratio),
            hinges,
        )| {
            Case {
                opening: Opening {
                    centre: Vec2::new(o_u, o_v),
                    edge: Ellipse {
                        semi_major: a,
                        semi_minor: ratio * a,
                        rotation,
                    },
                },
                radius: larger * a,
                play: Play {
                    centre: Vec2::new(s_u, s_v),
                    semi_major: p_a,
                    semi_minor: p_a * p_ratio,
                    rotation: play_turn,
                },
                hinges,
            }
        },
    )
}

fn check(case: &Case) -> Result<(), TestCaseError> {
    for near in [true, false] {
        match (case.computed(near), case.least(near)) {
            (Some(computed), Some(tried)) => prop_assert!(
                (computed - tried).abs() <= BOUND,
                "near hinges: {near}, computed {computed}, tried {tried}"
            ),
            (computed, tried) => prop_assert_eq!(computed, tried),
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn in_one_place_the_least_lip_is_the_least(case in any_case(Just((0.0, 0.0)))) {
        check(&case)?;
    }

    #[test]
    fn over_the_middle_the_least_lip_is_the_least(case in any_case(Just((0.0, 0.0)))) {
        let centred = Case { play: Play::at(case.opening.centre), ..case };
        check(&centred)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn over_the_play_the_least_lip_is_the_least(
        case in any_case((0.05..2.0_f64, prop_oneof![Just(0.0), Just(1.0), 0.05..1.0_f64])),
    ) {
        // Discs that stay over the middle of the opening, as any that hold do.
        let shift = (case.play.centre - case.opening.centre).length() + case.play.semi_major;
        let radius = case.radius.max(shift * 1.05);
        check(&Case { radius, ..case })?;
    }
}

#[test]
fn toward_one_azimuth_the_play_brings_the_edge_as_near_as_by_hand() {
    // A hole of 3 by 2, a disc of 4 with play 1 by 0.5: toward the tip of the
    // major axis the least lip is 4 − 1 − 3, toward the minor's 4 − 0.5 − 2,
    // unless a disc slid sideways is nearer: √(16 − 1) − 2 is not.
    let case = Case {
        opening: Opening {
            centre: Vec2::ZERO,
            edge: Ellipse {
                semi_major: 3.0,
                semi_minor: 2.0,
                rotation: degrees(30.0),
            },
        },
        radius: 4.0,
        play: Play {
            centre: Vec2::ZERO,
            semi_major: 1.0,
            semi_minor: 0.5,
            rotation: degrees(30.0),
        },
        hinges: vec![],
    };
    let lip = |azimuth| {
        lip_toward(
            &case.occluder(),
            &case.seat(),
            &case.opening,
            Face::Left,
            azimuth,
        )
        .expect("a left disc")
    };
    assert!(lip(degrees(30.0)).abs() < BOUND);
    assert!((lip(degrees(120.0)) - 1.5).abs() < BOUND);
    assert!((lip(degrees(30.0) + PI)).abs() < BOUND);
}
