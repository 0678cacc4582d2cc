use super::{Case, Neighbour};
use crate::Fact;
use measurement::{Quantity, Site, Valve};

impl Fact {
    /// Whether it is asked of a case at all: not what no disc reaches, nor at a site
    /// where it does not occur. How much the aortic valve leaks is asked wherever the
    /// valve is: it excludes.
    pub fn is_asked(self, case: &Case) -> bool {
        let reach = |valve| !case.is_absent(Neighbour::Valve(valve));
        match self {
            Self::Round => is_measured_in_one_plane(case),
            Self::Prolapse => reach(Valve::Aortic),
            Self::PulmonaryRegurgitation => {
                reach(Valve::Pulmonary)
                    && matches!(case.site, Site::OutletMuscular | Site::OutletJuxtaArterial)
            }
            Self::Pouch => case.site.is_perimembranous(),
            Self::Holes | Self::BandInTheWay => case.site == Site::TrabecularMuscular,
            Self::MitralChordae => reach(Valve::Mitral),
            Self::TricuspidChordae => reach(Valve::Tricuspid),
            Self::AorticRegurgitation | Self::Conduction => true,
        }
    }

    /// Whether the ranked list waits for it at the site of a case. Where it does
    /// not, it is asked for the work-up alone.
    pub fn is_needed(self, case: &Case) -> bool {
        let by_site = match self {
            Self::PulmonaryRegurgitation => case.site == Site::OutletJuxtaArterial,
            Self::Conduction => case.site.is_perimembranous() || case.site == Site::InletMuscular,
            _ => true,
        };
        by_site && self.is_asked(case)
    }
}

/// Whether one axis of the defect was measured and the other was not.
fn is_measured_in_one_plane(case: &Case) -> bool {
    let is_measured = |axis| {
        let mut readings = case.readings.iter();
        readings.any(|one| one.quantity == axis && one.set_aside.is_none())
    };
    is_measured(Quantity::DEFECT_LONG_AXIS) != is_measured(Quantity::DEFECT_SHORT_AXIS)
}
