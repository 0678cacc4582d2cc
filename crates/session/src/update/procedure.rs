use crate::model::PlannedOn;
use crate::{Edit, Focus, Session};
use files::Source;
use std::sync::Arc;
use std::time::Duration;

/// What follows a step of a procedure, and what its criteria are written on.
impl Session {
    /// The session with the texts that criteria are written on, beside the case: the
    /// rules, the catalogues in their order with the user's own last, the guidance.
    #[must_use]
    pub fn with_sources(
        mut self,
        rules: Source,
        catalogues: Vec<Source>,
        own: Option<Source>,
        guidance: Source,
    ) -> Self {
        self.model.planned = PlannedOn {
            rules: Some(Arc::new(rules)),
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
}
