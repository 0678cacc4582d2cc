//! Formulas of the circulation: body surface, z-scores, oxygen content, flows,
//! resistances and pressure gradients.
//!
//! Each formula names its source and the range it was made for; each reduced
//! model says what it leaves out. Where a formula has no answer an error says why.
//! All are plain functions of numbers that carry their unit, for one draw at a time.
//!
//! # Example
//!
//! ```
//! use measurement::{LPerMin, MPerS, MmHg, Wood};
//! use physiology::{resistance, simplified_bernoulli};
//!
//! assert_eq!(simplified_bernoulli(MPerS(4.0)), MmHg(64.0));
//! assert_eq!(resistance(MmHg(35.0), MmHg(9.0), LPerMin(2.0)), Ok(Wood(13.0)));
//! ```

mod body_surface;
mod defect_jet;
mod doppler_flow;
mod flow_time;
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
    BehindDefect, JetRefused, LeftSide, Obstruction, ObstructionSite, before_tricuspid_jet,
    behind_defect,
};
pub use doppler_flow::{DopplerTract, doppler_qp_qs};
pub use flow_time::FlowTime;
pub use gradient::{
    BLOOD_DENSITY, bernoulli, bernoulli_coefficient, cost_of_narrowing, effective_share, is_closed,
    simplified_bernoulli,
};
pub use in_range::{Outside, Ranged, Span};
pub use mixed_venous::{MixedVenous, VenousSamples};
pub use orifice::{DefectFlowAndShunt, circle, loss_free_jet, orifice_flow};
pub use oxygen_content::{
    Blood, Hufner, OxygenConstants, Solubility, oxygen_capacity, oxygen_content,
};
pub use oxygen_uptake::{AssumedUptake, Sex, UptakeRefused, assumed_uptake};
pub use resistance::{NoResistance, resistance};
pub use saturation_ratio::{DissolvedOxygen, SUPPLEMENTAL, SaturationRatio, qp_qs_by_saturations};
pub use shunt::{Flows, NoOxygenStep, Samples, flows};
pub use z_score::{
    NormalRange, UsualLength, lopez_2017, outside_z_score_ages, pettersen_2008, usual_length,
};
