use crate::Contradiction;

/// What the work-up of a case says that bears on every size. The work-up is made
/// elsewhere; whoever ranks hands its result over.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Guidance {
    /// Published guidance against closing that is met on the values as measured.
    pub against: Vec<Against>,
    /// What the readings of the circulation come to.
    pub circulation: Circulation,
    /// What does not add up in the work-up.
    pub contradictions: Vec<Contradiction>,
}

/// A row of guidance against closing that a case meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Against {
    /// Its id in the file of guidance.
    pub id: String,
    /// What it says.
    pub says: String,
    /// Its source.
    pub source: String,
}

/// A figure of the circulation that can settle an exclusion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CirculationFigure {
    /// Pulmonary resistance, indexed, in WU·m².
    ResistanceIndexed,
    /// Rp:Rs where the indexed resistance has no value.
    ResistanceRatioAlone,
    /// Qp:Qs.
    QpQs,
    /// The right-to-left shunt as a share of systemic flow.
    RightToLeftShare,
}

/// The figures of the circulation, each where it has a value.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Circulation {
    /// Pulmonary resistance, indexed, in WU·m².
    pub resistance_indexed: Option<f64>,
    /// Pulmonary over systemic resistance.
    pub resistance_ratio: Option<f64>,
    /// Pulmonary over systemic flow.
    pub qp_qs: Option<f64>,
    /// The right-to-left shunt as a share of systemic flow.
    pub right_to_left_share: Option<f64>,
}

impl Circulation {
    /// The value of a figure, if it has one.
    pub const fn get(&self, figure: CirculationFigure) -> Option<f64> {
        match figure {
            CirculationFigure::ResistanceIndexed => self.resistance_indexed,
            CirculationFigure::ResistanceRatioAlone => match self.resistance_indexed {
                Some(_) => None,
                None => self.resistance_ratio,
            },
            CirculationFigure::QpQs => self.qp_qs,
            CirculationFigure::RightToLeftShare => self.right_to_left_share,
        }
    }
}

impl CirculationFigure {
    /// What it is, in words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::ResistanceIndexed => "indexed pulmonary resistance",
            Self::ResistanceRatioAlone => "Rp:Rs",
            Self::QpQs => "Qp:Qs",
            Self::RightToLeftShare => "right-to-left share of systemic flow",
        }
    }
}
