//! What the circulation's figures mean: body size, z-scores, oxygen, flows,
//! resistances and pressure gradients.
//!
//! Each formula names its source and the range it was made for; each reduced
//! model says what it leaves out. Where a formula has no answer the refusal says
//! why. All are plain functions of numbers with units, one draw at a time.

mod body_surface;
mod defect_jet;
mod doppler_flow;
mod gorlin;
mod gradient;
mod in_range;
mod mixed_venous;
mod orifice;
mod oxygen_content;
mod oxygen_uptake;
mod resistance;
mod saturation_ratio;
mod shunt;
mod z_score;

pub use body_surface::{AreaFormula, BodySize};
pub use defect_jet::{
    BehindDefect, JetRefused, LeftSide, Obstruction, Place, before_tricuspid_jet, behind_defect,
};
pub use doppler_flow::{DopplerTract, doppler_qp_qs};
pub use gorlin::{FlowTime, GorlinConstant, gorlin_area};
pub use gradient::{
    BLOOD_DENSITY, bernoulli, bernoulli_coefficient, cost_of_narrowing, effective_share, is_closed,
    jet_contraction, simplified_bernoulli,
};
pub use in_range::{Outside, Ranged, Span};
pub use mixed_venous::{MixedVenous, VenousSamples};
pub use orifice::{HoleAndShunt, circle, loss_free_jet, orifice_flow};
pub use oxygen_content::{
    Blood, Hufner, OxygenConstants, Solubility, oxygen_capacity, oxygen_content,
};
pub use oxygen_uptake::{
    AssumedUptake, Sex, UptakeRefused, assumed_uptake, assumed_uptake_insisted,
};
pub use resistance::{NoResistance, dyn_s_cm5, resistance};
pub use saturation_ratio::{DissolvedOxygen, SUPPLEMENTAL, SaturationRatio, qp_qs_by_saturations};
pub use shunt::{Flows, NoOxygenStep, Samples, flows};
pub use z_score::{
    NormalRange, UsualLength, lopez_2017, outside_z_score_ages, pettersen_2008, usual_length,
};
