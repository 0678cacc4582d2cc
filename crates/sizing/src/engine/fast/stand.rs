use super::fields::WaistField;
use super::lanes::{Lane, max};

/// How a disc stands on its face, put together in each lane from a few numbers and
/// what its waist decides.
#[derive(Clone, Copy)]
pub(super) struct Stand<'a> {
    /// Its radius; 0 where there is none and the waist's end stands for it.
    pub(super) own_radius: f32,
    /// The part of the waist's diameter that is its radius: 0 of a disc, ½ of the
    /// waist's end.
    pub(super) of_waist: f32,
    /// t.
    pub(super) thickness: f32,
    pub(super) waist: &'a WaistField,
    /// Its share of the slack.
    pub(super) slack_share: &'a Lane,
}

impl Stand<'_> {
    /// R.
    #[inline(always)]
    pub(super) fn radius(&self, lane: usize) -> f32 {
        self.own_radius + self.of_waist * self.waist.diameter[lane]
    }

    /// How far it stands off the wall.
    #[inline(always)]
    pub(super) fn gap(&self, lane: usize) -> f32 {
        self.slack_share[lane] * max(self.waist.slack[lane], 0.0)
    }
}
