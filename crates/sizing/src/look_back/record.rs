use super::pairs::{AnswerPair, ObservationTarget, ReadBy, ReadingPair, ValuePair};
use crate::house_rules::{HouseRules, ObservationLaw};
use crate::trial::{
    CameOfIt, Forecast, Observation, ObservationKind, PERCENTILES, Seen, SeenForecast, Trial,
    ValueForecast, share_under,
};
use crate::{Case, Subject, face_of};
use geometry::Face;
use measurement::look_back::{Difference, ForetoldPair, uniform_of_name};
use measurement::observation::ValueLaw;
use measurement::{Answer, Modality, ModelError, is_over};

/// What one case gives to a look-back: small, so that very many are held at once.
#[derive(Clone, Debug, Default)]
pub struct CaseRecord {
    /// How many deployments it has.
    pub deployments: usize,
    /// Of how many something was foretold at opening.
    pub foretold: usize,
    /// How many of those are left out: it did not lie as modelled.
    pub left_out: usize,
    /// How many were released.
    pub released: usize,
    pub(super) answers: Vec<AnswerPair>,
    pub(super) values: Vec<ValuePair>,
    pub(super) readings: Vec<ReadingPair>,
}

impl CaseRecord {
    /// Of a case that is called so where it has no name of its own; `rules` say by which
    /// law something is seen.
    pub fn of(case: &Case, called: &str, rules: &HouseRules) -> Self {
        let mut record = Self::default();
        let name = case.procedure.case_id.as_deref().unwrap_or(called);
        for (number, trial) in (0_u64..).zip(&case.procedure.trials) {
            record.deployments += 1;
            record.released += usize::from(trial.came_of_it == Some(CameOfIt::Released));
            let Some(forecast) = &trial.forecast.opened else {
                continue;
            };
            record.foretold += 1;
            if trial.seat_as_modelled == Answer::No {
                record.left_out += 1;
                continue;
            }
            let of = Deployment {
                case,
                rules,
                trial,
                forecast,
            };
            for (place, foretold) in (0_u64..).zip(&forecast.seen) {
                let chance = || uniform_of_name(name, (number << u32::BITS) | place);
                record.add(&of, foretold, chance);
            }
        }
        record
    }

    fn add(&mut self, of: &Deployment, foretold: &SeenForecast, chance: impl Fn() -> f64) {
        let thing = (foretold.what, foretold.of);
        let Some((observation, law)) = of.seen(thing) else {
            return;
        };
        if let Some(seen) = of.answer(foretold, observation, law) {
            let is_first = self.answers.iter().all(|pair| pair.of != thing);
            // Draws cannot tell a chance from 0 or 1 nearer than half of one.
            let least = 0.5 / of.forecast.effective;
            let chance = foretold.yes.unwrap_or(0.0);
            self.answers.push(AnswerPair {
                of: thing,
                foretold: ForetoldPair {
                    chance: chance.clamp(least, 1.0 - least),
                    seen,
                },
                is_first,
            });
        }
        if let (Some(value), Seen::Value(seen)) = (&foretold.value, observation.seen) {
            let twentieth = if seen <= 0.0 && value.at_zero > 0.0 {
                // A contact is somewhere under 0: anywhere in what was foretold of it.
                let share = chance() * value.at_zero;
                (0..PERCENTILES)
                    .filter(|&one| share >= share_under(one))
                    .count()
            } else {
                value.twentieth(seen)
            };
            self.values.push(ValuePair {
                of: thing,
                twentieth,
            });
            if let ObservationLaw::Value(law) = law {
                self.add_reading(of, thing, (value, seen), &law);
            }
        }
    }

    /// One pair of each reading and case: later deployments stand on the same reading.
    fn add_reading(
        &mut self,
        of: &Deployment,
        (what, subject): ObservationTarget,
        (value, seen): (&ValueForecast, f64),
        law: &ValueLaw,
    ) {
        let Some(by_readings) = value.by_readings else {
            return;
        };
        let mut key = ReadBy {
            what,
            of: subject,
            by: None,
        };
        key.by = of.modality(key);
        let is_there = |pair: &ReadingPair| (pair.of.what, pair.of.of) == (what, subject);
        if self.readings.iter().any(is_there) {
            return;
        }
        let difference = match value.at_most {
            Some(most) if seen >= most => Difference::AtMost(by_readings - most),
            _ if seen <= 0.0 => Difference::AtLeast(by_readings),
            _ => Difference::Exactly(by_readings - seen),
        };
        let model = of.model_error(what, subject, by_readings);
        self.readings.push(ReadingPair {
            of: key,
            difference,
            of_seen: law.spread(by_readings).powi(2) + model * model,
        });
    }
}

/// One deployment with what was foretold of it.
struct Deployment<'a> {
    case: &'a Case,
    rules: &'a HouseRules,
    trial: &'a Trial,
    forecast: &'a Forecast,
}

impl<'a> Deployment<'a> {
    /// What was seen of one thing, as it counts, with its law.
    fn seen(&self, (what, of): ObservationTarget) -> Option<(&'a Observation, ObservationLaw)> {
        let slipped = self.trial.last_seen(ObservationKind::Slips, Subject::Shape);
        let has_slipped = slipped.is_some_and(|one| one.seen == Seen::Answer(Answer::Yes));
        if has_slipped && what != ObservationKind::Slips {
            // Nothing lies that could be looked at.
            return None;
        }
        let mut rows = self.rules.observations.iter();
        let law = rows.find(|row| row.what == what)?.law;
        let observation = self.trial.last_seen(what, of)?;
        Some((observation, law.with_sd(observation.sd)))
    }

    /// Whether it was a yes; `None` where nothing was foretold as one.
    fn answer(
        &self,
        foretold: &SeenForecast,
        observation: &Observation,
        law: ObservationLaw,
    ) -> Option<bool> {
        foretold.yes?;
        if let (Some(over), Seen::Value(seen)) = (foretold.over, observation.seen) {
            return Some(is_over(seen, over));
        }
        let before = self.case.procedure.before(foretold.what, foretold.of);
        match law.taken(observation.seen, before)? {
            Seen::Answer(answer) => Some(answer == Answer::Yes),
            _ => None,
        }
    }

    /// By what the readings of a comparison were taken, where that is one way.
    fn modality(&self, of: ReadBy) -> Option<Modality> {
        let quantities = of.quantities();
        let readings = self.case.readings.iter();
        let mut used = readings
            .filter(|one| one.set_aside.is_none() && quantities.contains(&one.quantity))
            .map(|one| one.modality);
        let first = used.next()?;
        used.all(|other| other == first).then_some(first)
    }

    /// The standard deviation of the model's own error of what is seen.
    fn model_error(&self, what: ObservationKind, of: Subject, value: f64) -> f64 {
        let on = |face, left, right| match face {
            Face::Left => left,
            Face::Right => right,
        };
        match (what, of) {
            (ObservationKind::Distance, Subject::Valve(valve)) => {
                let (left, right) = (ModelError::ClearanceLeft, ModelError::ClearanceRight);
                self.rules.model_error_sd(on(face_of(valve), left, right))
            }
            (ObservationKind::Waist, _) => self.rules.model_error_sd(ModelError::Waist),
            (ObservationKind::Gradient, Subject::Face(face)) => {
                let (left, right) = (ModelError::GradientLeft, ModelError::GradientRight);
                value * self.rules.model_error_sd(on(face, left, right))
            }
            _ => 0.0,
        }
    }
}
