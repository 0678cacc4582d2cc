use crate::check::{About, Check, Id, Lanes, Measure, Nominal, Per, RATIO_SCALE, UNREAD};
use crate::house_rules::Parameter;
use crate::{Harm, Setting, Subject, words};
use geometry::{Mm, Occluder};
use measurement::{Quantity, Unit};

/// The sheath's outer diameter over the vessel's inner one, on the way in.
///
/// A sheath is named by what fits inside (ISO 11070); where the catalogue has no
/// outer diameter the house's wall is added.
pub(super) struct Passage;

impl Check for Passage {
    fn about(&self) -> &'static About {
        const ABOUT: About = About {
            id: Id::One("passage"),
            title: "sheath in vessel",
            unit: Unit::Ratio,
            scale: RATIO_SCALE,
            per: Per::Vessel,
            harm: |_| Harm::Vessel,
            below: None,
            aside: None,
        };
        &ABOUT
    }

    fn needs(&self, _: &Setting, _: &Occluder, of: Subject) -> Vec<Quantity> {
        vec![if of == Subject::Artery {
            Quantity::ARTERY_DIAMETER
        } else {
            Quantity::VEIN_DIAMETER
        }]
    }

    fn measure(&self, of: Subject) -> Option<Measure> {
        Some(if of == Subject::Artery {
            Measure::SheathInArtery
        } else {
            Measure::SheathInVein
        })
    }

    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]) {
        let sheath = outer_diameter(lanes.setting, lanes.size);
        lanes.each(values, |anatomy, _| {
            let vessel = if of == Subject::Artery {
                anatomy.artery
            } else {
                anatomy.vein
            };
            vessel.map_or(UNREAD, |diameter| sheath / diameter)
        });
    }

    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String {
        let sheath = &nominal.size.sheath;
        let taken = if sheath.outer_diameter.is_some() {
            ""
        } else {
            " (taken, not in the catalogue)"
        };
        let graver = nominal.setting.parameter(Parameter::GraverArteryShare);
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
            sheath.french,
            words::mm(outer_diameter(nominal.setting, nominal.size)),
            words::percent(value),
        )
    }
}

fn outer_diameter(setting: &Setting, size: &crate::Size) -> Mm {
    size.sheath
        .outer_diameter(setting.parameter(Parameter::SheathWalls))
}
