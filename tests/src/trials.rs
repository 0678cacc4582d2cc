//! Trials of shipped scenarios, changed to what is to be looked at.

use crate::sample::scenario;
use measurement::Valve;
use sizing::trial::{Observation, ObservationKind, Seen};
use sizing::{Case, Subject};

/// The size of the scenario `contact-first`, opened so often, with its distance from the
/// aortic valve seen each time: where the readings hardly allow it, few draws agree.
///
/// # Panics
///
/// Where the shipped scenario has no trial.
pub fn distance_seen(values: &[f64], sd: f64) -> Case {
    let mut case = scenario("contact-first");
    let first = case.procedure.trials[0].clone();
    let trials = values.iter().zip(0_u8..).map(|(&value, index)| {
        let mut trial = first.clone();
        let minute = 30.0 * f64::from(index);
        trial.id = format!("t{index}");
        (trial.opened_min, trial.closed_min) = (minute + 10.0, Some(minute + 30.0));
        trial.seen = vec![Observation {
            id: format!("s{index}"),
            what: ObservationKind::Distance,
            of: Subject::Valve(Valve::Aortic),
            seen: Seen::Value(value),
            sd: Some(sd),
            clock_position: None,
            min: Some(minute + 20.0),
            ..trial.seen[0].clone()
        }];
        trial
    });
    case.procedure.trials = trials.collect();
    case
}
