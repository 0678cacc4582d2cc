//! The signed clearance of a seated disc from a neighbouring valve.

mod shift;

use crate::{Accuracy, HingedPlate, Mm, SeatedDisc, plate_distance};

/// The signed clearance c of a disc from a valve on the same face, within
/// `accuracy`: positive apart, zero touching, negative overlapping or slipped
/// past.
///
/// Let A be the annulus plate, D(x) the disc's core plate moved back by x, from the
/// hinge toward the defect, and p the cusp depth. If D(x) meets A for some x ≥ 0, c is
/// −x − t/2 − p for the largest such x: how far the disc would have to draw back. Else
/// c is the distance of D(0) from A, less t/2 and p.
///
/// Why a shift and not a depth of overlap: a small disc that has slipped wholly past
/// the plate overlaps nothing, and must still not be called clear.
///
/// c never rises with R and changes by no more than the rim does; it never
/// falls with the rim if D meets A for some x, of either sign. A disc that
/// misses the plate at every x, beside it or over its far edge, is judged by
/// distance alone, and where such a disc begins to meet the plate c may jump.
/// It is not monotone in the thickness or in the angle of the annulus.
///
/// A reduced model: the cusp depth is taken off all over the plate, and the valve
/// does not give way.
pub fn signed_clearance(disc: &SeatedDisc, plate: &HingedPlate, accuracy: Accuracy) -> Mm {
    let core = disc.core();
    let apart = match shift::largest(&core, plate, accuracy) {
        Some(shift) => -shift,
        None => plate_distance(&core, plate.plate(), accuracy).distance,
    };
    apart - 0.5 * disc.thickness - plate.cusp_depth()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{AnnulusPlate, Ellipse, Face, Opening, Tilt, Vec2, degrees};
    use proptest::prelude::*;

    /// What two bounds of one accuracy may differ by.
    const SLACK: Mm = 2e-6;

    #[derive(Clone, Copy, Debug)]
    struct DiscByValve {
        disc: SeatedDisc,
        valve: AnnulusPlate,
        opening: Opening,
    }

    impl DiscByValve {
        const PLAIN: Self = Self {
            disc: SeatedDisc {
                face: Face::Left,
                radius: 5.0,
                thickness: 1.2,
                stand_off: 0.4,
                centre: Vec2::ZERO,
                tilt: Tilt::NONE,
            },
            valve: AnnulusPlate {
                face: Face::Left,
                clock_position: degrees(20.0),
                rim: 3.0,
                diameter: 12.0,
                diameter_across: 10.0,
                annulus_angle: degrees(90.0),
                cusp_depth: 0.3,
            },
            opening: Opening {
                centre: Vec2::ZERO,
                edge: Ellipse {
                    semi_major: 3.0,
                    semi_minor: 2.5,
                    rotation: 0.4,
                },
            },
        };

        fn clearance(&self) -> Mm {
            let plate = self.valve.hinged(&self.opening);
            signed_clearance(&self.disc, &plate, Accuracy::DEFAULT)
        }

        /// Whether the disc meets the plate at some shift, of either sign.
        fn is_in_the_way(mut self) -> bool {
            self.valve.rim -= 1000.0;
            self.clearance() < -500.0
        }

        fn turned(mut self, angle: f64) -> Self {
            self.disc.centre = self.disc.centre.turned(angle);
            self.disc.tilt.direction += angle;
            self.valve.clock_position += angle;
            self.opening.centre = self.opening.centre.turned(angle);
            self.opening.edge.rotation += angle;
            self
        }

        fn moved(mut self, by: Vec2) -> Self {
            self.disc.centre = self.disc.centre + by;
            self.opening.centre = self.opening.centre + by;
            self
        }

        fn scaled(mut self, k: f64) -> Self {
            self.disc.radius *= k;
            self.disc.thickness *= k;
            self.disc.stand_off *= k;
            self.disc.centre = self.disc.centre * k;
            self.valve.rim *= k;
            self.valve.diameter *= k;
            self.valve.diameter_across *= k;
            self.valve.cusp_depth *= k;
            self.opening.centre = self.opening.centre * k;
            self.opening.edge.semi_major *= k;
            self.opening.edge.semi_minor *= k;
            self
        }
    }

    fn any_point(reach: Mm) -> impl Strategy<Value = Vec2> {
        (-reach..reach, -reach..reach).prop_map(|(u, v)| Vec2::new(u, v))
    }

    fn any_disc() -> impl Strategy<Value = SeatedDisc> {
        let angle = prop_oneof![Just(0.0), 0.0..degrees(20.0)];
        let stand_off = prop_oneof![Just(0.0), 0.0..3.0];
        (
            1.0..12.0,
            0.0..2.0,
            stand_off,
            any_point(3.0),
            angle,
            -4.0..4.0,
        )
            .prop_map(|(radius, thickness, stand_off, centre, angle, direction)| {
                SeatedDisc {
                    face: Face::Left,
                    radius,
                    thickness,
                    stand_off,
                    centre,
                    tilt: Tilt { angle, direction },
                }
            })
    }

    fn any_disc_by_valve() -> impl Strategy<Value = DiscByValve> {
        let valve = (
            -4.0..4.0,
            0.0..8.0,
            4.0..25.0,
            0.2..1.0,
            degrees(45.0)..degrees(135.0),
            0.0..2.0,
        )
            .prop_map(
                |(clock_position, rim, diameter, share, annulus_angle, cusp_depth)| AnnulusPlate {
                    face: Face::Left,
                    clock_position,
                    rim,
                    diameter,
                    diameter_across: diameter * share,
                    annulus_angle,
                    cusp_depth,
                },
            );
        let opening = (any_point(2.0), 1.0..6.0, 0.3..1.0, -4.0..4.0).prop_map(
            |(centre, semi_major, share, rotation)| Opening {
                centre,
                edge: Ellipse {
                    semi_major,
                    semi_minor: semi_major * share,
                    rotation,
                },
            },
        );
        (any_disc(), valve, opening).prop_map(|(disc, valve, opening)| DiscByValve {
            disc,
            valve,
            opening,
        })
    }

    #[test]
    fn flat_on_axis_and_square_it_is_what_rim_and_reach_leave() {
        for rim in [0.0, 1.0, 2.9, 3.0, 7.0] {
            let mut scene = DiscByValve::PLAIN;
            scene.valve.rim = rim;
            let edge = scene.opening.edge.polar_radius(scene.valve.clock_position);
            let expected = rim + edge - scene.disc.radius - scene.valve.cusp_depth;
            assert!((scene.clearance() - expected).abs() < 1e-12, "{rim}");
        }
    }

    #[test]
    fn a_disc_past_the_plate_is_not_clear() {
        let mut scene = DiscByValve::PLAIN;
        scene.disc.radius = 2.0;
        scene.disc.centre = Vec2::new(30.0, 0.0).turned(scene.valve.clock_position);
        assert!(scene.clearance() < -20.0);
    }

    #[test]
    fn above_the_far_edge_only_distance_counts() {
        let mut scene = DiscByValve::PLAIN;
        scene.disc.stand_off = scene.valve.diameter + 3.0 - 0.5 * scene.disc.thickness;
        scene.disc.centre = Vec2::new(30.0, 0.0).turned(scene.valve.clock_position);
        scene.disc.radius = 40.0;
        let expected = 3.0 - 0.5 * scene.disc.thickness - scene.valve.cusp_depth;
        assert!((scene.clearance() - expected).abs() < 1e-6);
    }

    #[test]
    fn outlandish_input_still_gives_a_number() {
        let base = DiscByValve::PLAIN;
        for annulus_angle in [-10.0, 0.0, 45.0, 90.0, 180.0, 400.0] {
            for angle in [0.0, 30.0, 45.0, 90.0, 135.0, 180.0] {
                for direction in [0.0, 20.0, 110.0, 200.0] {
                    for (radius, thickness, stand_off) in [
                        (5.0, 1.0, 0.5),
                        (5.0, 0.0, 0.0),
                        (0.0, 0.0, 0.0),
                        (1.0, 2.0, 0.0),
                    ] {
                        for diameter in [0.0, 12.0] {
                            let mut scene = base;
                            scene.valve.annulus_angle = degrees(annulus_angle);
                            scene.valve.diameter = diameter;
                            scene.valve.diameter_across = diameter;
                            let tilt = Tilt {
                                angle: degrees(angle),
                                direction: degrees(direction),
                            };
                            scene.disc = SeatedDisc {
                                radius,
                                thickness,
                                stand_off,
                                tilt,
                                ..base.disc
                            };
                            assert!(scene.clearance().is_finite(), "{scene:?}");
                        }
                    }
                }
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        #[test]
        fn rigid_motions_change_nothing(
            scene in any_disc_by_valve(), angle in -4.0..4.0_f64, by in any_point(5.0),
        ) {
            let change = scene.turned(angle).moved(by).clearance() - scene.clearance();
            prop_assert!(change.abs() < SLACK, "{change:e}");
        }

        #[test]
        fn k_times_larger_is_k_times_as_clear(scene in any_disc_by_valve(), k in 0.2..5.0_f64) {
            let change = scene.scaled(k).clearance() - k * scene.clearance();
            prop_assert!(change.abs() < SLACK * k.max(1.0), "{change:e}");
        }

        /// With steps down to nothing this is also continuity through touching.
        #[test]
        fn a_longer_rim_clears_more_but_by_no_more_than_itself(
            scene in any_disc_by_valve(), exponent in -6.0..0.5_f64,
        ) {
            let step = libm::pow(10.0, exponent);
            let mut longer = scene;
            longer.valve.rim += step;
            let change = longer.clearance() - scene.clearance();
            prop_assert!(change.abs() < step + SLACK, "{change:e} for {step:e}");
            prop_assert!(change > -SLACK || !scene.is_in_the_way(), "{change:e}");
        }

        #[test]
        fn a_larger_disc_never_clears_more(scene in any_disc_by_valve(), step in 0.0..3.0_f64) {
            let mut larger = scene;
            larger.disc.radius += step;
            let change = larger.clearance() - scene.clearance();
            prop_assert!(change < SLACK, "{change:e}");
        }

        #[test]
        fn the_cusp_depth_comes_off_in_full(scene in any_disc_by_valve(), cusp_depth in 0.0..3.0_f64) {
            let mut deeper = scene;
            deeper.valve.cusp_depth += cusp_depth;
            let change = scene.clearance() - deeper.clearance();
            prop_assert!((change - cusp_depth).abs() < 1e-12);
        }
    }
}
