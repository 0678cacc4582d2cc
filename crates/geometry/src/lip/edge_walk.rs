use super::edge_and_disc::root;
use super::search::{Sample, Smooth};
use super::stretch::{Stretch, half_tangent, unit};
use crate::{Ellipse, Mm, Vec2};

/// The lip of one disc along the edge of an opening, by eccentric anomaly from
/// the major axis: ρ has no spike there at the tips of a narrow opening.
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
    /// The square of a point's distance from σ bends by no more than this.
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
            half_chord: covers.then(|| root(radius, distance)),
            bend: 2.0 * ((a - b) * (a + b) + a * distance),
        }
    }

    /// The stretch of anomaly that a stretch of azimuth takes up.
    pub(super) fn stretch(&self, azimuths: &Stretch) -> Stretch {
        let anomaly = |azimuth: Vec2| unit(Vec2::new(self.ratio * azimuth.u, azimuth.v));
        // Opposite directions stay opposite: half a turn stays half a turn.
        Stretch {
            from: anomaly(azimuths.from),
            to: anomaly(azimuths.to),
            wide: azimuths.wide,
        }
    }

    /// r̂ at an anomaly.
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
        let root = root(self.radius, aside);
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
    /// So it is no less than `value` while f² ≤ R² − 2 root value + value².
    fn may_undercut(&self, value: Mm, from: Vec2, to: Vec2) -> bool {
        let Some(half_chord) = self.half_chord else {
            return true;
        };
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
}
