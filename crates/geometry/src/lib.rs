//! The defect in the wall of the heart, what stands around it, the shape laid
//! into it, and the distances between them.
//!
//! # Conventions
//!
//! *Units.* Lengths are millimetres ([`Mm`]), areas square millimetres, angles
//! radians ([`Radians`]). The model is scale-free: multiply every length by k
//! and every length that comes out is multiplied by k.
//!
//! *Frame.* Right-handed (n, u, v): n through the wall from left to right, u in
//! the wall toward the reference valve, v = n × u. The origin is the centre of
//! the throat on the left face; the wall fills 0 ≤ n ≤ T. Azimuth θ runs from u
//! toward v, clockwise as seen from the left.
//!
//! *One signed clearance.* Positive apart, zero touching, negative overlapping
//! or slipped past ([`clearance`]).
//!
//! *Accuracy* is a parameter ([`Accuracy`]) of every search. Functions are
//! total: finite input gives a finite answer, `Option` where none exists.
//!
//! *Same answer on every machine.* Transcendental functions come from `libm`,
//! sums run in a fixed order, nothing is fused.

mod accuracy;
pub mod clearance;
mod defect;
mod ellipse;
mod frame;
pub mod lip;
mod occluder;
pub mod outline;
mod plate;
mod plate_distance;
mod play;
mod seat;
mod seated_disc;
mod squeeze;
mod tract;
mod valve;
mod vector;

pub use accuracy::Accuracy;
pub use defect::{Defect, Edge, Opening};
pub use ellipse::Ellipse;
pub use frame::{Face, clock_hour, degrees, radial, tangent};
pub use occluder::{Disc, Occluder, Waist};
pub use plate::{Plate, RoundPlate};
pub use plate_distance::{Separation, plate_distance};
pub use play::Play;
pub use seat::{Nearest, OverLeftOpening, Seat, SeatDraw, StandOff, least_clearance};
pub use seated_disc::{SeatedDisc, Tilt};
pub use squeeze::{braid_stiffness, squeezed_diameter, squeezed_length};
pub use tract::OutflowTract;
pub use valve::{AnnulusPlate, HingedPlate};
pub use vector::{Vec2, Vec3};

/// A length in millimetres.
///
/// An alias, not a newtype: the kernel works on lanes of bare `f64`. Checked
/// units stand at the borders, in the crate `measurement`.
pub type Mm = f64;

/// An angle in radians.
pub type Radians = f64;
