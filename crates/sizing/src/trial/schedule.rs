//! What your centre looks at after a device was released, and what of it was seen.

use crate::house_rules::ScheduleRow;
use crate::procedure::{Observation, ObservationKind, Procedure, Seen};
use crate::{Neighbour, Setting, Subject};
use geometry::Face;

/// One day of the schedule with what is due on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Visit {
    /// Days after the procedure.
    pub day: u32,
    /// What is due, in the order of the rules.
    pub due: Vec<Due>,
}

/// One thing that is due on a day of the schedule.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// What is looked at.
    pub what: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// Whether it was seen, on a day nearer to this one than to its next or last.
    pub is_seen: bool,
}

impl Visit {
    /// What is due and was not seen.
    pub fn not_done(&self) -> impl Iterator<Item = &Due> {
        self.due.iter().filter(|due| !due.is_seen)
    }
}

impl Due {
    /// What is looked at, with its subject: "regurgitation, aortic valve".
    pub fn name(&self) -> String {
        self.what.name_of(self.of)
    }
}

/// Something seen after the procedure that is worse than at the release, or than before
/// where nobody looked at the release.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deterioration<'a> {
    /// The day after the procedure.
    pub day: f64,
    /// What was seen then.
    pub seen: &'a Observation,
    /// What it was.
    pub was: Seen,
}

impl Deterioration<'_> {
    /// It in words: "day 190: regurgitation, aortic valve: mild, none at release".
    pub fn says(&self) -> String {
        let what = self.seen.what;
        format!(
            "day {}: {}: {}, {} at release",
            self.day,
            what.name_of(self.seen.of),
            self.seen.seen.says(what),
            self.was.says(what)
        )
    }
}

/// All that is worse than at the release, day after day.
pub fn worse_than_at_release(procedure: &Procedure) -> Vec<Deterioration<'_>> {
    let Some(released) = procedure.released() else {
        return Vec::new();
    };
    let days = procedure.follow_up.iter();
    let each = days.flat_map(|one| one.seen.iter().map(move |seen| (one.day, seen)));
    let counted = each.filter(|(_, seen)| seen.set_aside.is_none());
    let worse = counted.filter_map(|(day, seen)| {
        let at_release = released.last_seen(seen.what, seen.of).map(|one| one.seen);
        let was = at_release.or_else(|| procedure.before(seen.what, seen.of))?;
        let order = seen.seen.against(was)?;
        let is_worse = if seen.what.is_worse_below() {
            order.is_lt()
        } else {
            order.is_gt()
        };
        is_worse.then_some(Deterioration { day, seen, was })
    });
    worse.collect()
}

/// What follow-up says of a case, in sentences: what is worse than at the release, and
/// what your centre's schedule had that was not done up to the last day seen.
pub fn follow_up_says(setting: &Setting) -> Vec<String> {
    let procedure = &setting.case().procedure;
    let Some(last) = procedure.last_day() else {
        return Vec::new();
    };
    let worse = worse_than_at_release(procedure);
    let mut says: Vec<String> = worse
        .iter()
        .map(|one| format!("Worse than at release, {}", one.says()))
        .collect();
    let visits = schedule(setting, last);
    let past = visits.iter().filter(|visit| f64::from(visit.day) <= last);
    says.extend(past.filter_map(|visit| {
        let missing: Vec<String> = visit.not_done().map(Due::name).collect();
        let day = visit.day;
        (!missing.is_empty()).then(|| format!("Not done for day {day}: {}", missing.join("; ")))
    }));
    says
}

/// Whether a jet was seen with the released device, or later.
fn has_jet(procedure: &Procedure) -> bool {
    let of_trial = procedure.released().map(|trial| &trial.seen);
    let later = procedure.follow_up.iter().map(|day| &day.seen);
    let mut all = of_trial.into_iter().chain(later).flatten();
    all.any(|one| one.set_aside.is_none() && is_jet(one))
}

/// Whether something was seen on a day whose nearest of some days is this one.
fn is_seen_about(
    procedure: &Procedure,
    (what, of): (ObservationKind, Subject),
    day: u32,
    all: &[u32],
) -> bool {
    let days = procedure.follow_up.iter();
    let mut days = days.filter(|one| nearest(all, one.day) == Some(day));
    days.any(|one| {
        let mut seen = one.seen.iter();
        seen.any(|it| it.what == what && it.of == of && it.set_aside.is_none() && it.seen.is_told())
    })
}

fn is_jet(one: &Observation) -> bool {
    match (one.what, one.seen) {
        (ObservationKind::EdgeJet, Seen::Value(width)) => width > 0.0,
        (ObservationKind::WeaveJet, Seen::Answer(answer)) => answer == crate::Answer::Yes,
        _ => false,
    }
}

/// The day of a schedule that is nearest to a day; of two alike the later.
fn nearest(all: &[u32], day: f64) -> Option<u32> {
    let off = |one: u32| (f64::from(one) - day).abs();
    let mut days = all.iter().copied();
    let first = days.next()?;
    Some(days.fold(
        first,
        |best, one| {
            if off(one) <= off(best) { one } else { best }
        },
    ))
}

/// The days of your centre's schedule for a case, up to a day and the first after it.
/// Nothing is due before a device was released.
pub fn schedule(setting: &Setting, today: f64) -> Vec<Visit> {
    let case = setting.case();
    let procedure = &case.procedure;
    if procedure.released().is_none() {
        return Vec::new();
    }
    let rows = setting.rules().schedule.iter();
    let has_jet = has_jet(procedure);
    let rows = rows.filter(|row| row.is_of(case.site) && (has_jet || !row.if_jet));
    let mut visits: Vec<Visit> = Vec::new();
    for row in rows {
        let days = row.days_to(today);
        for of in subjects(setting, row) {
            for &day in &days {
                let due = Due {
                    what: row.what,
                    of,
                    is_seen: is_seen_about(procedure, (row.what, of), day, &days),
                };
                match visits.iter_mut().find(|visit| visit.day == day) {
                    Some(visit) => visit.due.push(due),
                    None => visits.push(Visit {
                        day,
                        due: vec![due],
                    }),
                }
            }
        }
    }
    visits.sort_by_key(|visit| visit.day);
    // Of what comes after today the next day alone.
    let past = visits
        .iter()
        .filter(|visit| f64::from(visit.day) <= today)
        .count();
    visits.truncate(past + 1);
    visits
}

/// The subjects of a row that are there in a case.
fn subjects(setting: &Setting, row: &ScheduleRow) -> Vec<Subject> {
    let case = setting.case();
    let is_there = |of: Subject| match of {
        Subject::Valve(valve) => !case.is_absent(Neighbour::Valve(valve)),
        Subject::Face(Face::Left) => !case.is_absent(Neighbour::LeftOutflow),
        Subject::Face(Face::Right) => !case.is_absent(Neighbour::RightOutflow),
        _ => true,
    };
    let all = Subject::ALL.into_iter();
    all.filter(|&of| row.what.can_be_of(of) && is_there(of))
        .filter(|of| row.of.is_empty() || row.of.contains(of))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_day_serves_the_nearest_of_the_schedule() {
        let days = [1, 7, 30, 180, 365];
        assert_eq!(nearest(&days, 2.0), Some(1));
        assert_eq!(nearest(&days, 4.0), Some(7));
        assert_eq!(nearest(&days, 34.0), Some(30));
        assert_eq!(nearest(&days, 300.0), Some(365));
        assert_eq!(nearest(&[], 1.0), None);
    }
}
