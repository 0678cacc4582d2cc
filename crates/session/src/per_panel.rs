use crate::page::Focus;
use std::ops::{Index, IndexMut};

/// A number for each panel, such as the index of its selected line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PerPanel([usize; Focus::ALL.len()]);

impl PerPanel {
    /// The same number for every panel.
    pub(crate) const fn all(number: usize) -> Self {
        Self([number; Focus::ALL.len()])
    }
}

impl Index<Focus> for PerPanel {
    type Output = usize;

    fn index(&self, focus: Focus) -> &usize {
        &self.0[focus as usize]
    }
}

impl IndexMut<Focus> for PerPanel {
    fn index_mut(&mut self, focus: Focus) -> &mut usize {
        &mut self.0[focus as usize]
    }
}

/// How many lines of each list the screen shows: what a page of it is. The screen
/// says so after it drew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct VisibleLines {
    /// Of each panel.
    pub panels: PerPanel,
    /// Of the list that lies over the panels.
    pub overlay: usize,
    /// Whether the readings have no column of their own and lie over a bay while they
    /// have the keys.
    pub readings_lie_over: bool,
}

impl Default for VisibleLines {
    /// Before anything was drawn.
    fn default() -> Self {
        const USUAL: usize = 10;
        Self {
            panels: PerPanel::all(USUAL),
            overlay: USUAL,
            readings_lie_over: false,
        }
    }
}
