use super::arc_set::ArcSet;
use super::edge_and_disc::{EdgeAndDisc, Lip};
use super::search::{DipSearch, HALVINGS, Sample, Smooth};
use super::stretch::{Stretch, middle, tangents_meet};
use crate::{Accuracy, Mm, Play, Vec2, radial};

/// The least lip over the places of a play and over arcs, within `accuracy`;
/// `None` where there is no arc.
///
/// At each azimuth whose ray meets the disc the lip is concave in the disc's centre, so
/// that it is least somewhere on the boundary of the play; on a stretch of line at one
/// end, if all rays meet the disc at both ends and so between them.
pub(super) fn least_over_play(
    pair: &EdgeAndDisc,
    play: &Play,
    arcs: &ArcSet,
    accuracy: Accuracy,
) -> Option<Mm> {
    let one = pair
        .direction_of_least(play, arcs)
        .map(|azimuth| ArcSet::about(&[azimuth], 0.0));
    let arcs = one.as_ref().unwrap_or(arcs);
    let lip = |place| pair.least(place, arcs, accuracy);
    if play.is_place() {
        return Some(lip(play.centre)?.value);
    }
    let along = radial(play.rotation);
    let across = Vec2::new(-along.v, along.u) * play.semi_minor;
    let along = along * play.semi_major;
    if play.semi_minor == 0.0 {
        let ends = [play.centre - along, play.centre + along];
        let mut least = lip(ends[0])?.value.min(lip(ends[1])?.value);
        if ends.iter().any(|&end| pair.misses_some(end, arcs)) {
            prove_on_line(pair, arcs, accuracy, &mut least, ends, HALVINGS);
        }
        return Some(least);
    }
    // Whether there is a lip does not depend on the place.
    let middle = lip(play.centre)?;
    let boundary = Boundary {
        centre: play.centre,
        along,
        across,
        pair,
        arcs,
        accuracy,
        middle,
    };
    let mut search = DipSearch::new(&boundary, accuracy);
    search.walk(&Stretch::WHOLE);
    let (_, mut least) = search.least()?;
    for piece in Stretch::WHOLE.pieces() {
        boundary.prove(&mut least, piece, HALVINGS);
    }
    Some(least)
}

/// Lowers `least` to the least lip on the line between two places, as
/// [`Boundary::prove`] does on a boundary; no more than 2^`halvings` pieces.
fn prove_on_line(
    pair: &EdgeAndDisc,
    arcs: &ArcSet,
    accuracy: Accuracy,
    least: &mut Mm,
    [from, to]: [Vec2; 2],
    halvings: u32,
) {
    let between = (from + to) * 0.5;
    let goal = *least - 0.5 * accuracy.mm();
    if halvings == 0 || pair.is_no_less(goal, [from, between, to], arcs, accuracy) {
        return;
    }
    if let Some(lip) = pair.least(between, arcs, accuracy) {
        *least = least.min(lip.value);
    }
    for half in [[from, between], [between, to]] {
        prove_on_line(pair, arcs, accuracy, least, half, halvings - 1);
    }
}

/// The lip along the boundary of a play, by eccentric anomaly.
struct Boundary<'a> {
    centre: Vec2,
    along: Vec2,
    across: Vec2,
    pair: &'a EdgeAndDisc,
    arcs: &'a ArcSet,
    accuracy: Accuracy,
    /// The lip at the centre.
    middle: Lip,
}

impl Boundary<'_> {
    /// The place at a point given in the axes of the play, by shares of them.
    fn place(&self, point: Vec2) -> Vec2 {
        self.centre + self.along * point.u + self.across * point.v
    }

    fn lip(&self, place: Vec2) -> Lip {
        let lip = self.pair.least(place, self.arcs, self.accuracy);
        lip.unwrap_or(self.middle)
    }

    /// Lowers `least` to the least lip on the piece of the boundary between two unit
    /// vectors, within the accuracy.
    ///
    /// The lip is concave over the places, so that on a piece of the boundary it is no
    /// less than at the corners of a triangle around it: the ends, and the point where
    /// the tangents there meet. Where that bound is not enough the piece is halved.
    fn prove(&self, least: &mut Mm, [from, to]: [Vec2; 2], halvings: u32) {
        let corners = [from, tangents_meet(from, to), to].map(|point| self.place(point));
        let goal = *least - 0.5 * self.accuracy.mm();
        if halvings == 0
            || self
                .pair
                .is_no_less(goal, corners, self.arcs, self.accuracy)
        {
            return;
        }
        let between = middle(from, to);
        *least = least.min(self.lip(self.place(between)).value);
        for half in [[from, between], [between, to]] {
            self.prove(least, half, halvings - 1);
        }
    }
}

impl Smooth for Boundary<'_> {
    fn sample(&self, unit: Vec2) -> Sample {
        let Vec2 { u: cos, v: sin } = unit;
        let lip = self.lip(self.place(unit));
        let slope = lip.gradient.dot(self.across * cos - self.along * sin);
        Sample {
            value: lip.value,
            slope,
            toward: unit,
        }
    }
}

#[cfg(test)]
mod tests;
