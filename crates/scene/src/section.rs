//! The lengthwise section.

mod cut;
mod dimensions;
mod valves;

pub(crate) use cut::{Cut, points};
pub(crate) use dimensions::{clearance_line, reach_ends};
pub(crate) use valves::{PlateLine, plates_shown};

use geometry::{Accuracy, Radians, least_clearance};
use measurement::Valve;
use sizing::{Setting, Size, nominal_seat};

/// The valve from which a size has the least clearance; `None` where no valve
/// beside the defect was read.
pub(crate) fn nearest_valve(setting: &Setting, size: &Size, turn: Radians) -> Option<Valve> {
    let seat = nominal_seat(setting, size, turn);
    let clearance = |valve: Valve| {
        let plate = setting.anatomy().valves[valve].as_ref()?;
        let clearance = least_clearance(&size.occluder, &seat, plate, Accuracy::DEFAULT);
        Some((valve, clearance))
    };
    Valve::ALL
        .into_iter()
        .filter_map(clearance)
        .reduce(|least, one| if one.1 < least.1 { one } else { least })
        .map(|(valve, _)| valve)
}
