use super::*;
use crate::{Defect, Disc, Edge, PerFace, Waist, degrees};
use proptest::prelude::*;
use std::f64::consts::FRAC_PI_4;

#[derive(Clone, Debug)]
struct Case {
    defect: Defect,
    occluder: Occluder,
    rotation: Radians,
    hinges: [Radians; 2],
}

impl Case {
    /// The least lip near the hinges and away from them.
    fn lips(&self) -> [Mm; 2] {
        let seat = Seat::nominal(&self.occluder, &self.defect, 0.5, self.rotation);
        let near = ArcSet::about(&self.hinges, FRAC_PI_4);
        [near, near.complement()].map(|arcs| {
            let opening = self.defect.opening(Face::Left);
            let accuracy = Accuracy::DEFAULT;
            least_lip(&self.occluder, &seat, opening, Face::Left, &arcs, accuracy)
                .expect("a left disc and an arc")
        })
    }

    fn with_disc(&self, change: impl Fn(Disc) -> Disc) -> Self {
        let mut case = self.clone();
        let left = &mut case.occluder.discs[Face::Left];
        *left = left.map(change);
        case
    }

    /// Every length k times as long, v times `side` = ±1.
    fn image(&self, k: f64, side: f64) -> Self {
        let vector = |vector: Vec2| Vec2::new(k * vector.u, k * side * vector.v);
        let edge = |edge: Ellipse| Ellipse {
            semi_major: k * edge.semi_major,
            semi_minor: k * edge.semi_minor,
            rotation: side * edge.rotation,
        };
        let openings = self.defect.openings.map(|opening| Opening {
            centre: vector(opening.centre),
            edge: edge(opening.edge),
        });
        let narrowest = edge(self.defect.narrowest);
        let mut case = self.with_disc(|disc| Disc {
            radius: k * disc.radius,
            thickness: k * disc.thickness,
            offset: vector(disc.offset),
        });
        case.defect = Defect::new(narrowest, openings, k * self.defect.wall, self.defect.edge);
        case.occluder.waist.diameter *= k;
        case.occluder.waist.length *= k;
        case.rotation *= side;
        case.hinges = case.hinges.map(|hinge| side * hinge);
        case
    }
}

fn with_left_disc(diameter: Mm, disc: Disc) -> Occluder {
    Occluder {
        conformability: 0.5,
        braid_angle: 0.8,
        ..Occluder::new(
            Waist {
                diameter,
                length: 3.0,
            },
            PerFace::new(Some(disc), None),
        )
    }
}

fn vectors(most: Mm) -> impl Strategy<Value = Vec2> {
    (-most..most, -most..most).prop_map(|(u, v)| Vec2::new(u, v))
}

fn edges() -> impl Strategy<Value = Ellipse> {
    (1.0..5.0_f64, 0.2..=1.0_f64, -4.0..4.0_f64).prop_map(|(a, ratio, rotation)| Ellipse {
        semi_major: a,
        semi_minor: ratio * a,
        rotation,
    })
}

prop_compose! {
    fn cases()(
        narrowest in edges(), edge in edges(), centre in vectors(0.5), offset in vectors(1.0),
        stiff in any::<bool>(), waist in 0.2..1.4_f64, overhang in 0.5..3.0_f64,
        rotation in -4.0..4.0_f64, hinges in prop::array::uniform2(-4.0..4.0_f64),
    ) -> Case {
        let opening = Opening { centre, edge };
        let stiffness = if stiff { Edge::Stiff } else { Edge::Soft };
        let defect = Defect::new(narrowest, PerFace::of(|_| opening), 3.0, stiffness);
        let diameter = waist * defect.fit_diameter();
        let disc = Disc { radius: 0.5 * diameter + overhang, thickness: 0.5, offset };
        Case { defect, occluder: with_left_disc(diameter, disc), rotation, hinges }
    }
}

/// Two values each within the accuracy.
const BOTH: Mm = 2e-6;

proptest! {
    #[test]
    fn a_larger_disc_never_has_less_lip(case in cases(), more in 0.0..2.0_f64) {
        let larger = case.with_disc(|disc| Disc { radius: disc.radius + more, ..disc });
        for (large, small) in larger.lips().into_iter().zip(case.lips()) {
            prop_assert!(large >= small - BOTH, "{large} after {small}");
        }
    }

    #[test]
    fn lips_grow_with_the_scale(case in cases(), k in 0.2..5.0_f64) {
        for (grown, lip) in case.image(k, 1.0).lips().into_iter().zip(case.lips()) {
            prop_assert!((grown - k * lip).abs() < BOTH * k.max(1.0));
        }
    }

    #[test]
    fn the_mirror_image_has_the_same_lips(case in cases()) {
        for (image, lip) in case.image(1.0, -1.0).lips().into_iter().zip(case.lips()) {
            prop_assert!((image - lip).abs() < BOTH);
        }
    }

    /// The one direction that is enough for a play along the axes of the edge, against the
    /// search of all of them: a play that is turned by next to nothing is not along them.
    #[test]
    fn about_the_middle_one_direction_has_the_least_of_all(
        edge in edges(), share in 0.0..=1.0_f64, ratio in prop_oneof![Just(0.0), 0.0..=1.0_f64],
        margin in 0.0..2.0_f64, hinges in prop::array::uniform2(-4.0..4.0_f64),
    ) {
        let semi_major = share * edge.semi_major;
        let aligned = Play {
            centre: Vec2::ZERO, semi_major, semi_minor: ratio * semi_major, rotation: 0.0,
        };
        let turned = Play { rotation: 1e-9, ..aligned };
        let pair = EdgeAndDisc::new(&edge, semi_major + margin);
        let near = ArcSet::about(&hinges, FRAC_PI_4);
        for arcs in [near, near.complement(), ArcSet::WHOLE] {
            let least = |play| {
                least_over_play(&pair, &play, &arcs, Accuracy::DEFAULT).expect("an arc")
            };
            let [one, all] = [aligned, turned].map(least);
            prop_assert!((one - all).abs() < BOTH, "{one} and {all}");
        }
    }

    #[test]
    fn no_azimuth_has_less_than_the_least(case in cases(), azimuth in -4.0..4.0_f64) {
        let seat = Seat::nominal(&case.occluder, &case.defect, 0.5, case.rotation);
        let opening = case.defect.opening(Face::Left);
        let lip = lip_toward(&case.occluder, &seat, opening, Face::Left, azimuth)
            .expect("a left disc");
        let [near, away] = case.lips();
        prop_assert!(lip >= near.min(away) - BOTH);
    }
}

fn ellipse(semi_major: Mm, semi_minor: Mm, rotation: Radians) -> Ellipse {
    Ellipse {
        semi_major,
        semi_minor,
        rotation,
    }
}

/// A case that random ones once found: the edge of the opening about its
/// centre, the radius and offset of the disc, the diameter and turn of the
/// waist.
fn found(
    narrowest: Ellipse,
    (centre, edge): (Vec2, Ellipse),
    (radius, offset): (Mm, Vec2),
    (diameter, rotation): (Mm, Radians),
    hinges: [Radians; 2],
) -> Case {
    let disc = Disc {
        radius,
        thickness: 0.5,
        offset,
    };
    let occluder = with_left_disc(diameter, disc);
    Case {
        defect: Defect::new(
            narrowest,
            PerFace::of(|_| Opening { centre, edge }),
            3.0,
            Edge::Soft,
        ),
        occluder,
        rotation,
        hinges,
    }
}

/// From one place on, the ray along the end of the arc misses the disc, and the
/// slope of the lip along the play jumps from -0.25 to 154.
#[test]
fn the_least_lip_is_found_where_its_slope_jumps() {
    let case = found(
        ellipse(
            4.949_110_365_394_98,
            4.102_310_933_086_361,
            3.336_759_469_066_489,
        ),
        (
            Vec2::new(-0.262_131_982_998_239_25, -0.412_858_910_216_923_6),
            ellipse(1.0, 0.2, 0.0),
        ),
        (
            3.809_986_491_160_526,
            Vec2::new(0.760_320_388_455_298_1, 0.272_142_287_262_285_1),
        ),
        (3.735_686_080_605_053_6, -0.116_632_388_384_306_65),
        [0.258_976_204_360_366_9, 0.603_485_664_660_307_3],
    );
    // From 100,000 places along the play, each its own least lip.
    let sampled = -1.426_611_183;
    for [near, _] in [case.lips(), case.image(1.0, -1.0).lips()] {
        assert!(near <= sampled + Accuracy::DEFAULT.mm(), "{near}");
    }
}

/// A disc that scarcely covers the middle of the opening: the lip has a narrow
/// dip between two azimuths 22.5° apart whose values and slopes do not show it.
#[test]
fn the_least_lip_is_found_in_a_narrow_dip() {
    let case = found(
        ellipse(
            1.439_108_835_795_870_3,
            0.364_032_068_601_501_3,
            -0.070_094_957_522_856_29,
        ),
        (
            Vec2::new(-0.357_176_029_510_640_54, -0.064_856_551_158_822_18),
            ellipse(
                1.749_871_550_996_318_5,
                0.595_976_081_129_067,
                1.350_008_701_422_663_8,
            ),
        ),
        (
            1.742_545_747_775_627_4,
            Vec2::new(0.897_166_413_256_904_9, -0.564_591_560_675_019_1),
        ),
        (0.658_442_958_871_617, -1.844_079_034_289_685),
        [2.886_166_144_801_096_2, -1.278_736_592_002_219_1],
    );
    let [[near, _], [mirrored, _]] = [case.lips(), case.image(1.0, -1.0).lips()];
    assert!((near - mirrored).abs() < BOTH, "{near} and {mirrored}");
}

/// Two dips between two places along the play 22.5° apart.
#[test]
fn the_lesser_of_two_dips_is_found() {
    let case = found(
        ellipse(
            1.509_011_057_576_178_6,
            1.129_760_987_043_315_8,
            3.056_519_139_898_411,
        ),
        (
            Vec2::new(-0.477_609_246_575_642_85, 0.216_718_481_418_087_25),
            ellipse(
                3.980_618_270_161_987,
                3.628_025_545_059_953,
                -2.087_493_052_158_56,
            ),
        ),
        (
            2.831_327_725_314_907_6,
            Vec2::new(-0.659_423_378_113_887_5, 0.525_489_141_222_669_1),
        ),
        (1.481_443_452_247_177, 2.973_829_371_507_299_4),
        [-3.950_924_072_720_870_3, 0.0],
    );
    // From 100,000 places along the play, each its own least lip.
    let sampled = -2.838_417_817;
    for [near, _] in [case.lips(), case.image(1.0, -1.0).lips()] {
        assert!(near <= sampled + Accuracy::DEFAULT.mm(), "{near}");
    }
}

fn round_disc_over(narrowest: Ellipse) -> (Occluder, Seat, Opening) {
    let defect = Defect::straight(narrowest, 3.0, Edge::Soft);
    let diameter = defect.fit_diameter();
    let disc = Disc {
        radius: 5.0,
        thickness: 0.5,
        offset: Vec2::ZERO,
    };
    let occluder = with_left_disc(diameter, disc);
    let seat = Seat::nominal(&occluder, &defect, 0.5, 0.0);
    (occluder, seat, *defect.opening(Face::Left))
}

#[test]
fn over_the_middle_the_lip_is_the_radius_less_the_edges() {
    let narrowest = ellipse(4.0, 2.0, 0.0);
    let (occluder, seat, opening) = round_disc_over(narrowest);
    let least = |hinge: f64| {
        let arcs = ArcSet::about(&[degrees(hinge)], FRAC_PI_4);
        least_lip(
            &occluder,
            &seat,
            &opening,
            Face::Left,
            &arcs,
            Accuracy::DEFAULT,
        )
        .expect("a left disc and an arc")
    };
    assert!((least(20.0) - 1.0).abs() < 1e-12);
    // From 65° to 155°: nearest to the axis at 155°, 25° off it.
    let want = 5.0 - narrowest.polar_radius(degrees(25.0));
    assert!((least(110.0) - want).abs() < 1e-12);
}

/// A disc of 5 mm radius over an opening of 8 by 4 mm, its centre free by 1 by 0.5 mm about
/// the middle: at the tip R − p − a; square to it R − p − b.
#[test]
fn over_an_opening_the_play_takes_off_what_it_reaches() {
    let edge = ellipse(4.0, 2.0, 0.3);
    let pair = EdgeAndDisc::new(&edge, 5.0);
    let play = Play {
        centre: Vec2::ZERO,
        semi_major: 1.0,
        semi_minor: 0.5,
        rotation: 0.0,
    };
    let least = |degree: f64| {
        let toward = ArcSet::about(&[0.3 + degrees(degree)], 0.0);
        least_over_play(&pair, &play, &toward, Accuracy::DEFAULT).expect("an arc")
    };
    assert!(least(0.0).abs() < 1e-6 && (least(90.0) - 2.5).abs() < 1e-6);
}

#[test]
fn there_is_no_lip_without_a_disc_or_an_arc() {
    let (occluder, seat, opening) = round_disc_over(Ellipse::circle(3.0));
    let least = |face, arcs| least_lip(&occluder, &seat, &opening, face, &arcs, Accuracy::DEFAULT);
    assert_eq!(least(Face::Right, ArcSet::WHOLE), None);
    assert_eq!(least(Face::Left, ArcSet::EMPTY), None);
    assert_eq!(
        lip_toward(&occluder, &seat, &opening, Face::Right, 0.0),
        None
    );
}

#[test]
fn points_slits_and_discs_without_size_have_lips() {
    let circle = Ellipse::circle;
    let slit = ellipse(4.0, 0.0, 0.3);
    for edge in [circle(0.0), slit, circle(1e-12)] {
        for radius in [0.0, 5.0] {
            for centre in [Vec2::ZERO, Vec2::new(0.4, 0.2), Vec2::new(5.0, 0.0)] {
                let least = EdgeAndDisc::new(&edge, radius)
                    .least(centre, &ArcSet::WHOLE, Accuracy::DEFAULT)
                    .expect("an arc");
                assert!(least.value.is_finite(), "{edge:?} {radius} {centre:?}");
                assert!(least.value <= radius - edge.semi_major + centre.length() + 1e-6);
            }
        }
    }
}

#[test]
fn one_place_has_the_lip_of_its_disc() {
    let narrowest = ellipse(4.0, 2.0, 0.5);
    let (occluder, seat, opening) = round_disc_over(narrowest);
    let disc = seat.disc(&occluder, Face::Left, 0.0, Vec2::ZERO);
    let toward = lip_toward(&occluder, &seat, &opening, Face::Left, 1.0).expect("a left disc");
    assert!((lip_of(&disc, &opening, 1.0) - toward).abs() < 1e-14);
}

#[test]
fn a_lip_is_counted_from_the_middle_of_its_opening() {
    // An opening of 3 by 2 about (2, 1), its long axis toward 12 o'clock; a disc of 4 whose
    // centre lies 0.5 beyond that along the axis, 0.5 to one side.
    let opening = Opening {
        centre: Vec2::new(2.0, 1.0),
        edge: ellipse(3.0, 2.0, degrees(90.0)),
    };
    let disc = |u, v| {
        let (occluder, seat, _) = round_disc_over(Ellipse::circle(2.0));
        let disc = seat.disc(&occluder, Face::Left, 0.0, Vec2::ZERO);
        SeatedDisc {
            radius: 4.0,
            centre: Vec2::new(u, v),
            ..disc
        }
    };
    let lip = |u, v, azimuth| lip_of(&disc(u, v), &opening, degrees(azimuth));
    for (u, v, azimuth, expected) in [
        (2.0, 1.0, 90.0, 4.0 - 3.0),
        (2.0, 1.0, 0.0, 4.0 - 2.0),
        (2.0, 1.5, 90.0, 4.5 - 3.0),
        (2.0, 1.5, 270.0, 3.5 - 3.0),
        (2.5, 1.0, 0.0, 4.5 - 2.0),
        (2.5, 1.0, 180.0, 3.5 - 2.0),
        // √(4² − 0.5²) − 3, half a millimetre to either side.
        (2.5, 1.0, 90.0, 15.75_f64.sqrt() - 3.0),
        (1.5, 1.0, 90.0, 15.75_f64.sqrt() - 3.0),
    ] {
        let found = lip(u, v, azimuth);
        assert!(
            (found - expected).abs() < 1e-12,
            "{u} {v} {azimuth}: {found}"
        );
    }
}

#[test]
fn the_farthest_edge_is_the_longest_way_from_the_middle_over_the_arcs() {
    let edge = ellipse(4.0, 2.0, degrees(30.0));
    let farthest = |hinge: f64, half: f64| {
        farthest_edge(&edge, &ArcSet::about(&[degrees(hinge)], degrees(half))).expect("an arc")
    };
    assert!((farthest(30.0, 10.0) - 4.0).abs() < 1e-12);
    assert!((farthest(210.0, 10.0) - 4.0).abs() < 1e-12);
    assert!((farthest(120.0, 10.0) - edge.polar_radius(degrees(110.0))).abs() < 1e-12);
    assert!((farthest(90.0, 20.0) - edge.polar_radius(degrees(70.0))).abs() < 1e-12);
    assert_eq!(farthest_edge(&edge, &ArcSet::EMPTY), None);
}
