use super::{Axis, Cell, FitMap, Form, Stop};
use crate::engine::{Counter, Question};
use crate::side_by_side::side_by_side;
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
        form: Form,
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
    /// columns. A whole map is given as it is.
    pub fn refine(&mut self, work: &Work) -> Option<Arc<FitMap>> {
        if self.is_whole() {
            return Some(Arc::clone(&self.map));
        }
        let stride = if self.started {
            self.map.stride / 2
        } else {
            COARSEST
        };
        let columns: Vec<(usize, Vec<usize>)> = (0..self.map.waists.count)
            .step_by(stride)
            .map(|column| (column, self.uncounted(column, stride)))
            .filter(|(_, rows)| !rows.is_empty())
            .collect();
        let counted = side_by_side(&columns, work, |(column, rows)| {
            let waist = self.map.waists.value(*column);
            let sizes: Vec<Size> = rows
                .iter()
                .map(|&row| self.map.form.size(waist, self.map.overhangs.value(row)))
                .collect();
            self.count(&sizes)
        })?;
        let mut map = FitMap::clone(&self.map);
        map.stride = stride;
        for ((column, rows), cells) in columns.iter().zip(counted) {
            for (&row, cell) in rows.iter().zip(cells) {
                let place = map.place(*column, row);
                map.cells[place] = Some(cell);
            }
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

    /// The rows of a column that a level asks for and none before it counted.
    fn uncounted(&self, column: usize, stride: usize) -> Vec<usize> {
        (0..self.map.overhangs.count)
            .step_by(stride)
            .filter(|&row| self.map.cells[self.map.place(column, row)].is_none())
            .collect()
    }

    /// The cells of some sizes of one waist.
    pub(super) fn count(&self, sizes: &[Size]) -> Vec<Cell> {
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
        self.counter
            .count_all(&questions)
            .into_iter()
            .map(|counts| Cell {
                chance: counts.no_stop.chance(effective),
                broken: self
                    .stops
                    .iter()
                    .map(|&row| {
                        counts.rows[row]
                            .map_or(0.0, |shares| 1.0 - shares.stop.chance(effective).value)
                    })
                    .collect(),
            })
            .collect()
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
