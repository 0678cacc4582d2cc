use super::edge_and_disc::Lip;
use super::search::{Sample, Search, Smooth};
use super::stretch::Stretch;
use crate::{Accuracy, Mm, Play, Vec2, radial};

/// The least lip over the places of a play, within `accuracy`, for a lip that is
/// known at each place.
///
/// At each azimuth the lip is concave in the disc's centre, so that it is least
/// somewhere on the boundary of the play; on a stretch of line, at one end.
pub(super) fn least_over_play(
    play: &Play,
    accuracy: Accuracy,
    lip: impl Fn(Vec2) -> Option<Lip>,
) -> Option<Mm> {
    if play.is_place() {
        return Some(lip(play.centre)?.value);
    }
    let along = radial(play.turn);
    let across = Vec2::new(-along.v, along.u) * play.semi_minor;
    let along = along * play.semi_major;
    if play.semi_minor == 0.0 {
        let ends = [
            lip(play.centre - along)?.value,
            lip(play.centre + along)?.value,
        ];
        return Some(ends[0].min(ends[1]));
    }
    // Whether there is a lip does not depend on the place.
    let middle = lip(play.centre)?;
    let boundary = Boundary {
        centre: play.centre,
        along,
        across,
        lip: |place| lip(place).unwrap_or(middle),
    };
    let mut search = Search::new(&boundary, accuracy);
    search.walk(&Stretch::WHOLE);
    search.least().map(|(_, value)| value)
}

/// The lip along the boundary of a play, by eccentric anomaly.
struct Boundary<L> {
    centre: Vec2,
    along: Vec2,
    across: Vec2,
    lip: L,
}

impl<L: Fn(Vec2) -> Lip> Smooth for Boundary<L> {
    fn sample(&self, unit: Vec2) -> Sample {
        let Vec2 { u: cos, v: sin } = unit;
        let lip = (self.lip)(self.centre + self.along * cos + self.across * sin);
        let slope = lip.gradient.dot(self.across * cos - self.along * sin);
        Sample {
            value: lip.value,
            slope,
            toward: unit,
        }
    }

    /// Nothing is known of what lies between two places.
    fn may_undercut(&self, _: Mm, _: Vec2, _: Vec2) -> bool {
        true
    }
}
