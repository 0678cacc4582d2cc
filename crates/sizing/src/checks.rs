//! Every check, one to a file. To add one: name it in
//! `check_name`, write its file, list it here.

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

use crate::check::Check;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Subject, check_ids, check_name};

    #[test]
    fn every_check_has_its_name_an_id_of_its_own_and_a_scale() {
        let names = ALL.iter().map(|check| check.about().name);
        assert!(names.eq(check_name::ALL.iter().copied()));
        let mut known: Vec<&str> = Vec::new();
        for name in check_name::ALL {
            let mut ids = Subject::ALL.map(|of| name.id(of)).to_vec();
            ids.sort_unstable();
            ids.dedup();
            assert!(ids.iter().all(|id| !known.contains(id)), "{ids:?}");
            known.extend(ids);
        }
        assert_eq!(check_ids().len(), known.len());
        for check in ALL {
            let about = check.about();
            assert!(about.scale > 0.0, "{}", about.title);
        }
    }
}
