use crate::Change;
use crate::Session;
use crate::effect::Effect;
use crate::errand::Errand;
use sizing::{Candidate, Catalogue};

impl Session {
    /// Puts another catalogue of the user's own in place of this one; undo brings
    /// this one back.
    pub(super) fn exchange_own_shapes(&mut self, own: Catalogue, called: String) {
        let shelf = self.model.document.shelf.with_own(own);
        let change = Change::Edit(self.reshelved(shelf, called));
        if let Ok(Some(status)) = self.perform(change) {
            self.model.status = Some(status);
        }
    }

    /// Brings what depends on the shelf in line with it. What was said of other
    /// places is forgotten; what is only put aside keeps its place.
    pub(super) fn follow_shelf(&mut self) {
        let keep = Errand::KeepShelf { over: false };
        self.outbox.push(Effect::File(keep));
        self.model.results.outdate();
        let names: Vec<String> = self.model.document.shelf.names().collect();
        let is_as_before = self.model.results.assessed().is_none_or(|assessed| {
            let candidates = &assessed.ranking.candidates;
            let is_there = |one: &Candidate| names.get(one.place) == Some(&one.name());
            candidates.len() == names.len() && candidates.iter().all(is_there)
        });
        if !is_as_before {
            self.model.results.forget();
            self.model.view.ranked = None;
        }
        self.keep_to_bays();
    }
}
