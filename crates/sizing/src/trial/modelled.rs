use super::{NotCounted, ObservationKind};
use crate::measure::{EdgePart, Measure, Situation};
use crate::{Setting, Size, Subject};
use geometry::lip::{ArcSet, least_lip};
use geometry::{Accuracy, Face, Seat, degrees};
use measurement::{ModelError, Quantity, Valve};
use std::f64::consts::PI;

/// What the model has of something that was seen, in one seat of one draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Modelled {
    /// Signed clearance from a valve, mm.
    Clearance(Valve),
    /// The diameter of the waist in the wall, mm.
    WaistInWall,
    /// How far a disc stands off the wall, mm.
    StandOff(Face),
    /// The gradient that the device costs a tract, mmHg.
    Gradient(Face),
    /// The least lip of the left disc over some arcs, mm.
    Lip(ArcSet),
    /// The lesser of rim overlap and rim overlap toward the valves, left face, mm.
    LeastOverlap,
    /// How much wider the defect is than the waist, mm.
    DefectOverWaist,
    /// The rotation in which it lies, degrees.
    Rotation,
}

/// How far to either side of its clock position a jet looks for the least lip, degrees.
const BESIDE_JET: f64 = 30.0;

impl Modelled {
    /// What the model has of something seen of a size, for a jet at a clock position in
    /// degrees or all round; `Err`: why it has nothing.
    pub(crate) fn of(
        setting: &Setting,
        size: &Size,
        (what, of, clock_position): (ObservationKind, Subject, Option<f64>),
    ) -> Result<Self, NotCounted> {
        let has_left = size.occluder.disc(Face::Left).is_some();
        let modelled = match (what, of) {
            (
                ObservationKind::Distance
                | ObservationKind::Touches
                | ObservationKind::Regurgitation,
                Subject::Valve(valve),
            ) => Self::Clearance(valve),
            (ObservationKind::Waist, _) => Self::WaistInWall,
            (ObservationKind::StandOff, Subject::Face(face)) => {
                if size.occluder.disc(face).is_none() {
                    return Err(NotCounted::NoDisc);
                }
                Self::StandOff(face)
            }
            (ObservationKind::Gradient, Subject::Face(face)) => Self::Gradient(face),
            (ObservationKind::EdgeJet | ObservationKind::Slips, _) if !has_left => {
                return Err(NotCounted::NoDisc);
            }
            (ObservationKind::EdgeJet, _) => Self::Lip(match clock_position {
                Some(at) => ArcSet::about(&[degrees(at)], degrees(BESIDE_JET)),
                None => ArcSet::about(&[0.0], PI),
            }),
            (ObservationKind::Slips, _) => Self::LeastOverlap,
            (ObservationKind::Misshapen, _) => Self::DefectOverWaist,
            (ObservationKind::Turn, _) => Self::Rotation,
            _ => return Err(NotCounted::SaysNothing),
        };
        let unread = modelled.needs(setting);
        let missing: Vec<Quantity> = unread
            .into_iter()
            .filter(|&quantity| !setting.is_known(quantity))
            .collect();
        if missing.is_empty() {
            Ok(modelled)
        } else {
            Err(NotCounted::Unread(missing))
        }
    }

    /// The quantities without which it has no value.
    fn needs(&self, setting: &Setting) -> Vec<Quantity> {
        let lips = [EdgePart::AtHinge, EdgePart::Away].map(|part| Measure::Lip(Face::Left, part));
        match self {
            Self::Clearance(valve) => Measure::Clearance(*valve).needs(setting),
            Self::WaistInWall | Self::DefectOverWaist => Measure::WaistExcess.needs(setting),
            Self::StandOff(_) => Measure::Slack.needs(setting),
            Self::Gradient(face) => Measure::TractGradient(*face).needs(setting),
            Self::Lip(_) => lips[1].needs(setting),
            Self::LeastOverlap => lips.iter().flat_map(|lip| lip.needs(setting)).collect(),
            Self::Rotation => Vec::new(),
        }
    }

    /// Its value in one seat of one draw.
    pub(crate) fn value(&self, at: &Situation) -> f64 {
        let Seat::OverLeftOpening(seat) = at.seat;
        match self {
            Self::Clearance(valve) => Measure::Clearance(*valve).value(at),
            Self::WaistInWall => seat.waist_diameter + at.anatomy.errors.of(ModelError::Waist),
            Self::StandOff(face) => seat.stand_off[*face].most,
            Self::Gradient(face) => Measure::TractGradient(*face).value(at),
            Self::Lip(arcs) => {
                let opening = at.anatomy.defect.opening(Face::Left);
                let (occluder, accuracy) = (&at.size.occluder, Accuracy::DEFAULT);
                least_lip(occluder, at.seat, opening, Face::Left, arcs, accuracy)
                    .unwrap_or(f64::NAN)
                    + at.anatomy.errors.of(ModelError::RimOverlap)
            }
            Self::LeastOverlap => {
                // Where no valve stands on the left face there is no lip toward one.
                [EdgePart::AtHinge, EdgePart::Away]
                    .map(|part| Measure::Lip(Face::Left, part).value(at))
                    .into_iter()
                    .fold(f64::NAN, f64::min)
            }
            Self::DefectOverWaist => -Measure::WaistExcess.value(at),
            Self::Rotation => seat.rotation.to_degrees(),
        }
    }

    /// Whether what was seen is longer by the scale error of how it was seen.
    pub(crate) const fn is_scaled(&self, what: ObservationKind) -> bool {
        matches!(
            what,
            ObservationKind::Distance | ObservationKind::Waist | ObservationKind::StandOff
        ) && matches!(
            self,
            Self::Clearance(_) | Self::WaistInWall | Self::StandOff(_)
        )
    }

    /// The most that its value can be seen as.
    pub(crate) fn seen_at_most(&self, value: f64, room: f64) -> f64 {
        match self {
            Self::Gradient(_) => value.min(room),
            _ => value,
        }
    }
}
