//! What the circulation's figures mean: for now pressure gradients.
//!
//! Each formula names its source; each reduced model says what it leaves out.

mod gradient;

pub use gradient::{
    BLOOD_DENSITY, bernoulli, bernoulli_coefficient, cost_of_narrowing, effective_share, is_closed,
    jet_contraction, simplified_bernoulli,
};
