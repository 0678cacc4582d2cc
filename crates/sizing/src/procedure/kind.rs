use crate::Subject;
use measurement::Unit;

/// What can be looked at when a size has been opened.
///
/// Some kinds are rows of release criteria, some weigh the draws, some do both: then one
/// entry serves both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ObservationKind {
    /// A jet at the edge of the disc, by its width at the origin.
    EdgeJet,
    /// A jet through the fabric.
    WeaveJet,
    /// Regurgitation of a valve.
    Regurgitation,
    /// A cusp or chordae held by the device.
    Leaflet,
    /// The peak gradient of an outflow tract, by how much it is more than before.
    Gradient,
    /// The rhythm, against that before.
    Rhythm,
    /// Slipping into or through the defect on a gentle pull and push.
    Slips,
    /// A disc that does not lie flat.
    Misshapen,
    /// Systolic pressure as a share of that before.
    Pressure,
    /// The distance of the device from a valve.
    Distance,
    /// Contact of the device with a valve.
    Touches,
    /// The diameter of the waist in the wall.
    Waist,
    /// How far a disc stands off the wall.
    StandOff,
    /// The rotation in which the device lies.
    Turn,
    /// The rhythm over a day and a night, against that before.
    Holter,
    /// A device that is no more where it was left.
    Displaced,
    /// The z-score of the left ventricle's diameter at the end of diastole.
    LeftVentricleZ,
    /// Haemoglobin of the blood.
    Haemoglobin,
    /// Lactate dehydrogenase over the laboratory's upper limit.
    Ldh,
}

/// What an observation, or a bound of a criterion, is told in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// A number in the unit of its kind.
    Value,
    /// A grade, none to severe.
    Grade,
    /// A rhythm.
    Rhythm,
    /// Yes, no or cannot tell.
    Answer,
}

/// What a kind of observation is asked of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AskedOf {
    /// The device as a whole.
    Device,
    /// A valve.
    Valve,
    /// The left or the right side.
    Side,
}

impl ObservationKind {
    /// Every kind: rows of criteria first, in their order.
    pub const ALL: [Self; 19] = [
        Self::EdgeJet,
        Self::WeaveJet,
        Self::Regurgitation,
        Self::Leaflet,
        Self::Gradient,
        Self::Rhythm,
        Self::Slips,
        Self::Misshapen,
        Self::Pressure,
        Self::Distance,
        Self::Touches,
        Self::Waist,
        Self::StandOff,
        Self::Turn,
        Self::Holter,
        Self::Displaced,
        Self::LeftVentricleZ,
        Self::Haemoglobin,
        Self::Ldh,
    ];

    /// The word for it in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EdgeJet => "edge_jet",
            Self::WeaveJet => "weave_jet",
            Self::Regurgitation => "regurgitation",
            Self::Leaflet => "leaflet",
            Self::Gradient => "gradient",
            Self::Rhythm => "rhythm",
            Self::Slips => "slips",
            Self::Misshapen => "misshapen",
            Self::Pressure => "pressure",
            Self::Distance => "distance",
            Self::Touches => "touches",
            Self::Waist => "waist",
            Self::StandOff => "stand_off",
            Self::Turn => "turn",
            Self::Holter => "holter",
            Self::Displaced => "displaced",
            Self::LeftVentricleZ => "left_ventricle_z",
            Self::Haemoglobin => "haemoglobin",
            Self::Ldh => "ldh",
        }
    }

    /// Its name in a sentence.
    pub const fn label(self) -> &'static str {
        match self {
            Self::EdgeJet => "jet at the edge",
            Self::WeaveJet => "jet through the fabric",
            Self::Regurgitation => "regurgitation",
            Self::Leaflet => "cusp or chordae held",
            Self::Gradient => "outflow gradient, more than before",
            Self::Rhythm => "rhythm",
            Self::Slips => "slips on a gentle pull and push",
            Self::Misshapen => "disc not flat",
            Self::Pressure => "systolic pressure, of that before",
            Self::Distance => "distance",
            Self::Touches => "contact",
            Self::Waist => "waist in the wall",
            Self::StandOff => "distance of the disc from the wall",
            Self::Turn => "rotation",
            Self::Holter => "Holter, 24 h",
            Self::Displaced => "device displaced",
            Self::LeftVentricleZ => "left ventricle, z-score",
            Self::Haemoglobin => "haemoglobin",
            Self::Ldh => "LDH over its upper limit",
        }
    }

    /// Its name with its subject: "regurgitation, aortic valve".
    pub fn name_of(self, of: Subject) -> String {
        if of == Subject::Shape {
            self.label().to_owned()
        } else {
            format!("{}, {}", self.label(), of.label())
        }
    }

    /// What it takes.
    pub const fn takes(self) -> Takes {
        match self {
            Self::Regurgitation => Takes::Grade,
            Self::Rhythm | Self::Holter => Takes::Rhythm,
            Self::WeaveJet
            | Self::Leaflet
            | Self::Slips
            | Self::Misshapen
            | Self::Touches
            | Self::Displaced => Takes::Answer,
            Self::EdgeJet
            | Self::Gradient
            | Self::Pressure
            | Self::Distance
            | Self::Waist
            | Self::StandOff
            | Self::Turn
            | Self::LeftVentricleZ
            | Self::Haemoglobin
            | Self::Ldh => Takes::Value,
        }
    }

    /// The unit of its value; `None` where it takes none.
    pub const fn unit(self) -> Option<Unit> {
        match self {
            Self::EdgeJet | Self::Distance | Self::Waist | Self::StandOff => Some(Unit::Mm),
            Self::Gradient => Some(Unit::MmHg),
            Self::Pressure => Some(Unit::Percent),
            Self::Turn => Some(Unit::Degrees),
            Self::LeftVentricleZ => Some(Unit::Sd),
            Self::Haemoglobin => Some(Unit::GPerDl),
            Self::Ldh => Some(Unit::Ratio),
            _ => None,
        }
    }

    /// The least its value can be.
    pub const fn least(self) -> f64 {
        match self {
            Self::LeftVentricleZ => -20.0,
            _ => 0.0,
        }
    }

    /// The most its value can be.
    pub const fn most(self) -> f64 {
        match self {
            Self::EdgeJet | Self::Distance | Self::StandOff => 10.0,
            Self::Waist | Self::LeftVentricleZ => 20.0,
            Self::Haemoglobin => 30.0,
            Self::Ldh => 50.0,
            Self::Gradient => 100.0,
            Self::Pressure => 200.0,
            Self::Turn => 360.0,
            _ => 0.0,
        }
    }

    /// What it is asked of.
    pub const fn asked_of(self) -> AskedOf {
        match self {
            Self::Regurgitation | Self::Leaflet | Self::Distance | Self::Touches => AskedOf::Valve,
            Self::Gradient | Self::StandOff => AskedOf::Side,
            _ => AskedOf::Device,
        }
    }

    /// Whether it can be asked of a subject.
    pub const fn can_be_of(self, of: Subject) -> bool {
        matches!(
            (self.asked_of(), of),
            (AskedOf::Device, Subject::Shape)
                | (AskedOf::Valve, Subject::Valve(_))
                | (AskedOf::Side, Subject::Face(_))
        )
    }

    /// Whether release criteria have a row of it.
    pub const fn is_row(self) -> bool {
        !matches!(
            self,
            Self::Distance | Self::Touches | Self::Waist | Self::StandOff | Self::Turn
        ) && self.is_of_trials()
    }

    /// Whether it can be seen of an open device, and not in a follow-up alone.
    pub const fn is_of_trials(self) -> bool {
        !matches!(
            self,
            Self::Holter | Self::Displaced | Self::LeftVentricleZ | Self::Haemoglobin | Self::Ldh
        )
    }

    /// Whether it says anything of geometry, and so of the draws.
    pub const fn is_weighed(self) -> bool {
        !matches!(
            self,
            Self::WeaveJet | Self::Leaflet | Self::Rhythm | Self::Pressure
        ) && self.is_of_trials()
    }

    /// Whether less of it is worse: pressure and haemoglobin.
    pub const fn is_worse_below(self) -> bool {
        matches!(self, Self::Pressure | Self::Haemoglobin)
    }

    /// Whether a wire across the valve or a taut cable spoils it: the pull tilts the
    /// disc.
    pub(crate) const fn is_spoilt_by_a_pull(self) -> bool {
        matches!(
            self,
            Self::Distance | Self::Touches | Self::Regurgitation | Self::Turn
        )
    }
}
