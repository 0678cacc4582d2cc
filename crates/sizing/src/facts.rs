use crate::Answer;
use measurement::{Conduction, Prolapse, Regurgitation, Valve};

/// The largest number of defects that is told apart: more count as this many.
pub const MOST_HOLES: u8 = 9;

/// Facts of the case that a limit, a reading's use or a verdict depends on. What
/// nobody knows is a value of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Facts {
    /// The defect is round: one axis, measured in one plane, stands for both.
    pub round: Answer,
    /// How far an aortic cusp prolapses toward or into the defect.
    pub prolapse: Prolapse,
    /// How much the aortic valve leaks.
    pub aortic_regurgitation: Regurgitation,
    /// How much the pulmonary valve leaks.
    pub pulmonary_regurgitation: Regurgitation,
    /// A pouch of tissue covers the defect (an aneurysm of the membranous septum).
    pub pouch: Answer,
    /// How many holes the defect has, from 1 to [`MOST_HOLES`]; `None`: unknown.
    pub holes: Option<u8>,
    /// A papillary muscle or a muscle band stands in the way of a disc.
    pub band_in_the_way: Answer,
    /// Chordae of the mitral valve's anterior leaflet insert on the edge.
    pub mitral_chordae_on_edge: Answer,
    /// Chordae of the tricuspid valve insert on the edge.
    pub tricuspid_chordae_on_edge: Answer,
    /// The conduction before.
    pub conduction: Conduction,
}

/// One of the facts of a case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Fact {
    /// Whether the defect is round, so that one axis stands for both.
    Round,
    /// How far an aortic cusp prolapses.
    Prolapse,
    /// How much the aortic valve leaks.
    AorticRegurgitation,
    /// How much the pulmonary valve leaks.
    PulmonaryRegurgitation,
    /// Whether a pouch of tissue covers the defect.
    Pouch,
    /// How many holes there are.
    Holes,
    /// Whether a papillary muscle or a band stands in the way.
    BandInTheWay,
    /// Whether chordae of the mitral valve insert on the edge.
    MitralChordae,
    /// Whether chordae of the tricuspid valve insert on the edge.
    TricuspidChordae,
    /// The conduction before.
    Conduction,
}

/// A fact with its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FactValue {
    /// Whether the defect is round, so that one axis stands for both.
    Round(Answer),
    /// How far an aortic cusp prolapses.
    Prolapse(Prolapse),
    /// How much the aortic valve leaks.
    AorticRegurgitation(Regurgitation),
    /// How much the pulmonary valve leaks.
    PulmonaryRegurgitation(Regurgitation),
    /// Whether a pouch of tissue covers the defect.
    Pouch(Answer),
    /// How many holes there are; `None`: unknown.
    Holes(Option<u8>),
    /// Whether a papillary muscle or a band stands in the way.
    BandInTheWay(Answer),
    /// Whether chordae of the mitral valve insert on the edge.
    MitralChordae(Answer),
    /// Whether chordae of the tricuspid valve insert on the edge.
    TricuspidChordae(Answer),
    /// The conduction before.
    Conduction(Conduction),
}

impl Facts {
    /// The value of a fact.
    pub const fn get(&self, fact: Fact) -> FactValue {
        match fact {
            Fact::Round => FactValue::Round(self.round),
            Fact::Prolapse => FactValue::Prolapse(self.prolapse),
            Fact::AorticRegurgitation => FactValue::AorticRegurgitation(self.aortic_regurgitation),
            Fact::PulmonaryRegurgitation => {
                FactValue::PulmonaryRegurgitation(self.pulmonary_regurgitation)
            }
            Fact::Pouch => FactValue::Pouch(self.pouch),
            Fact::Holes => FactValue::Holes(self.holes),
            Fact::BandInTheWay => FactValue::BandInTheWay(self.band_in_the_way),
            Fact::MitralChordae => FactValue::MitralChordae(self.mitral_chordae_on_edge),
            Fact::TricuspidChordae => FactValue::TricuspidChordae(self.tricuspid_chordae_on_edge),
            Fact::Conduction => FactValue::Conduction(self.conduction),
        }
    }

    /// Sets a fact and gives the value it had.
    pub const fn set(&mut self, value: FactValue) -> FactValue {
        let was = self.get(value.fact());
        match value {
            FactValue::Round(value) => self.round = value,
            FactValue::Prolapse(value) => self.prolapse = value,
            FactValue::AorticRegurgitation(value) => self.aortic_regurgitation = value,
            FactValue::PulmonaryRegurgitation(value) => self.pulmonary_regurgitation = value,
            FactValue::Pouch(value) => self.pouch = value,
            FactValue::Holes(value) => self.holes = value,
            FactValue::BandInTheWay(value) => self.band_in_the_way = value,
            FactValue::MitralChordae(value) => self.mitral_chordae_on_edge = value,
            FactValue::TricuspidChordae(value) => self.tricuspid_chordae_on_edge = value,
            FactValue::Conduction(value) => self.conduction = value,
        }
        was
    }

    /// Whether chordae of a valve insert on the edge of the defect.
    pub(crate) const fn chordae_on_edge(&self, valve: Valve) -> Answer {
        match valve {
            Valve::Mitral => self.mitral_chordae_on_edge,
            Valve::Tricuspid => self.tricuspid_chordae_on_edge,
            Valve::Aortic | Valve::Pulmonary => Answer::No,
        }
    }
}

impl Fact {
    /// Every fact, in the order in which they are asked.
    pub const ALL: [Self; 10] = [
        Self::Round,
        Self::Prolapse,
        Self::AorticRegurgitation,
        Self::PulmonaryRegurgitation,
        Self::Pouch,
        Self::Holes,
        Self::BandInTheWay,
        Self::MitralChordae,
        Self::TricuspidChordae,
        Self::Conduction,
    ];

    /// The word for it in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Round => "round",
            Self::Prolapse => "prolapse",
            Self::AorticRegurgitation => "aortic_regurgitation",
            Self::PulmonaryRegurgitation => "pulmonary_regurgitation",
            Self::Pouch => "pouch",
            Self::Holes => "defects",
            Self::BandInTheWay => "band_in_the_way",
            Self::MitralChordae => "mitral_chordae_on_edge",
            Self::TricuspidChordae => "tricuspid_chordae_on_edge",
            Self::Conduction => "conduction",
        }
    }

    /// The fact in words, as a heading over its value.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Round => "round defect, measured in one plane",
            Self::Prolapse => "prolapse of an aortic cusp",
            Self::AorticRegurgitation => "aortic regurgitation",
            Self::PulmonaryRegurgitation => "pulmonary regurgitation",
            Self::Pouch => "pouch of tissue over the defect",
            Self::Holes => "number of defects",
            Self::BandInTheWay => "papillary muscle or band in the way",
            Self::MitralChordae => "mitral chordae on the edge",
            Self::TricuspidChordae => "tricuspid chordae on the edge",
            Self::Conduction => "conduction before",
        }
    }
}

impl FactValue {
    /// The fact it is of.
    pub const fn fact(self) -> Fact {
        match self {
            Self::Round(_) => Fact::Round,
            Self::Prolapse(_) => Fact::Prolapse,
            Self::AorticRegurgitation(_) => Fact::AorticRegurgitation,
            Self::PulmonaryRegurgitation(_) => Fact::PulmonaryRegurgitation,
            Self::Pouch(_) => Fact::Pouch,
            Self::Holes(_) => Fact::Holes,
            Self::BandInTheWay(_) => Fact::BandInTheWay,
            Self::MitralChordae(_) => Fact::MitralChordae,
            Self::TricuspidChordae(_) => Fact::TricuspidChordae,
            Self::Conduction(_) => Fact::Conduction,
        }
    }

    /// Every value of a fact, in the order in which they are offered, unknown last.
    pub fn all(fact: Fact) -> Vec<Self> {
        const ANSWERS: [Answer; 3] = [Answer::Yes, Answer::No, Answer::Unknown];
        let answers = |value: fn(Answer) -> Self| ANSWERS.map(value).to_vec();
        match fact {
            Fact::Round => answers(Self::Round),
            Fact::Prolapse => Prolapse::ALL.map(Self::Prolapse).to_vec(),
            Fact::AorticRegurgitation => Regurgitation::ALL.map(Self::AorticRegurgitation).to_vec(),
            Fact::PulmonaryRegurgitation => Regurgitation::ALL
                .map(Self::PulmonaryRegurgitation)
                .to_vec(),
            Fact::Pouch => answers(Self::Pouch),
            Fact::Holes => {
                let counts = (1..=MOST_HOLES).map(|count| Self::Holes(Some(count)));
                counts.chain([Self::Holes(None)]).collect()
            }
            Fact::BandInTheWay => answers(Self::BandInTheWay),
            Fact::MitralChordae => answers(Self::MitralChordae),
            Fact::TricuspidChordae => answers(Self::TricuspidChordae),
            Fact::Conduction => Conduction::ALL.map(Self::Conduction).to_vec(),
        }
    }

    /// Whether nobody knows.
    pub const fn is_unknown(self) -> bool {
        matches!(
            self,
            Self::Round(Answer::Unknown)
                | Self::Prolapse(Prolapse::Unknown)
                | Self::AorticRegurgitation(Regurgitation::Unknown)
                | Self::PulmonaryRegurgitation(Regurgitation::Unknown)
                | Self::Pouch(Answer::Unknown)
                | Self::Holes(None)
                | Self::BandInTheWay(Answer::Unknown)
                | Self::MitralChordae(Answer::Unknown)
                | Self::TricuspidChordae(Answer::Unknown)
                | Self::Conduction(Conduction::Unknown)
        )
    }

    /// Whether it says that there is nothing there: none, no, normal.
    pub const fn is_clear(self) -> bool {
        matches!(
            self,
            Self::Prolapse(Prolapse::None)
                | Self::AorticRegurgitation(Regurgitation::None)
                | Self::PulmonaryRegurgitation(Regurgitation::None)
                | Self::Pouch(Answer::No)
                | Self::BandInTheWay(Answer::No)
                | Self::MitralChordae(Answer::No)
                | Self::TricuspidChordae(Answer::No)
                | Self::Conduction(Conduction::Normal)
        )
    }

    /// The value in words.
    pub fn says(self) -> String {
        match self {
            Self::Prolapse(Prolapse::Ungraded) => "yes, not graded".to_owned(),
            Self::Prolapse(value) => value.name().to_owned(),
            Self::AorticRegurgitation(value) | Self::PulmonaryRegurgitation(value) => {
                value.name().to_owned()
            }
            Self::Round(value)
            | Self::Pouch(value)
            | Self::BandInTheWay(value)
            | Self::MitralChordae(value)
            | Self::TricuspidChordae(value) => value.to_string(),
            Self::Holes(None) => "unknown".to_owned(),
            Self::Holes(Some(count)) if count >= MOST_HOLES => format!("{MOST_HOLES} or more"),
            Self::Holes(Some(count)) => count.to_string(),
            Self::Conduction(value) => value.label().to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_value_of_every_fact_can_be_set_and_is_given_back() {
        let names: BTreeSet<&str> = Fact::ALL.map(Fact::name).into();
        assert_eq!(names.len(), Fact::ALL.len());
        for fact in Fact::ALL {
            let values = FactValue::all(fact);
            let mut facts = Facts::default();
            let mut was = facts.get(fact);
            assert!(was.is_unknown(), "{fact:?}");
            assert_eq!(values.last(), Some(&was), "unknown is offered last");
            for value in values {
                assert_eq!(value.fact(), fact);
                assert_eq!(facts.set(value), was);
                assert_eq!(facts.get(fact), value);
                assert!(!(value.is_unknown() && value.is_clear()));
                was = value;
            }
            assert_eq!(facts, Facts::default());
        }
    }
}
