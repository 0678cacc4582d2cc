use super::Model;
use crate::trial_row::TrialRow;
use sizing::growth::{Growth, GrowthError, grow};
use sizing::trial::{FollowUp, Visit, schedule};
use sizing::{Candidate, Subject, Turn};

/// The rows of the follow-up, and what stands beside them.
impl Model {
    /// The days of your centre's schedule up to the day that is looked at, with what is
    /// due on each; empty before a device was released.
    pub fn visits(&self) -> Vec<Visit> {
        let last = self.document.case().procedure.last_day();
        let looked_at = self.view.day.map(f64::from);
        let today = last.into_iter().chain(looked_at).fold(0.0, f64::max);
        schedule(&self.setting, today)
    }

    /// The day after the procedure that is looked at: as it was said; otherwise the last
    /// one seen while something due on it is left, then the next of the schedule.
    pub fn day(&self) -> Option<u32> {
        let procedure = &self.document.case().procedure;
        procedure.released()?;
        if self.view.day.is_some() {
            return self.view.day;
        }
        let visits = self.visits();
        let last = procedure.last_day();
        let is_left = |day: &f64| {
            let visit = nearest(&visits, *day);
            visit.is_some_and(|visit| visit.not_done().next().is_some())
        };
        let whole = |day: f64| measurement::whole(0..u16::MAX, day).map(u32::from);
        let last = last.filter(is_left).and_then(whole);
        last.or_else(|| visits.last().map(|visit| visit.day))
            .or(Some(0))
    }

    /// What was seen on the day that is looked at.
    pub fn seen_on_day(&self) -> Option<&FollowUp> {
        let day = f64::from(self.day()?);
        let mut days = self.document.case().procedure.follow_up.iter();
        days.find(|one| one.day.total_cmp(&day).is_eq())
    }

    /// The day of the schedule that the day looked at serves: the nearest.
    pub fn visit_of_day(&self) -> Option<Visit> {
        nearest(&self.visits(), f64::from(self.day()?)).cloned()
    }

    /// The rows of the follow-up: the day, what is due on it, what else can be looked at,
    /// the schedule, growth.
    pub(super) fn follow_up_rows(&self) -> Vec<TrialRow> {
        let mut rows = Vec::new();
        if self.day().is_some() {
            rows.push(TrialRow::Day);
            let visit = self.visit_of_day();
            let due = visit.iter().flat_map(|visit| &visit.due);
            rows.extend(due.map(|due| TrialRow::Later(due.what, due.of)));
            let seen = self.seen_on_day().into_iter().flat_map(|day| &day.seen);
            let seen = seen.map(|one| TrialRow::Later(one.what, one.of));
            for row in seen.chain(self.on_schedule()) {
                if !rows.contains(&row) {
                    rows.push(row);
                }
            }
            rows.extend(self.visits().iter().map(|visit| TrialRow::Visit(visit.day)));
        }
        rows.push(TrialRow::Grown);
        rows
    }

    /// Everything that the schedule has at the site of the case, due or not.
    fn on_schedule(&self) -> Vec<TrialRow> {
        let case = self.document.case();
        let is_there = |of: Subject| {
            of.valve()
                .is_none_or(|valve| !case.is_absent(sizing::Neighbour::Valve(valve)))
        };
        let rows = self.setting.rules().schedule.iter();
        let rows = rows.filter(|row| row.is_of(case.site));
        let each = rows.flat_map(|row| {
            let of = Subject::ALL.into_iter().filter(|&of| {
                row.what.can_be_of(of)
                    && is_there(of)
                    && (row.of.is_empty() || row.of.contains(&of))
            });
            of.map(|of| TrialRow::Later(row.what, of))
        });
        each.collect()
    }

    /// The released device, or the first of the list, in the grown child; `None` where
    /// nobody said how the child has grown, or there is no size.
    pub fn growth(&self) -> Option<(String, Result<Growth, GrowthError>)> {
        let then = self.view.grown?;
        let setting = self.believed();
        let shelf = self.document.shelf();
        let released = self.document.case().procedure.released();
        let (name, turn) = if let Some(trial) = released {
            let turn = trial.rotation_deg.map(geometry::degrees);
            (trial.size.clone(), turn)
        } else {
            let first = self.results.assessed()?.ranking.on_shelf().next()?;
            (first.name(), Some(first.turn))
        };
        let place = shelf.place(&name)?;
        let (shape, size) = shelf.at(place)?;
        let turn = turn.unwrap_or_else(|| {
            Candidate::assess(setting, (place, shape, size), Turn::Best, None).turn
        });
        let growth = grow(setting, size, turn, then);
        Some((name, growth))
    }
}

/// The day of a schedule that is nearest to a day; of two alike the later.
fn nearest(visits: &[Visit], day: f64) -> Option<&Visit> {
    let off = |visit: &Visit| (f64::from(visit.day) - day).abs();
    let each = visits.iter().rev();
    each.min_by(|one, other| off(one).total_cmp(&off(other)))
}
