use super::{Nearest, Room, WouldFit};
use crate::words::{list, percent};
use geometry::Mm;

impl WouldFit {
    /// What would fit, in one sentence.
    ///
    /// Discs are told by how much wider than the waist they are in diameter: twice
    /// the overhang.
    pub fn says(&self) -> String {
        let stop = self.stop.as_ref().map(super::Stop::name);
        let unread = if self.missing.is_empty() {
            String::new()
        } else {
            let named: Vec<&str> = self.missing.iter().map(|one| one.label()).collect();
            format!("; at most, for want of {}", list(&named))
        };
        if let Some(room) = &self.room {
            let stops = stop.map_or_else(String::new, |stop| {
                format!("; most of the rest is beyond the limit of {stop}")
            });
            return format!(
                "{} would be inside every limit in {} of the simulated variations or more{stops}{unread}.",
                block(room),
                percent(room.chance),
            );
        }
        let stops = stop.map_or_else(String::new, |stop| {
            format!("; most often beyond the limit of {stop}")
        });
        format!(
            "Nothing of this form is inside every limit in {} of the simulated variations. Nearest, with {}: {}{stops}{unread}.",
            percent(self.least_chance),
            percent(self.nearest.chance),
            one(&self.nearest),
        )
    }
}

fn block(room: &Room) -> String {
    let end = |goes_on: bool| {
        if goes_on { " (where the map ends)" } else { "" }
    };
    format!(
        "Waist {}{}, discs {} wider{}, length {}",
        span(room.waists),
        end(room.waists_go_on),
        span((2.0 * room.overhangs.0, 2.0 * room.overhangs.1)),
        end(room.overhangs_go_on),
        span(room.lengths),
    )
}

fn one(nearest: &Nearest) -> String {
    let doubled = 2.0 * nearest.overhang;
    format!(
        "waist {}, discs {} wider, length {}",
        span((nearest.waist, nearest.waist)),
        span((doubled, doubled)),
        span((nearest.length, nearest.length)),
    )
}

/// `5.0 to 5.6 mm`, or one length.
fn span((from, to): (Mm, Mm)) -> String {
    let decimals = figures(from).max(figures(to));
    let (from, to) = (format!("{from:.decimals$}"), format!("{to:.decimals$}"));
    if from == to {
        format!("{from} mm")
    } else {
        format!("{from} to {to} mm")
    }
}

/// One decimal, two where one would not tell it.
fn figures(length: Mm) -> usize {
    const TENTHS: f64 = 10.0;
    /// Far under a hundredth of a millimetre, far over what sums lose.
    const NO_MORE: f64 = 1e-6;
    let tenths = length * TENTHS;
    if (tenths - tenths.round()).abs() < NO_MORE {
        1
    } else {
        2
    }
}
