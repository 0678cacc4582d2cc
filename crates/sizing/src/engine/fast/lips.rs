//! Least lips of a disc in many draws, see [`geometry::lip`].

use super::columns::{ArcColumns, OpeningColumns, ValveColumns};
use super::enclosure::Enclosure;
use super::fields::{CentreField, doubt};
use super::lanes::{LANES, Lane, max, min, root, small_angle};
use super::stand::Radii;
use multiversion::multiversion;

/// Where a part of an opening's edge lies farthest from a disc's centre σ.
///
/// The square of the distance f of a point of the edge from σ bends by no more
/// than 2(a² − b² + a|σ|) for each square radian of anomaly, so between two
/// samples it rises over both by at most an eighth of that times the square of
/// their spacing.
#[derive(Clone)]
pub(super) struct FarthestField {
    /// Whether σ is o in every lane; then there is nothing else here.
    pub(super) is_over_middle: bool,
    /// f² at most.
    square: Lane,
    /// The farthest sample, from the opening's centre o.
    sample: [Lane; 2],
    /// σ, from o.
    centre: [Lane; 2],
}

/// Points of a part of an opening's edge, from o.
pub(super) struct EdgePoints {
    points: Vec<[Lane; 2]>,
    /// By arc: the square of the spacing in anomaly.
    spaces: [Lane; 2],
    is_filled: bool,
}

impl EdgePoints {
    /// No points yet of a part of the edge.
    pub(super) fn unfilled(part: usize) -> Self {
        Self {
            points: vec![[[0.0; LANES]; 2]; 2 * POINTS[part]],
            spaces: [[0.0; LANES]; 2],
            is_filled: false,
        }
    }

    /// They are of other draws than those that come.
    pub(super) const fn forget(&mut self) {
        self.is_filled = false;
    }

    /// Both arcs one after the other, once for each group of draws.
    fn fill(&mut self, opening: &OpeningColumns, part: usize) {
        if self.is_filled {
            return;
        }
        self.is_filled = true;
        let arcs = self.points.chunks_exact_mut(POINTS[part]);
        for ((arc, points), square) in opening.arcs[part].iter().zip(arcs).zip(&mut self.spaces) {
            walk(opening, arc, points, square);
        }
    }
}

/// Points on one arc about the hinges, and on one away from them.
const POINTS: [usize; 2] = [9, 17];

/// Walks along one arc. The step's sine and cosine come from a short series: a
/// space is at most 2π/8 wide.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn walk(opening: &OpeningColumns, arc: &ArcColumns, points: &mut [[Lane; 2]], square: &mut Lane) {
    let share = 1.0 / (points.len() - 1) as f32;
    let (mut cos, mut sin) = (arc.start[0], arc.start[1]);
    let (mut step_cos, mut step_sin) = ([0.0; LANES], [0.0; LANES]);
    for lane in 0..LANES {
        let space = arc.width[lane] * share;
        (step_sin[lane], step_cos[lane]) = small_angle(space);
        square[lane] = space * space;
    }
    for [us, vs] in points {
        for lane in 0..LANES {
            let (x, y) = (
                opening.semi_major[lane] * cos[lane],
                opening.semi_minor[lane] * sin[lane],
            );
            let (turn_cos, turn_sin) = (opening.turn[0][lane], opening.turn[1][lane]);
            us[lane] = x * turn_cos - y * turn_sin;
            vs[lane] = x * turn_sin + y * turn_cos;
            let next = cos[lane] * step_cos[lane] - sin[lane] * step_sin[lane];
            sin[lane] = sin[lane] * step_cos[lane] + cos[lane] * step_sin[lane];
            cos[lane] = next;
        }
    }
}

impl FarthestField {
    pub(super) const UNFILLED: Self = Self {
        is_over_middle: true,
        square: [0.0; LANES],
        sample: [[0.0; LANES]; 2],
        centre: [[0.0; LANES]; 2],
    };

    /// Fills it from the points of the part, which are worked out where they are needed.
    pub(super) fn fill(
        &mut self,
        opening: &OpeningColumns,
        part: usize,
        centre: &CentreField,
        points: &mut EdgePoints,
    ) {
        self.is_over_middle = centre.is_throat && opening.is_throat;
        if self.is_over_middle {
            return;
        }
        points.fill(opening, part);
        self.square.fill(0.0);
        self.sample.as_flattened_mut().fill(0.0);
        for axis in 0..2 {
            for lane in 0..LANES {
                self.centre[axis][lane] = centre.place[axis][lane] - opening.centre[axis][lane];
            }
        }
        let mut farthest = [0.0; LANES];
        let arcs = points.points.chunks_exact(POINTS[part]);
        for (points, square) in arcs.zip(&points.spaces) {
            look(points, &mut farthest, self);
            bend_over(opening, square, &farthest, self);
        }
        middle(opening, part, self);
    }

    /// Bounds of the least lip of a disc.
    pub(super) fn lip(&self, radius: f32, lip: &mut Enclosure) {
        least_lip(self, radius, lip);
    }
}

/// Looks for the point of one arc that lies farthest from σ.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn look(points: &[[Lane; 2]], farthest: &mut Lane, field: &mut FarthestField) {
    for eight in 0..LANES / 8 {
        let few = |lane: &Lane| -> [f32; 8] { std::array::from_fn(|at| lane[8 * eight + at]) };
        let centre = [few(&field.centre[0]), few(&field.centre[1])];
        let mut best = few(farthest);
        let mut sample = [few(&field.sample[0]), few(&field.sample[1])];
        for [us, vs] in points {
            let (us, vs) = (few(us), few(vs));
            for at in 0..8 {
                let (u, v) = (us[at], vs[at]);
                let (du, dv) = (u - centre[0][at], v - centre[1][at]);
                let square = du * du + dv * dv;
                let is_farther = square > best[at];
                best[at] = if is_farther { square } else { best[at] };
                sample[0][at] = if is_farther { u } else { sample[0][at] };
                sample[1][at] = if is_farther { v } else { sample[1][at] };
            }
        }
        for at in 0..8 {
            farthest[8 * eight + at] = best[at];
            field.sample[0][8 * eight + at] = sample[0][at];
            field.sample[1][8 * eight + at] = sample[1][at];
        }
    }
}

/// Adds what the edge may bend out between two points of an arc.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn bend_over(opening: &OpeningColumns, square: &Lane, farthest: &Lane, field: &mut FarthestField) {
    for lane in 0..LANES {
        let (a, b) = (opening.semi_major[lane], opening.semi_minor[lane]);
        let (u, v) = (field.centre[0][lane], field.centre[1][lane]);
        let from_middle = root(u * u + v * v);
        let bend = 2.0 * ((a - b) * (a + b) + a * from_middle);
        let most = farthest[lane] + 0.125 * bend * square[lane];
        // Not a comparison that a number's absence could slip through.
        field.square[lane] = if field.square[lane] >= most {
            field.square[lane]
        } else {
            most
        };
    }
}

/// Where σ is o itself, the farthest point is known without samples.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn middle(opening: &OpeningColumns, part: usize, field: &mut FarthestField) {
    for lane in 0..LANES {
        let farthest = opening.farthest[part][lane];
        let is_middle = field.centre[0][lane] == 0.0 && field.centre[1][lane] == 0.0;
        field.square[lane] = if is_middle {
            farthest * farthest
        } else {
            field.square[lane]
        };
        field.sample[0][lane] = if is_middle {
            farthest
        } else {
            field.sample[0][lane]
        };
        field.sample[1][lane] = if is_middle {
            0.0
        } else {
            field.sample[1][lane]
        };
    }
}

/// At a point of the edge as far as f from σ the lip is
/// root − √(root² + f² − R²), and the root lies between half the shortest chord
/// through o and R: the lip is least for the longest root where f < R, for the
/// shortest beyond. The lip at the farthest sample bounds it from above.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn least_lip(field: &FarthestField, radius: f32, lip: &mut Enclosure) {
    let square = radius * radius;
    for lane in 0..LANES {
        let (u, v) = (field.centre[0][lane], field.centre[1][lane]);
        let from_middle = u * u + v * v;
        let farthest = field.square[lane];
        let chord = root(square - from_middle);
        let root_at_worst = if farthest <= square { radius } else { chord };
        let low = root_at_worst - root(root_at_worst * root_at_worst + farthest - square);
        let (x, y) = (field.sample[0][lane], field.sample[1][lane]);
        let edge = root(x * x + y * y);
        let scale = 1.0 / edge;
        let (x, y) = (x * scale, y * scale);
        let (reach, aside) = (u * x + v * y, u * y - v * x);
        let high = reach + root((radius - aside) * (radius + aside)) - edge;
        // A disc that does not cover o is judged in another way.
        let covers = from_middle < square * COVERED;
        let doubt = doubt(radius + edge);
        lip.low[lane] = if covers {
            low - doubt
        } else {
            f32::NEG_INFINITY
        };
        lip.high[lane] = if covers { high + doubt } else { f32::INFINITY };
    }
}

/// The least lip of a disc over the middle of an opening.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn lip_over_middle(farthest: &Lane, radius: f32, lip: &mut Enclosure) {
    for lane in 0..LANES {
        let value = radius - farthest[lane];
        let doubt = doubt(radius + farthest[lane]);
        lip.low[lane] = value - doubt;
        lip.high[lane] = value + doubt;
    }
}

/// Share of R² up to which σ² leaves no doubt that the disc covers o, and keeps
/// the roots away from 0, where they would magnify rounding.
const COVERED: f32 = 0.9;

/// Bounds of how far a disc, or the waist's end, reaches past the edge toward a
/// hinge: the lip along one ray.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn reach(
    opening: &OpeningColumns,
    centre: &CentreField,
    valve: &ValveColumns,
    radii: &Radii,
    reach: &mut Enclosure,
) {
    for lane in 0..LANES {
        let u = centre.place[0][lane] - opening.centre[0][lane];
        let v = centre.place[1][lane] - opening.centre[1][lane];
        let (x, y) = (valve.radial[0][lane], valve.radial[1][lane]);
        let (along, aside) = (u * x + v * y, u * y - v * x);
        let (radius, edge) = (radii.of(lane), valve.edge[lane]);
        let past = along + root((radius - aside) * (radius + aside)) - edge;
        let covers = u * u + v * v < radius * radius * COVERED;
        let doubt = doubt(radius + edge);
        reach.low[lane] = if covers {
            past - doubt
        } else {
            f32::NEG_INFINITY
        };
        reach.high[lane] = if covers { past + doubt } else { f32::INFINITY };
    }
}

/// Turns bounds of a reach into bounds of the share of the leaflet it covers.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn covered(valve: &ValveColumns, reach: &mut Enclosure) {
    for lane in 0..LANES {
        let share = |reach: f32| {
            let share = (reach - valve.rim[lane]) / valve.leaflet[lane];
            min(max(share, 0.0), 1.0)
        };
        let slack = doubt(1.0);
        reach.low[lane] = share(reach.low[lane]) - slack;
        reach.high[lane] = share(reach.high[lane]) + slack;
    }
}
