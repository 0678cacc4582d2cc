use geometry::{Face, Mm};
use measurement::Valve;

/// What is asked of every draw: a measure with all that it sees of a size. Two that are
/// equal have equal values in every draw.
///
/// An index is one into a list of a [`Plan`](super::plan::Plan).
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Ask {
    /// Asked in `f64` of one row alone, in every draw: no bounds are known.
    Exactly {
        question: usize,
        row: usize,
    },
    /// Answered before, by its index among those answers: nothing of it has moved.
    Known(usize),
    /// The same value in every draw.
    OfShape(Number),
    WaistExcess {
        waist: Number,
    },
    WaistRatio {
        waist: Number,
    },
    Slack {
        waist: usize,
    },
    Clamp {
        waist: usize,
    },
    Lip {
        edge: usize,
        radius: Number,
    },
    Clearance {
        valve: Valve,
        tilt: usize,
        beside: usize,
        disc: DiscForm,
    },
    Reach {
        valve: Valve,
        centre: usize,
        radius: Radius,
    },
    LeafletCovered {
        valve: Valve,
        centre: usize,
        radius: Radius,
    },
    OpenShare(Layer),
    /// The limits of the gradient as limits of the open share, by index, of both bands.
    TractGradient {
        layer: Layer,
        limits: [usize; 2],
    },
    TractRoom {
        face: Face,
        radius: Radius,
    },
    ChamberRatio {
        face: Face,
        diameter: Number,
    },
    SheathInVein {
        diameter: Number,
    },
    SheathInArtery {
        diameter: Number,
    },
    ArteryWidth,
}

/// A number by its bits, by which it is told from others.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Number(u64);

impl Number {
    pub(super) const fn of(number: f64) -> Self {
        Self(number.to_bits())
    }

    pub(super) const fn value(self) -> f64 {
        f64::from_bits(self.0)
    }

    pub(super) const fn single(self) -> f32 {
        self.value() as f32
    }
}

/// The radius of what stands on a face.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Radius {
    /// Of a disc.
    Disc(Number),
    /// Of the end of a waist, where there is no disc.
    WaistEnd(usize),
}

/// How a disc, or the waist's end, stands on a face.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct DiscForm {
    pub(super) face: Face,
    pub(super) radius: Radius,
    /// t.
    pub(super) thickness: Number,
    pub(super) waist: usize,
}

impl DiscForm {
    /// t/2.
    pub(super) const fn half(&self) -> Mm {
        0.5 * self.thickness.value()
    }
}

/// What a disc lays over the outflow tract beside it.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Layer {
    pub(super) disc: DiscForm,
    pub(super) conformability: Number,
}
