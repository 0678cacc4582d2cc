use super::modelled::Modelled;
use super::{NotCounted, Observation, ObservationKind, Procedure, Seen, Trial};
use crate::house_rules::ObservationLaw;
use crate::{Setting, Size, Subject};
use measurement::Answer;

/// An observation that weighs the draws.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WeighingObservation<'a> {
    /// As it was entered.
    pub(crate) seen: &'a Observation,
    /// As its law takes it.
    pub(crate) taken: Seen,
    pub(crate) law: ObservationLaw,
    pub(crate) modelled: Modelled,
}

/// What of a trial weighs the draws, and what does not with the reason.
pub(crate) type ObservationSplit<'a> = (
    Vec<WeighingObservation<'a>>,
    Vec<(&'a Observation, NotCounted)>,
);

/// Sorts what was seen in a trial of a size.
pub(crate) fn sorted<'a>(setting: &Setting, trial: &'a Trial, size: &Size) -> ObservationSplit<'a> {
    let (mut counted, mut rest) = (Vec::new(), Vec::new());
    let procedure = &setting.case().procedure;
    for seen in &trial.seen {
        match whether(setting, procedure, trial, size, seen) {
            Ok(one) => counted.push(one),
            Err(why) => rest.push((seen, why)),
        }
    }
    (counted, rest)
}

fn whether<'a>(
    setting: &Setting,
    procedure: &Procedure,
    trial: &Trial,
    size: &Size,
    seen: &'a Observation,
) -> Result<WeighingObservation<'a>, NotCounted> {
    if let Some(why) = &seen.set_aside {
        return Err(NotCounted::SetAside(why.clone()));
    }
    if !seen.what.is_weighed() {
        return Err(NotCounted::SaysNothing);
    }
    if !seen.seen.is_told() {
        return Err(NotCounted::CannotTell);
    }
    if trial.seat_as_modelled == Answer::No {
        return Err(NotCounted::OtherSeat);
    }
    if trial.is_pulled() && seen.what.is_spoilt_by_a_pull() {
        return Err(NotCounted::Pulled);
    }
    let slipped = trial.last_seen(ObservationKind::Slips, Subject::Shape);
    let has_slipped = slipped.is_some_and(|one| one.seen == Seen::Answer(Answer::Yes));
    if has_slipped && seen.what != ObservationKind::Slips {
        return Err(NotCounted::Slipped);
    }
    if is_told_otherwise(trial, seen) {
        return Err(NotCounted::Twice);
    }
    let mut rows = setting.rules().observations.iter();
    let row = rows.find(|row| row.what == seen.what);
    let law = row.ok_or(NotCounted::NoLaw)?.law.with_sd(seen.sd);
    let before = procedure.before(seen.what, seen.of);
    let taken = law.taken(seen.seen, before).ok_or(NotCounted::CannotTell)?;
    Ok(WeighingObservation {
        seen,
        taken,
        law,
        modelled: Modelled::of(setting, size, (seen.what, seen.of, seen.clock_position))?,
    })
}

/// Three looks at how far a device is from one valve: the first of them that says
/// something counts.
const OF_ONE_VALVE: [ObservationKind; 3] = [
    ObservationKind::Distance,
    ObservationKind::Touches,
    ObservationKind::Regurgitation,
];

/// Whether a later look at the same thing, or a better one, counts in the place of this.
fn is_told_otherwise(trial: &Trial, seen: &Observation) -> bool {
    let last = trial.last_seen(seen.what, seen.of);
    if last.is_some_and(|last| last.id != seen.id) {
        return true;
    }
    let better = OF_ONE_VALVE.iter().take_while(|&&kind| kind != seen.what);
    OF_ONE_VALVE.contains(&seen.what)
        && better
            .into_iter()
            .any(|&kind| trial.last_seen(kind, seen.of).is_some())
}
