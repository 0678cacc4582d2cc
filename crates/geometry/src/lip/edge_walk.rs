use super::half_chord::half_chord;
use super::interval::Interval;
use super::search::{Sample, Smooth};
use super::stretch::{Stretch, half_tangent, turned, unit};
use crate::{Ellipse, Mm, Vec2};

/// The lip of one disc along the edge of an opening, as a function of the eccentric
/// anomaly: unlike the azimuth it gives ρ no spike at the tips of a narrow opening.
#[derive(Clone, Copy, Debug)]
pub(super) struct EdgeWalk {
    semi_major: Mm,
    /// m = b/a > 0.
    ratio: f64,
    radius: Mm,
    /// σ, in the edge's axes.
    centre: Vec2,
    /// √(R² − σ²), half the shortest chord of the disc through the opening's
    /// middle; `None` where the disc does not cover the middle.
    half_chord: Option<Mm>,
    /// Bound of the second derivative of the squared distance of the edge from σ.
    bend: f64,
}

impl EdgeWalk {
    pub(super) fn new(edge: &Ellipse, radius: Mm, centre: Vec2) -> Self {
        let (a, b) = (edge.semi_major, edge.semi_minor);
        let distance = centre.length();
        let covers = distance <= radius;
        Self {
            semi_major: a,
            ratio: if a > 0.0 { b / a } else { 1.0 },
            radius,
            centre,
            half_chord: covers.then(|| half_chord(radius, distance)),
            bend: 2.0 * ((a - b) * (a + b) + a * distance),
        }
    }

    /// The stretch of anomalies that corresponds to a stretch of azimuths.
    pub(super) fn stretch(&self, azimuths: &Stretch) -> Stretch {
        let anomaly = |azimuth: Vec2| unit(Vec2::new(self.ratio * azimuth.u, azimuth.v));
        // Opposite directions stay opposite: half a turn stays half a turn.
        Stretch {
            from: anomaly(azimuths.from),
            to: anomaly(azimuths.to),
            wide: azimuths.wide,
        }
    }

    /// The direction r̂ of the edge's point at an anomaly.
    pub(super) fn outward(&self, anomaly: Vec2) -> Vec2 {
        unit(Vec2::new(anomaly.u, self.ratio * anomaly.v))
    }

    /// The square of the distance of the edge's point at an anomaly from σ.
    fn square_from_centre(&self, anomaly: Vec2) -> f64 {
        let point = Vec2::new(anomaly.u, self.ratio * anomaly.v) * self.semi_major;
        let from = point - self.centre;
        from.dot(from)
    }
}

impl Smooth for EdgeWalk {
    /// With N = cos² t + m² sin² t: ρ = a√N, dρ/dt = −a (1 − m²) sin t cos t/√N,
    /// dθ/dt = m/N; and for each radian of θ the disc's edge comes nearer by
    /// (σ × r̂) reach/root.
    fn sample(&self, anomaly: Vec2) -> Sample {
        let Vec2 { u: cos, v: sin } = anomaly;
        let (a, m) = (self.semi_major, self.ratio);
        let side = m * sin;
        let n = cos * cos + side * side;
        let scale = 1.0 / n.sqrt();
        let outward = Vec2::new(cos * scale, side * scale);
        let aside = self.centre.cross(outward);
        let root = half_chord(self.radius, aside);
        let reach = self.centre.dot(outward) + root;
        let nearing = aside * reach / root.max(f64::MIN_POSITIVE) * (m * scale);
        let narrowing = a * (1.0 - m) * (1.0 + m) * sin * cos;
        Sample {
            value: reach - a * n * scale,
            slope: (narrowing - nearing) * scale,
            toward: outward,
        }
    }

    /// At a point of the edge as far as f from σ the lip is
    /// root − √(root² + f² − R²), and root lies between the half-chord and R: the
    /// lip is least for the longest root in the disc, for the shortest outside.
    /// So it is no less than `value` while f² ≤ R² − 2 root value + value²; of more
    /// than R this shows nothing, for there the lip is the sum of the two.
    fn may_undercut(&self, value: Mm, from: Vec2, to: Vec2) -> bool {
        let Some(half_chord) = self.half_chord else {
            return true;
        };
        if value > self.radius {
            return true;
        }
        let ends = self
            .square_from_centre(from)
            .max(self.square_from_centre(to));
        // A curve rises over its ends by an eighth of its bend times the width
        // squared, and the width is less than two half-tangents.
        let half = half_tangent(from, to);
        let square = ends + 0.5 * self.bend * half * half;
        let root = if value > 0.0 { self.radius } else { half_chord };
        square > self.radius * self.radius + value * (value - 2.0 * root)
    }

    /// With the dashes for each radian of t and N as in [`sample`](Self::sample),
    /// k = σ · r̂, c = σ × r̂ and the root q: for each radian of θ the way to the
    /// disc's edge, k + q, bends by (k + q) (c² q − k R²)/q³ and changes by
    /// −c (k + q)/q; θ′ = m/N, θ″ = −m N′/N²; so in t the way bends by
    /// (k + q) m (m (c² q − k R²) + c q² N′)/(q³ N²), and ρ by
    /// a (N″/2 − N′²/(4 N))/√N.
    fn bend(&self, from: Vec2, to: Vec2) -> Option<Interval> {
        let (a, m, r) = (self.semi_major, self.ratio, self.radius);
        let narrow = (1.0 - m) * (1.0 + m);
        let [cos, _] = Interval::of_turning(from, to);
        let [cos_of_two, sin_of_two] = Interval::of_turning(turned(from, from), turned(to, to));
        let n = cos.square() * narrow + m * m;
        let (slope, bend) = (sin_of_two * -narrow, cos_of_two * (-2.0 * narrow));
        let per_root = n.rising(f64::sqrt).inverse();
        let edge = (bend * 0.5 - slope.square() * n.inverse() * 0.25) * per_root * a;

        let seen = |anomaly| {
            let outward = self.outward(anomaly);
            Vec2::new(self.centre.dot(outward), self.centre.cross(outward))
        };
        let [k, c] = Interval::of_turning(seen(from), seen(to));
        let q_squared = -c.square() + r * r;
        let q = q_squared.rising(f64::sqrt);
        let way = (k + q).rising(|way| way);
        let share = (c.square() * q - k * (r * r)) * m + c * q.square() * slope;
        let scale = way * m * q.inverse() * q.square().inverse() * n.square().inverse();
        Some(share * scale - edge)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::radial;
    use proptest::prelude::*;

    prop_compose! {
        /// A disc that every ray along a piece of the edge meets.
        fn walks()(
            ratio in 0.05..=1.0_f64, radius in 0.2..5.0_f64, start in -4.0..4.0_f64,
            width in 0.01..0.39_f64, along in 0.0..5.0_f64, aside in -1.0..1.0_f64,
        ) -> (EdgeWalk, f64, f64) {
            let edge = Ellipse { semi_major: 2.0, semi_minor: 2.0 * ratio, rotation: 0.0 };
            let outward = |anomaly| EdgeWalk::new(&edge, radius, Vec2::ZERO).outward(radial(anomaly));
            let axis = outward(start + 0.5 * width);
            // Farther off, less aside: the piece turns out of a far disc's way.
            let spread = axis.cross(outward(start + width)).abs().max(outward(start).cross(axis).abs());
            let room = (radius - along * spread).max(0.0) * 0.5;
            let along = if room > 0.0 { along } else { 0.0 };
            let centre = axis * along + Vec2::new(-axis.v, axis.u) * (aside * room);
            (EdgeWalk::new(&edge, radius, centre), start, width)
        }
    }

    proptest! {
        #[test]
        fn the_slope_changes_by_no_more_than_the_bend(
            (walk, start, width) in walks(), at in prop::array::uniform2(0.0..=1.0_f64),
        ) {
            let ends = [radial(start), radial(start + width)];
            let meets = |share: f64| {
                let outward = walk.outward(radial(start + share * width));
                walk.half_chord.is_some() || walk.centre.dot(outward) > 0.0
            };
            prop_assume!((0..=16).all(|share| meets(f64::from(share) / 16.0)));
            let [from, to] = ends.map(|end| walk.outward(end));
            prop_assume!(from.dot(to) > 0.5);
            let bend = walk.bend(ends[0], ends[1]).expect("known everywhere");
            let [first, last] = [at[0].min(at[1]), at[0].max(at[1])];
            let slope = |share| walk.sample(radial(start + share * width)).slope;
            let (change, over) = (slope(last) - slope(first), (last - first) * width);
            let rounding = 1e-9 * (1.0 + slope(first).abs() + slope(last).abs());
            prop_assert!(change >= bend.least * over - rounding, "{change} {over} {bend:?}");
            prop_assert!(change <= bend.most * over + rounding, "{change} {over} {bend:?}");
        }
    }

    proptest! {
        /// What cannot undercut a value does not, anywhere on the piece.
        #[test]
        fn a_piece_that_cannot_undercut_a_value_does_not(
            (walk, start, width) in walks(), share in 0.0..=1.0_f64,
        ) {
            let at = |share: f64| walk.sample(radial(start + share * width)).value;
            for step in -30..=20 {
                let value = at(0.5) + 0.1 * f64::from(step);
                if !walk.may_undercut(value, radial(start), radial(start + width)) {
                    prop_assert!(at(share) >= value - 1e-9, "{} {value}", at(share));
                }
            }
        }

        /// Over a disc about the middle the bound is as sharp as the piece is short, so
        /// that what is far from the least so far is left unsearched.
        #[test]
        fn a_short_piece_is_left_for_a_value_that_is_a_little_less(
            ratio in 0.05..=1.0_f64, radius in 2.1..5.0_f64, start in -4.0..4.0_f64,
        ) {
            let edge = Ellipse { semi_major: 2.0, semi_minor: 2.0 * ratio, rotation: 0.0 };
            let walk = EdgeWalk::new(&edge, radius, Vec2::ZERO);
            let ends = [start, start + 0.01].map(radial);
            let least = ends.map(|end| walk.sample(end).value);
            let least = least[0].min(least[1]);
            prop_assert!(!walk.may_undercut(least - 0.01, ends[0], ends[1]));
            prop_assert!(walk.may_undercut(least + 0.01, ends[0], ends[1]));
        }

        /// The squared distance of the edge from the disc's centre bends by no more than
        /// is said, and by as much at the middle of a narrow edge or about a round one.
        #[test]
        fn the_square_of_the_distance_bends_by_its_bound(
            ratio in 0.05..=1.0_f64, (u, v) in (-3.0..3.0_f64, -3.0..3.0_f64), kind in 0..3,
        ) {
            const STEP: f64 = 1e-3;
            let (ratio, centre) = match kind {
                0 => (ratio, Vec2::ZERO),
                1 => (1.0, Vec2::new(u, v)),
                _ => (ratio, Vec2::new(u, v)),
            };
            let edge = Ellipse { semi_major: 2.0, semi_minor: 2.0 * ratio, rotation: 0.0 };
            let walk = EdgeWalk::new(&edge, 6.0, centre);
            let square = |anomaly: f64| walk.square_from_centre(radial(anomaly));
            let mut most = f64::NEG_INFINITY;
            for step in 0..6284 {
                let at = f64::from(step) * STEP;
                let bend = (square(at + STEP) - 2.0 * square(at) + square(at - STEP)) / (STEP * STEP);
                most = most.max(bend);
            }
            prop_assert!(most <= walk.bend + 1e-6 * (1.0 + walk.bend), "{most} {}", walk.bend);
            prop_assert!(kind == 2 || (most - walk.bend).abs() < 1e-4, "{most} {}", walk.bend);
        }
    }

    /// Beside a disc that does not cover the middle no bound is known.
    #[test]
    fn beside_the_disc_every_piece_is_searched() {
        let edge = Ellipse {
            semi_major: 2.0,
            semi_minor: 1.0,
            rotation: 0.0,
        };
        let walk = EdgeWalk::new(&edge, 3.0, Vec2::new(3.1, 0.0));
        assert!(walk.may_undercut(-100.0, radial(0.0), radial(0.1)));
        let walk = EdgeWalk::new(&edge, 3.0, Vec2::new(2.9, 0.0));
        assert!(!walk.may_undercut(-100.0, radial(0.0), radial(0.1)));
    }
}
