use crate::looks::Looks;
use crate::page::{Focus, Page};
use crate::per_panel::{PerPanel, VisibleLines};
use crate::trial_row::{Pick, TrialRow};
use measurement::Modality;
use sizing::growth::Body;

/// Where the operator is: nothing of it is saved or undone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    /// The panel that takes keys.
    pub focus: Focus,
    /// The index of the selected line of each panel, or of the selected bay.
    pub selected: PerPanel,
    /// Whether the list of readings is opened over a bay where it has no column of its
    /// own; otherwise its selected line alone is seen.
    pub readings_are_open: bool,
    /// The selected candidate of the ranked list, by its place on the shelf;
    /// `None`: whichever stands first.
    pub ranked: Option<usize>,
    /// The selected column and row of the fit map; `None`: the nearest to what
    /// would fit.
    pub cell: Option<(usize, usize)>,
    /// The waist and the overhang at which the map is read while no cell is selected, in
    /// millimetres; `None`: where the chance is highest.
    pub map_at: Option<(f64, f64)>,
    /// The selected row of what is written before a procedure; `None`: the first. It
    /// is no index, for rows come in while a key is pressed.
    pub before: Option<TrialRow>,
    /// The selected row of the trials; `None`: the first.
    pub trial: Option<TrialRow>,
    /// The selected row of the follow-up; `None`: the first.
    pub later: Option<TrialRow>,
    /// The day after the procedure that is looked at; `None`: the next of the schedule.
    pub day: Option<u32>,
    /// The grown child that a device is shown in; `None`: nobody said.
    pub grown: Option<Body>,
    /// What a row of the page of trials offers, not confirmed yet.
    pub pick: Option<(TrialRow, Pick)>,
    /// Puncture by the program's own minutes; `None`: nobody said.
    pub puncture: Option<f64>,
    /// By what the open device is looked at; `None`: nobody said.
    pub observer: Option<Modality>,
    /// How the screen looks.
    pub looks: Looks,
    /// How many lines of each list are visible.
    pub visible: VisibleLines,
}

impl View {
    /// Selects a row of a panel of the page of trials; `None`: the first.
    pub(crate) fn select_trial_row(&mut self, focus: Focus, row: Option<TrialRow>) {
        match focus {
            Focus::Before => self.before = row,
            Focus::FollowUp => self.later = row,
            _ => self.trial = row,
        }
    }

    /// Whether the plan is shown large and in few words: its readings are not, and
    /// no key may change what nobody sees.
    pub const fn is_presented(&self) -> bool {
        self.looks.is_presented && matches!(self.focus.page(), Page::Plan)
    }

    /// Whether the list of readings is seen though it has no column of its own.
    pub const fn lists_readings(&self) -> bool {
        matches!(self.focus, Focus::Readings) && self.readings_are_open
    }

    /// Shows the plan large and in few words, or its panels again.
    pub(crate) const fn present(&mut self, is_presented: bool) {
        self.looks.is_presented = is_presented;
        if is_presented && matches!(self.focus, Focus::Readings) {
            self.focus = Focus::Bays;
        }
    }

    /// Gives the keys to the next panel of the page that is shown.
    pub(crate) const fn next_panel(&mut self) {
        let is_folded = self.visible.readings_lie_over && !self.readings_are_open;
        if is_folded && matches!(self.focus, Focus::Readings) {
            self.readings_are_open = true;
            return;
        }
        self.readings_are_open = false;
        self.focus = self.focus.next();
        if self.is_presented() && matches!(self.focus, Focus::Readings) {
            self.focus = Focus::Bays;
        }
    }

    /// Gives the keys to the panel before, of those of the page that are shown.
    pub(crate) const fn previous_panel(&mut self) {
        self.focus = self.focus.previous();
        if self.is_presented() && matches!(self.focus, Focus::Readings) {
            self.focus = Focus::Ranking;
        }
    }

    /// Shows a page.
    pub(crate) const fn show(&mut self, page: Page) {
        self.readings_are_open = false;
        self.focus = page.first_panel();
        self.present(self.looks.is_presented);
    }

    /// Gives the keys to the readings, which are shown again.
    pub(crate) const fn show_readings(&mut self) {
        self.looks.is_presented = false;
        self.readings_are_open = true;
        self.focus = Focus::Readings;
    }
}
