use super::FitMap;
use geometry::Mm;
use std::collections::BTreeMap;

/// A line of one chance: points of waist and overhang; a closed one ends where it
/// began.
pub type Line = Vec<(Mm, Mm)>;

/// A side of a square of four cells: from a cell to the next column or the next
/// row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Side {
    column: usize,
    row: usize,
    is_along_waists: bool,
}

/// Marching squares (Lorensen and Cline's method in the plane, from memory) on the
/// centres of the counted cells, straight between them. Where the corners of a
/// square alternate, the mean of the four decides which are joined.
pub(super) fn lines(map: &FitMap, chance: f64) -> Vec<Line> {
    let stride = map.stride;
    let at = |column: usize, row: usize| map.chance(column * stride, row * stride);
    let columns = map.waists.count.div_ceil(stride);
    let rows = map.overhangs.count.div_ceil(stride);
    let mut joined: BTreeMap<Side, Vec<Side>> = BTreeMap::new();
    for column in 0..columns.saturating_sub(1) {
        for row in 0..rows.saturating_sub(1) {
            let corners = [(0, 0), (1, 0), (1, 1), (0, 1)];
            let Some(values) = corners
                .map(|(right, up)| at(column + right, row + up))
                .into_iter()
                .collect::<Option<Vec<f64>>>()
            else {
                continue;
            };
            for (one, other) in segments(&values, chance) {
                let side = |index: usize| side(column, row, index);
                joined.entry(side(one)).or_default().push(side(other));
                joined.entry(side(other)).or_default().push(side(one));
            }
        }
    }
    let point = |side: &Side| {
        let next = if side.is_along_waists { (1, 0) } else { (0, 1) };
        let here = at(side.column, side.row).unwrap_or(chance);
        let there = at(side.column + next.0, side.row + next.1).unwrap_or(chance);
        let share = if there == here {
            0.0
        } else {
            (chance - here) / (there - here)
        };
        let along =
            |index: usize, next: usize| (index as f64 + share * next as f64) * stride as f64;
        (
            map.waists.first + map.waists.step * along(side.column, next.0),
            map.overhangs.first + map.overhangs.step * along(side.row, next.1),
        )
    };
    let mut lines = Vec::new();
    // Open lines first, from their ends; what is left is closed.
    while let Some(start) = joined
        .iter()
        .find(|(_, next)| next.len() == 1)
        .or_else(|| joined.iter().next())
        .map(|(side, _)| *side)
    {
        lines.push(walk(&mut joined, start).iter().map(point).collect());
    }
    lines
}

/// Follows a line from a side and takes it out.
fn walk(joined: &mut BTreeMap<Side, Vec<Side>>, start: Side) -> Vec<Side> {
    let mut line = vec![start];
    let mut here = start;
    while let Some(next) = joined.get_mut(&here).and_then(Vec::pop) {
        if let Some(back) = joined.get_mut(&next)
            && let Some(place) = back.iter().position(|side| *side == here)
        {
            back.remove(place);
        }
        if joined.get(&here).is_some_and(Vec::is_empty) {
            joined.remove(&here);
        }
        line.push(next);
        here = next;
    }
    joined.remove(&here);
    joined.remove(&start);
    line
}

/// A square's side by its number: below, right, above, left.
const fn side(column: usize, row: usize, index: usize) -> Side {
    let (column, row, is_along_waists) = match index {
        0 => (column, row, true),
        1 => (column + 1, row, false),
        2 => (column, row + 1, true),
        _ => (column, row, false),
    };
    Side {
        column,
        row,
        is_along_waists,
    }
}

/// Which sides of a square a line joins; corners counted round from the lower
/// left.
fn segments(corners: &[f64], chance: f64) -> Vec<(usize, usize)> {
    let over = |index: usize| corners[index % 4] >= chance;
    let crossed: Vec<usize> = (0..4)
        .filter(|&side| over(side) != over(side + 1))
        .collect();
    match crossed[..] {
        [one, other] => vec![(one, other)],
        [_, _, _, _] => {
            let centre = corners.iter().sum::<f64>() / 4.0 >= chance;
            // The centre goes with the corners of its kind: the others are cut off.
            if centre == over(0) {
                vec![(0, 1), (2, 3)]
            } else {
                vec![(3, 0), (1, 2)]
            }
        }
        _ => Vec::new(),
    }
}
