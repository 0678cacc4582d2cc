//! Grain of muscle, braid and hatching, as stretches of line.

use crate::clip::{is_inside, segment_in_convex};
use crate::{Extent, Point};
use geometry::{Mm, Radians, degrees, radial};

/// Fibres in a square millimetre of cut muscle.
const FIBRES: f64 = 9.0;

/// The shortest and the longest fibre, mm.
const FIBRE_LENGTHS: [Mm; 2] = [0.5, 1.3];

/// How far fibres lean from the wall's own direction at its left face; at the
/// right face they lean as far the other way.
const FIBRE_LEAN: Radians = degrees(-24.0);

/// Starts the scatter of fibres: any other number would do as well.
const SEED: u64 = 0x5eed_f1b2_e500_0001;

/// Fibres of a cut wall inside an outline. They are laid in the wall's own
/// coordinates, so that nothing which moves in the picture moves them.
pub(super) fn fibres_along(outline: &[Point], wall: Mm) -> Vec<[Point; 2]> {
    scatter(outline, |point| {
        let depth = (point.x / wall.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        Some(FIBRE_LEAN * (1.0 - 2.0 * depth))
    })
}

/// Fibres of a wall seen face-on, thinner toward the rim of a round patch.
pub(super) fn fibres_face_on(outline: &[Point], centre: Point, radius: Mm) -> Vec<[Point; 2]> {
    /// The lean of fibres on the left face.
    const LEAN: Radians = degrees(35.0);
    /// The share of fibres left out in the middle, and at the rim besides.
    const LEFT_OUT: [f64; 2] = [0.35, 0.5];
    scatter(outline, |point| {
        let out = point.distance(centre) / radius.max(f64::MIN_POSITIVE);
        let chance = share(mixed(point.x.to_bits() ^ point.y.to_bits().rotate_left(32)));
        (chance > LEFT_OUT[0] + LEFT_OUT[1] * out * out).then_some(LEAN + 0.4 * out)
    })
}

/// Short lines over a jittered grid, each of a direction from y toward x that
/// `lean` gives; those that leave the outline are left out.
fn scatter(outline: &[Point], lean: impl Fn(Point) -> Option<Radians>) -> Vec<[Point; 2]> {
    let Some(extent) = Extent::of(outline.iter().copied()) else {
        return Vec::new();
    };
    let step = 1.0 / FIBRES.sqrt();
    let mut fibres = Vec::new();
    for row in cells(extent.least.y, extent.most.y, step) {
        for column in cells(extent.least.x, extent.most.x, step) {
            let noise = |salt: u64| {
                let cell = column.cast_unsigned() ^ row.cast_unsigned().rotate_left(32);
                share(mixed(SEED ^ mixed(cell ^ salt.rotate_left(17))))
            };
            let place = |cell: i64, salt| (grid(cell) + noise(salt)) * step;
            let middle = Point::new(place(column, 1), place(row, 2));
            let Some(lean) = lean(middle) else { continue };
            let wobble = degrees(16.0) * (noise(3) - 0.5);
            let [least, most] = FIBRE_LENGTHS;
            let half = 0.5 * (least + (most - least) * noise(4));
            let along = radial(lean + wobble);
            let end = |side: f64| {
                Point::new(
                    middle.x + side * half * along.v,
                    middle.y + side * half * along.u,
                )
            };
            let ends = [end(-1.0), end(1.0)];
            if ends.iter().all(|&end| is_inside(outline, end)) {
                fibres.push(ends);
            }
        }
    }
    fibres
}

/// The numbers of the cells between two places.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a cast to i64 stops at its ends, and windows are of a heart"
)]
fn cells(least: Mm, most: Mm, step: Mm) -> std::ops::RangeInclusive<i64> {
    (least / step).floor() as i64..=(most / step).floor() as i64
}

#[expect(clippy::cast_precision_loss, reason = "few cells")]
const fn grid(cell: i64) -> f64 {
    cell as f64
}

/// A number from 0 to 1 out of the upper bits.
#[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
fn share(bits: u64) -> f64 {
    (bits >> 11) as f64 / (1_u64 << 53) as f64
}

/// SplitMix64 (Steele, Lea, Flood, OOPSLA 2014; from memory).
const fn mixed(seed: u64) -> u64 {
    let mut bits = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

/// Parallel lines at an angle from x, `step` apart, inside a convex outline.
pub(super) fn hatch(outline: &[Point], angle: Radians, step: Mm) -> Vec<[Point; 2]> {
    let Some(extent) = Extent::of(outline.iter().copied()) else {
        return Vec::new();
    };
    let middle = extent.least.midpoint(extent.most);
    let along = radial(angle);
    let reach = 0.5 * extent.least.distance(extent.most) + step;
    cells(-reach, reach, step)
        .filter_map(|line| {
            let off = grid(line) * step;
            let foot = Point::new(middle.x - off * along.v, middle.y + off * along.u);
            let end = |side: f64| {
                Point::new(
                    foot.x + side * reach * along.u,
                    foot.y + side * reach * along.v,
                )
            };
            segment_in_convex(outline, [end(-1.0), end(1.0)])
        })
        .filter(|[start, end]| start != end)
        .collect()
}

/// Wires that cross each other inside a convex outline.
pub(super) fn braid(outline: &[Point], step: Mm) -> Vec<[Point; 2]> {
    /// Between a wire and the axis of the waist.
    const ANGLE: Radians = degrees(38.0);
    let mut wires = hatch(outline, ANGLE, step);
    wires.extend(hatch(outline, -ANGLE, step));
    wires
}

/// Wires that leave the hub of a disc as spirals, each way round.
pub(super) fn spirals(centre: Point, hub: Mm, radius: Mm, wires: u32) -> Vec<Vec<Point>> {
    /// How far round a wire runs from hub to rim.
    const TWIST: Radians = degrees(110.0);
    const STEPS: u32 = 14;
    let mut lines = Vec::new();
    for way in [-1.0, 1.0] {
        for wire in 0..wires {
            let start = degrees(360.0) * f64::from(wire) / f64::from(wires);
            let line = (0..=STEPS).map(|step| {
                let share = f64::from(step) / f64::from(STEPS);
                let out = radial(start + way * TWIST * share);
                let reach = hub + (radius - hub) * share;
                Point::new(centre.x + reach * out.u, centre.y + reach * out.v)
            });
            lines.push(line.collect());
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    const BLOCK: [Point; 4] = [
        Point::new(0.0, -5.0),
        Point::new(3.4, -5.0),
        Point::new(3.4, 5.0),
        Point::new(0.0, 5.0),
    ];

    #[test]
    fn a_fibre_stays_where_it_is_when_the_wall_is_cut_elsewhere() {
        let whole = fibres_along(&BLOCK, 3.4);
        let shorter: Vec<Point> = BLOCK
            .iter()
            .map(|point| Point::new(point.x, point.y.min(2.0)))
            .collect();
        let part = fibres_along(&shorter, 3.4);
        assert!(part.len() > 50 && part.len() < whole.len());
        assert!(part.iter().all(|fibre| whole.contains(fibre)));
    }

    #[test]
    fn a_hatch_lies_inside_and_leaves_no_gap() {
        let lines = hatch(&BLOCK, degrees(45.0), 0.5);
        // (3.4 + 10)/√2 across, a line every 0.5 mm.
        assert_eq!(lines.len(), 19);
        for end in lines.iter().flatten() {
            assert!(end.x > -1e-9 && end.x < 3.4 + 1e-9 && end.y.abs() < 5.0 + 1e-9);
        }
        assert!(hatch(&[], 0.0, 1.0).is_empty());
    }
}
