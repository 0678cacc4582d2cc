//! The quantities of each valve.

use crate::{Quantity, Valve};

impl Quantity {
    /// The rim between the defect's edge and a valve's hinge.
    pub const fn rim(valve: Valve) -> Self {
        match valve {
            Valve::Aortic => Self::AORTIC_RIM,
            Valve::Mitral => Self::MITRAL_RIM,
            Valve::Tricuspid => Self::TRICUSPID_RIM,
            Valve::Pulmonary => Self::PULMONARY_RIM,
        }
    }

    /// The clock position of a valve's hinge.
    pub const fn clock_position(valve: Valve) -> Self {
        match valve {
            Valve::Aortic => Self::AORTIC_CLOCK_POSITION,
            Valve::Mitral => Self::MITRAL_CLOCK_POSITION,
            Valve::Tricuspid => Self::TRICUSPID_CLOCK_POSITION,
            Valve::Pulmonary => Self::PULMONARY_CLOCK_POSITION,
        }
    }

    /// The quantities that place a valve's plate at its hinge: both diameters of the
    /// annulus, its angle to the septum and the cusp depth.
    pub const fn plate(valve: Valve) -> [Self; 4] {
        match valve {
            Valve::Aortic => [
                Self::AORTIC_DIAMETER,
                Self::AORTIC_DIAMETER_ACROSS,
                Self::AORTIC_ANNULUS_ANGLE,
                Self::AORTIC_CUSP_DEPTH,
            ],
            Valve::Mitral => [
                Self::MITRAL_DIAMETER,
                Self::MITRAL_DIAMETER_ACROSS,
                Self::MITRAL_ANNULUS_ANGLE,
                Self::MITRAL_CUSP_DEPTH,
            ],
            Valve::Tricuspid => [
                Self::TRICUSPID_DIAMETER,
                Self::TRICUSPID_DIAMETER_ACROSS,
                Self::TRICUSPID_ANNULUS_ANGLE,
                Self::TRICUSPID_CUSP_DEPTH,
            ],
            Valve::Pulmonary => [
                Self::PULMONARY_DIAMETER,
                Self::PULMONARY_DIAMETER_ACROSS,
                Self::PULMONARY_ANNULUS_ANGLE,
                Self::PULMONARY_CUSP_DEPTH,
            ],
        }
    }

    /// The length of the leaflet beside the wall; an arterial valve has none.
    pub const fn leaflet(valve: Valve) -> Option<Self> {
        match valve {
            Valve::Mitral => Some(Self::MITRAL_LEAFLET),
            Valve::Tricuspid => Some(Self::TRICUSPID_LEAFLET),
            Valve::Aortic | Valve::Pulmonary => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Feature, Structure};

    #[test]
    fn each_is_a_quantity_of_its_valve() {
        for valve in Valve::ALL {
            let each = [Quantity::rim(valve), Quantity::clock_position(valve)]
                .into_iter()
                .chain(Quantity::plate(valve))
                .chain(Quantity::leaflet(valve));
            let features = [
                Feature::Rim,
                Feature::ClockPosition,
                Feature::Diameter,
                Feature::DiameterAcross,
                Feature::AnnulusAngle,
                Feature::CuspDepth,
                Feature::Length,
            ];
            for (quantity, feature) in each.zip(features) {
                assert_eq!(
                    Quantity::find(Structure::Valve(valve), feature),
                    Some(quantity)
                );
            }
        }
    }
}
