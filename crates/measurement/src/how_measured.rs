//! How a reading was taken, in words for people.

use crate::{Method, Modality, Phase, Side};

impl Modality {
    /// The modality's name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TransthoracicEcho => "transthoracic echo",
            Self::TransoesophagealEcho => "transoesophageal echo",
            Self::ThreeDimensionalEcho => "3-D echo",
            Self::Angiography => "angiography",
            Self::ComputedTomography => "computed tomography",
            Self::MagneticResonance => "magnetic resonance",
            Self::Catheter => "catheter",
            Self::Bedside => "bedside",
        }
    }
}

impl Side {
    /// The side's name; empty where no side applies.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Left => "left side",
            Self::Right => "right side",
            Self::Within => "within the wall",
            Self::NoSide => "",
        }
    }
}

impl Phase {
    /// The phase's name; empty where no phase applies.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Diastole => "diastole",
            Self::EndDiastole => "end-diastole",
            Self::Systole => "systole",
            Self::EndSystole => "end-systole",
            Self::AnyPhase => "",
        }
    }
}

impl Method {
    /// The method's name; empty where it goes without saying.
    pub const fn label(self) -> &'static str {
        match self {
            Self::EdgeToEdge => "edge to edge",
            Self::ColourJet => "colour jet",
            Self::ContrastStream => "contrast stream",
            Self::Balloon => "balloon",
            Self::Doppler => "Doppler",
            Self::Direct => "",
            Self::Derived => "derived",
        }
    }
}
