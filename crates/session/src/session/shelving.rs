use super::Session;
use crate::bay::pinned_on;
use crate::effect::Effect;
use crate::errand::Errand;
use crate::{Change, Edit, Focus, Shelf, ShelfRow};
use sizing::{Candidate, Catalogue};

impl Session {
    /// The lines of the shelf: every shape, and under it every size.
    pub fn shelf_rows(&self) -> Vec<ShelfRow> {
        self.document.shelf.rows()
    }

    /// The selected line of the shelf.
    pub fn shelf_row(&self) -> Option<ShelfRow> {
        let rows = self.shelf_rows();
        let last = rows.len().checked_sub(1)?;
        rows.into_iter()
            .nth(self.view.selected[Focus::Shelf].min(last))
    }

    /// The edit by which the shelf becomes another one.
    pub(crate) fn reshelved(&self, shelf: Shelf, called: String) -> Edit {
        let bays = pinned_on(&self.document.shelf, &shelf, &self.document.bays);
        Edit::Shelf {
            shelf,
            bays,
            called,
        }
    }

    /// Puts another catalogue of the user's own in place of this one; undo brings
    /// this one back.
    pub(super) fn exchange_own_shapes(&mut self, own: Catalogue, called: String) {
        let shelf = self.document.shelf.with_own(own);
        let change = Change::Edit(self.reshelved(shelf, called));
        if let Ok(Some(status)) = self.perform(change) {
            self.status = Some(status);
        }
    }

    /// Brings what depends on the shelf in line with it. What was said of other
    /// places is forgotten; what is only put aside keeps its place.
    pub(super) fn follow_shelf(&mut self) {
        let keep = Errand::KeepShelf { over: false };
        self.outbox.push(Effect::File(keep));
        self.results.outdate();
        let names: Vec<String> = self.document.shelf.names().collect();
        let is_as_before = self.results.assessed().is_none_or(|assessed| {
            let candidates = &assessed.ranking.candidates;
            let is_there = |one: &Candidate| names.get(one.place) == Some(&one.name());
            candidates.len() == names.len() && candidates.iter().all(is_there)
        });
        if !is_as_before {
            self.results.forget();
            self.view.ranked = None;
        }
        self.keep_to_bays();
    }
}
