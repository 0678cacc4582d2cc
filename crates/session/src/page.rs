/// A page: what stands on the screen at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// Readings, candidates side by side and the ranked list.
    #[default]
    Plan,
    /// How sure the answer is, and what would change it.
    Doubt,
    /// What would fit, whether anyone makes it or not.
    FitMap,
    /// Whether the defect is the cause, and what is still unmeasured.
    WorkUp,
    /// The rules of the house with their sources.
    Rules,
    /// The shapes and sizes there are, and what is not in stock today.
    Shelf,
    /// What is seen when a size is opened, against what was written before.
    Trials,
}

impl Page {
    /// Every page, in the order of their keys.
    pub const ALL: [Self; 7] = [
        Self::Plan,
        Self::Doubt,
        Self::FitMap,
        Self::WorkUp,
        Self::Rules,
        Self::Shelf,
        Self::Trials,
    ];

    /// The name of the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Doubt => "doubt",
            Self::FitMap => "fit map",
            Self::WorkUp => "work-up",
            Self::Rules => "rules",
            Self::Shelf => "stock",
            Self::Trials => "trials",
        }
    }

    /// The command that shows it.
    pub const fn command(self) -> &'static str {
        match self {
            Self::Plan => "plan_page",
            Self::Doubt => "doubt_page",
            Self::FitMap => "fit_map_page",
            Self::WorkUp => "work_up_page",
            Self::Rules => "rules_page",
            Self::Shelf => "shelf_page",
            Self::Trials => "trials_page",
        }
    }

    /// The panel that takes keys when it is shown.
    pub(crate) const fn first_panel(self) -> Focus {
        match self {
            Self::Plan => Focus::Readings,
            Self::Doubt => Focus::Doubt,
            Self::FitMap => Focus::FitMap,
            Self::WorkUp => Focus::WorkUp,
            Self::Rules => Focus::Rules,
            Self::Shelf => Focus::Shelf,
            Self::Trials => Focus::Trials,
        }
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
    /// What is written before a procedure: criteria, what was there, the room.
    Before,
    /// Deployments and what is seen in them.
    Trials,
    /// What was seen after the procedure, and the child once it has grown.
    FollowUp,
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
            Self::Shelf => "stock",
            Self::Before => "before",
            Self::Trials => "trials",
            Self::FollowUp => "follow-up",
        }
    }

    /// Every panel, page by page, in the order in which Tab visits them.
    pub const ALL: [Self; 11] = [
        Self::Readings,
        Self::Bays,
        Self::Ranking,
        Self::Doubt,
        Self::FitMap,
        Self::WorkUp,
        Self::Rules,
        Self::Shelf,
        Self::Before,
        Self::Trials,
        Self::FollowUp,
    ];

    /// The panels that are lists: pages of them are turned, and their ends gone to.
    pub(crate) const LISTS: &'static [Self] = &[
        Self::Readings,
        Self::Ranking,
        Self::Doubt,
        Self::WorkUp,
        Self::Rules,
        Self::Shelf,
        Self::Before,
        Self::Trials,
        Self::FollowUp,
    ];

    /// The panels of the plan.
    pub const PLAN: &'static [Self] = &[Self::Readings, Self::Bays, Self::Ranking];

    /// The panels of the page of trials.
    pub const OF_TRIALS: &'static [Self] = &[Self::Before, Self::Trials, Self::FollowUp];

    /// The page on which it stands.
    pub const fn page(self) -> Page {
        match self {
            Self::Readings | Self::Bays | Self::Ranking => Page::Plan,
            Self::Doubt => Page::Doubt,
            Self::FitMap => Page::FitMap,
            Self::WorkUp => Page::WorkUp,
            Self::Rules => Page::Rules,
            Self::Shelf => Page::Shelf,
            Self::Before | Self::Trials | Self::FollowUp => Page::Trials,
        }
    }

    /// The next panel of its page.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Readings => Self::Bays,
            Self::Bays => Self::Ranking,
            Self::Ranking => Self::Readings,
            Self::Before => Self::Trials,
            Self::Trials => Self::FollowUp,
            Self::FollowUp => Self::Before,
            only => only,
        }
    }

    /// The panel before, of its page.
    #[must_use]
    pub(crate) const fn previous(self) -> Self {
        self.next().next()
    }
}
