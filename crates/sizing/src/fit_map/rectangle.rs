/// Columns and rows of a block of cells, both ends inclusive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rectangle {
    pub(super) columns: (usize, usize),
    pub(super) rows: (usize, usize),
}

/// The largest block of cells that all hold, by their number; of equals the one
/// whose last column comes first, then the highest. `None` where no cell holds.
pub(super) fn largest(
    columns: usize,
    rows: usize,
    holds: impl Fn(usize, usize) -> bool,
) -> Option<Rectangle> {
    let mut best: Option<(usize, Rectangle)> = None;
    // How many columns in a row hold, up to this one.
    let mut run = vec![0; rows];
    for column in 0..columns {
        for (row, run) in run.iter_mut().enumerate() {
            *run = if holds(column, row) { *run + 1 } else { 0 };
        }
        for from in 0..rows {
            let mut width = usize::MAX;
            for (row, &here) in run.iter().enumerate().skip(from) {
                width = width.min(here);
                let area = width * (row - from + 1);
                if area > best.map_or(0, |(area, _)| area) {
                    let columns = (column + 1 - width, column);
                    let rows = (from, row);
                    best = Some((area, Rectangle { columns, rows }));
                }
                if width == 0 {
                    break;
                }
            }
        }
    }
    best.map(|(_, rectangle)| rectangle)
}

impl Rectangle {
    pub(super) const fn contains(&self, column: usize, row: usize) -> bool {
        self.columns.0 <= column
            && column <= self.columns.1
            && self.rows.0 <= row
            && row <= self.rows.1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_block_is_found_as_by_trying_all() {
        // Three by two; no other block has more than five.
        let map = ["..##.", "..###", ".###.", "#.#.."];
        let holds = |column: usize, row: usize| map[column].as_bytes()[row] == b'#';
        let found = largest(4, 5, holds).unwrap();
        let expected = Rectangle {
            columns: (0, 2),
            rows: (2, 3),
        };
        assert_eq!(found, expected);
        assert_eq!(largest(4, 5, |_, _| false), None);
        assert_eq!(
            largest(2, 3, |_, _| true),
            Some(Rectangle {
                columns: (0, 1),
                rows: (0, 2)
            })
        );
    }
}
