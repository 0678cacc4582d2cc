//! What several checks, and often several sizes, look at in the same draws.

use super::columns::{Columns, ValveColumns};
use super::lanes::{LANES, Lane, SMALL_ANGLE, max, min, root, small_angle};
use geometry::{Edge, Face, Occluder, Radians, Vec2, Waist, braid_stiffness};
use measurement::Valve;
use multiversion::multiversion;

/// A waist in the hole.
#[derive(Clone)]
pub(super) struct WaistField {
    /// d_c.
    pub(super) diameter: Lane,
    /// s.
    pub(super) slack: Lane,
    /// How far the left and the right disc stand off the wall.
    pub(super) gaps: [Lane; 2],
    /// How far each of them may be wrong.
    pub(super) doubt: f32,
}

/// What a [`WaistField`] depends on.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct WaistForm {
    pub(super) waist: Waist,
    pub(super) braid_angle: Radians,
}

/// Where the centre of the disc on a face lies in the wall.
#[derive(Clone)]
pub(super) struct CentreField {
    pub(super) place: [Lane; 2],
    /// Whether it is the throat's own centre in every lane.
    pub(super) is_throat: bool,
}

/// What a [`CentreField`] depends on.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct CentreForm {
    pub(super) waist_diameter: f64,
    pub(super) offset: Vec2,
    pub(super) turn: Radians,
}

/// Where the centre of a disc lies beside a valve.
#[derive(Clone)]
pub(super) struct BesideField {
    /// Along r̂ and t̂, from the hinge.
    pub(super) place: [Lane; 2],
    /// The lengths of both, and of the annulus: what rounding goes by.
    pub(super) scale: Lane,
}

/// What a [`BesideField`] depends on.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct BesideForm {
    pub(super) valve: Valve,
    /// Its index among the centres.
    pub(super) centre: usize,
}

/// How a disc of some conformability is tilted, seen from the hinge of a valve:
/// in the directions out of the wall, r̂ and t̂.
#[derive(Clone)]
pub(super) struct TiltField {
    /// m, its normal.
    pub(super) normal: [Lane; 3],
    /// Along the disc, up from the plane of the annulus toward the defect.
    pub(super) up: [Lane; 3],
    /// Sine of the angle between disc and annulus.
    pub(super) sine: Lane,
}

/// What a [`TiltField`] depends on.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct TiltForm {
    pub(super) valve: Valve,
    pub(super) conformability: f64,
}

const NONE: Lane = [0.0; LANES];

impl WaistField {
    pub(super) const UNFILLED: Self = Self {
        diameter: NONE,
        slack: NONE,
        gaps: [NONE; 2],
        doubt: 0.0,
    };
}

impl CentreField {
    pub(super) const UNFILLED: Self = Self {
        place: [NONE; 2],
        is_throat: false,
    };
}

impl BesideField {
    pub(super) const UNFILLED: Self = Self {
        place: [NONE; 2],
        scale: NONE,
    };
}

impl TiltField {
    pub(super) const UNFILLED: Self = Self {
        normal: [NONE; 3],
        up: [NONE; 3],
        sine: NONE,
    };
}

/// Rounding of one operation in `f32`, relative.
pub(super) const ROUNDING: f32 = f32::EPSILON;

/// Operations by which a length may have gone through rounding: more than any
/// chain here.
pub(super) const CHAIN: f32 = 40.0;

/// How far a length may be wrong that was computed from lengths up to `scale`.
#[inline(always)]
pub(super) fn doubt(scale: f32) -> f32 {
    CHAIN * ROUNDING * scale
}

/// Sine of the angle between disc and annulus below which nothing is decided
/// here: the direction in which they part would be rounding.
const NEARLY_PARALLEL: f32 = 0.05;

impl WaistForm {
    pub(super) const fn of(occluder: &Occluder) -> Self {
        Self {
            waist: occluder.waist,
            braid_angle: occluder.braid_angle,
        }
    }

    pub(super) fn fill(&self, columns: &Columns, edge: Edge, field: &mut WaistField) {
        let (widest, share) = match edge {
            Edge::Soft => (&columns.fit, 1.0),
            Edge::Stiff => (&columns.semi_minor, 2.0),
        };
        let stiffness = braid_stiffness(&self.waist, self.braid_angle) as f32;
        let (diameter, length) = (self.waist.diameter as f32, self.waist.length as f32);
        // A braid turns an error of the diameter into one of the length.
        field.doubt = doubt((diameter + length) * (1.0 + stiffness));
        squeeze(
            columns,
            (widest, share),
            [diameter, length, stiffness],
            field,
        );
    }
}

#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn squeeze(
    columns: &Columns,
    (widest, share): (&Lane, f32),
    [free, length, stiffness]: [f32; 3],
    field: &mut WaistField,
) {
    for lane in 0..LANES {
        let diameter = min(free, share * widest[lane]);
        let given_up = max((free - diameter) * (free + diameter), 0.0);
        field.diameter[lane] = diameter;
        let slack = (length * length + stiffness * given_up).sqrt() - columns.wall[lane];
        field.slack[lane] = slack;
        for face in 0..2 {
            field.gaps[face][lane] = columns.slack_shares[face][lane] * max(slack, 0.0);
        }
    }
}

impl CentreForm {
    pub(super) fn of(occluder: &Occluder, face: Face, turn: Radians) -> Self {
        let offset = occluder.disc(face).map_or(Vec2::ZERO, |disc| disc.offset);
        Self {
            waist_diameter: occluder.waist.diameter,
            offset,
            turn: if offset == Vec2::ZERO { 0.0 } else { turn },
        }
    }

    pub(super) fn fill(&self, columns: &Columns, edge: Edge, field: &mut CentreField) {
        play(columns, self.waist_diameter as f32, edge, &mut field.place);
        field.is_throat = field.place.iter().flatten().all(|part| *part == 0.0);
        if self.offset != Vec2::ZERO {
            let meant = self.offset.turned(self.turn);
            offset(columns, [meant.u as f32, meant.v as f32], &mut field.place);
            field.is_throat = false;
        }
    }
}

/// The waist's place in its play, see [`geometry::Play::of`].
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn play(columns: &Columns, waist_diameter: f32, edge: Edge, place: &mut [Lane; 2]) {
    let is_stiff = matches!(edge, Edge::Stiff);
    for lane in 0..LANES {
        let (a, b) = (columns.semi_major[lane], columns.semi_minor[lane]);
        let fit = 0.5 * columns.fit[lane];
        let widest = if is_stiff { b } else { fit };
        let waist = min(0.5 * waist_diameter, widest);
        let room = fit - b;
        let rounded = if room > 0.0 {
            min(max(waist - b, 0.0) / room, 1.0)
        } else {
            1.0
        };
        let shorter = if is_stiff { 0.0 } else { (a - fit) * rounded };
        let along = max(a - shorter - waist, 0.0);
        let across = if is_stiff { 0.0 } else { max(b - waist, 0.0) };
        let fills = !is_stiff && waist >= fit;
        let along = if fills { 0.0 } else { along };
        let (x, y) = (
            along * columns.play[0][lane],
            across * columns.play[1][lane],
        );
        let (cos, sin) = (columns.throat_turn[0][lane], columns.throat_turn[1][lane]);
        place[0][lane] = x * cos - y * sin;
        place[1][lane] = x * sin + y * cos;
    }
}

/// Moves places by a disc's offset, turned beyond what was meant by the draw's
/// error.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn offset(columns: &Columns, [u, v]: [f32; 2], place: &mut [Lane; 2]) {
    for lane in 0..LANES {
        let (cos, sin) = (columns.turn_error[0][lane], columns.turn_error[1][lane]);
        place[0][lane] += u * cos - v * sin;
        place[1][lane] += u * sin + v * cos;
    }
}

impl BesideForm {
    /// Fills nothing where the valve does not stand there.
    pub(super) fn fill(&self, columns: &Columns, centre: &CentreField, field: &mut BesideField) {
        if let Some(valve) = &columns.valves[self.valve.index()] {
            beside(valve, centre, field);
        }
    }
}

#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn beside(valve: &ValveColumns, centre: &CentreField, field: &mut BesideField) {
    for lane in 0..LANES {
        let (u, v) = (centre.place[0][lane], centre.place[1][lane]);
        let (ru, rv) = (valve.radial[0][lane], valve.radial[1][lane]);
        let along = u * ru + v * rv - valve.hinge[0][lane];
        let across = ru * v - rv * u - valve.hinge[1][lane];
        field.place[0][lane] = along;
        field.place[1][lane] = across;
        field.scale[lane] = along.abs() + across.abs() + valve.semi_along[lane];
    }
}

impl TiltForm {
    /// Fills nothing where the valve does not stand there.
    pub(super) fn fill(&self, columns: &Columns, field: &mut TiltField) {
        if let Some(valve) = &columns.valves[self.valve.index()] {
            tilt(columns, valve, 1.0 - self.conformability as f32, field);
        }
    }
}

#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
fn tilt(columns: &Columns, valve: &ValveColumns, stiffness: f32, field: &mut TiltField) {
    let tilt = &columns.tilts[valve.face.index()];
    for lane in 0..LANES {
        let angle = stiffness * tilt.angle[lane];
        let (sin, cos) = small_angle(angle);
        let (u, v) = (tilt.toward[0][lane], tilt.toward[1][lane]);
        let (ru, rv) = (valve.radial[0][lane], valve.radial[1][lane]);
        let (sin_lean, cos_lean) = (valve.lean[0][lane], valve.lean[1][lane]);
        let out = cos;
        let along = sin * (u * ru + v * rv);
        let across = sin * (ru * v - rv * u);
        // N = (cos λ, −sin λ, 0) is the annulus' normal, toward the defect.
        let normal = out * cos_lean - along * sin_lean;
        let up = [
            cos_lean - out * normal,
            -sin_lean - along * normal,
            -across * normal,
        ];
        let sine = root(up[0] * up[0] + up[1] * up[1] + up[2] * up[2]);
        let is_sure = sine > NEARLY_PARALLEL && angle < SMALL_ANGLE;
        let scale = if is_sure { 1.0 / sine } else { f32::NAN };
        field.normal[0][lane] = out;
        field.normal[1][lane] = along;
        field.normal[2][lane] = across;
        for axis in 0..3 {
            field.up[axis][lane] = up[axis] * scale;
        }
        field.sine[lane] = sine;
    }
}
