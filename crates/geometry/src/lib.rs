//! A defect in the wall of the heart, the valves beside it, a device laid into it,
//! and the distances between them.
//!
//! Start with [`Seat`] (where a device lies), [`signed_clearance`](clearance::signed_clearance)
//! (how far a disc stands from a valve) and [`lip`] (how much septum it covers).
//!
//! # Conventions
//!
//! *Units.* Lengths are millimetres ([`Mm`]), areas square millimetres, angles
//! radians ([`Radians`]). The model is scale-free: multiply every length by k
//! and every length that comes out is multiplied by k.
//!
//! *Frame.* Right-handed (n, u, v): n through the wall from left to right, u in
//! the wall toward the reference valve, v = n × u. The origin is the centre of
//! the defect's narrowest part, on the left face; the wall fills 0 ≤ n ≤ T. Azimuth θ
//! runs from u toward v: a clock position in radians, clockwise as seen from the left
//! with the reference valve at 12.
//!
//! *One signed clearance.* Positive apart, zero touching, negative overlapping
//! or slipped past ([`clearance`]).
//!
//! *Accuracy* is a parameter ([`Accuracy`]) of every search. Functions are
//! total: finite input gives a finite answer, `Option` where none exists.
//!
//! *Same answer on every machine.* Transcendental functions come from `libm`,
//! sums run in a fixed order, nothing is fused.
//!
//! # Example
//!
//! A disc of 9 mm, flat over a round defect of 5 mm, reaches 2 mm past the edge; the
//! aortic hinge stands 2.5 mm past it:
//!
//! ```
//! use geometry::clearance::signed_clearance;
//! use geometry::{Accuracy, AnnulusPlate, Ellipse, Face, Opening, SeatedDisc, Tilt, Vec2, degrees};
//!
//! let opening = Opening { centre: Vec2::ZERO, edge: Ellipse::circle(2.5) };
//! let annulus = AnnulusPlate {
//!     face: Face::Left,
//!     clock_position: 0.0,
//!     rim: 2.5,
//!     diameter: 9.0,
//!     diameter_across: 9.0,
//!     annulus_angle: degrees(90.0),
//!     cusp_depth: 0.0,
//! };
//! let disc = SeatedDisc {
//!     face: Face::Left,
//!     radius: 4.5,
//!     thickness: 0.8,
//!     stand_off: 0.0,
//!     centre: Vec2::ZERO,
//!     tilt: Tilt::NONE,
//! };
//! let clearance = signed_clearance(&disc, &annulus.hinged(&opening), Accuracy::DEFAULT);
//! assert!((clearance - 0.5).abs() < 1e-9);
//! ```

mod accuracy;
pub mod clearance;
mod defect;
mod ellipse;
mod frame;
pub mod lip;
mod occluder;
pub mod outline;
mod per_face;
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
pub use per_face::PerFace;
pub use plate::{Plate, RoundPlate};
pub use plate_distance::{Separation, plate_distance};
pub use play::Play;
pub use seat::{Nearest, OverLeftOpening, Seat, SeatDraw, StandOff, least_clearance};
pub use seated_disc::{SeatedDisc, Tilt};
pub(crate) use squeeze::squeezed_diameter;
pub use squeeze::{braid_stiffness, squeezed_length};
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
