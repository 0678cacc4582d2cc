//! The valves in a section.

use super::cut::{Cut, points};
use crate::{Point, clip};
use geometry::{HingedPlate, Mm, Radians, degrees, radial};
use measurement::Valve;

/// How far from a section's azimuth, or its opposite, a hinge may stand for its
/// valve to be shown in it.
const NEAR: Radians = degrees(20.0);

/// A plate as the plane cuts it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlateLine {
    /// At or near the hinge.
    pub(crate) foot: Point,
    /// Away from it.
    pub(crate) tip: Point,
}

impl PlateLine {
    pub(crate) fn of(cut: &Cut, hinged: &HingedPlate) -> Option<Self> {
        let line = cut.plane.annulus(hinged, cut.anatomy.defect.wall)?;
        let [foot, tip] = points(&line)[..] else {
            return None;
        };
        Some(Self { foot, tip })
    }

    /// The unit vector from foot to tip, and the one square to it that points
    /// down, toward the defect.
    pub(crate) fn directions(&self) -> [Point; 2] {
        let length = self.foot.distance(self.tip).max(f64::MIN_POSITIVE);
        let along = Point::new(
            (self.tip.x - self.foot.x) / length,
            (self.tip.y - self.foot.y) / length,
        );
        let square = if along.x < 0.0 {
            Point::new(-along.y, along.x)
        } else {
            Point::new(along.y, -along.x)
        };
        [along, square]
    }

    /// The closed cusps: the plate and what sags below it.
    pub(crate) fn cusps(&self, sag: Mm) -> Vec<Point> {
        let [_, down] = self.directions();
        let below = |point: Point| Point::new(point.x + sag * down.x, point.y + sag * down.y);
        vec![self.foot, self.tip, below(self.tip), below(self.foot)]
    }

    /// The outline of what the plane cuts of the disc, or of the waist's end, among
    /// the cusps and past them; empty where there is none, `None` where the
    /// clearance is not below 0.
    pub(crate) fn past(cut: &Cut) -> Option<Vec<Point>> {
        let hinged = cut.hinged.filter(|_| cut.place.clearance < 0.0)?;
        let line = Self::of(cut, hinged)?;
        let [along, down] = line.directions();
        let component = |point: Point, from: Point, of: Point| {
            (point.x - from.x) * of.x + (point.y - from.y) * of.y
        };
        let past = clip::behind(&cut.disc(cut.face()), |point| {
            hinged.cusp_depth() - component(point, line.foot, down)
        });
        Some(clip::behind(&past, |point| {
            -component(point, line.tip, along)
        }))
    }
}

/// The valves whose hinges stand near the plane.
pub(crate) fn plates_shown<'a>(cut: &'a Cut<'a>) -> impl Iterator<Item = (Valve, &'a HingedPlate)> {
    let beside = radial(NEAR).v;
    Valve::ALL.into_iter().filter_map(move |valve| {
        let hinged = cut.anatomy.valves[valve].as_ref()?;
        let sine = hinged.radial().cross(cut.radial);
        (valve == cut.valve || sine.abs() <= beside).then_some((valve, hinged))
    })
}
