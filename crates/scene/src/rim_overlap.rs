use geometry::lip::{ArcSet, least_lip, lip_of};
use geometry::{Accuracy, Face, Mm, Occluder, Opening, Radians, Seat, Vec2, degrees, radial};

/// Where a size has its least rim overlap on a face, away from the hinges there.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LeastOverlap {
    /// The engine's value.
    pub(crate) value: Mm,
    /// The centre of the waist there.
    pub(crate) waist: Vec2,
    /// The azimuth about the opening's centre; `None` where the disc lies beside
    /// that centre, so that no line shows the overlap.
    pub(crate) azimuth: Option<Radians>,
}

/// How far the overlap at the place found may lie from the engine's value.
const FOUND: Mm = 0.002;

/// Between the azimuths and between the places tried first.
const STEP: Radians = degrees(8.0);
const PLACE_STEP: Radians = degrees(10.0);

/// How often a stretch is cut down about its least value.
const CUTS: u32 = 16;

impl LeastOverlap {
    /// `None` where the size has no disc on the face, or hinges leave no arc.
    ///
    /// The value is the engine's; only where it lies is searched for here, by trying
    /// azimuths, and places along the boundary of the play, where the overlap is
    /// least ([`least_lip`]).
    pub(crate) fn of(
        occluder: &Occluder,
        seat: &Seat,
        opening: &Opening,
        face: Face,
        arcs: &ArcSet,
    ) -> Option<Self> {
        let value = least_lip(occluder, seat, opening, face, arcs, Accuracy::DEFAULT)?;
        let play = seat.play();
        let at = |waist: Vec2| {
            let disc = seat.disc(occluder, face, seat.stand_off(face).least, waist);
            least_along(arcs, |azimuth| lip_of(&disc, opening, azimuth))
        };
        let waist = if play.is_place() {
            play.centre
        } else {
            let along = radial(play.rotation) * play.semi_major;
            let across =
                Vec2::new(-radial(play.rotation).v, radial(play.rotation).u) * play.semi_minor;
            let place = |anomaly: Radians| {
                let share = radial(anomaly);
                play.centre + along * share.u + across * share.v
            };
            let overlap =
                |anomaly: Radians| at(place(anomaly)).map_or(Mm::INFINITY, |(_, overlap)| overlap);
            place(least_of(0.0, degrees(360.0), PLACE_STEP, overlap).0)
        };
        // Only of a disc over the opening's centre does every ray meet the rim.
        let disc = seat.disc(occluder, face, seat.stand_off(face).least, waist);
        let is_over_centre = (disc.centre - opening.centre).length() < disc.radius;
        let found =
            at(waist).filter(|(_, overlap)| is_over_centre && (overlap - value).abs() <= FOUND);
        Some(Self {
            value,
            waist,
            azimuth: found.map(|(azimuth, _)| azimuth),
        })
    }
}

/// The azimuth of some arcs at which a function is least, and its value there.
fn least_along(arcs: &ArcSet, of: impl Fn(Radians) -> f64) -> Option<(Radians, f64)> {
    arcs.arcs()
        .map(|arc| least_of(arc.start, arc.end(), STEP, &of))
        .reduce(|least, one| if one.1 < least.1 { one } else { least })
}

/// Where a function is least from one place to another, and its value there: tried
/// at steps, then about the best of them by cutting the stretch in the golden
/// ratio.
fn least_of(from: f64, to: f64, step: f64, of: impl Fn(f64) -> f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at most a turn of steps"
    )]
    let steps = ((to - from) / step).ceil().max(1.0) as u32;
    let at = |index: u32| from + (to - from) * f64::from(index) / f64::from(steps);
    let best = (0..=steps)
        .map(|index| (index, of(at(index))))
        .reduce(|least, one| if one.1 < least.1 { one } else { least });
    let Some((index, value)) = best else {
        return (from, of(from));
    };
    let (mut low, mut high) = (at(index.saturating_sub(1)), at((index + 1).min(steps)));
    let mut best = (at(index), value);
    for _ in 0..CUTS {
        let (one, other) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        let (at_one, at_other) = (of(one), of(other));
        for tried in [(one, at_one), (other, at_other)] {
            if tried.1 < best.1 {
                best = tried;
            }
        }
        if at_one < at_other {
            high = other;
        } else {
            low = one;
        }
    }
    best
}
