use super::{Grid, Placed};
use crate::{Form, Point, Scene};
use std::collections::BTreeSet;

/// The cells that lines of a scene go through.
pub(super) struct Ink {
    cells: BTreeSet<[i32; 2]>,
}

impl Ink {
    pub(super) fn of(scene: &Scene, grid: &Grid) -> Self {
        let mut ink = Self {
            cells: BTreeSet::new(),
        };
        for figure in &scene.figures {
            match &figure.form {
                Form::Line(points) => ink.line(points, grid),
                Form::Area(points) => {
                    ink.line(points, grid);
                    if let [first, .., last] = points[..] {
                        ink.line(&[last, first], grid);
                    }
                }
                Form::Measure { from, to, .. } => ink.line(&[*from, *to], grid),
                Form::Mark(point) => ink.line(&[*point, *point], grid),
                Form::Text(_) | Form::Home(..) => {}
            }
        }
        ink
    }

    /// How many inked cells words would cover.
    pub(super) fn under(&self, words: &Placed) -> usize {
        let columns = words.column..words.column + words.width();
        columns
            .filter(|&column| self.cells.contains(&[column, words.row]))
            .count()
    }

    fn line(&mut self, points: &[Point], grid: &Grid) {
        for pair in points.windows(2) {
            let [start, end] = [grid.cell(pair[0]), grid.cell(pair[1])];
            // Two steps a cell skip none but where the line cuts its corner.
            let steps = 2
                * (end[0] - start[0])
                    .abs()
                    .max((end[1] - start[1]).abs())
                    .max(1);
            for step in 0..=steps {
                let share = f64::from(step) / f64::from(steps);
                let x = pair[0].x + share * (pair[1].x - pair[0].x);
                let y = pair[0].y + share * (pair[1].y - pair[0].y);
                self.cells.insert(grid.cell(Point::new(x, y)));
            }
        }
    }
}
