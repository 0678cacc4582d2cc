//! Every check, one to a file. To add one: write its file, list it here.

mod artery_width;
mod chamber;
mod clearance;
mod conduction_clamp;
mod conduction_disc;
mod conduction_excess;
mod conduction_ratio;
mod grip;
mod hinge_lip;
mod hold;
mod leaflet;
mod leaflet_chordae;
mod length_fit;
mod part;
mod passage;
mod prolapse;
mod tract_gradient;
mod tract_share;
mod tract_width;
mod waist_fit;
mod waist_ratio;

use crate::Subject;
use crate::check::Check;
use measurement::Unit;

/// Every check, in the order in which they are shown.
pub(crate) static ALL: &[&dyn Check] = &[
    &waist_fit::WaistFit,
    &waist_ratio::WaistRatio,
    &length_fit::LengthFit,
    &hold::Hold,
    &hinge_lip::HingeLip,
    &grip::Grip,
    &clearance::Clearance,
    &prolapse::CuspProlapse,
    &leaflet::Leaflet,
    &leaflet_chordae::LeafletChordae,
    &tract_share::TractShare,
    &tract_gradient::TractGradient,
    &tract_width::TractWidth,
    &conduction_excess::ConductionExcess,
    &conduction_ratio::ConductionRatio,
    &conduction_clamp::ConductionClamp,
    &conduction_disc::ConductionDisc,
    &chamber::Chamber,
    &passage::Passage,
    &artery_width::ArteryWidth,
];

/// The id of every check, as house rules name them.
pub fn check_ids() -> Vec<&'static str> {
    let mut ids: Vec<&'static str> = ALL
        .iter()
        .flat_map(|check| Subject::ALL.map(|of| check.about().id(of)))
        .collect();
    // The ids of one check stand side by side, but alternate by face.
    let mut known = Vec::new();
    ids.retain(|id| {
        let is_new = !known.contains(id);
        known.push(*id);
        is_new
    });
    ids
}

/// The unit of a check by its id.
pub(crate) fn unit_of(id: &str) -> Option<Unit> {
    let is_named = |check: &&&dyn Check| {
        let about = check.about();
        Subject::ALL.iter().any(|&of| about.id(of) == id)
    };
    ALL.iter().find(is_named).map(|check| check.about().unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_checks_have_one_id_and_each_has_a_scale() {
        let mut known: Vec<&str> = Vec::new();
        for check in ALL {
            let mut ids = Subject::ALL.map(|of| check.about().id(of)).to_vec();
            ids.sort_unstable();
            ids.dedup();
            assert!(ids.iter().all(|id| !known.contains(id)), "{ids:?}");
            known.extend(ids);
            assert!(check.about().scale > 0.0, "{}", check.about().title);
        }
        assert_eq!(check_ids().len(), known.len());
    }
}
