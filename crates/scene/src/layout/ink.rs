use super::{Grid, Placed};
use crate::{Figure, Form, Point};

/// The cells of a grid that lines of figures go through.
pub(super) struct Ink {
    columns: i32,
    rows: i32,
    cells: Vec<bool>,
}

impl Ink {
    pub(super) fn of<'a>(figures: impl IntoIterator<Item = &'a Figure>, grid: &Grid) -> Self {
        let (columns, rows) = (grid.columns().max(0), grid.rows().max(0));
        let count = columns.unsigned_abs() as usize * rows.unsigned_abs() as usize;
        let mut ink = Self {
            columns,
            rows,
            cells: vec![false; count],
        };
        for figure in figures {
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
            .filter_map(|column| self.place([column, words.row]))
            .filter(|&place| self.cells[place])
            .count()
    }

    /// The place of a cell of the grid in order.
    fn place(&self, [column, row]: [i32; 2]) -> Option<usize> {
        let is_in = (0..self.columns).contains(&column) && (0..self.rows).contains(&row);
        is_in.then(|| {
            let columns = self.columns.unsigned_abs() as usize;
            row.unsigned_abs() as usize * columns + column.unsigned_abs() as usize
        })
    }

    fn set(&mut self, cell: [i32; 2]) {
        if let Some(place) = self.place(cell) {
            self.cells[place] = true;
        }
    }

    fn line(&mut self, points: &[Point], grid: &Grid) {
        for pair in points.windows(2) {
            let [start, end] = [grid.cell(pair[0]), grid.cell(pair[1])];
            if start == end {
                self.set(start);
                continue;
            }
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
                self.set(grid.cell(Point::new(x, y)));
            }
        }
    }
}
