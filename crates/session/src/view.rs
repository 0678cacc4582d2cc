use crate::overlay::Overlay;
use crate::{Looks, Page, Rooms};

/// Where the operator is: nothing of it is saved or undone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct View {
    /// The panel that takes keys.
    pub focus: Focus,
    /// The selected line of the readings.
    pub row: usize,
    /// The selected bay.
    pub bay: usize,
    /// The selected candidate of the ranked list, by its place on the shelf;
    /// `None`: whichever stands first.
    pub ranked: Option<usize>,
    /// The selected line of the doubts.
    pub doubt: usize,
    /// The selected column and row of the fit map; `None`: the nearest to what
    /// would fit.
    pub cell: Option<(usize, usize)>,
    /// The selected line of the work-up.
    pub work_up: usize,
    /// The selected rule of the house.
    pub rule: usize,
    /// The selected line of the shelf, from 0.
    pub shelf: usize,
    /// How the screen looks.
    pub looks: Looks,
    /// How many lines of each list are seen.
    pub rooms: Rooms,
    /// What lies over the panels, the topmost last.
    pub overlays: Vec<Overlay>,
}

impl View {
    /// Whether the plan is shown large and in few words: its readings are not, and
    /// no key may change what nobody sees.
    pub const fn is_presented(&self) -> bool {
        self.looks.is_presented && matches!(self.focus.page(), Page::Plan)
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
        self.focus = page.first_panel();
        self.present(self.looks.is_presented);
    }

    /// Gives the keys to the readings, which are shown again.
    pub(crate) const fn show_readings(&mut self) {
        self.looks.is_presented = false;
        self.focus = Focus::Readings;
    }
}

/// A panel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Focus {
    /// The readings of the case.
    #[default]
    Readings,
    /// The pinned candidates.
    Bays,
    /// The ranked list.
    Ranking,
    /// What is doubtful.
    Doubt,
    /// The fit map.
    FitMap,
    /// The work-up.
    WorkUp,
    /// The rules of the house.
    Rules,
    /// The shelf.
    Shelf,
}

impl Focus {
    /// The panel's name, as its heading has it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Readings => "readings",
            Self::Bays => "side by side",
            Self::Ranking => "ranked",
            Self::Doubt => "doubt",
            Self::FitMap => "fit map",
            Self::WorkUp => "work-up",
            Self::Rules => "rules",
            Self::Shelf => "shelf",
        }
    }

    /// Every panel, page by page, in the order in which Tab visits them.
    pub const ALL: [Self; 8] = [
        Self::Readings,
        Self::Bays,
        Self::Ranking,
        Self::Doubt,
        Self::FitMap,
        Self::WorkUp,
        Self::Rules,
        Self::Shelf,
    ];

    /// The panels of the plan.
    pub const PLAN: &'static [Self] = &[Self::Readings, Self::Bays, Self::Ranking];

    /// The page on which it stands.
    pub const fn page(self) -> Page {
        match self {
            Self::Readings | Self::Bays | Self::Ranking => Page::Plan,
            Self::Doubt => Page::Doubt,
            Self::FitMap => Page::FitMap,
            Self::WorkUp => Page::WorkUp,
            Self::Rules => Page::Rules,
            Self::Shelf => Page::Shelf,
        }
    }

    /// The next panel of its page.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Readings => Self::Bays,
            Self::Bays => Self::Ranking,
            Self::Ranking => Self::Readings,
            only => only,
        }
    }

    /// The panel before, of its page.
    #[must_use]
    pub const fn previous(self) -> Self {
        self.next().next()
    }
}
