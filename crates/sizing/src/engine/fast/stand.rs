use super::lanes::Lane;

/// The radius of what stands on a face, put together in each lane.
#[derive(Clone, Copy)]
pub(super) struct Radii<'a> {
    /// Of a disc; 0 where there is none and the waist's end stands for it.
    pub(super) own: f32,
    /// The part of the waist's diameter that is its radius: 0 of a disc, ½ of the
    /// waist's end.
    pub(super) of_waist: f32,
    /// d_c.
    pub(super) diameter: &'a Lane,
}

impl Radii<'_> {
    /// R.
    #[inline(always)]
    pub(super) fn of(&self, lane: usize) -> f32 {
        self.own + self.of_waist * self.diameter[lane]
    }
}

/// How a disc stands on its face.
#[derive(Clone, Copy)]
pub(super) struct Stand<'a> {
    pub(super) radii: Radii<'a>,
    /// t.
    pub(super) thickness: f32,
    /// How far it stands off the wall.
    pub(super) gap: &'a Lane,
}

impl Stand<'_> {
    /// R.
    #[inline(always)]
    pub(super) fn radius(&self, lane: usize) -> f32 {
        self.radii.of(lane)
    }
}
