use crate::house_rules::Parameter;
use crate::{Case, Neighbour, Setting, answered, implausible, repeated, words};
use geometry::Face;
use measurement::{Quantity, Site, Valve, is_at_most, is_over, is_under};

/// Two things said of a case that cannot both be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// A short name, the same in every run.
    pub id: String,
    /// The contradiction in plain words, with its numbers.
    pub says: String,
    /// The quantities that contradict each other or the site; empty: a fact that
    /// every verdict rests on.
    pub on: Vec<Quantity>,
    /// Whether no defect can have such a geometry.
    pub is_impossible: bool,
}

impl Contradiction {
    /// Whether what needs some quantities rests on it.
    pub(crate) fn bears_on(&self, needs: &[Quantity]) -> bool {
        self.on.is_empty() || self.on.iter().any(|one| needs.contains(one))
    }
}

/// Every contradiction of a case, in a fixed order.
pub fn contradictions(setting: &Setting) -> Vec<Contradiction> {
    let mut found = Vec::new();
    found.extend(
        Valve::ALL
            .into_iter()
            .filter_map(|valve| rim_against_site(setting, valve)),
    );
    found.extend(borders(setting.case()));
    found.extend(AXES.iter().filter_map(|axes| axes_crossed(setting, axes)));
    found.extend(
        Face::BOTH
            .into_iter()
            .filter_map(|face| opening_under_throat(setting, face)),
    );
    found.extend(exclusions_denied(setting));
    found.extend(implausible(setting).iter().map(|one| Contradiction {
        id: "outside_wide_bounds".into(),
        says: one.says(),
        on: vec![one.quantity],
        is_impossible: false,
    }));
    found.extend(repeated(setting.case()).iter().map(|one| Contradiction {
        id: "typed_twice".into(),
        says: one.says(),
        on: vec![one.quantity],
        is_impossible: false,
    }));
    found
}

impl Contradiction {
    /// What kind of contradiction it is, in a few words.
    pub fn label(&self) -> &'static str {
        match self.id.as_str() {
            "outside_wide_bounds" => "a value outside its wide bounds",
            "typed_twice" => "one reading typed twice",
            "axes_crossed" => "a shorter axis over the longer one",
            "opening_under_throat" => "an opening narrower than the defect",
            "prolapse_denied" => "a prolapse that is denied",
            _ => "site against measurement",
        }
    }
}

/// The longer and the shorter axis of the defect and of each opening.
const AXES: [(&str, [Quantity; 2]); 3] = [
    (
        "throat",
        [Quantity::DEFECT_LONG_AXIS, Quantity::DEFECT_SHORT_AXIS],
    ),
    (
        "left opening",
        [
            Quantity::LEFT_OPENING_LONG_AXIS,
            Quantity::LEFT_OPENING_SHORT_AXIS,
        ],
    ),
    (
        "right opening",
        [
            Quantity::RIGHT_OPENING_LONG_AXIS,
            Quantity::RIGHT_OPENING_SHORT_AXIS,
        ],
    ),
];

/// A rim that the site does not allow.
fn rim_against_site(setting: &Setting, valve: Valve) -> Option<Contradiction> {
    let rim = setting.nominal(Quantity::rim(valve))?;
    let site = setting.case().site;
    let arterial = matches!(valve, Valve::Aortic | Valve::Pulmonary);
    let most = setting.parameter(Parameter::JuxtaArterialRim);
    if site == Site::OutletJuxtaArterial && arterial && is_over(rim, most) {
        return Some(Contradiction {
            id: "juxta_arterial_rim".into(),
            says: format!(
                "a juxta-arterial defect has no rim toward the {}, and {} were read",
                valve.label(),
                words::mm(rim)
            ),
            on: vec![Quantity::rim(valve)],
            is_impossible: false,
        });
    }
    let least = setting.parameter(Parameter::MuscularRim);
    (site.is_muscular() && is_at_most(rim, least)).then(|| Contradiction {
        id: "muscular_rim".into(),
        says: format!(
            "muscle surrounds a {} defect, and a rim of {} toward the {} was read",
            site.label(),
            words::mm(rim),
            valve.label()
        ),
        on: vec![Quantity::rim(valve)],
        is_impossible: false,
    })
}

/// A neighbour said to be absent that the site's border is made of.
fn borders(case: &Case) -> Option<Contradiction> {
    let tricuspid = Neighbour::Valve(Valve::Tricuspid);
    (case.site.is_perimembranous() && case.is_absent(tricuspid)).then(|| Contradiction {
        id: "perimembranous_border".into(),
        says: "a perimembranous defect borders on the tricuspid valve, said to be out of reach"
            .into(),
        on: Vec::new(),
        is_impossible: false,
    })
}

/// A shorter axis longer than the longer one.
fn axes_crossed(setting: &Setting, (name, axes): &(&str, [Quantity; 2])) -> Option<Contradiction> {
    let [longer, shorter] = *axes;
    let (longer, shorter) = (setting.nominal(longer)?, setting.nominal(shorter)?);
    is_over(shorter, longer).then(|| Contradiction {
        id: "axes_crossed".into(),
        says: format!(
            "the shorter axis of the {name} ({}) is longer than its longer axis ({})",
            words::mm(shorter),
            words::mm(longer)
        ),
        on: axes.to_vec(),
        is_impossible: true,
    })
}

/// An opening smaller than the narrowest section.
fn opening_under_throat(setting: &Setting, face: Face) -> Option<Contradiction> {
    let [(_, defect), left, right] = &AXES;
    let (name, opening) = match face {
        Face::Left => left,
        Face::Right => right,
    };
    let on = [opening[0], defect[0]];
    let (opening, throat) = (setting.nominal(on[0])?, setting.nominal(on[1])?);
    is_under(opening, throat).then(|| Contradiction {
        id: "opening_under_throat".into(),
        says: format!(
            "the {name} ({}) is narrower than the throat ({}), the narrowest section",
            words::mm(opening),
            words::mm(throat)
        ),
        on: on.to_vec(),
        is_impossible: true,
    })
}

/// An exclusion answered against what is known of the case.
fn exclusions_denied(setting: &Setting) -> impl Iterator<Item = Contradiction> {
    let all = setting.rules().exclusions.iter();
    all.filter_map(|exclusion| {
        let answered = answered(setting, exclusion);
        answered.is_denied().then(|| Contradiction {
            id: "exclusion_denied".into(),
            says: format!(
                "\"{}\" is answered {}, and {}",
                exclusion.fact,
                answered.typed,
                answered.because.join(", ")
            ),
            on: Vec::new(),
            is_impossible: false,
        })
    })
}
