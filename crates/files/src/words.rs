//! The words of files for types with a fixed list of values.

use geometry::{Edge, Face};
use measurement::{
    Choose, Conduction, Finding, Method, Modality, ModelError, Phase, Prolapse, Regurgitation,
    Side, Site, Unit, Valve,
};
use sizing::house_rules::Grade;
use sizing::trial::{Cable, CameOfIt, ObservationKind, Rhythm, RoomBox};
use sizing::{Answer, CirculationFigure, Neighbour, Route, Subject};
use workup::{Bearing, MixedVenous, OfAdult, OfChild, SharedFigure};

/// A value that files name by one word of a list.
pub trait Word: Copy + PartialEq + 'static {
    /// Each word with its value.
    const WORDS: &'static [(&'static str, Self)];

    /// The word for a value.
    fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, value)| *value == self)
            .map_or("", |(word, _)| word)
    }

    /// The value of a word.
    fn from_word(word: &str) -> Option<Self> {
        Self::WORDS
            .iter()
            .find(|(one, _)| *one == word)
            .map(|(_, value)| *value)
    }
}

macro_rules! words {
    ($type:ty: $($word:literal => $value:expr),+ $(,)?) => {
        impl Word for $type {
            const WORDS: &'static [(&'static str, Self)] = &[$(($word, $value)),+];
        }
    };
}

words!(Site:
    "central_perimembranous" => Self::CentralPerimembranous,
    "inlet_perimembranous" => Self::InletPerimembranous,
    "inlet_muscular" => Self::InletMuscular,
    "trabecular_muscular" => Self::TrabecularMuscular,
    "outlet_perimembranous" => Self::OutletPerimembranous,
    "outlet_muscular" => Self::OutletMuscular,
    "outlet_juxta_arterial" => Self::OutletJuxtaArterial,
);

words!(Edge:
    "soft" => Self::Soft,
    "stiff" => Self::Stiff,
);

words!(Route:
    "antegrade" => Self::Antegrade,
    "retrograde" => Self::Retrograde,
    "perventricular" => Self::Perventricular,
);

words!(Modality:
    "transthoracic_echo" => Self::TransthoracicEcho,
    "transoesophageal_echo" => Self::TransoesophagealEcho,
    "three_dimensional_echo" => Self::ThreeDimensionalEcho,
    "angiography" => Self::Angiography,
    "computed_tomography" => Self::ComputedTomography,
    "magnetic_resonance" => Self::MagneticResonance,
    "catheter" => Self::Catheter,
    "bedside" => Self::Bedside,
);

words!(Side:
    "left" => Self::Left,
    "right" => Self::Right,
    "within" => Self::Within,
    "no_side" => Self::NoSide,
);

words!(Phase:
    "diastole" => Self::Diastole,
    "end_diastole" => Self::EndDiastole,
    "systole" => Self::Systole,
    "end_systole" => Self::EndSystole,
    "any_phase" => Self::AnyPhase,
);

words!(Method:
    "edge_to_edge" => Self::EdgeToEdge,
    "colour_jet" => Self::ColourJet,
    "contrast_stream" => Self::ContrastStream,
    "balloon" => Self::Balloon,
    "doppler" => Self::Doppler,
    "direct" => Self::Direct,
    "derived" => Self::Derived,
);

words!(Unit:
    "mm" => Self::Mm,
    "cm" => Self::Cm,
    "kg" => Self::Kg,
    "years" => Self::Years,
    "deg" => Self::Degrees,
    "m/s" => Self::MPerS,
    "mmHg" => Self::MmHg,
    "ratio" => Self::Ratio,
    "%" => Self::Percent,
    "g/dL" => Self::GPerDl,
    "mL/min/m2" => Self::MlPerMinM2,
    "/min" => Self::PerMin,
    // In letters that every keyboard has, as mL/min/m2 is.
    "WU.m2" => Self::WoodM2,
);

words!(Answer:
    "yes" => Self::Yes,
    "no" => Self::No,
    "unknown" => Self::Unknown,
);

words!(Prolapse:
    "none" => Self::None,
    "mild" => Self::Mild,
    "moderate" => Self::Moderate,
    "severe" => Self::Severe,
    "yes" => Self::Ungraded,
    "unknown" => Self::Unknown,
);

words!(Regurgitation:
    "none" => Self::None,
    "trivial" => Self::Trivial,
    "mild" => Self::Mild,
    "moderate" => Self::Moderate,
    "severe" => Self::Severe,
    "unknown" => Self::Unknown,
);

words!(Conduction:
    "normal" => Self::Normal,
    "first_degree" => Self::FirstDegree,
    "second_degree" => Self::SecondDegree,
    "left_bundle_branch_block" => Self::LeftBundle,
    "bifascicular_block" => Self::Bifascicular,
    "complete_block" => Self::Complete,
    "abnormal" => Self::Abnormal,
    "unknown" => Self::Unknown,
);

words!(Finding:
    "failure_to_thrive" => Self::FailureToThrive,
    "heart_failure" => Self::HeartFailure,
    "dilated_left_heart" => Self::DilatedLeftHeart,
    "shrinking" => Self::Shrinking,
    "signs_of_infection" => Self::SignsOfInfection,
    "endocarditis" => Self::Endocarditis,
    "on_support" => Self::OnSupport,
    "good_function" => Self::GoodFunction,
    "normal_rhythm" => Self::NormalRhythm,
    "arch_seen" => Self::ArchSeen,
    "free_left_outflow" => Self::FreeLeftOutflow,
    "free_right_outflow" => Self::FreeRightOutflow,
    "reactive" => Self::Reactive,
    "other_lesion" => Self::OtherLesion,
    "progressive_aortic_regurgitation" => Self::ProgressiveAorticRegurgitation,
    "cyanosis" => Self::Cyanosis,
);

words!(Bearing:
    "for_closing" => Self::ForClosing,
    "against_closing" => Self::AgainstClosing,
    "of_the_way" => Self::OfTheWay,
    "before" => Self::Before,
);

words!(MixedVenous:
    "superior_vena_cava" => Self::SuperiorCava,
    "right_atrium" => Self::RightAtrium,
    "both_venae_cavae" => Self::BothCavae,
);

words!(OfChild:
    "weight" => Self::Shared(SharedFigure::Weight),
    "age" => Self::Shared(SharedFigure::Age),
    "qp_qs" => Self::Shared(SharedFigure::QpQs),
    "resistance_indexed" => Self::ResistanceIndexed,
    "resistance_ratio" => Self::Shared(SharedFigure::ResistanceRatio),
    "pressure_ratio" => Self::Shared(SharedFigure::PressureRatio),
    "left_ventricle_z" => Self::Shared(SharedFigure::LeftVentricleZ),
    "left_atrium_z" => Self::Shared(SharedFigure::LeftAtriumZ),
);

words!(OfAdult:
    "weight" => Self::Shared(SharedFigure::Weight),
    "age" => Self::Shared(SharedFigure::Age),
    "qp_qs" => Self::Shared(SharedFigure::QpQs),
    "resistance" => Self::Resistance,
    "resistance_ratio" => Self::Shared(SharedFigure::ResistanceRatio),
    "pressure_ratio" => Self::Shared(SharedFigure::PressureRatio),
    "left_ventricle_z" => Self::Shared(SharedFigure::LeftVentricleZ),
    "left_atrium_z" => Self::Shared(SharedFigure::LeftAtriumZ),
);

words!(Grade:
    "none" => Self::None,
    "trivial" => Self::Trivial,
    "mild" => Self::Mild,
    "moderate" => Self::Moderate,
    "severe" => Self::Severe,
);

words!(CirculationFigure:
    "resistance_indexed" => Self::ResistanceIndexed,
    "resistance_ratio_alone" => Self::ResistanceRatioAlone,
    "qp_qs" => Self::QpQs,
    "right_to_left_share" => Self::RightToLeftShare,
);

words!(Choose:
    "largest" => Self::Largest,
    "smallest" => Self::Smallest,
);

words!(Neighbour:
    "aortic_valve" => Self::Valve(Valve::Aortic),
    "mitral_valve" => Self::Valve(Valve::Mitral),
    "tricuspid_valve" => Self::Valve(Valve::Tricuspid),
    "pulmonary_valve" => Self::Valve(Valve::Pulmonary),
    "left_outflow" => Self::LeftOutflow,
    "right_outflow" => Self::RightOutflow,
);

words!(Subject:
    "shape" => Self::Shape,
    "left" => Self::Face(Face::Left),
    "right" => Self::Face(Face::Right),
    "aortic_valve" => Self::Valve(Valve::Aortic),
    "mitral_valve" => Self::Valve(Valve::Mitral),
    "tricuspid_valve" => Self::Valve(Valve::Tricuspid),
    "pulmonary_valve" => Self::Valve(Valve::Pulmonary),
    "vein" => Self::Vein,
    "artery" => Self::Artery,
);

words!(ObservationKind:
    "edge_jet" => Self::EdgeJet,
    "weave_jet" => Self::WeaveJet,
    "regurgitation" => Self::Regurgitation,
    "leaflet" => Self::Leaflet,
    "gradient" => Self::Gradient,
    "rhythm" => Self::Rhythm,
    "slips" => Self::Slips,
    "misshapen" => Self::Misshapen,
    "pressure" => Self::Pressure,
    "distance" => Self::Distance,
    "touches" => Self::Touches,
    "waist" => Self::Waist,
    "stand_off" => Self::StandOff,
    "turn" => Self::Turn,
    "holter" => Self::Holter,
    "displaced" => Self::Displaced,
    "left_ventricle_z" => Self::LeftVentricleZ,
    "haemoglobin" => Self::Haemoglobin,
    "ldh" => Self::Ldh,
);

words!(ModelError:
    "clearance_left" => Self::ClearanceLeft,
    "clearance_right" => Self::ClearanceRight,
    "rim_overlap" => Self::RimOverlap,
    "waist" => Self::Waist,
    "gradient_left" => Self::GradientLeft,
    "gradient_right" => Self::GradientRight,
);

words!(Rhythm:
    "as_before" => Self::AsBefore,
    "right_bundle" => Self::RightBundle,
    "left_anterior_fascicle" => Self::LeftAnteriorFascicle,
    "bifascicular" => Self::Bifascicular,
    "first_degree" => Self::FirstDegree,
    "junctional" => Self::Junctional,
    "left_bundle" => Self::LeftBundle,
    "second_degree" => Self::SecondDegree,
    "complete" => Self::Complete,
);

words!(Cable:
    "slack" => Self::Slack,
    "taut" => Self::Taut,
    "unknown" => Self::Unknown,
);

words!(CameOfIt:
    "released" => Self::Released,
    "recaptured" => Self::Recaptured,
    "changed" => Self::Changed,
    "abandoned" => Self::Abandoned,
);

words!(RoomBox:
    "heparin" => Self::Heparin,
    "clotting_time" => Self::ClottingTime,
    "snare" => Self::Snare,
    "larger_sheath" => Self::LargerSheath,
    "pacing" => Self::Pacing,
    "surgeon_and_theatre" => Self::SurgeonAndTheatre,
    "blood" => Self::Blood,
    "echo" => Self::Echo,
    "antibiotic" => Self::Antibiotic,
    "arrhythmia_on_wire" => Self::ArrhythmiaOnWire,
    "left_pressure" => Self::LeftPressure,
    "right_pressure" => Self::RightPressure,
    "pulmonary_pressure" => Self::PulmonaryPressure,
    "pulses_1h" => Self::PulsesAt1h,
    "pulses_6h" => Self::PulsesAt6h,
    "pulses_24h" => Self::PulsesAt24h,
    "telemetry" => Self::Telemetry,
    "urine" => Self::Urine,
    "antiplatelet" => Self::Antiplatelet,
    "endocarditis_precautions" => Self::EndocarditisPrecautions,
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_those_the_types_know() {
        for site in Site::ALL {
            assert_eq!(site.word(), site.name());
        }
        for neighbour in Neighbour::ALL {
            assert_eq!(neighbour.word(), neighbour.name());
        }
        for finding in Finding::ALL {
            assert_eq!(finding.word(), finding.name());
        }
        for prolapse in Prolapse::ALL {
            assert_eq!(prolapse.word(), prolapse.name());
        }
        for regurgitation in Regurgitation::ALL {
            assert_eq!(regurgitation.word(), regurgitation.name());
        }
        for conduction in Conduction::ALL {
            assert_eq!(conduction.word(), conduction.name());
        }
        for kind in ObservationKind::ALL {
            assert_eq!(kind.word(), kind.name());
        }
        for error in ModelError::ALL {
            assert_eq!(error.word(), error.name());
        }
        for rhythm in Rhythm::ALL {
            assert_eq!(rhythm.word(), rhythm.name());
        }
        for &(word, outcome) in CameOfIt::WORDS {
            assert_eq!(word, outcome.name());
        }
        for &(word, unit) in Unit::WORDS {
            let typed = unit.symbol().replace('·', ".").replace('²', "2");
            assert_eq!(word, typed);
        }
        for &(word, answer) in Answer::WORDS {
            assert_eq!(word, answer.to_string());
        }
        for subject in Subject::ALL {
            assert_eq!(Subject::from_word(subject.word()), Some(subject));
            assert_eq!(subject.word(), subject.name());
        }
    }

    #[test]
    fn every_word_names_one_value() {
        fn check<T: Word + std::fmt::Debug>() {
            for &(word, value) in T::WORDS {
                assert_eq!(T::from_word(word), Some(value));
                assert_eq!(value.word(), word);
            }
        }
        check::<Modality>();
        check::<Side>();
        check::<Phase>();
        check::<Method>();
        check::<Edge>();
        check::<Route>();
        check::<Choose>();
        check::<Finding>();
        check::<Prolapse>();
        check::<Regurgitation>();
        check::<Conduction>();
        check::<Bearing>();
        check::<MixedVenous>();
        check::<OfChild>();
        check::<OfAdult>();
        check::<ObservationKind>();
        check::<ModelError>();
        check::<Rhythm>();
        check::<Cable>();
        check::<CameOfIt>();
        check::<RoomBox>();
    }
}
