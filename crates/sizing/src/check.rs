//! One description per check: rules, output, screen and words come from it.

mod measure;
mod row;

pub use measure::{EdgePart, Measure};
pub(crate) use row::rows_under;
pub use row::{Row, rows};

use crate::{Anatomy, Harm, Setting, Size, Subject};
use geometry::{Occluder, Seat};
use measurement::{Quantity, Unit};

/// What one row of a check is asked of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// Once for a shape.
    Shape,
    /// Once for each face of the wall.
    Face,
    /// Once for each neighbouring valve.
    Valve,
    /// Once for the vessel of the way in.
    Vessel,
}

/// What stays the same about a check.
#[derive(Debug)]
pub struct About {
    /// Its id in files and output; for a check of both faces the left and the
    /// right one's.
    pub id: Id,
    /// Its title on screens and sheets.
    pub title: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The margin that counts as one, where margins of unlike checks are compared.
    pub scale: f64,
    /// What it is asked of.
    pub per: Per,
    /// What a patient is harmed by where a limit of it is broken.
    pub harm: fn(Subject) -> Harm,
    /// What a value under zero is called, so that no screen needs its sign.
    pub below: Option<&'static str>,
    /// What is always said beside it: what it leaves out.
    pub aside: Option<&'static str>,
}

/// The id of a check in files and output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Id {
    /// One id, whatever the subject.
    One(&'static str),
    /// One id for the left face and one for the right.
    OfFace(&'static str, &'static str),
}

/// A margin of one millimetre.
pub(crate) const MM_SCALE: f64 = 1.0;
/// A margin of a tenth in a ratio.
pub(crate) const RATIO_SCALE: f64 = 0.1;
/// A margin of a quarter in a share.
pub(crate) const SHARE_SCALE: f64 = 0.25;
/// A margin of one grade.
pub(crate) const GRADE_SCALE: f64 = 1.0;
/// A margin of ten millimetres of mercury.
pub(crate) const MMHG_SCALE: f64 = 10.0;

/// One question asked of a shape: a value in one unit, held against limits.
pub trait Check: Sync {
    /// What stays the same about it.
    fn about(&self) -> &'static About;

    /// Whether it is asked of a subject of this shape in this case.
    fn is_asked(&self, setting: &Setting, occluder: &Occluder, of: Subject) -> bool {
        let _ = (setting, occluder, of);
        true
    }

    /// The quantities without which it cannot be assessed.
    fn needs(&self, setting: &Setting, occluder: &Occluder, of: Subject) -> Vec<Quantity>;

    /// The quantities that move its value, though it is assessed without them.
    fn moved_by(&self, setting: &Setting, of: Subject) -> Vec<Quantity> {
        let _ = (setting, of);
        Vec::new()
    }

    /// The measure it takes of a subject, where engines know it; it is what
    /// [`fill`](Self::fill) fills for one place of the seat.
    fn measure(&self, of: Subject) -> Option<Measure> {
        let _ = of;
        None
    }

    /// Fills one value for each lane: the worst over the places of its seat.
    fn fill(&self, of: Subject, lanes: &Lanes, values: &mut [f64]);

    /// The outcome in plain words with its numbers.
    fn says(&self, of: Subject, nominal: &Nominal, value: f64) -> String;
}

/// A block of lanes: one size in many anatomies, one seat in each.
#[derive(Clone, Copy, Debug)]
pub struct Lanes<'a> {
    /// The case and the rules.
    pub setting: &'a Setting,
    /// The size.
    pub size: &'a Size,
    /// The anatomies.
    pub anatomies: &'a [Anatomy],
    /// The seat of the size in each.
    pub seats: &'a [Seat],
}

impl Lanes<'_> {
    /// Fills each lane's value from its anatomy and seat.
    pub fn each(&self, values: &mut [f64], value: impl Fn(&Anatomy, &Seat) -> f64) {
        for ((anatomy, seat), out) in self.anatomies.iter().zip(self.seats).zip(values) {
            *out = value(anatomy, seat);
        }
    }

    /// The shape when free.
    pub const fn occluder(&self) -> &Occluder {
        &self.size.occluder
    }
}

/// One size in the anatomy as read, with every place it may take.
#[derive(Clone, Copy, Debug)]
pub struct Nominal<'a> {
    /// The case and the rules.
    pub setting: &'a Setting,
    /// The size.
    pub size: &'a Size,
    /// The anatomy as read; where the rotation was not, at one of them.
    pub anatomy: &'a Anatomy,
    /// Its seat.
    pub seat: &'a Seat,
}

impl Nominal<'_> {
    /// The anatomy as read.
    pub const fn anatomy(&self) -> &Anatomy {
        self.anatomy
    }

    /// The block of one that it is.
    pub const fn lanes(&self) -> Lanes<'_> {
        Lanes {
            setting: self.setting,
            size: self.size,
            anatomies: std::slice::from_ref(self.anatomy),
            seats: std::slice::from_ref(self.seat),
        }
    }
}

/// The value of a lane whose reading is missing: it breaks every limit, so that
/// a check that forgot to name its need cannot pass in silence.
pub(crate) const UNREAD: f64 = f64::NAN;

impl About {
    /// Its id for a subject.
    pub fn id(&self, of: Subject) -> &'static str {
        match (self.id, of) {
            (Id::OfFace(_, right), Subject::Face(geometry::Face::Right)) => right,
            (Id::One(id) | Id::OfFace(id, _), _) => id,
        }
    }
}
