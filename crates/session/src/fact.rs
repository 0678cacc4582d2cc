use measurement::Valve;
use sizing::{Answer, Case, Facts, Neighbour};

/// A fact of a case that limits depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fact {
    /// An aortic cusp prolapses.
    Prolapse,
    /// Chordae of the mitral valve insert on the edge.
    MitralChordae,
    /// Chordae of the tricuspid valve insert on the edge.
    TricuspidChordae,
}

impl Fact {
    /// Every fact, in the order in which they are asked.
    pub const ALL: [Self; 3] = [Self::Prolapse, Self::MitralChordae, Self::TricuspidChordae];

    /// The fact, as a statement that a yes makes true.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Prolapse => "an aortic cusp prolapses",
            Self::MitralChordae => "mitral chordae insert on the edge",
            Self::TricuspidChordae => "tricuspid chordae insert on the edge",
        }
    }

    /// Whether it is asked: chordae of a valve that is not there are not.
    pub fn is_asked(self, case: &Case) -> bool {
        let valve = match self {
            Self::Prolapse => Valve::Aortic,
            Self::MitralChordae => Valve::Mitral,
            Self::TricuspidChordae => Valve::Tricuspid,
        };
        !case.is_absent(Neighbour::Valve(valve))
    }

    /// Its answer.
    pub const fn of(self, facts: &Facts) -> Answer {
        match self {
            Self::Prolapse => facts.prolapse,
            Self::MitralChordae => facts.mitral_chordae_on_edge,
            Self::TricuspidChordae => facts.tricuspid_chordae_on_edge,
        }
    }

    /// The place of its answer.
    pub(crate) const fn of_mut(self, facts: &mut Facts) -> &mut Answer {
        match self {
            Self::Prolapse => &mut facts.prolapse,
            Self::MitralChordae => &mut facts.mitral_chordae_on_edge,
            Self::TricuspidChordae => &mut facts.tricuspid_chordae_on_edge,
        }
    }
}

/// The next answer in the round unknown, yes, no.
pub(crate) const fn next(answer: Answer) -> Answer {
    match answer {
        Answer::Unknown => Answer::Yes,
        Answer::Yes => Answer::No,
        Answer::No => Answer::Unknown,
    }
}
