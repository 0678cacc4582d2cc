use crate::{Quantity, Side};

/// The name by which a reading stays the same through edits and undo.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ReadingId(pub String);

/// How a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Modality {
    /// Transthoracic echocardiography.
    TransthoracicEcho,
    /// Transoesophageal echocardiography.
    TransoesophagealEcho,
    /// Three-dimensional echocardiography.
    ThreeDimensionalEcho,
    /// Angiography.
    Angiography,
    /// Computed tomography.
    ComputedTomography,
    /// Magnetic resonance.
    MagneticResonance,
    /// Pressure or saturation by catheter.
    Catheter,
    /// Scales, tape and calendar at the bedside.
    Bedside,
}

/// When in the heart's cycle a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Phase {
    /// Diastole, the arterial valves closed.
    Diastole,
    /// End of diastole.
    EndDiastole,
    /// Systole, the atrioventricular valves closed.
    Systole,
    /// End of systole.
    EndSystole,
    /// A phase does not apply.
    AnyPhase,
}

/// Between what a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Method {
    /// From tissue edge to tissue edge on the image itself.
    EdgeToEdge,
    /// The width of the colour jet.
    ColourJet,
    /// The width of the contrast stream.
    ContrastStream,
    /// The waist of a balloon that stops the flow.
    Balloon,
    /// By Doppler.
    Doppler,
    /// Directly: a transducer, scales, an oximeter.
    Direct,
    /// Worked out from other measurements.
    Derived,
}

/// One measured value with its doubt and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Its lasting name.
    pub id: ReadingId,
    /// What was read.
    pub quantity: Quantity,
    /// The value, in the quantity's unit.
    pub value: f64,
    /// Its standard deviation in the same unit; `None`: your centre's for
    /// its modality, shown as an assumption.
    pub sd: Option<f64>,
    /// How it was taken.
    pub modality: Modality,
    /// On which side of the wall.
    pub side: Side,
    /// When in the cycle.
    pub phase: Phase,
    /// Between what.
    pub method: Method,
    /// The image it was read on: readings on one image can share an edge.
    pub image: Option<String>,
    /// Why it is not used, if it was set aside.
    pub set_aside: Option<String>,
}
