//! Where each number of an anatomy stands, looked up once for
//! all draws.

use crate::resolve::followed;
use geometry::PerFace;
use measurement::{Feature, PerValve, Quantity, Structure, Valve};

/// The address of one number: its own quantity and the one that it follows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Address {
    own: Option<Quantity>,
    followed: Option<Quantity>,
}

impl Address {
    fn of(structure: Structure, feature: Feature) -> Self {
        let own = Quantity::find(structure, feature);
        Self {
            own,
            followed: own.and_then(followed),
        }
    }

    /// The value there, or that of the quantity it follows.
    pub(super) fn get(self, value: &impl Fn(Quantity) -> Option<f64>) -> Option<f64> {
        let own = value(self.own?);
        own.or_else(|| value(self.followed?))
    }
}

/// The axes and the rotation of an ellipse.
#[derive(Clone, Copy, Debug)]
pub(super) struct EllipseAddresses {
    pub(super) major: Address,
    pub(super) minor: Address,
    pub(super) rotation: Address,
}

/// What is read of an opening beside its ellipse.
#[derive(Clone, Copy, Debug)]
pub(super) struct OpeningAddresses {
    pub(super) edge: EllipseAddresses,
    pub(super) shift: [Address; 2],
}

/// What is read of a valve.
#[derive(Clone, Copy, Debug)]
pub(super) struct ValveAddresses {
    pub(super) clock_position: Address,
    pub(super) rim: Address,
    pub(super) diameter: Address,
    pub(super) diameter_across: Address,
    pub(super) annulus_angle: Address,
    pub(super) cusp_depth: Address,
    pub(super) length: Address,
}

/// What is read of an outflow tract.
#[derive(Clone, Copy, Debug)]
pub(super) struct TractAddresses {
    pub(super) depth: Address,
    pub(super) width: Address,
    pub(super) velocity: Address,
}

/// The addresses of all numbers of an anatomy.
#[derive(Clone, Copy, Debug)]
pub(super) struct Addresses {
    pub(super) narrowest: EllipseAddresses,
    pub(super) openings: PerFace<OpeningAddresses>,
    pub(super) wall: Address,
    pub(super) valves: PerValve<ValveAddresses>,
    pub(super) tracts: PerFace<TractAddresses>,
    /// Length of the left and the right ventricle.
    pub(super) ventricles: PerFace<Address>,
    /// Systolic pressure in the left and the right ventricle.
    pub(super) systolic: PerFace<Address>,
    pub(super) vein: Address,
    pub(super) artery: Address,
    pub(super) qp_qs: Address,
}

impl EllipseAddresses {
    fn of(structure: Structure) -> Self {
        Self {
            major: Address::of(structure, Feature::LongAxis),
            minor: Address::of(structure, Feature::ShortAxis),
            rotation: Address::of(structure, Feature::Rotation),
        }
    }
}

impl ValveAddresses {
    fn of(valve: Valve) -> Self {
        let of = |feature| Address::of(Structure::Valve(valve), feature);
        Self {
            clock_position: of(Feature::ClockPosition),
            rim: of(Feature::Rim),
            diameter: of(Feature::Diameter),
            diameter_across: of(Feature::DiameterAcross),
            annulus_angle: of(Feature::AnnulusAngle),
            cusp_depth: of(Feature::CuspDepth),
            length: of(Feature::Length),
        }
    }
}

impl Addresses {
    /// Looks all of them up.
    pub(super) fn new() -> Self {
        let openings = PerFace::new(Structure::LeftOpening, Structure::RightOpening);
        let tracts = PerFace::new(Structure::LeftOutflow, Structure::RightOutflow);
        let ventricles = PerFace::new(Structure::LeftVentricle, Structure::RightVentricle);
        Self {
            narrowest: EllipseAddresses::of(Structure::Defect),
            openings: openings.map(|opening| OpeningAddresses {
                edge: EllipseAddresses::of(opening),
                shift: [Feature::OffsetToward12, Feature::OffsetToward3]
                    .map(|feature| Address::of(opening, feature)),
            }),
            wall: Address::of(Structure::Wall, Feature::Thickness),
            valves: PerValve::of(ValveAddresses::of),
            tracts: tracts.map(|tract| TractAddresses {
                depth: Address::of(tract, Feature::Depth),
                width: Address::of(tract, Feature::Width),
                velocity: Address::of(tract, Feature::Velocity),
            }),
            ventricles: ventricles.map(|ventricle| Address::of(ventricle, Feature::Length)),
            systolic: ventricles.map(|ventricle| Address::of(ventricle, Feature::SystolicPressure)),
            vein: Address::of(Structure::Vein, Feature::Diameter),
            artery: Address::of(Structure::Artery, Feature::Diameter),
            qp_qs: Address::of(Structure::Flow, Feature::QpQs),
        }
    }
}
