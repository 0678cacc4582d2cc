use super::arc_set::{Arc, ArcSet};
use super::edge_walk::EdgeWalk;
use super::half_chord::half_chord;
use super::search::DipSearch;
use super::stretch::Stretch;
use crate::{Accuracy, Ellipse, Mm, Play, Radians, Vec2, radial};
use std::f64::consts::PI;

/// The lip in one direction, and how it changes as the disc's centre moves.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lip {
    pub(super) value: Mm,
    pub(super) gradient: Vec2,
}

/// The edge of an opening, and a disc somewhere over it. Places and directions are
/// given in the edge's own axes, about its centre.
#[derive(Clone, Copy, Debug)]
pub(super) struct EdgeAndDisc {
    edge: Ellipse,
    radius: Mm,
}

/// The least b/a of an edge: a narrower one is a slit, and is taken as this wide.
const NARROWEST: f64 = 1e-6;

/// The tips of the major axis.
const TIPS: [Vec2; 2] = [Vec2::new(1.0, 0.0), Vec2::new(-1.0, 0.0)];

impl EdgeAndDisc {
    pub(super) fn new(edge: &Ellipse, radius: Mm) -> Self {
        let semi_minor = edge.semi_minor.max(NARROWEST * edge.semi_major);
        Self {
            edge: Ellipse {
                semi_minor,
                ..*edge
            },
            radius,
        }
    }

    /// The lip of a disc at `centre` along the unit vector `outward`.
    pub(super) fn lip(&self, centre: Vec2, outward: Vec2) -> Lip {
        if self.misses(centre, outward) {
            return self.beside(centre);
        }
        let (a, b) = (self.edge.semi_major, self.edge.semi_minor);
        let (across, along) = (b * outward.u, a * outward.v);
        let width = (across * across + along * along).sqrt();
        let edge = if width == 0.0 { a } else { a * b / width };
        let (reach, aside) = (centre.dot(outward), centre.cross(outward));
        let root = half_chord(self.radius, aside);
        let sideways = Vec2::new(outward.v, -outward.u) * (aside / root.max(f64::MIN_POSITIVE));
        Lip {
            value: reach + root - edge,
            gradient: outward - sideways,
        }
    }

    /// The least lip of a disc at `centre` over arcs of azimuth.
    pub(super) fn least(&self, centre: Vec2, arcs: &ArcSet, accuracy: Accuracy) -> Option<Lip> {
        if centre == Vec2::ZERO {
            return self.least_centred(arcs);
        }
        if let Some(azimuth) = arcs.only() {
            return Some(self.lip(centre, radial(azimuth - self.edge.rotation)));
        }
        if self.misses_some(centre, arcs) {
            return Some(self.beside(centre));
        }
        let walk = EdgeWalk::new(&self.edge, self.radius, centre);
        let mut search = DipSearch::new(&walk, accuracy);
        self.walk(&walk, &mut search, arcs);
        let (anomaly, _) = search.least()?;
        Some(self.lip(centre, walk.outward(anomaly)))
    }

    /// Whether the least lip over arcs is shown to be no less than a value, to half
    /// of `accuracy`, for every disc whose centre lies within a triangle and whose
    /// lip at two of its corners is not.
    ///
    /// Where each ray along the arcs meets the discs at the corners it meets those
    /// between them too, and the lip is concave there: no less than at the
    /// corners. Elsewhere it is no less than that of the farthest beside.
    pub(super) fn is_no_less(
        &self,
        value: Mm,
        [start, between, end]: [Vec2; 3],
        arcs: &ArcSet,
        accuracy: Accuracy,
    ) -> bool {
        let corners = [start, between, end];
        if corners.iter().any(|&corner| self.misses_some(corner, arcs)) {
            let farthest = corners.map(Vec2::length).into_iter().fold(0.0, f64::max);
            return self.radius - farthest - self.edge.semi_major >= value;
        }
        if let Some(azimuth) = arcs.only() {
            return self
                .lip(between, radial(azimuth - self.edge.rotation))
                .value
                >= value;
        }
        let walk = EdgeWalk::new(&self.edge, self.radius, between);
        let mut search = DipSearch::below(&walk, value, accuracy);
        self.walk(&walk, &mut search, arcs);
        search.least().is_some_and(|(_, least)| least >= value)
    }

    /// Searches the edge along arcs.
    fn walk(&self, walk: &EdgeWalk, search: &mut DipSearch<EdgeWalk>, arcs: &ArcSet) {
        for arc in arcs.arcs() {
            let stretch = walk.stretch(&self.azimuths(&arc));
            // The tips of the major axis first: with a low value found early,
            // most other pieces can be left.
            for tip in TIPS {
                if stretch.contains(tip) {
                    search.look(tip);
                }
            }
            search.walk(&stretch);
        }
    }

    /// The directions of an arc, in the edge's axes.
    fn azimuths(&self, arc: &Arc) -> Stretch {
        let start = arc.start - self.edge.rotation;
        Stretch {
            from: radial(start),
            to: radial(start + arc.width),
            wide: arc.width >= PI,
        }
    }

    /// The least lip of a disc over the middle: R − ρ, and ρ falls from the
    /// major axis to the minor.
    fn least_centred(&self, arcs: &ArcSet) -> Option<Lip> {
        let off = self.nearest_major_axis(arcs)?;
        Some(self.lip(Vec2::ZERO, radial(off)))
    }

    /// The least angle between arcs and the major axis; `None` without an arc.
    fn nearest_major_axis(&self, arcs: &ArcSet) -> Option<Radians> {
        arcs.arcs()
            .map(|arc| self.off_major_axis(&arc))
            .reduce(f64::min)
    }

    /// The one direction of arcs in which the disc has its least lip, its centre
    /// anywhere in a play about the middle whose axes are the edge's; `None` for any
    /// other play, for one that leaves the middle bare, and without an arc.
    ///
    /// It is the nearest to the major axis: from that axis to the minor ρ falls, and the
    /// way to the disc's edge in the play's worst place does not. With x at the angle θ and
    /// σ = (p_a cos t, p_b sin t) the farthest place of the play from −x, where that
    /// distance is stationary in t: p_b tan θ = p_a tan t + (p_a² − p_b²) sin t / (|x| cos θ),
    /// so tan t ≤ (p_b/p_a) tan θ, and the angle of σ, whose tangent is (p_b/p_a) tan t, is
    /// no more than θ. So the square of the distance, which changes with θ by 2 x⊥ · σ,
    /// does not grow, and what all discs of the play have in common reaches no less far.
    pub(super) fn direction_of_least(&self, play: &Play, arcs: &ArcSet) -> Option<Radians> {
        let is_aligned = play.rotation == 0.0 || play.semi_major == play.semi_minor;
        let is_about_middle = play.centre == Vec2::ZERO && play.semi_major <= self.radius;
        if !(is_aligned && is_about_middle) {
            return None;
        }
        Some(self.edge.rotation + self.nearest_major_axis(arcs)?)
    }

    /// The least angle between an arc and the major axis.
    fn off_major_axis(&self, arc: &Arc) -> Radians {
        let start = arc.start - self.edge.rotation;
        let end = start + arc.width;
        let tip = PI * (start / PI).ceil();
        if tip <= end {
            0.0
        } else {
            (start - (tip - PI)).min(tip - end)
        }
    }

    /// The lip where the ray from the middle of the opening misses the disc.
    fn beside(&self, centre: Vec2) -> Lip {
        let distance = centre.length();
        let value = self.radius - distance - self.edge.semi_major;
        Lip {
            value,
            gradient: centre * (-1.0 / distance.max(f64::MIN_POSITIVE)),
        }
    }

    /// Whether the ray along `outward` misses a disc at `centre`.
    fn misses(&self, centre: Vec2, outward: Vec2) -> bool {
        centre.dot(centre) > self.radius * self.radius
            && (centre.dot(outward) < 0.0 || centre.cross(outward).abs() > self.radius)
    }

    /// Whether the ray along some azimuth of `arcs` misses a disc at `centre`.
    pub(super) fn misses_some(&self, centre: Vec2, arcs: &ArcSet) -> bool {
        let distance = centre.length();
        if distance <= self.radius {
            return false;
        }
        let toward = libm::atan2(centre.v, centre.u) + self.edge.rotation;
        let half = libm::asin(self.radius / distance);
        let met = Arc {
            start: toward - half,
            width: 2.0 * half,
        };
        arcs.arcs().any(|arc| !met.covers(&arc))
    }
}

#[cfg(test)]
mod tests;
