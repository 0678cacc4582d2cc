use super::chords::chords_along;
use super::section_point::SectionPoint;
use crate::{
    Accuracy, Defect, Face, HingedPlate, Mm, Opening, Radians, SeatedDisc, Vec2, Vec3, radial,
};
use std::f64::consts::FRAC_PI_2;

/// A plane along the wall's normal, in which a picture is cut lengthwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionPlane {
    through: Vec2,
    outward: Vec2,
}

impl SectionPlane {
    /// The plane along an azimuth through a point of the wall.
    pub fn new(through: Vec2, azimuth: Radians) -> Self {
        Self {
            through,
            outward: radial(azimuth),
        }
    }

    /// The plane in which lips and rims at an azimuth of an opening are
    /// measured: through its centre.
    pub fn across(opening: &Opening, azimuth: Radians) -> Self {
        Self::new(opening.centre, azimuth)
    }

    /// The wall out to `reach` on each side, as one closed line for each piece:
    /// two beside the defect, one where the plane misses an opening.
    pub fn wall(&self, defect: &Defect, reach: Mm) -> Vec<Vec<SectionPoint>> {
        let block = |from: [Mm; 2], to: [Mm; 2]| {
            let point = |n, r| SectionPoint { n, r };
            let wall = defect.wall;
            vec![
                point(0.0, from[0]),
                point(0.0, to[0]),
                point(wall, to[1]),
                point(wall, from[1]),
            ]
        };
        let chords = Face::BOTH.map(|face| self.opening(defect.opening(face)));
        let [Some(left), Some(right)] = chords else {
            return vec![block([-reach; 2], [reach; 2])];
        };
        let below = block(
            [(-reach).min(left[0]), (-reach).min(right[0])],
            [left[0], right[0]],
        );
        let above = block(
            [left[1], right[1]],
            [reach.max(left[1]), reach.max(right[1])],
        );
        vec![below, above]
    }

    /// The two places where the plane crosses an opening's edge, the lower
    /// first.
    pub fn opening(&self, opening: &Opening) -> Option<[Mm; 2]> {
        // The line p + r d meets x²/a² + y²/b² = 1, times a²b² throughout.
        let edge = &opening.edge;
        let (aa, bb) = (
            edge.semi_major * edge.semi_major,
            edge.semi_minor * edge.semi_minor,
        );
        let start = (self.through - opening.centre).turned(-edge.rotation);
        let along = self.outward.turned(-edge.rotation);
        let square = bb * along.u * along.u + aa * along.v * along.v;
        let middle = -(bb * start.u * along.u + aa * start.v * along.v);
        let offset = start.cross(along);
        let root = aa * bb * (square - offset * offset);
        if root < 0.0 || square == 0.0 {
            return None;
        }
        let root = root.sqrt();
        Some([(middle - root) / square, (middle + root) / square])
    }

    /// The outline of a disc on its face, a flat round plate with a rounded rim; empty
    /// where the plane misses it. Its tilt is left out: no nominal seat has one.
    pub fn disc(&self, disc: &SeatedDisc, wall: Mm, accuracy: Accuracy) -> Vec<SectionPoint> {
        let (along, aside) = self.place(disc.centre);
        let half = 0.5 * disc.thickness;
        // Slices along the wall are circles, wider toward the middle: at the
        // end of the rounding, angle `last` from the middle, the core's or none.
        let core = disc.core_radius();
        let short = aside.abs() - core;
        if short > half {
            return Vec::new();
        }
        let last = if short > 0.0 {
            libm::acos(short / half)
        } else {
            FRAC_PI_2
        };
        let point = |angle: Radians| {
            let (sin, cos) = libm::sincos(angle);
            let reach = half_chord(core + half * cos, aside).unwrap_or(0.0);
            let out = disc.core_height() + half * sin;
            SectionPoint {
                n: from_wall(disc.face, out, wall),
                r: along + reach,
            }
        };
        let far = chords_along(&point, [-last, last], accuracy);
        let near: Vec<_> = far
            .iter()
            .rev()
            .map(|far| SectionPoint {
                r: 2.0 * along - far.r,
                ..*far
            })
            .collect();
        [far, near].concat()
    }

    /// The outline of a waist with its centre at `place`, between two ends along n;
    /// empty where the plane misses it.
    pub fn waist(&self, place: Vec2, diameter: Mm, ends: [Mm; 2]) -> Vec<SectionPoint> {
        let (along, aside) = self.place(place);
        half_chord(0.5 * diameter, aside).map_or_else(Vec::new, |reach| {
            let point = |n, side: f64| SectionPoint {
                n,
                r: along + side * reach,
            };
            vec![
                point(ends[0], -1.0),
                point(ends[0], 1.0),
                point(ends[1], 1.0),
                point(ends[1], -1.0),
            ]
        })
    }

    /// The line in which the plane cuts a valve's annulus plate, from the end
    /// nearer to the hinge; none where it misses it, or lies along it.
    pub fn annulus(&self, valve: &HingedPlate, wall: Mm) -> Option<[SectionPoint; 2]> {
        let plate = valve.plate();
        let in_wall = |vector: Vec3| Vec2::new(vector.u, vector.v);
        let (along, aside) = self.place(in_wall(plate.centre));
        let first = plate.first * plate.semi_first;
        let second = plate.second * plate.semi_second;
        // The points centre + x first + y second with x² + y² ≤ 1 and
        // aside + x f + y s = 0: a chord of the unit circle.
        let (f, s) = (
            in_wall(first).cross(self.outward),
            in_wall(second).cross(self.outward),
        );
        let square = f * f + s * s;
        if square == 0.0 {
            return None;
        }
        let half = half_chord(square.sqrt(), aside)?;
        let end = |side: f64| {
            let x = (-aside * f - side * half * s.abs()) / square;
            let y = (-aside * s + side * half * f * s.signum()) / square;
            let step = first * x + second * y;
            SectionPoint {
                n: from_wall(valve.face(), plate.centre.n + step.n, wall),
                r: along + in_wall(step).dot(self.outward),
            }
        };
        Some([end(1.0), end(-1.0)])
    }

    /// A point of the wall, along the plane and aside from it.
    fn place(&self, point: Vec2) -> (Mm, Mm) {
        let from = point - self.through;
        (from.dot(self.outward), from.cross(self.outward))
    }
}

/// The n of a point at a distance out of a face.
fn from_wall(face: Face, out: Mm, wall: Mm) -> Mm {
    match face {
        Face::Left => -out,
        Face::Right => wall + out,
    }
}

/// Half the chord a line at a distance cuts off a circle.
fn half_chord(radius: Mm, aside: Mm) -> Option<Mm> {
    let square = (radius - aside) * (radius + aside);
    (square >= 0.0).then(|| square.sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{AnnulusPlate, Edge, Ellipse, Tilt, degrees};

    fn fine() -> Accuracy {
        Accuracy::new(1e-3).expect("positive")
    }

    fn disc(centre: Vec2) -> SeatedDisc {
        let (radius, thickness) = (4.0, 1.5);
        SeatedDisc {
            face: Face::Right,
            radius,
            thickness,
            stand_off: 0.25,
            centre,
            tilt: Tilt::NONE,
        }
    }

    #[test]
    fn the_edges_of_the_defect_lie_at_the_polar_radius() {
        let narrowest = Ellipse {
            semi_major: 4.0,
            semi_minor: 2.5,
            rotation: degrees(25.0),
        };
        let defect = Defect::straight(narrowest, 3.0, Edge::Soft);
        let azimuth = degrees(70.0);
        let wall = SectionPlane::across(defect.opening(Face::Left), azimuth).wall(&defect, 10.0);
        assert_eq!(wall.len(), 2);
        let radius = narrowest.polar_radius(azimuth);
        for (got, want) in [(wall[0][1], (0.0, -radius)), (wall[1][3], (3.0, radius))] {
            assert!((got.n - want.0).abs() < 1e-14 && (got.r - want.1).abs() < 1e-14);
        }
        let beside = SectionPlane::new(Vec2::new(0.0, 9.0), 0.0);
        assert_eq!(beside.wall(&defect, 10.0).len(), 1);
    }

    #[test]
    fn a_disc_lies_between_its_stand_off_and_its_thickness() {
        let plane = SectionPlane::new(Vec2::ZERO, 0.0);
        for aside in [0.0, 2.0, 3.2, 3.3, 3.9, 4.0] {
            let line = plane.disc(&disc(Vec2::new(1.0, aside)), 3.0, fine());
            let most = |of: fn(&SectionPoint) -> f64| line.iter().map(of).fold(f64::MIN, f64::max);
            // √(16 − aside²) beyond the centre at the thickest.
            let reach = 1.0 + (16.0 - aside * aside).sqrt();
            assert!((most(|point| point.r) - reach).abs() < 1e-3, "{aside}");
            assert!(
                (most(|point| -point.r) - (reach - 2.0)).abs() < 1e-3,
                "{aside}"
            );
            assert!(most(|point| -point.n) <= -3.25 && most(|point| point.n) <= 4.75);
            if aside < 3.25 {
                assert!((most(|point| point.n) - 4.75).abs() < 1e-12, "{aside}");
            }
        }
        assert!(
            plane
                .disc(&disc(Vec2::new(0.0, 4.1)), 3.0, fine())
                .is_empty()
        );
    }

    #[test]
    fn no_chord_of_a_disc_strays_from_it() {
        let plane = SectionPlane::new(Vec2::ZERO, 0.0);
        for aside in [0.0, 2.0, 3.2, 3.3, 3.9] {
            let body = disc(Vec2::new(0.0, aside));
            let line = plane.disc(&body, 3.0, fine());
            for (index, a) in line.iter().enumerate() {
                let b = line[(index + 1) % line.len()];
                for share in [0.25, 0.5, 0.75] {
                    let (n, r) = (a.n + share * (b.n - a.n), a.r + share * (b.r - a.r));
                    // How far within t/2 of the core plate the point lies.
                    let beyond = (r.hypot(aside) - body.core_radius()).max(0.0);
                    let depth = 0.75 - beyond.hypot(n - 4.0);
                    assert!(depth > -1e-12, "{aside}: {depth:e} outside");
                    assert!(depth < 1e-3, "{aside}: {depth:e} inside");
                }
            }
        }
    }

    #[test]
    fn the_annulus_starts_at_its_hinge_and_ends_a_diameter_on() {
        let opening = Opening {
            centre: Vec2::new(0.5, 0.0),
            edge: Ellipse::circle(3.0),
        };
        let valve = AnnulusPlate {
            face: Face::Left,
            clock_position: degrees(40.0),
            rim: 2.0,
            diameter: 10.0,
            diameter_across: 8.0,
            annulus_angle: degrees(120.0),
            cusp_depth: 0.0,
        };
        let hinged = valve.hinged(&opening);
        let own = SectionPlane::across(&opening, valve.clock_position);
        let [hinge, tip] = own.annulus(&hinged, 3.0).expect("its own plane");
        assert!(hinge.n.abs() < 1e-12 && (hinge.r - 5.0).abs() < 1e-12);
        // 10 cos 120° = −5 along the wall, 10 sin 120° out of it.
        assert!((tip.r - 0.0).abs() < 1e-12 && (tip.n + 75.0_f64.sqrt()).abs() < 1e-12);
        let far = SectionPlane::new(Vec2::new(-20.0, 0.0), degrees(90.0));
        assert_eq!(far.annulus(&hinged, 3.0), None);
    }

    #[test]
    fn a_waist_is_cut_narrower_beside_its_axis() {
        let plane = SectionPlane::new(Vec2::new(0.0, 1.5), 0.0);
        // √(2.5² − 1.5²) = 2.
        let line = plane.waist(Vec2::ZERO, 5.0, [-0.5, 3.5]);
        assert_eq!(line[1], SectionPoint { n: -0.5, r: 2.0 });
        assert!(plane.waist(Vec2::ZERO, 2.0, [0.0, 1.0]).is_empty());
    }
}
