use crate::{Quantity, Side};

/// The id of a reading, which stays the same through edits and undo.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ReadingId(pub String);

/// The modality by which a reading was taken.
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

/// The phase of the heart's cycle in which a reading was taken.
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

/// The method of a reading: what was measured, or how.
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

/// A reading: one measured value with its standard deviation and how it was taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The id of the reading.
    pub id: ReadingId,
    /// The quantity that was measured.
    pub quantity: Quantity,
    /// The value, in the quantity's unit.
    pub value: f64,
    /// The standard deviation in the same unit; `None` for that of your centre's rules,
    /// which is shown as an assumption.
    pub sd: Option<f64>,
    /// The modality.
    pub modality: Modality,
    /// The side of the wall.
    pub side: Side,
    /// The phase of the cycle.
    pub phase: Phase,
    /// The method.
    pub method: Method,
    /// The image on which it was measured: readings on one image can share an edge.
    pub image: Option<String>,
    /// The reason for which it was set aside, if it was.
    pub set_aside: Option<String>,
}
