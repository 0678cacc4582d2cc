use crate::house_rules::Parameter;
use crate::{Answer, Case, Neighbour, Setting, implausible, repeated, words};
use geometry::Face;
use measurement::{Feature, Site, Structure, Valve};

/// Two things said of a case that cannot both be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// A short name, the same in every run.
    pub id: &'static str,
    /// The contradiction in plain words, with its numbers.
    pub says: String,
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
    found.extend(prolapse_denied(setting.case()));
    found.extend(implausible(setting).iter().map(|one| Contradiction {
        id: "outside_wide_bounds",
        says: one.says(),
    }));
    found.extend(repeated(setting.case()).iter().map(|one| Contradiction {
        id: "typed_twice",
        says: one.says(),
    }));
    found
}

impl Contradiction {
    /// What kind of contradiction it is, in a few words.
    pub fn label(&self) -> &'static str {
        match self.id {
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
    if site == Site::OutletJuxtaArterial && arterial && rim > most {
        return Some(Contradiction {
            id: "juxta_arterial_rim",
            says: format!(
                "a juxta-arterial defect has no rim toward the {}, and {} were read",
                valve.label(),
                words::mm(rim)
            ),
        });
    }
    let least = setting.parameter(Parameter::MuscularRim);
    (site.is_muscular() && rim <= least).then(|| Contradiction {
        id: "muscular_rim",
        says: format!(
            "muscle surrounds a {} defect, and a rim of {} toward the {} was read",
            site.label(),
            words::mm(rim),
            valve.label()
        ),
    })
}

/// A neighbour said to be absent that the site's border is made of.
fn borders(case: &Case) -> Option<Contradiction> {
    let tricuspid = Neighbour::Valve(Valve::Tricuspid);
    (case.site.is_perimembranous() && case.is_absent(tricuspid)).then(|| Contradiction {
        id: "perimembranous_border",
        says: "a perimembranous defect borders on the tricuspid valve, said not to be beside it"
            .into(),
    })
}

/// A shorter axis longer than the longer one.
fn axes_crossed(setting: &Setting, opening: Structure) -> Option<Contradiction> {
    let longer = setting.nominal(opening, Feature::Major)?;
    let shorter = setting.nominal(opening, Feature::Minor)?;
    (shorter > longer).then(|| Contradiction {
        id: "axes_crossed",
        says: format!(
            "the shorter axis of the {} ({}) is longer than its longer axis ({})",
            name(opening),
            words::mm(shorter),
            words::mm(longer)
        ),
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
    (opening_axis < throat).then(|| Contradiction {
        id: "opening_under_throat",
        says: format!(
            "the {} ({}) is narrower than the throat ({}), the narrowest section",
            name(opening),
            words::mm(opening_axis),
            words::mm(throat)
        ),
    })
}

/// No prolapse, and yet a prolapse with regurgitation.
fn prolapse_denied(case: &Case) -> Option<Contradiction> {
    let id = "prolapse_with_regurgitation";
    let claimed = case.exclusions.get(id) == Some(&Answer::Yes);
    (case.facts.prolapse == Answer::No && claimed).then(|| Contradiction {
        id: "prolapse_denied",
        says: "no cusp is said to prolapse, and a prolapse with regurgitation is".into(),
    })
}

const fn name(structure: Structure) -> &'static str {
    match structure {
        Structure::LeftOpening => "left opening",
        Structure::RightOpening => "right opening",
        _ => "throat",
    }
}
