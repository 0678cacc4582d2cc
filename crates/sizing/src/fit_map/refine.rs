use super::{Axis, Cell, EvenShape, FitMap, Stop};
use crate::engine::{Counter, Counts, Question};
use crate::{Row, Setting, Size, Work, rows};
use std::sync::Arc;

/// A map that is being refined: a coarse grid first, then halves.
pub struct Refinement<'a> {
    setting: &'a Setting,
    counter: &'a dyn Counter,
    rows: Vec<Row>,
    /// For each of the map's stops its place among the rows.
    stops: Vec<usize>,
    /// The map as far as it has come.
    map: Arc<FitMap>,
    started: bool,
}

/// Columns and rows between the cells counted first; halved at each level.
const COARSEST: usize = 8;

impl<'a> Refinement<'a> {
    /// A map of a form over two axes, nothing counted yet.
    pub fn new(
        setting: &'a Setting,
        counter: &'a dyn Counter,
        form: EvenShape,
        waists: Axis,
        overhangs: Axis,
    ) -> Self {
        // All cells have the same rows: which limits count depends on what is in
        // the form alone.
        let rows = rows(setting, &form.size(waists.first, overhangs.first).occluder);
        let stops: Vec<usize> = (0..rows.len())
            .filter(|&place| rows[place].is_assessed() && !rows[place].stop.is_none())
            .collect();
        let mut missing = Vec::new();
        for row in rows.iter().filter(|row| !row.stop.is_none()) {
            for &quantity in &row.missing {
                if !missing.contains(&quantity) {
                    missing.push(quantity);
                }
            }
        }
        let map = FitMap {
            form,
            waists,
            overhangs,
            stride: COARSEST,
            stops: stops.iter().map(|&place| stop(&rows[place])).collect(),
            missing,
            cells: vec![None; waists.count * overhangs.count],
        };
        Self {
            setting,
            counter,
            rows,
            stops,
            map: Arc::new(map),
            started: false,
        }
    }

    /// The map as far as it has come.
    pub const fn map(&self) -> &Arc<FitMap> {
        &self.map
    }

    /// Whether every cell is counted.
    pub fn is_whole(&self) -> bool {
        self.started && self.map.stride == 1
    }

    /// Counts the next level; `None` when it was cancelled, looked at between
    /// draws. A whole map is given as it is.
    pub fn refine(&mut self, work: &Work) -> Option<Arc<FitMap>> {
        if self.is_whole() {
            return Some(Arc::clone(&self.map));
        }
        let stride = if self.started {
            self.map.stride / 2
        } else {
            COARSEST
        };
        let cells: Vec<(usize, usize)> = (0..self.map.waists.count)
            .step_by(stride)
            .flat_map(|column| self.uncounted(column, stride))
            .collect();
        let map = &self.map;
        // Cells of one waist stand together, so that they share what hangs on it.
        let sizes: Vec<Size> = cells
            .iter()
            .map(|&(column, row)| {
                map.form
                    .size(map.waists.value(column), map.overhangs.value(row))
            })
            .collect();
        let counted = self.count(&sizes, work)?;
        let mut map = FitMap::clone(map);
        map.stride = stride;
        for (&(column, row), cell) in cells.iter().zip(counted) {
            let place = map.place(column, row);
            map.cells[place] = Some(cell);
        }
        self.map = Arc::new(map);
        self.started = true;
        Some(Arc::clone(&self.map))
    }

    /// All levels; `None` when it was cancelled.
    pub fn whole(&mut self, work: &Work) -> Option<Arc<FitMap>> {
        while !self.is_whole() {
            self.refine(work)?;
        }
        Some(Arc::clone(&self.map))
    }

    /// The cells of a column, with their rows, that a level asks for and none before it
    /// counted.
    fn uncounted(&self, column: usize, stride: usize) -> impl Iterator<Item = (usize, usize)> {
        (0..self.map.overhangs.count)
            .step_by(stride)
            .filter(move |&row| self.map.cells[self.map.place(column, row)].is_none())
            .map(move |row| (column, row))
    }

    /// The cells of some sizes; `None` when it was cancelled.
    pub(super) fn count(&self, sizes: &[Size], work: &Work) -> Option<Vec<Cell>> {
        let questions: Vec<Question> = sizes
            .iter()
            .map(|size| Question {
                setting: self.setting,
                size,
                turn: 0.0,
                rows: &self.rows,
            })
            .collect();
        let effective = self.counter.draws().weights().effective_draws();
        let counts = self.counter.count_on(work, &questions)?;
        let share = |counts: &Counts, row: usize| {
            let held = counts.rows[row].map(|shares| shares.stop.chance(effective).value);
            held.map_or(0.0, |held| 1.0 - held)
        };
        let cells = counts.iter().map(|counts| Cell {
            chance: counts.no_stop.chance(effective),
            broken: self.stops.iter().map(|&row| share(counts, row)).collect(),
        });
        Some(cells.collect())
    }

    pub(super) const fn setting(&self) -> &'a Setting {
        self.setting
    }

    pub(super) const fn counter(&self) -> &'a dyn Counter {
        self.counter
    }
}

fn stop(row: &Row) -> Stop {
    Stop {
        check: row.id(),
        title: row.check.about().title,
        of: row.of,
    }
}
