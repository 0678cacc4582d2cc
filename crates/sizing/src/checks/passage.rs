use crate::check::{About, Check, Per, RATIO_SCALE};
use crate::house_rules::Parameter;
use crate::measure::{Measure, Situation, sheath};
use crate::{Harm, Subject, check_name, words};

/// The sheath's outer diameter over the vessel's inner one, on the way in.
///
/// A sheath is named by what fits inside (ISO 11070); where the catalogue has no
/// outer diameter the house's wall is added.
pub(super) struct Passage;

impl Check for Passage {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            name: check_name::SHEATH_FIT,
            title: "sheath in vessel",
            short: "sheath",
            scale: RATIO_SCALE,
            per: Per::Vessel {
                vein: Measure::SheathInVein,
                artery: Measure::SheathInArtery,
            },
            harm: |_| Harm::Vessel,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn says(&self, of: Subject, at: &Situation, value: f64) -> String {
        let taken_from = &at.size.sheath;
        let taken = if taken_from.outer_diameter.is_some() {
            ""
        } else {
            " (taken, not in the catalogue)"
        };
        let graver = at.setting.parameter(Parameter::GraverArteryShare);
        let over = if of == Subject::Artery && value > graver {
            format!(
                ", over {} as well: a graver risk to the pulse",
                words::percent(graver)
            )
        } else {
            String::new()
        };
        format!(
            "{} Fr sheath, {} outside{taken}, takes {} of the {of}'s width{over}",
            taken_from.french,
            words::mm(sheath(at.setting, at.size)),
            words::percent(value),
        )
    }
}
