use crate::overlay::Overlay;

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
    /// What lies over the panels, the topmost last.
    pub overlays: Vec<Overlay>,
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
}

impl Focus {
    /// Every panel, in the order in which Tab visits them.
    pub const ALL: [Self; 3] = [Self::Readings, Self::Bays, Self::Ranking];

    /// The next panel.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Readings => Self::Bays,
            Self::Bays => Self::Ranking,
            Self::Ranking => Self::Readings,
        }
    }

    /// The panel before.
    #[must_use]
    pub const fn previous(self) -> Self {
        self.next().next()
    }
}
