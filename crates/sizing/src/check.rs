//! One description per check: rules, output, screen and words come from it.

use crate::check_name::CheckName;
use crate::measure::{Measure, Situation};
use crate::{Harm, Setting, Subject};
use geometry::{Face, Occluder};
use measurement::{Quantity, Valve};

/// What a check is asked of, with what it measures of each.
#[derive(Clone, Copy, Debug)]
pub enum Per {
    /// Once for a shape.
    Shape(Measure),
    /// Once for each face of the wall.
    Face(fn(Face) -> Measure),
    /// Once for each neighbouring valve.
    Valve(fn(Valve) -> Measure),
    /// Once for the vessel of the way in.
    Vessel {
        /// Where that is a vein.
        vein: Measure,
        /// Where that is an artery.
        artery: Measure,
    },
    /// Once for the vessel of the way in where that is an artery.
    Artery(Measure),
}

/// What stays the same about a check.
#[derive(Debug)]
pub struct About {
    /// Its name in files and output, with its unit.
    pub name: CheckName,
    /// Its title on screens and sheets.
    pub title: &'static str,
    /// Its name where a column is narrow and the value's unit tells the rest; empty
    /// where the subject says enough.
    pub short: &'static str,
    /// The margin that counts as one, where margins of unlike checks are compared.
    pub scale: f64,
    /// What it is asked of, and what it measures there.
    pub per: Per,
    /// What a patient is harmed by where a limit of it is broken.
    pub harm: fn(Subject) -> Harm,
    /// What a value under zero is called, so that no screen needs its sign.
    pub below: Option<&'static str>,
    /// What is always said beside it: what it leaves out.
    pub aside: Option<&'static str>,
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

/// One question asked of a shape: when it is asked, what it measures and how it says
/// what came of it. The measure has the value and most of what that needs.
pub trait Check: Sync {
    /// What stays the same about it.
    fn about(&self) -> &'static About;

    /// Whether it is asked of a subject of this shape in this case.
    fn is_asked(&self, setting: &Setting, occluder: &Occluder, of: Subject) -> bool {
        let _ = (setting, occluder, of);
        true
    }

    /// The quantities without which it cannot be assessed, beside those that its
    /// measure needs: all of them where it measures [`Measure::Own`].
    fn needs(&self, setting: &Setting, of: Subject) -> Vec<Quantity> {
        let _ = (setting, of);
        Vec::new()
    }

    /// The outcome in plain words with its numbers.
    fn says(&self, of: Subject, at: &Situation, value: f64) -> String;
}
