/// What was used, beside published figures and never judged.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Used {
    /// Contrast, mL.
    pub contrast_ml: Option<f64>,
    /// Dose-area product, Gy·cm².
    pub dose_area_gy_cm2: Option<f64>,
    /// Fluoroscopy, minutes.
    pub fluoroscopy_min: Option<f64>,
}

/// One of the amounts that were used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum UsedKind {
    /// Contrast.
    Contrast,
    /// The dose-area product.
    DoseArea,
    /// Fluoroscopy.
    Fluoroscopy,
}

impl UsedKind {
    /// Every amount.
    pub const ALL: [Self; 3] = [Self::Contrast, Self::DoseArea, Self::Fluoroscopy];

    /// Its name on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Contrast => "contrast",
            Self::DoseArea => "dose-area product",
            Self::Fluoroscopy => "fluoroscopy",
        }
    }

    /// Its unit.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Contrast => "mL",
            Self::DoseArea => "Gy·cm²",
            Self::Fluoroscopy => "min",
        }
    }

    /// The most that is taken for no slip of the pen.
    pub const fn most(self) -> f64 {
        match self {
            Self::Contrast => 2000.0,
            Self::DoseArea => 5000.0,
            Self::Fluoroscopy => 1440.0,
        }
    }
}

impl Used {
    /// An amount; `None` where nobody noted it.
    pub const fn get(&self, kind: UsedKind) -> Option<f64> {
        match kind {
            UsedKind::Contrast => self.contrast_ml,
            UsedKind::DoseArea => self.dose_area_gy_cm2,
            UsedKind::Fluoroscopy => self.fluoroscopy_min,
        }
    }

    /// Notes an amount, or that nobody did.
    pub const fn set(&mut self, kind: UsedKind, amount: Option<f64>) {
        match kind {
            UsedKind::Contrast => self.contrast_ml = amount,
            UsedKind::DoseArea => self.dose_area_gy_cm2 = amount,
            UsedKind::Fluoroscopy => self.fluoroscopy_min = amount,
        }
    }
}

/// A box of the room that was ticked, with its minute and figure where it has one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoomNote {
    /// The box.
    pub what: RoomBox,
    /// The minute after puncture.
    pub min: Option<f64>,
    /// Its figure: an activated clotting time in s, a pressure in mmHg.
    pub value: Option<f64>,
}

/// A box of the room: ticked and printed, never judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RoomBox {
    /// Heparin was given.
    Heparin,
    /// The activated clotting time, s.
    ClottingTime,
    /// A snare is in the room.
    Snare,
    /// A sheath 2 Fr larger is in the room.
    LargerSheath,
    /// Pacing is ready.
    Pacing,
    /// A surgeon and a theatre are ready.
    SurgeonAndTheatre,
    /// Blood is ready.
    Blood,
    /// Echo stays in the room.
    Echo,
    /// An antibiotic was given by the local rule.
    Antibiotic,
    /// An arrhythmia on the course of the wire.
    ArrhythmiaOnWire,
    /// Left ventricular pressure after, mmHg.
    LeftPressure,
    /// Right ventricular pressure after, mmHg.
    RightPressure,
    /// Pulmonary artery pressure after, mmHg.
    PulmonaryPressure,
    /// Pulses felt after 1 hour.
    PulsesAt1h,
    /// Pulses felt after 6 hours.
    PulsesAt6h,
    /// Pulses felt after 24 hours.
    PulsesAt24h,
    /// Telemetry for 24 hours.
    Telemetry,
    /// The colour of the urine was looked at.
    Urine,
    /// Antiplatelet treatment by the local rule.
    Antiplatelet,
    /// Endocarditis precautions by the local rule.
    EndocarditisPrecautions,
}

impl RoomBox {
    /// Every box, in the order in which they are looked at.
    pub const ALL: [Self; 20] = [
        Self::Heparin,
        Self::ClottingTime,
        Self::Snare,
        Self::LargerSheath,
        Self::Pacing,
        Self::SurgeonAndTheatre,
        Self::Blood,
        Self::Echo,
        Self::Antibiotic,
        Self::ArrhythmiaOnWire,
        Self::LeftPressure,
        Self::RightPressure,
        Self::PulmonaryPressure,
        Self::PulsesAt1h,
        Self::PulsesAt6h,
        Self::PulsesAt24h,
        Self::Telemetry,
        Self::Urine,
        Self::Antiplatelet,
        Self::EndocarditisPrecautions,
    ];

    /// Its name on screens.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Heparin => "heparin given",
            Self::ClottingTime => "activated clotting time",
            Self::Snare => "snare in the room",
            Self::LargerSheath => "sheath 2 Fr larger in the room",
            Self::Pacing => "pacing at hand",
            Self::SurgeonAndTheatre => "surgeon and theatre agreed",
            Self::Blood => "blood in the room",
            Self::Echo => "echo stays in the room",
            Self::Antibiotic => "antibiotic, by local rule",
            Self::ArrhythmiaOnWire => "arrhythmia on the course of the wire",
            Self::LeftPressure => "left ventricular pressure after",
            Self::RightPressure => "right ventricular pressure after",
            Self::PulmonaryPressure => "pulmonary pressure after",
            Self::PulsesAt1h => "pulses felt after 1 hour",
            Self::PulsesAt6h => "pulses felt after 6 hours",
            Self::PulsesAt24h => "pulses felt after 24 hours",
            Self::Telemetry => "telemetry for 24 hours",
            Self::Urine => "colour of the urine looked at",
            Self::Antiplatelet => "antiplatelet treatment, by local rule",
            Self::EndocarditisPrecautions => "endocarditis precautions, by local rule",
        }
    }

    /// The unit of its figure; empty where it has none.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::ClottingTime => "s",
            Self::LeftPressure | Self::RightPressure | Self::PulmonaryPressure => "mmHg",
            _ => "",
        }
    }

    /// The most its figure can be; `None` where it has none.
    pub const fn most(self) -> Option<f64> {
        match self {
            Self::ClottingTime => Some(2000.0),
            Self::LeftPressure | Self::RightPressure | Self::PulmonaryPressure => Some(300.0),
            _ => None,
        }
    }
}
