//! Facts of an examination that are graded, not measured.

use crate::Answer;

/// The grade of an aortic cusp's prolapse toward or into the defect.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Prolapse {
    /// No cusp prolapses, seen in two planes.
    None,
    /// Mild.
    Mild,
    /// Moderate.
    Moderate,
    /// Severe.
    Severe,
    /// A cusp prolapses, and nobody graded it.
    Ungraded,
    /// Nobody knows.
    #[default]
    Unknown,
}

impl Prolapse {
    /// Every answer, the best first.
    pub const ALL: [Self; 6] = [
        Self::None,
        Self::Mild,
        Self::Moderate,
        Self::Severe,
        Self::Ungraded,
        Self::Unknown,
    ];

    /// Every grade with its number.
    pub const GRADED: [(f64, Self); 4] = [
        (0.0, Self::None),
        (1.0, Self::Mild),
        (2.0, Self::Moderate),
        (3.0, Self::Severe),
    ];

    /// The grade as a number; a prolapse that nobody graded counts as severe.
    pub fn grade(self) -> f64 {
        let grades = Self::GRADED;
        let mut known = grades.iter().filter(|(_, of)| *of == self);
        known.next().map_or(3.0, |(grade, _)| *grade)
    }

    /// The grade's word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Mild => "mild",
            Self::Moderate => "moderate",
            Self::Severe => "severe",
            Self::Ungraded => "yes",
            Self::Unknown => "unknown",
        }
    }

    /// Whether a cusp prolapses at all.
    pub const fn present(self) -> Answer {
        match self {
            Self::None => Answer::No,
            Self::Unknown => Answer::Unknown,
            Self::Mild | Self::Moderate | Self::Severe | Self::Ungraded => Answer::Yes,
        }
    }

    /// Whether a cusp prolapses, or nobody knows.
    pub const fn may_be(self) -> bool {
        self.present().may_be()
    }

    /// Whether the prolapse is severe; unknown also where nobody graded it.
    pub const fn severe(self) -> Answer {
        match self {
            Self::Severe => Answer::Yes,
            Self::None | Self::Mild | Self::Moderate => Answer::No,
            Self::Ungraded | Self::Unknown => Answer::Unknown,
        }
    }
}

/// The grade of a valve's regurgitation.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Regurgitation {
    /// The valve does not leak.
    None,
    /// A trace.
    Trivial,
    /// Mild.
    Mild,
    /// Moderate.
    Moderate,
    /// Severe.
    Severe,
    /// Nobody knows.
    #[default]
    Unknown,
}

impl Regurgitation {
    /// Every answer, the best first.
    pub const ALL: [Self; 6] = [
        Self::None,
        Self::Trivial,
        Self::Mild,
        Self::Moderate,
        Self::Severe,
        Self::Unknown,
    ];

    /// The grade's word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Trivial => "trivial",
            Self::Mild => "mild",
            Self::Moderate => "moderate",
            Self::Severe => "severe",
            Self::Unknown => "unknown",
        }
    }

    /// Whether the regurgitation is of at least this grade.
    pub const fn at_least(self, grade: Self) -> Answer {
        match (self.rank(), grade.rank()) {
            (Some(own), Some(least)) if own >= least => Answer::Yes,
            (Some(_), Some(_)) => Answer::No,
            _ => Answer::Unknown,
        }
    }

    const fn rank(self) -> Option<u8> {
        match self {
            Self::None => Some(0),
            Self::Trivial => Some(1),
            Self::Mild => Some(2),
            Self::Moderate => Some(3),
            Self::Severe => Some(4),
            Self::Unknown => None,
        }
    }
}

/// The conduction to the ventricles before anything is done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Conduction {
    /// Sinus rhythm with normal conduction.
    Normal,
    /// First-degree atrioventricular block.
    FirstDegree,
    /// Second-degree atrioventricular block.
    SecondDegree,
    /// Left bundle branch block.
    LeftBundle,
    /// Right bundle branch block with a block of one fascicle of the left.
    Bifascicular,
    /// Complete atrioventricular block.
    Complete,
    /// Not normal, and nobody said how.
    Abnormal,
    /// Nobody knows.
    #[default]
    Unknown,
}

impl Conduction {
    /// Every answer, the best first.
    pub const ALL: [Self; 8] = [
        Self::Normal,
        Self::FirstDegree,
        Self::SecondDegree,
        Self::LeftBundle,
        Self::Bifascicular,
        Self::Complete,
        Self::Abnormal,
        Self::Unknown,
    ];

    /// The grade's word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::FirstDegree => "first_degree",
            Self::SecondDegree => "second_degree",
            Self::LeftBundle => "left_bundle_branch_block",
            Self::Bifascicular => "bifascicular_block",
            Self::Complete => "complete_block",
            Self::Abnormal => "abnormal",
            Self::Unknown => "unknown",
        }
    }

    /// The conduction in words.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::FirstDegree => "1st-degree block",
            Self::SecondDegree => "2nd-degree block",
            Self::LeftBundle => "left bundle block",
            Self::Bifascicular => "bifascicular",
            Self::Complete => "complete block",
            Self::Abnormal => "not normal",
            Self::Unknown => "unknown",
        }
    }

    /// Whether the rhythm is sinus rhythm with normal conduction.
    pub const fn normal(self) -> Answer {
        match self {
            Self::Normal => Answer::Yes,
            Self::Unknown => Answer::Unknown,
            _ => Answer::No,
        }
    }

    /// The conduction that a bare answer to "is it normal?" stands for.
    pub const fn from_normal(answer: Answer) -> Self {
        match answer {
            Answer::Yes => Self::Normal,
            Answer::No => Self::Abnormal,
            Answer::Unknown => Self::Unknown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grade_that_nobody_knows_is_neither_enough_nor_too_little() {
        use Regurgitation::{Mild, Moderate, None, Severe, Trivial, Unknown};
        assert_eq!(Moderate.at_least(Moderate), Answer::Yes);
        assert_eq!(Severe.at_least(Mild), Answer::Yes);
        assert_eq!(Trivial.at_least(Mild), Answer::No);
        assert_eq!(Unknown.at_least(None), Answer::Unknown);
        assert_eq!(Prolapse::Ungraded.present(), Answer::Yes);
        assert_eq!(Prolapse::Ungraded.severe(), Answer::Unknown);
        assert!(Prolapse::Unknown.may_be() && !Prolapse::None.may_be());
    }

    #[test]
    fn a_bare_answer_about_conduction_is_kept() {
        for answer in [Answer::Yes, Answer::No, Answer::Unknown] {
            assert_eq!(Conduction::from_normal(answer).normal(), answer);
        }
    }
}
