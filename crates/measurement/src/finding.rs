use crate::Answer;
use std::collections::BTreeMap;

/// A fact of the child and the examination that bears on whether to close, asked
/// as yes, no or unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Finding {
    /// The child does not gain weight as it should.
    FailureToThrive,
    /// Breathing and feeding are laboured by the shunt.
    HeartFailure,
    /// The left heart is dilated by the shunt, as the examiner judges.
    DilatedLeftHeart,
    /// The defect has become smaller from one examination to the next.
    Shrinking,
    /// There are signs of an infection now.
    SignsOfInfection,
    /// Endocarditis came before.
    Endocarditis,
    /// Pressures and flows were read under support: ventilation, drugs for the
    /// heart, a pump.
    OnSupport,
    /// The left ventricle empties as it should without support.
    GoodFunction,
    /// The rhythm before was sinus rhythm with normal conduction; a case says it
    /// as its conduction before.
    NormalRhythm,
    /// The arch was seen from end to end.
    ArchSeen,
    /// The left outflow tract and the aortic valve are free of obstruction.
    FreeLeftOutflow,
    /// The right outflow tract and the pulmonary valve are free of obstruction.
    FreeRightOutflow,
    /// The pulmonary vessels yield to oxygen, nitric oxide or a test occlusion:
    /// resistance falls below the limit, or a reversed shunt turns back.
    Reactive,
    /// Another lesion shunts or loads the same side: a duct, an atrial defect, a
    /// leaking mitral valve.
    OtherLesion,
    /// Aortic regurgitation has grown from one examination to the next.
    ProgressiveAorticRegurgitation,
    /// The arterial saturation falls at rest or under effort.
    Cyanosis,
}

/// The findings of a case that were answered.
pub type Findings = BTreeMap<Finding, Answer>;

impl Finding {
    /// Every finding, in the order in which they are asked.
    pub const ALL: [Self; 16] = [
        Self::FailureToThrive,
        Self::HeartFailure,
        Self::DilatedLeftHeart,
        Self::Shrinking,
        Self::SignsOfInfection,
        Self::Endocarditis,
        Self::OnSupport,
        Self::GoodFunction,
        Self::NormalRhythm,
        Self::ArchSeen,
        Self::FreeLeftOutflow,
        Self::FreeRightOutflow,
        Self::Reactive,
        Self::OtherLesion,
        Self::ProgressiveAorticRegurgitation,
        Self::Cyanosis,
    ];

    /// The findings that a case answers for themselves. The rhythm before is not
    /// among them: [`Conduction`](crate::Conduction) says it, with its grade.
    pub fn asked() -> impl Iterator<Item = Self> {
        let all = Self::ALL.into_iter();
        all.filter(|finding| *finding != Self::NormalRhythm)
    }

    /// The finding's word in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FailureToThrive => "failure_to_thrive",
            Self::HeartFailure => "heart_failure",
            Self::DilatedLeftHeart => "dilated_left_heart",
            Self::Shrinking => "shrinking",
            Self::SignsOfInfection => "signs_of_infection",
            Self::Endocarditis => "endocarditis",
            Self::OnSupport => "on_support",
            Self::GoodFunction => "good_function",
            Self::NormalRhythm => "normal_rhythm",
            Self::ArchSeen => "arch_seen",
            Self::FreeLeftOutflow => "free_left_outflow",
            Self::FreeRightOutflow => "free_right_outflow",
            Self::Reactive => "reactive",
            Self::OtherLesion => "other_lesion",
            Self::ProgressiveAorticRegurgitation => "progressive_aortic_regurgitation",
            Self::Cyanosis => "cyanosis",
        }
    }

    /// The fact as a statement that is true or false.
    pub const fn label(self) -> &'static str {
        match self {
            Self::FailureToThrive => "failure to thrive",
            Self::HeartFailure => "signs of heart failure",
            Self::DilatedLeftHeart => "left heart dilated by the shunt, as judged",
            Self::Shrinking => "the defect became smaller between examinations",
            Self::SignsOfInfection => "signs of an infection",
            Self::Endocarditis => "endocarditis before",
            Self::OnSupport => "measured under support (ventilation, drugs, pump)",
            Self::GoodFunction => "left ventricle empties well without support",
            Self::NormalRhythm => "sinus rhythm with normal conduction before",
            Self::ArchSeen => "arch seen from end to end",
            Self::FreeLeftOutflow => "left outflow free of obstruction",
            Self::FreeRightOutflow => "right outflow free of obstruction",
            Self::Reactive => "pulmonary vessels yield to oxygen, nitric oxide or a test occlusion",
            Self::OtherLesion => "another lesion that shunts or loads the same side",
            Self::ProgressiveAorticRegurgitation => "aortic regurgitation has grown",
            Self::Cyanosis => "arterial saturation falls at rest or under effort",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_finding_has_a_name_of_its_own() {
        let names: BTreeSet<&str> = Finding::ALL.map(Finding::name).into();
        assert_eq!(names.len(), Finding::ALL.len());
        assert!(Finding::ALL.is_sorted());
    }
}
