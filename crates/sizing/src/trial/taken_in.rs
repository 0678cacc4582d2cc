use super::{PairCache, WeighError, Weighing};
use crate::{Catalogue, Draws, Setting, Work};
use std::sync::Arc;

/// A case with what was seen in its trials taken in: what every list of it is made of.
#[derive(Debug)]
pub struct CaseAfterTrials {
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
) -> Result<Option<CaseAfterTrials>, WeighError> {
    PairCache::default().take_in(setting, catalogues, (draws, seed), work)
}

impl PairCache {
    /// As [`take_in`], with a number of draws and a seed, by what is kept.
    pub fn take_in(
        &mut self,
        setting: &Setting,
        catalogues: &[Catalogue],
        by: (usize, u64),
        work: &Work,
    ) -> Result<Option<CaseAfterTrials>, WeighError> {
        let Some(mut weighing) = self.weigh(setting, catalogues, by, work)? else {
            return Ok(None);
        };
        let setting = Arc::new(weighing.believed(setting));
        let mut draws = weighing.draws.take();
        if !weighing.any_counted {
            // The same draws; nothing was seen that weighs them.
            draws = draws.map(Draws::unweighed);
        }
        Ok(Some(CaseAfterTrials {
            setting,
            draws,
            weighing,
        }))
    }
}
