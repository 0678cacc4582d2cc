use super::files::NudgeRow;
use crate::model::{PlannedOn, Status};
use crate::worker::ForecastResult;
use crate::{Edit, Focus, Session};
use files::Source;
use sizing::trial::Moment;
use std::sync::Arc;
use std::time::Duration;

/// What follows a step of a procedure, and what its criteria are written on.
impl Session {
    /// The session with the texts that criteria are written on, beside the case and the
    /// rules: the catalogues in their order with the user's own last, the guidance.
    #[must_use]
    pub fn with_sources(
        mut self,
        catalogues: Vec<Source>,
        own: Option<Source>,
        guidance: Source,
    ) -> Self {
        self.model.planned = PlannedOn {
            catalogues: catalogues.into(),
            own: own.map(Arc::new),
            guidance: Some(Arc::new(guidance)),
            now: None,
        };
        self.note_plan();
        self
    }

    /// Works out what criteria would be written on now, where there are some.
    pub(super) fn note_plan(&mut self) {
        let has_criteria = self.document.case.procedure.planned_on.is_some();
        self.model.planned.now = has_criteria.then(|| self.planned_on());
    }

    /// Takes the text of the user's own catalogue as it is kept now.
    pub(super) fn own_is_kept(&mut self, source: Source) {
        self.model.planned.own = Some(Arc::new(source));
        self.note_plan();
    }

    /// Takes how long the program has run.
    pub(super) const fn tick(&mut self, now: Duration) {
        self.model.clock = now;
    }

    /// Selects the row of a step that was made, or the one after it.
    pub(super) fn follow_procedure(&mut self, edit: &Edit, is_new: bool) {
        let Edit::Procedure { row, .. } = edit else {
            return;
        };
        self.model.view.pick = None;
        for &focus in Focus::OF_TRIALS {
            let rows = self.trial_rows(focus);
            let Some(place) = rows.iter().position(|one| one == row) else {
                continue;
            };
            let next = (place + usize::from(is_new)).min(rows.len() - 1);
            let selected = rows.into_iter().nth(next);
            self.model.view.select_trial_row(focus, selected);
            return;
        }
        // An opened size is no row any more, nor is what came of a closed one.
        self.model.view.trial = None;
    }

    /// How many trials there are, and which is open.
    pub(super) fn deployed(&self) -> (usize, Option<String>) {
        let procedure = &self.document.case.procedure;
        let open = procedure.open().map(|trial| trial.id.clone());
        (procedure.trials.len(), open)
    }

    /// Asks for the forecast of a trial that a step opened or closed, and for none that a
    /// step took back.
    pub(super) fn ask_forecasts(&mut self, edit: &Edit, before: (usize, Option<String>)) {
        let (count, open) = before;
        let mut asked = std::mem::take(&mut self.model.foretell);
        if matches!(edit, Edit::Case { .. }) {
            return;
        }
        let trials = &self.document.case.procedure.trials;
        let new = trials.iter().skip(count);
        asked.extend(new.map(|trial| (trial.id.clone(), Moment::Opened)));
        asked.extend(open.map(|id| (id, Moment::Closed)));
        asked.retain(|(id, moment)| {
            let mut trials = trials.iter();
            trials.any(|trial| {
                let is_left = match moment {
                    Moment::Opened => trial.forecast.opened.is_none(),
                    Moment::Closed => trial.came_of_it.is_some() && trial.forecast.closed.is_none(),
                };
                trial.id == *id && is_left
            })
        });
        asked.dedup();
        self.model.foretell = asked;
    }

    /// Freezes what is foretold of a trial in the case. It is no step to undo: undoing the
    /// opening or the closing drops it.
    pub(super) fn freeze(&mut self, foretold: &ForecastResult) {
        let ForecastResult {
            generation,
            trial,
            moment,
            forecast,
        } = foretold;
        // How a device lies hangs on all that was seen; how it was to lie does not.
        let is_old = *generation < self.model.results.generation();
        let asked = |(id, when): &(String, Moment)| id == trial && when == moment;
        if (*moment == Moment::Closed && is_old) || !self.model.foretell.iter().any(asked) {
            return;
        }
        self.model.foretell.retain(|one| !asked(one));
        let mut trials = self.model.document.case_mut().procedure.trials.iter_mut();
        let Some(there) = trials.find(|one| one.id == *trial) else {
            return;
        };
        let kept = match moment {
            Moment::Opened => &mut there.forecast.opened,
            Moment::Closed => &mut there.forecast.closed,
        };
        *kept = Some(forecast.clone());
        let called = format!("forecast kept with {trial}");
        self.confirm(&Status::Done(called), NudgeRow::None);
    }
}
