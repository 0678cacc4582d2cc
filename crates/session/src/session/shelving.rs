use super::Session;
use crate::{Edit, Shelf, ShelfRow};
use sizing::Candidate;

impl Session {
    /// The lines of the shelf: every shape, and under it every size.
    pub fn shelf_rows(&self) -> Vec<ShelfRow> {
        self.document.shelf.rows()
    }

    /// The selected line of the shelf.
    pub fn shelf_row(&self) -> Option<ShelfRow> {
        let rows = self.shelf_rows();
        let last = rows.len().checked_sub(1)?;
        rows.into_iter().nth(self.view.shelf.min(last))
    }

    /// The edit by which the shelf becomes another one.
    pub(crate) fn reshelved(&self, shelf: Shelf, called: String) -> Edit {
        let bays = self.document.shelf.pinned_on(&shelf, &self.document.bays);
        Edit::Shelf {
            shelf,
            bays,
            called,
        }
    }

    /// Whether the user's own catalogue was changed, once.
    pub(crate) const fn take_shelf_changed(&mut self) -> bool {
        std::mem::replace(&mut self.is_shelf_changed, false)
    }

    /// Brings what depends on the shelf in line with it. What was said of other
    /// places is forgotten; what is only put aside keeps its place.
    pub(super) fn follow_shelf(&mut self) {
        self.is_shelf_changed = true;
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
        self.view.bay = self.nearest_bay(self.view.bay);
    }
}
