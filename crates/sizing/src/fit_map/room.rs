use super::rectangle::{Rectangle, largest};
use super::{Axis, EvenShape, FitMap, Refinement, Stop, most};
use crate::engine::Counter;
use crate::house_rules::Parameter;
use crate::{Setting, Size, Work};
use geometry::Mm;

/// From one length to the next that is tried.
const LENGTH_STEP: Mm = 0.5;
/// How much shorter and longer than the map's a length may be at most.
const MOST_LENGTHS: usize = 8;
/// The shortest length that is tried: a shorter waist leaves no room between two
/// discs (assumption).
const SHORTEST: Mm = 1.0;
/// How much shorter and longer than the wall lengths are, where the best is
/// looked for.
const UNDER_THE_WALL: Mm = 3.0;
const OVER_THE_WALL: Mm = 4.0;
/// Waists and overhangs of the coarse grid on which the best length is found.
const COARSE: (usize, usize) = (12, 8);

/// What would fit: the answer of a map in one sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct WouldFit {
    /// The largest block of waists and overhangs that holds, with the lengths at
    /// which all of it does; `None` where no cell does.
    pub room: Option<Room>,
    /// The cell with the highest chance, the first of equals; over several lengths
    /// where none of this one holds.
    pub nearest: Nearest,
    /// The stop most often broken in the cells outside the room, or in the nearest
    /// cell where there is none.
    pub stop: Option<Stop>,
    /// The form of the map.
    pub form: EvenShape,
    /// The chance under which a shape does not fit, by the rules of the house.
    pub least_chance: f64,
    /// The stops that were not assessed for want of a reading.
    pub missing: Vec<measurement::Quantity>,
}

/// A block of waists, overhangs and lengths, ends included, in which every cell
/// of the map, and every step of length, holds.
///
/// No side of it can be moved out by one cell, or by one step of length, without
/// taking in a cell that does not hold, or leaving the map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// The chance that every cell of it has at least.
    pub chance: f64,
    /// Its waists.
    pub waists: (Mm, Mm),
    /// Its overhangs, radial.
    pub overhangs: (Mm, Mm),
    /// Its lengths, tried in steps of half a millimetre from the map's.
    pub lengths: (Mm, Mm),
    /// Its columns on the map.
    pub columns: (usize, usize),
    /// Its rows on the map.
    pub rows: (usize, usize),
    /// Whether the map ends at its widest waist, so that more may hold.
    pub waists_go_on: bool,
    /// Whether the map ends at its widest discs.
    pub overhangs_go_on: bool,
}

/// What comes nearest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Its waist.
    pub waist: Mm,
    /// Its overhang, radial.
    pub overhang: Mm,
    /// Its length.
    pub length: Mm,
    /// Its chance.
    pub chance: f64,
}

impl Refinement<'_> {
    /// What would fit, from the map as far as it has come; `None` when it was
    /// cancelled, or nothing is counted yet.
    ///
    /// What holds has the chance that a shape needs to fit, or, where no cell has
    /// it, the one under which a shape does not fit (both rules of the house).
    pub fn would_fit(&self, work: &Work) -> Option<WouldFit> {
        let map = self.map();
        let setting = self.setting();
        let least_chance = setting.parameter(Parameter::ChanceDoesNotFit);
        let columns = map.waists.count.div_ceil(map.stride);
        let rows = map.overhangs.count.div_ceil(map.stride);
        let found = [setting.parameter(Parameter::ChanceFits), least_chance]
            .into_iter()
            .find_map(|chance| {
                let holds = |column: usize, row: usize| {
                    map.chance(column * map.stride, row * map.stride)
                        .is_some_and(|here| here >= chance)
                };
                largest(columns, rows, holds).map(|rectangle| (chance, rectangle))
            });
        let mut nearest = nearest_of(map)?;
        let room = match found {
            None => None,
            Some((chance, rectangle)) => Some(self.room(chance, rectangle, work)?),
        };
        let mut stop = stopper(map, room.as_ref());
        if room.is_none() {
            let best = best_length(setting, &map.form, self.counter(), work)?;
            if best.nearest.chance > nearest.chance {
                nearest = best.nearest;
                stop = best.stop;
            }
        }
        Some(WouldFit {
            room,
            nearest,
            stop,
            form: map.form.clone(),
            least_chance,
            missing: map.missing.clone(),
        })
    }

    /// A block of the map with the lengths at which all of it holds.
    fn room(&self, chance: f64, rectangle: Rectangle, work: &Work) -> Option<Room> {
        let map = self.map();
        let on_map = |(from, to): (usize, usize)| (from * map.stride, to * map.stride);
        let (columns, rows) = (on_map(rectangle.columns), on_map(rectangle.rows));
        let mut lengths = (map.form.length, map.form.length);
        for steps in 1..=MOST_LENGTHS {
            let length = map.form.length - LENGTH_STEP * steps as f64;
            if length < SHORTEST || !self.holds_at(length, chance, rectangle, work)? {
                break;
            }
            lengths.0 = length;
        }
        for steps in 1..=MOST_LENGTHS {
            let length = map.form.length + LENGTH_STEP * steps as f64;
            if !self.holds_at(length, chance, rectangle, work)? {
                break;
            }
            lengths.1 = length;
        }
        Some(Room {
            chance,
            waists: (map.waists.value(columns.0), map.waists.value(columns.1)),
            overhangs: (map.overhangs.value(rows.0), map.overhangs.value(rows.1)),
            lengths,
            columns,
            rows,
            waists_go_on: columns.1 + map.stride >= map.waists.count,
            overhangs_go_on: rows.1 + map.stride >= map.overhangs.count,
        })
    }

    /// Whether every cell of a block holds at another length; `None` when it was
    /// cancelled.
    fn holds_at(&self, length: Mm, chance: f64, rectangle: Rectangle, work: &Work) -> Option<bool> {
        let map = self.map();
        let form = map.form.at_length(length);
        let size = |column: usize, row: usize| {
            form.size(
                map.waists.value(column * map.stride),
                map.overhangs.value(row * map.stride),
            )
        };
        let holds = |sizes: &[Size]| {
            let cells = self.count(sizes, work)?;
            Some(cells.iter().all(|cell| cell.chance.value >= chance))
        };
        let (columns, rows) = (rectangle.columns, rectangle.rows);
        // What fails most often fails in a corner.
        let corners =
            [columns.0, columns.1].map(|column| [rows.0, rows.1].map(|row| size(column, row)));
        if !holds(corners.as_flattened())? {
            return Some(false);
        }
        let all: Vec<Size> = (columns.0..=columns.1)
            .flat_map(|column| (rows.0..=rows.1).map(move |row| size(column, row)))
            .collect();
        holds(&all)
    }
}

/// The length at which a form has most room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestLength {
    /// The length.
    pub length: Mm,
    /// Its cell with the highest chance.
    pub nearest: Nearest,
    /// What stops that cell most often.
    pub stop: Option<Stop>,
}

/// The length, in steps of half a millimetre about the wall's thickness, at which
/// most cells of a coarse map have the chance that a shape needs to fit; of equals
/// the one with most cells that are at least borderline, then with the highest chance;
/// of equals the shortest. `None` when it was cancelled.
pub fn best_length(
    setting: &Setting,
    form: &EvenShape,
    counter: &dyn Counter,
    work: &Work,
) -> Option<BestLength> {
    let wall = setting.anatomy().defect.wall;
    let first = ((wall - UNDER_THE_WALL) / LENGTH_STEP).ceil() * LENGTH_STEP;
    let first = first.max(SHORTEST);
    let lengths = (0_u16..)
        .map(|step| first + LENGTH_STEP * f64::from(step))
        .take_while(|length| *length <= wall + OVER_THE_WALL);
    let chances = [Parameter::ChanceFits, Parameter::ChanceDoesNotFit];
    let mut best: Option<([usize; 2], BestLength)> = None;
    for length in lengths {
        let form = form.at_length(length);
        let mut coarse = Refinement::new(
            setting,
            counter,
            form,
            Axis::of_waists(setting, COARSE.0),
            Axis::of_overhangs(COARSE.1),
        );
        let map = coarse.whole(work)?;
        let nearest = nearest_of(&map)?;
        let reached = chances.map(|least| {
            let least = setting.parameter(least);
            every(&map)
                .filter(|&(column, row)| map.chance(column, row) >= Some(least))
                .count()
        });
        let is_better = best.as_ref().is_none_or(|(known, of)| {
            reached > *known || (reached == *known && nearest.chance > of.nearest.chance)
        });
        if is_better {
            let found = BestLength {
                length: map.form.length,
                nearest,
                stop: stopper(&map, None),
            };
            best = Some((reached, found));
        }
    }
    best.map(|(_, found)| found)
}

/// The columns and rows of every counted cell.
fn every(map: &FitMap) -> impl Iterator<Item = (usize, usize)> + '_ {
    (0..map.waists.count)
        .step_by(map.stride)
        .flat_map(|column| {
            (0..map.overhangs.count)
                .step_by(map.stride)
                .map(move |row| (column, row))
        })
}

fn nearest_of(map: &FitMap) -> Option<Nearest> {
    every(map)
        .filter_map(|(column, row)| {
            Some(Nearest {
                waist: map.waists.value(column),
                overhang: map.overhangs.value(row),
                length: map.form.length,
                chance: map.chance(column, row)?,
            })
        })
        .reduce(|best, other| {
            if other.chance > best.chance {
                other
            } else {
                best
            }
        })
}

/// The stop most often broken outside a room; without one, in the cell with the
/// highest chance.
fn stopper(map: &FitMap, room: Option<&Room>) -> Option<Stop> {
    let mut broken = vec![0.0; map.stops.len()];
    let mut add = |column: usize, row: usize| {
        if let Some(cell) = map.cell(column, row) {
            for (sum, share) in broken.iter_mut().zip(&cell.broken) {
                *sum += share;
            }
        }
    };
    if let Some(room) = room {
        let inside = Rectangle {
            columns: room.columns,
            rows: room.rows,
        };
        every(map)
            .filter(|&(column, row)| !inside.contains(column, row))
            .for_each(|(column, row)| add(column, row));
    } else {
        let nearest = nearest_of(map)?;
        add(
            map.waists.index_of(nearest.waist)?,
            map.overhangs.index_of(nearest.overhang)?,
        );
    }
    most(&map.stops, &broken).map(|(stop, _)| stop)
}
