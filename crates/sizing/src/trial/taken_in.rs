use super::{WeighError, Weighing, weigh};
use crate::{Catalogue, Draws, Setting, Work};
use std::sync::Arc;

/// A case with what was seen in its trials taken in: what every list of it is made of.
#[derive(Debug)]
pub struct TakenIn {
    /// The case as it is believed now.
    pub setting: Arc<Setting>,
    /// Its draws, weighed where an observation counts; `None`: none agrees with what was
    /// seen.
    pub draws: Option<Draws>,
    /// What the trials made of the draws, which have been taken out of it.
    pub weighing: Weighing,
}

/// Takes in what was seen in the trials of a case. `Ok(None)`: it was cancelled.
pub fn take_in(
    setting: &Setting,
    catalogues: &[Catalogue],
    draws: usize,
    seed: u64,
    work: &Work,
) -> Result<Option<TakenIn>, WeighError> {
    let Some(mut weighing) = weigh(setting, catalogues, draws, seed, work)? else {
        return Ok(None);
    };
    let setting = Arc::new(weighing.believed(setting));
    let weighed = weighing.draws.take();
    let draws = if weighing.any_counted {
        weighed
    } else {
        Some(Draws::new(&setting, draws, seed)?)
    };
    Ok(Some(TakenIn {
        setting,
        draws,
        weighing,
    }))
}
