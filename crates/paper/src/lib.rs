//! The sheet for the team: one page a case, for the conference and for the wall of
//! the catheter laboratory.
//!
//! A [`Sheet`] is plain data, without looks: what it says, in order. Everything that
//! has no room on its paper is left out there and counted, so that every back end
//! ([`plain`], [`html`], [`pdf`]) says the same. The sheet shows figures, limits, their sources and its
//! own doubt; it decides nothing.
//!
//! # Example
//!
//! Text of a sheet is cut to whole letters, and never past its column:
//!
//! ```
//! use paper::columns::{fitted, wrapped};
//!
//! assert_eq!(fitted("aortic clearance", 8), "aortic …");
//! assert_eq!(wrapped("0.4 mm to spare", 9), ["0.4 mm to", "spare"]);
//! ```

mod bundle;
mod caution;
pub mod columns;
mod content;
mod cut;
mod format;
mod glyphs;
pub mod html;
mod layout;
mod marks;
mod paper_size;
pub mod pdf;
pub mod plain;
mod provenance;
mod sheet;
mod wrap;

pub use bundle::{Bundle, Index};
pub use caution::{CAUTION, CAUTION_IN_A_LINE};
pub use content::SheetRequest;
pub use format::Format;
pub use paper_size::Paper;
pub use provenance::Provenance;
pub use sheet::{Body, Figure, Line, Mark, Section, Sheet, TableRow, Topic};
