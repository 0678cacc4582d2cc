use crate::check::{About, Check, GRADE_SCALE, Per};
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Size, Subject, check_name};
use geometry::Occluder;
use measurement::{Prolapse, Valve};

/// How far an aortic cusp prolapses, as a grade; what nobody graded counts as severe.
pub(super) struct CuspProlapse;

impl Check for CuspProlapse {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::PROLAPSE,
            title: "prolapse",
            short: "prolapse",
            scale: GRADE_SCALE,
            per: Per::Valve(|_| Measure::OfShape(grade)),
            harm: Harm::to_valve,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn is_asked(&self, setting: &Setting, _: &Occluder, of: Subject) -> bool {
        of == Subject::Valve(Valve::Aortic) && setting.case().facts.prolapse.may_be()
    }

    fn says(&self, _: Subject, at: &Situation, _: f64) -> String {
        let says = match at.setting.case().facts.prolapse {
            Prolapse::Unknown => "whether an aortic cusp prolapses is not known: it may, severely",
            Prolapse::Ungraded => "an aortic cusp prolapses and nobody graded it: it may be severe",
            Prolapse::None => "no aortic cusp prolapses",
            Prolapse::Mild => "an aortic cusp prolapses mildly",
            Prolapse::Moderate => "an aortic cusp prolapses moderately",
            Prolapse::Severe => "an aortic cusp prolapses severely",
        };
        says.to_owned()
    }
}

fn grade(setting: &Setting, _: &Size) -> f64 {
    setting.case().facts.prolapse.grade()
}
