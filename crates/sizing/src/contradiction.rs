use crate::house_rules::Parameter;
use crate::{Case, Neighbour, Setting, answered, implausible, repeated, words};
use geometry::Face;
use measurement::{Feature, Quantity, Site, Structure, Valve, is_at_most, is_over, is_under};

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
    found.extend(
        [
            Structure::Throat,
            Structure::LeftOpening,
            Structure::RightOpening,
        ]
        .into_iter()
        .filter_map(|opening| axes_crossed(setting, opening)),
    );
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

/// A rim that the site does not allow.
fn rim_against_site(setting: &Setting, valve: Valve) -> Option<Contradiction> {
    let rim = setting.nominal(Structure::Valve(valve), Feature::Rim)?;
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
            on: quantities(Structure::Valve(valve), &[Feature::Rim]),
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
        on: quantities(Structure::Valve(valve), &[Feature::Rim]),
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
fn axes_crossed(setting: &Setting, opening: Structure) -> Option<Contradiction> {
    let longer = setting.nominal(opening, Feature::Major)?;
    let shorter = setting.nominal(opening, Feature::Minor)?;
    is_over(shorter, longer).then(|| Contradiction {
        id: "axes_crossed".into(),
        says: format!(
            "the shorter axis of the {} ({}) is longer than its longer axis ({})",
            name(opening),
            words::mm(shorter),
            words::mm(longer)
        ),
        on: quantities(opening, &[Feature::Major, Feature::Minor]),
        is_impossible: true,
    })
}

/// An opening smaller than the narrowest section.
fn opening_under_throat(setting: &Setting, face: Face) -> Option<Contradiction> {
    let opening = match face {
        Face::Left => Structure::LeftOpening,
        Face::Right => Structure::RightOpening,
    };
    let major = |structure| setting.nominal(structure, Feature::Major);
    let (opening_axis, throat) = (major(opening)?, major(Structure::Throat)?);
    is_under(opening_axis, throat).then(|| Contradiction {
        id: "opening_under_throat".into(),
        says: format!(
            "the {} ({}) is narrower than the throat ({}), the narrowest section",
            name(opening),
            words::mm(opening_axis),
            words::mm(throat)
        ),
        on: [opening, Structure::Throat]
            .into_iter()
            .flat_map(|one| quantities(one, &[Feature::Major]))
            .collect(),
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

/// The quantities of a structure's features.
fn quantities(structure: Structure, features: &[Feature]) -> Vec<Quantity> {
    let each = features.iter();
    each.filter_map(|&feature| Quantity::find(structure, feature))
        .collect()
}

const fn name(structure: Structure) -> &'static str {
    match structure {
        Structure::LeftOpening => "left opening",
        Structure::RightOpening => "right opening",
        _ => "throat",
    }
}
