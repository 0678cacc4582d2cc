mod addresses;

use crate::{Case, HouseRules, Neighbour, face_of, house_rules::Parameter};
use addresses::{Address, Addresses, EllipseAddresses, ValveAddresses};
use geometry::lip::ArcSet;
use geometry::{
    AnnulusPlate, Defect, Edge, Ellipse, Face, HingedPlate, Mm, Opening, OutflowTract, PerFace,
    Radians, Vec2, degrees,
};
use measurement::{MPerS, ModelError, PerValve, Quantity, Values, Valve, is_under};

/// One anatomy: the one that was read, or one draw of it.
///
/// Where a reading is missing a placeholder stands, or `None`. No check looks at
/// it: each names what it needs and is not assessed without it.
#[derive(Clone, Debug)]
pub struct Anatomy {
    /// The hole.
    pub defect: Defect,
    /// The valves that stand beside it, as far as they were read.
    pub valves: PerValve<Option<HingedPlate>>,
    /// The rim of each valve.
    pub rims: PerValve<Option<Mm>>,
    /// The azimuth of each valve's hinge.
    pub azimuths: PerValve<Option<Radians>>,
    /// On each face the arcs about its hinges.
    pub hinge_arcs: PerFace<ArcSet>,
    /// The length of each valve's leaflet at the defect.
    pub leaflets: PerValve<Option<Mm>>,
    /// The outflow tract of each side.
    pub tracts: PerFace<Option<OutflowTract>>,
    /// Peak velocity in each tract once the shunt is gone: on the right the flow falls by
    /// Qs/Qp, on the left it rises by the house's rule; where Qp:Qs was not measured no fall
    /// is counted.
    pub velocities_after: PerFace<Option<MPerS>>,
    /// Shortest free end-systolic length of each ventricle in the wall plane.
    pub ventricles: PerFace<Option<Mm>>,
    /// Inner diameter of the vein.
    pub vein: Option<Mm>,
    /// Inner diameter of the artery.
    pub artery: Option<Mm>,
    /// Pulmonary over systemic flow.
    pub qp_qs: Option<f64>,
    /// q_max: the largest share of the slack that stands off on the left. Pressure
    /// seats the left disc where the right ventricle's is the lower.
    pub left_slack_share: f64,
    /// By how much the model is wrong in this child.
    pub errors: ModelErrors,
}

/// A value for each model error, in its order; 0: the model is right.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ModelErrors([f64; ModelError::ALL.len()]);

impl ModelErrors {
    /// The value of one.
    pub const fn of(&self, error: ModelError) -> f64 {
        self.0[error.index()]
    }

    /// Gives one its value.
    pub const fn set(&mut self, error: ModelError, value: f64) {
        self.0[error.index()] = value;
    }

    /// By how much clearance on a face is larger than modelled, mm.
    pub const fn clearance(&self, face: Face) -> f64 {
        self.of(match face {
            Face::Left => ModelError::ClearanceLeft,
            Face::Right => ModelError::ClearanceRight,
        })
    }

    /// What the gradient of a face's outflow is multiplied by.
    pub fn gradient(&self, face: Face) -> f64 {
        let error = self.of(match face {
            Face::Left => ModelError::GradientLeft,
            Face::Right => ModelError::GradientRight,
        });
        // Most houses have the model right, in every draw.
        if error == 0.0 { 1.0 } else { libm::exp(error) }
    }
}

/// What stays the same in all draws of a case.
#[derive(Clone, Debug)]
pub(crate) struct AnatomyPlan {
    edge: Edge,
    beside: PerValve<bool>,
    hinge_arc: Radians,
    /// q_max where the right pressure is the lower, and where it is not.
    left_slack_shares: [f64; 2],
    /// The systemic flow after closure over that before.
    systemic_rise: f64,
    /// By how much the model is believed to be wrong.
    errors: ModelErrors,
    addresses: Addresses,
}

/// A defect of 1 mm, where its axes were not read.
const PLACEHOLDER: Mm = 1.0;

impl AnatomyPlan {
    pub(crate) fn new(case: &Case, rules: &HouseRules) -> Self {
        Self {
            edge: case.edge,
            beside: PerValve::of(|valve| !case.is_absent(Neighbour::Valve(valve))),
            hinge_arc: degrees(rules.parameter(Parameter::HingeArc)),
            left_slack_shares: [
                Parameter::LeftSlackShare,
                Parameter::LeftSlackShareEqualPressure,
            ]
            .map(|share| rules.parameter(share)),
            systemic_rise: rules.parameter(Parameter::SystemicRise),
            errors: ModelErrors::default(),
            addresses: Addresses::new(),
        }
    }

    /// The same with the model believed to be wrong by so much.
    pub(crate) const fn set_errors(&mut self, errors: ModelErrors) {
        self.errors = errors;
    }

    /// The anatomy of a set of values.
    pub(crate) fn anatomy(&self, values: &Values) -> Anatomy {
        self.anatomy_of(|quantity| values.get(quantity))
    }

    /// The anatomy of the value that each quantity has.
    pub(crate) fn anatomy_of(&self, value: impl Fn(Quantity) -> Option<f64>) -> Anatomy {
        let at = &self.addresses;
        let get = |address: Address| address.get(&value);
        let openings = at.openings.map(|opening| {
            let [u, v] = opening.shift.map(|shift| get(shift).unwrap_or(0.0));
            Opening {
                centre: Vec2::new(u, v),
                edge: ellipse(&value, &opening.edge),
            }
        });
        let wall = get(at.wall).unwrap_or(PLACEHOLDER);
        let defect = Defect::new(ellipse(&value, &at.narrowest), openings, wall, self.edge);
        let azimuths = at
            .valves
            .map(|valve| get(valve.clock_position).map(degrees));
        let qp_qs = get(at.qp_qs);
        let flows = PerFace::new(self.systemic_rise, qp_qs.map_or(1.0, |qp_qs| 1.0 / qp_qs));
        Anatomy {
            valves: PerValve::of(|valve| hinged(&value, valve, &at.valves[valve], &defect)),
            rims: at.valves.map(|valve| get(valve.rim)),
            hinge_arcs: PerFace::of(|face| self.hinge_arcs(face, &azimuths)),
            azimuths,
            leaflets: at.valves.map(|valve| get(valve.length)),
            tracts: at.tracts.map(|tract| {
                Some(OutflowTract {
                    depth: get(tract.depth)?,
                    width: get(tract.width)?,
                })
            }),
            velocities_after: PerFace::of(|face| {
                let before = get(at.tracts[face].velocity).map(MPerS);
                before.map(|velocity| velocity * flows[face])
            }),
            ventricles: at.ventricles.map(get),
            vein: get(at.vein),
            artery: get(at.artery),
            qp_qs,
            left_slack_share: self.left_slack_share(at.systolic.map(get).into_both()),
            errors: self.errors,
            defect,
        }
    }

    /// By the systolic pressures of the left and the right ventricle; where one was
    /// not read the right is taken as the lower.
    fn left_slack_share(&self, [left, right]: [Option<f64>; 2]) -> f64 {
        let is_right_lower = left
            .zip(right)
            .is_none_or(|(left, right)| is_under(right, left));
        self.left_slack_shares[usize::from(!is_right_lower)]
    }

    fn hinge_arcs(&self, face: Face, azimuths: &PerValve<Option<Radians>>) -> ArcSet {
        let mut hinges = [0.0; 2];
        let mut count = 0;
        for valve in Valve::ALL {
            if face_of(valve) == face
                && self.beside[valve]
                && let Some(azimuth) = azimuths[valve]
            {
                hinges[count] = azimuth;
                count += 1;
            }
        }
        ArcSet::about(&hinges[..count], self.hinge_arc)
    }
}

/// The ellipse of an opening or of the narrowest part; axes that a draw has crossed
/// are exchanged.
fn ellipse(value: &impl Fn(Quantity) -> Option<f64>, at: &EllipseAddresses) -> Ellipse {
    let one = at.major.get(value);
    let other = at.minor.get(value).or(one).unwrap_or(PLACEHOLDER);
    let one = one.unwrap_or(other);
    Ellipse {
        semi_major: 0.5 * one.max(other),
        semi_minor: 0.5 * one.min(other),
        rotation: at.rotation.get(value).map_or(0.0, degrees),
    }
}

fn hinged(
    value: &impl Fn(Quantity) -> Option<f64>,
    valve: Valve,
    at: &ValveAddresses,
    defect: &Defect,
) -> Option<HingedPlate> {
    let face = face_of(valve);
    let annulus = AnnulusPlate {
        face,
        clock_position: degrees(at.clock_position.get(value)?),
        rim: at.rim.get(value)?,
        diameter: at.diameter.get(value)?,
        diameter_across: at.diameter_across.get(value)?,
        annulus_angle: degrees(at.annulus_angle.get(value)?),
        cusp_depth: at.cusp_depth.get(value)?,
    };
    Some(annulus.hinged(defect.opening(face)))
}
