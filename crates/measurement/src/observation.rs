//! The laws of observations in a trial: how likely each is where the model has a value.
//!
//! A trial re-weighs draws by this likelihood, of which only ratios between draws matter.

use crate::{Answer, normal};
use std::f64::consts::PI;

/// A standard deviation that may grow with the modelled value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// The least standard deviation, in the unit of the value.
    pub least: f64,
    /// The share of the modelled value's size that counts where it is more.
    pub share: f64,
}

impl Spread {
    /// The same standard deviation at every modelled value.
    pub const fn constant(sd: f64) -> Self {
        Self {
            least: sd,
            share: 0.0,
        }
    }

    /// The standard deviation at a modelled value.
    pub fn at(self, modelled: f64) -> f64 {
        self.least.max(self.share * modelled.abs())
    }
}

/// The values that an observation can take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Range {
    /// Any value of its room.
    Free,
    /// None below 0: a modelled value below 0, such as an overlap, is seen as 0.
    AtLeastZero,
    /// Angles in degrees: a full turn brings the same value again.
    Turning,
}

/// The law of an observed value.
///
/// With probability `wrong` the observation is altogether wrong, and then anything in
/// its room [0, H] is as likely as any other; a value that cannot be below 0 is then
/// 0 half of the time. Otherwise it is normal about the modelled value, with the
/// observer's standard deviation and what differs between openings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ValueLaw {
    /// What values it can take.
    pub range: Range,
    /// The observer's standard deviation.
    pub sd: Spread,
    /// Standard deviation from one opening to the next.
    pub own: Spread,
    /// Width H of the room of the observation.
    pub room: f64,
    /// Chance ω, at least 0 and under 1, that the observation is altogether wrong.
    pub wrong: f64,
}

impl ValueLaw {
    /// Standard deviation σ of the observation about a modelled value.
    pub fn spread(&self, modelled: f64) -> f64 {
        self.sd.at(modelled).hypot(self.own.at(modelled))
    }

    /// The likelihood of an observed value, given the modelled one: a density per unit, or
    /// a probability at 0 where no value can be below 0.
    pub fn likelihood(&self, modelled: f64, seen: f64) -> f64 {
        let spread = self.spread(modelled);
        let z = (seen - modelled) / spread;
        let right = 1.0 - self.wrong;
        match self.range {
            Range::Free => right * normal::density(z) / spread + self.wrong / self.room,
            Range::AtLeastZero if seen > 0.0 => {
                right * normal::density(z) / spread + self.wrong / (2.0 * self.room)
            }
            Range::AtLeastZero => right * normal::probability(z) + 0.5 * self.wrong,
            Range::Turning => {
                let apart = turned(seen - modelled);
                let density: f64 = [-TURN, 0.0, TURN]
                    .into_iter()
                    .map(|turn| normal::density((apart + turn) / spread) / spread)
                    .sum();
                right * density + self.wrong / self.room
            }
        }
    }

    /// The same law for an observer who is never altogether wrong.
    #[must_use]
    pub const fn faultless(self) -> Self {
        Self { wrong: 0.0, ..self }
    }

    /// The probabilities of an observation at or below `seen` and at or above it, given
    /// the modelled value; of angles, by the shorter way round.
    pub fn tails(&self, modelled: f64, seen: f64) -> [f64; 2] {
        let apart = match self.range {
            Range::Turning => turned(seen - modelled),
            Range::Free | Range::AtLeastZero => seen - modelled,
        };
        let z = apart / self.spread(modelled);
        let (right, share) = (1.0 - self.wrong, (seen / self.room).clamp(0.0, 1.0));
        // What an altogether wrong observation has at or below, and at or above.
        let wrong = match self.range {
            Range::Free => [share, 1.0 - share],
            Range::AtLeastZero if seen > 0.0 => [0.5 * (1.0 + share), 0.5 * (1.0 - share)],
            Range::AtLeastZero => [0.5, 1.0],
            Range::Turning => [0.5, 0.5],
        };
        let above = if self.range == Range::AtLeastZero && seen <= 0.0 {
            1.0
        } else {
            normal::probability(-z)
        };
        [
            right * normal::probability(z) + self.wrong * wrong[0],
            right * above + self.wrong * wrong[1],
        ]
    }
}

/// The law of a yes or no about a modelled value: the lower the value, the likelier a
/// yes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnswerLaw {
    /// Value v0 at which the answer turns.
    pub turns_at: f64,
    /// Width s over which the answer turns.
    pub softness: f64,
    /// The chance of a yes where the fact holds.
    pub hit: f64,
    /// The chance of a yes where the fact does not hold.
    pub false_yes: f64,
}

impl AnswerLaw {
    /// The chance of a yes, given the modelled value:
    /// false + (hit − false) Φ((v0 − M) / s).
    pub fn yes(&self, modelled: f64) -> f64 {
        let is_so = normal::probability((self.turns_at - modelled) / self.softness);
        self.false_yes + (self.hit - self.false_yes) * is_so
    }

    /// The likelihood of an answer, given the modelled value; 1 for `Unknown`, which says
    /// nothing.
    pub fn likelihood(&self, modelled: f64, seen: Answer) -> f64 {
        match seen {
            Answer::Yes => self.yes(modelled),
            Answer::No => 1.0 - self.yes(modelled),
            Answer::Unknown => 1.0,
        }
    }

    /// The same law for an observer who never misses and never errs.
    #[must_use]
    pub const fn faultless(self) -> Self {
        Self {
            hit: 1.0,
            false_yes: 0.0,
            ..self
        }
    }
}

/// A full turn in degrees.
const TURN: f64 = 360.0;

/// An angle in degrees, brought into −180 to 180 by whole turns.
fn turned(degrees: f64) -> f64 {
    degrees - TURN * (degrees / TURN).round()
}

/// The weighted circular mean of angles in degrees, −180 to 180; `None` where it has no
/// direction.
pub(crate) fn mean_direction(angles: &[f64], weight: impl Fn(usize) -> f64) -> Option<f64> {
    let (mut along, mut across) = (0.0, 0.0);
    for (draw, angle) in angles.iter().enumerate() {
        let (sin, cos) = libm::sincos(angle * PI / 180.0);
        along += weight(draw) * cos;
        across += weight(draw) * sin;
    }
    let has_one = along != 0.0 || across != 0.0;
    has_one.then(|| libm::atan2(across, along) * 180.0 / PI)
}

#[cfg(test)]
mod tests {
    use super::*;

    const DISTANCE: ValueLaw = ValueLaw {
        range: Range::AtLeastZero,
        sd: Spread::constant(0.5),
        own: Spread::constant(0.3),
        room: 10.0,
        wrong: 0.02,
    };
    const TOUCHES: AnswerLaw = AnswerLaw {
        turns_at: 0.0,
        softness: 0.5,
        hit: 0.9,
        false_yes: 0.1,
    };

    /// The likelihoods of all that can be seen add up to 1.
    fn total(law: ValueLaw, modelled: f64, from: f64, to: f64) -> f64 {
        const STEPS: u32 = 20_000;
        let step = (to - from) / f64::from(STEPS);
        let middle = |place: u32| from + (f64::from(place) + 0.5) * step;
        (0..STEPS)
            .map(|place| law.likelihood(modelled, middle(place)) * step)
            .sum()
    }

    #[test]
    fn likelihoods_add_up_to_one() {
        for modelled in [-1.0, 0.1, 2.0, 5.0] {
            let at_zero = DISTANCE.likelihood(modelled, 0.0);
            let above = total(DISTANCE, modelled, 0.0, 10.0);
            assert!((at_zero + above - 1.0).abs() < 1e-6, "{modelled}");
        }
        let turn = ValueLaw {
            range: Range::Turning,
            sd: Spread::constant(10.0),
            own: Spread::constant(5.0),
            room: 360.0,
            ..DISTANCE
        };
        for modelled in [0.0, 179.0, -90.0, 370.0] {
            let all = total(turn, modelled, -180.0, 180.0);
            assert!((all - 1.0).abs() < 1e-6, "{modelled}: {all}");
        }
    }

    #[test]
    fn a_full_turn_changes_nothing() {
        let turn = ValueLaw {
            range: Range::Turning,
            room: 360.0,
            ..DISTANCE
        };
        let once = turn.likelihood(170.0, -175.0);
        assert!((turn.likelihood(170.0, 185.0) - once).abs() < 1e-12);
        assert!((turn.likelihood(-190.0, -175.0) - once).abs() < 1e-12);
        let tails = turn.tails(179.5, -179.5);
        assert!(tails[0] > 0.9 && tails[1] < 0.1);
    }

    #[test]
    fn tails_of_a_value_meet_at_one_and_a_zero_is_both() {
        for seen in [0.3, 1.0, 4.0] {
            let [below, above] = DISTANCE.tails(1.2, seen);
            assert!((below + above - 1.0).abs() < 1e-12);
        }
        let [below, above] = DISTANCE.faultless().tails(1.2, 0.0);
        assert!((below - normal::probability(-1.2 / 0.34_f64.sqrt())).abs() < 1e-12);
        assert_eq!(above, 1.0);
    }

    #[test]
    fn what_cannot_be_told_says_nothing() {
        let blind = AnswerLaw {
            hit: 0.3,
            false_yes: 0.3,
            ..TOUCHES
        };
        for modelled in [-2.0, 0.0, 3.0] {
            assert_eq!(TOUCHES.likelihood(modelled, Answer::Unknown), 1.0);
            let both = [Answer::Yes, Answer::No].map(|seen| TOUCHES.likelihood(modelled, seen));
            assert!((both[0] + both[1] - 1.0).abs() < 1e-15);
            assert_eq!(blind.likelihood(modelled, Answer::Yes), 0.3);
        }
        assert!((TOUCHES.yes(0.0) - 0.5).abs() < 1e-12);
        assert!(TOUCHES.yes(-9.0) > 0.8999 && TOUCHES.yes(9.0) < 0.1001);
    }

    #[test]
    fn a_spread_grows_with_the_value_once_its_share_is_more() {
        let spread = Spread {
            least: 5.0,
            share: 0.2,
        };
        assert_eq!(
            [0.0, 20.0, 40.0].map(|value| spread.at(value)),
            [5.0, 5.0, 8.0]
        );
    }

    #[test]
    fn directions_have_a_mean_across_the_turn() {
        let mean = mean_direction(&[170.0, -170.0], |_| 1.0).unwrap();
        assert!((mean.abs() - 180.0).abs() < 1e-9);
        let heavy = mean_direction(&[0.0, 90.0], |draw| [3.0, 1.0][draw]).unwrap();
        assert!((heavy - 18.434_948_822_922_01).abs() < 1e-9);
        assert_eq!(mean_direction(&[], |_| 1.0), None);
    }
}
