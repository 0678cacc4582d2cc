use crate::{Draws, Setting};
use measurement::targeted::Proposal;
use measurement::{Blocks, LogWeights, Modality, ModelError};
use std::collections::BTreeMap;

/// The effective number of draws that is enough.
pub const ENOUGH: f64 = 400.0;

/// The draws of one round with their own weights.
#[derive(Clone, Debug)]
pub(super) struct RoundDraws {
    pub(super) draws: Draws,
    pub(super) own: LogWeights,
    /// By modality; nothing where no length is seen too large by it.
    scales: BTreeMap<usize, Vec<f64>>,
}

impl RoundDraws {
    pub(super) fn new(setting: &Setting, blocks: &Blocks, proposal: &Proposal) -> Self {
        let mut own = Vec::with_capacity(blocks.draws());
        for block in 0..Blocks::COUNT {
            let moved: BTreeMap<u32, Vec<f64>> = proposal
                .moved()
                .iter()
                .map(|one| one.dimension)
                .map(|dimension| (dimension, proposal.deviates(blocks, block, dimension)))
                .collect();
            own.extend((0..blocks.per_block()).map(|index| {
                proposal.log_weight(|dimension| {
                    moved.get(&dimension).map_or(0.0, |column| column[index])
                })
            }));
        }
        Self {
            draws: Draws::toward(setting, blocks, proposal),
            own: LogWeights::from_logarithms(own),
            scales: BTreeMap::new(),
        }
    }

    /// The same with the scale errors of everything by which something was seen in the
    /// trials of the case.
    #[must_use]
    pub(super) fn scaled(mut self, setting: &Setting, blocks: &Blocks) -> Self {
        let trials = &setting.case().procedure.trials;
        for modality in trials
            .iter()
            .flat_map(|trial| &trial.seen)
            .filter_map(|seen| seen.by)
        {
            self.scales.entry(modality as usize).or_insert_with(|| {
                let joint = setting.joint();
                let of = |block| joint.scale_errors(blocks, block, modality);
                let errors: Option<Vec<Vec<f64>>> = (0..Blocks::COUNT).map(of).collect();
                errors.unwrap_or_default().concat()
            });
        }
        self
    }

    /// By what share a length is seen too large by a modality in a draw.
    pub(super) fn scale(&self, modality: Modality, draw: usize) -> f64 {
        let column = self.scales.get(&(modality as usize));
        column
            .and_then(|column| column.get(draw))
            .copied()
            .unwrap_or(0.0)
    }

    /// Where the next round aims.
    pub(super) fn toward(
        &self,
        setting: &Setting,
        blocks: &Blocks,
        seen: &LogWeights,
        proposal: &Proposal,
    ) -> Proposal {
        let of = |dimension| {
            let blocks =
                (0..Blocks::COUNT).flat_map(|block| proposal.deviates(blocks, block, dimension));
            (dimension, blocks.collect())
        };
        let errors = ModelError::ALL.into_iter();
        let errors = errors.filter(|&error| self.draws.errors(error).is_some());
        let dimensions = setting.joint().dimensions();
        let all = dimensions.chain(errors.map(ModelError::dimension));
        let deviates: Vec<(u32, Vec<f64>)> = all.map(of).collect();
        Proposal::toward(&deviates, &self.own, seen, ENOUGH)
    }
}
