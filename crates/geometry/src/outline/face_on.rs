use super::chords::steps_round;
use crate::{Accuracy, Ellipse, Mm, Opening, SeatedDisc, Vec2};

/// The edge of an opening, seen along the wall's normal.
pub fn opening_edge(opening: &Opening, accuracy: Accuracy) -> Vec<Vec2> {
    round(opening.centre, &opening.edge, accuracy)
}

/// The rim of a seated disc, seen along the wall's normal; its tilt is left out.
pub fn disc_rim(disc: &SeatedDisc, accuracy: Accuracy) -> Vec<Vec2> {
    round(disc.centre, &Ellipse::circle(disc.radius), accuracy)
}

/// The waist in the defect, its centre at `place`, seen along the wall's normal.
pub fn waist_ring(place: Vec2, diameter: Mm, accuracy: Accuracy) -> Vec<Vec2> {
    round(place, &Ellipse::circle(0.5 * diameter), accuracy)
}

fn round(centre: Vec2, edge: &Ellipse, accuracy: Accuracy) -> Vec<Vec2> {
    let longest = edge.semi_major.max(edge.semi_minor);
    steps_round(longest, accuracy)
        .map(|anomaly| centre + edge.point(anomaly))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Face, Tilt, degrees};

    #[test]
    fn points_lie_on_the_edge_and_chords_close_to_it() {
        let edge = Ellipse {
            semi_major: 5.0,
            semi_minor: 2.0,
            rotation: degrees(20.0),
        };
        let opening = Opening {
            centre: Vec2::new(1.0, -2.0),
            edge,
        };
        let accuracy = Accuracy::new(0.01).expect("positive");
        let line = opening_edge(&opening, accuracy);
        for (index, &point) in line.iter().enumerate() {
            let off = |point: Vec2| {
                let from = point - opening.centre;
                from.length() - edge.polar_radius(libm::atan2(from.v, from.u))
            };
            assert!(off(point).abs() < 1e-12);
            let middle = (point + line[(index + 1) % line.len()]) * 0.5;
            assert!(edge.contains(middle - opening.centre));
            // Along the ray it is farther than square to the edge: a loose bound.
            assert!(off(middle) > -0.03);
        }
    }

    #[test]
    fn a_finer_line_has_more_points() {
        let disc = SeatedDisc {
            face: Face::Left,
            radius: 4.0,
            thickness: 1.0,
            stand_off: 0.0,
            centre: Vec2::ZERO,
            tilt: Tilt::NONE,
        };
        let count = |mm| disc_rim(&disc, Accuracy::new(mm).expect("positive")).len();
        assert_eq!(count(100.0), 12);
        assert!(count(0.001) > 3 * count(0.01));
        assert_eq!(waist_ring(Vec2::ZERO, 0.0, Accuracy::DEFAULT).len(), 12);
    }
}
