use crate::Focus;

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
    /// The shapes and sizes there are, and what is not on the shelf today.
    Shelf,
}

impl Page {
    /// Every page, in the order of their keys.
    pub const ALL: [Self; 6] = [
        Self::Plan,
        Self::Doubt,
        Self::FitMap,
        Self::WorkUp,
        Self::Rules,
        Self::Shelf,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Doubt => "doubt",
            Self::FitMap => "fit map",
            Self::WorkUp => "work-up",
            Self::Rules => "rules",
            Self::Shelf => "shelf",
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
        }
    }
}
