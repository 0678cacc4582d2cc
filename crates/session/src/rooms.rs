use crate::page::Focus;

/// How many lines of each list the screen shows: what a page of it is. The screen
/// says so after it drew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rooms {
    /// Readings.
    pub readings: usize,
    /// Ranked candidates.
    pub ranking: usize,
    /// Lines of the doubts.
    pub doubt: usize,
    /// Lines of the work-up.
    pub work_up: usize,
    /// Rules of the house.
    pub rules: usize,
    /// Lines of the shelf.
    pub shelf: usize,
    /// Lines of the list that lies over the panels.
    pub overlay: usize,
}

impl Default for Rooms {
    /// Before anything was drawn.
    fn default() -> Self {
        const USUAL: usize = 10;
        Self {
            readings: USUAL,
            ranking: USUAL,
            doubt: USUAL,
            work_up: USUAL,
            rules: USUAL,
            shelf: USUAL,
            overlay: USUAL,
        }
    }
}

impl Rooms {
    /// A page of the list that takes keys.
    pub(crate) const fn page(self, focus: Focus) -> usize {
        match focus {
            Focus::Readings => self.readings,
            Focus::Bays | Focus::Ranking => self.ranking,
            Focus::Doubt => self.doubt,
            Focus::WorkUp => self.work_up,
            Focus::Rules => self.rules,
            Focus::Shelf => self.shelf,
            // The map is no list.
            Focus::FitMap => 1,
        }
    }
}
