use crate::effect::Effect;
use crate::model::Model;
use crate::overlay::Overlay;
use std::ops::Deref;

/// The open document with everything of the program that is not its terminal. It is
/// read as its [`Model`]; [`update`](Self::update) alone changes it.
#[derive(Clone, Debug)]
pub struct Session {
    pub(crate) model: Model,
    /// What lies over the panels, the topmost last.
    pub(crate) overlays: Vec<Overlay>,
    /// What is to be done outside since the last event.
    pub(crate) outbox: Vec<Effect>,
    /// Whether the bays still wait for the last result of opening to fill them.
    pub(crate) bays_wait: bool,
}

impl Session {
    /// What lies over the panels, the topmost last.
    pub fn overlays(&self) -> &[Overlay] {
        &self.overlays
    }
}

impl Deref for Session {
    type Target = Model;

    fn deref(&self) -> &Model {
        &self.model
    }
}
