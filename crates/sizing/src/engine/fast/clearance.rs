//! Bounds of the signed clearance in many draws, see [`geometry::clearance`].
//!
//! Seen from the hinge, in the directions (out of the wall, r̂, t̂), the annulus
//! plate A is the ellipse with semi-axes a along d̂ = (sin λ, cos λ, 0) and b along
//! t̂ that touches the hinge; N = (cos λ, −sin λ, 0) is its normal toward the
//! defect. The disc's core plate D has centre c, unit normal m and radius ρ. The
//! clearance is c₀ − t/2 − sag with c₀ the distance of D from A, or, where D has
//! come to A or past it, less how far it would have to draw back along r̂. What is
//! asked is on which side of a few limits it lies, so bounds of c₀ are sought that
//! leave none of the limits between them; most draws need only the first step.
//!
//! 1. [`bound`]. u being the steepest way up from A's plane along D and s the sine
//!    between the planes, e = c − ρu is D's lowest point and h = N·c − ρs its height.
//!    - h ≥ 0: no point of D reaches A's plane at a shift ≥ 0, so c₀ is the distance,
//!      at least h; just h where the foot of e lies in A.
//!    - h < 0: the farthest shift of any point of D to A's plane is that of e,
//!      −h / sin λ, so c₀ ≥ h / sin λ; just that where e, so shifted, lands in A.
//! 2. [`land`], where e does not land. D moved back by x meets A where W(ξ) ≥ 0
//!    for the ξ of that shift, and W is concave (see `geometry::clearance::shift`).
//!    For a limit X: W(ξ(X)) ≥ 0 shows that D must draw back X at least; W < 0
//!    and falling, that no more than X is needed.
//! 3. [`approach`], where D stands off A and e's foot lies outside. f, the distance
//!    from D of a point of A's rim, bounds c₀ from above. Its tangent plane
//!    bounds it from below all over A: with g = ∇f and G = (g·X, g·Y), c₀ ≥ f(z) −
//!    (G·z + |G|). Newton's method on ½f² brings both together.

use super::columns::ValveColumns;
use super::enclosure::Enclosure;
use super::fields::{BesideField, CHAIN, ROUNDING, TiltField};
use super::lanes::{LANES, Lane, Mask, clamp, each, max, min, root};
use super::stand::Stand;
use multiversion::multiversion;

/// The disc's core plate in every lane, seen from the hinge.
pub(super) struct Core {
    /// c: out of the wall, along r̂, along t̂.
    pub(super) centre: [Lane; 3],
    /// ρ.
    pub(super) radius: Lane,
}

/// Bounds of c₀ as they are narrowed, with what the next step starts from.
pub(super) struct DepthBounds {
    pub(super) bounds: Enclosure,
    /// e's foot on A, or where e lands, in units of A's semi-axes.
    foot: [Lane; 2],
    /// How far a length may be wrong here.
    pub(super) doubt: Lane,
}

/// How far inside A, in units of its semi-axes squared, a point must lie for
/// rounding not to take it outside.
const INSIDE: f32 = 1.0 - 2e-5;

impl Core {
    pub(super) const NOWHERE: Self = Self {
        centre: [[0.0; LANES]; 3],
        radius: [0.0; LANES],
    };
}

impl DepthBounds {
    pub(super) const UNKNOWN: Self = Self {
        bounds: Enclosure::OPEN,
        foot: [[0.0; LANES]; 2],
        doubt: [0.0; LANES],
    };

    /// Narrows the bounds in the few lanes from `first` on, of which `open` are
    /// not settled.
    pub(super) fn narrow(&mut self, scene: &DiscBesideValve, first: usize, open: Mask) {
        let DiscBesideValve {
            valve, tilt, core, ..
        } = *scene;
        if each(open).any(|lane| self.bounds.low[first + lane] < 0.0) {
            for limit in scene.limits.iter().flatten() {
                // What D would have to draw back to stand at the limit.
                let shift = std::array::from_fn(|lane| {
                    max(-(limit + scene.half + valve.sag[first + lane]), 0.0)
                });
                land(valve, tilt, core, first, &shift, self);
            }
            // Most are settled by then.
            if !each(open).any(|lane| self.is_open(scene, first + lane)) {
                return;
            }
        }
        approach(valve, tilt, core, first, self);
    }

    /// Whether a limit lies between the bounds of the clearance in a lane.
    fn is_open(&self, scene: &DiscBesideValve, lane: usize) -> bool {
        let off = scene.half + scene.valve.sag[lane];
        let low = self.bounds.low[lane] - off - self.doubt[lane];
        let high = self.bounds.high[lane] - off + self.doubt[lane];
        let mut limits = scene.limits.iter().flatten();
        limits.any(|limit| !(low >= *limit || high < *limit))
    }
}

/// A valve, a disc beside it, and what is asked of the two.
pub(super) struct DiscBesideValve<'a> {
    pub(super) valve: &'a ValveColumns,
    pub(super) tilt: &'a TiltField,
    pub(super) core: &'a Core,
    /// t/2.
    pub(super) half: f32,
    pub(super) limits: [Option<f32>; 4],
}

/// Puts the core plate where its hinge sees it, and gives the first bounds of c₀
/// and of the clearance.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn bound(
    (valve, tilt): (&ValveColumns, &TiltField),
    beside: &BesideField,
    disc: &Stand,
    core: &mut Core,
    apart: &mut DepthBounds,
    bounds: &mut Enclosure,
) {
    let half = 0.5 * disc.thickness;
    for lane in 0..LANES {
        let out = disc.gap[lane] + half;
        let (along, across) = (beside.place[0][lane], beside.place[1][lane]);
        let radius = max(disc.radius(lane) - half, 0.0);
        core.centre[0][lane] = out;
        core.centre[1][lane] = along;
        core.centre[2][lane] = across;
        core.radius[lane] = radius;
        let (sin, cos) = (valve.lean[0][lane], valve.lean[1][lane]);
        let height = cos * out - sin * along - radius * tilt.sine[lane];
        let lowest = [
            out - radius * tilt.up[0][lane],
            along - radius * tilt.up[1][lane],
            across - radius * tilt.up[2][lane],
        ];
        let is_before = height >= 0.0;
        let per_sine = valve.per_sine[lane];
        // Along d̂ from the hinge: of the foot, or of where e lands.
        let foot = sin * lowest[0] + cos * lowest[1];
        let landing = lowest[0] * per_sine;
        let x = (if is_before { foot } else { landing }) * valve.per_along[lane] - 1.0;
        let y = lowest[2] * valve.per_across[lane];
        let exact = if is_before { height } else { height * per_sine };
        let is_inside = x * x + y * y < INSIDE;
        let high = if is_inside { exact } else { f32::INFINITY };
        let scale = beside.scale[lane] + radius + out;
        let doubt = CHAIN * ROUNDING * scale * per_sine;
        apart.bounds.low[lane] = exact;
        apart.bounds.high[lane] = high;
        apart.foot[0][lane] = x;
        apart.foot[1][lane] = y;
        apart.doubt[lane] = doubt;
        let off = half + valve.sag[lane];
        bounds.low[lane] = exact - off - doubt;
        bounds.high[lane] = high - off + doubt;
    }
}

/// Lanes that are worked on together once most are settled.
pub(super) const FEW: usize = 8;

/// One number in each of a few lanes.
type Few = [f32; FEW];

/// The few lanes from `first` on.
#[inline(always)]
fn few(lane: &Lane, first: usize) -> &Few {
    // A slice of this length is never refused.
    lane[first..].first_chunk().unwrap_or(&[f32::NAN; FEW])
}

/// Puts one number back in each of the few lanes from `first` on.
#[inline(always)]
fn put(lane: &mut Lane, first: usize, few: &Few) {
    if let Some(to) = lane[first..].first_chunk_mut() {
        *to = *few;
    }
}

/// Narrows the bounds in a few lanes where D lies across A's plane: `shift` is
/// the X, at least 0, of which it matters whether D must draw back so far.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn land(
    valve: &ValveColumns,
    tilt: &TiltField,
    core: &Core,
    first: usize,
    shift: &Few,
    apart: &mut DepthBounds,
) {
    let lean = [few(&valve.lean[0], first), few(&valve.lean[1], first)];
    let per_semi = [few(&valve.per_along, first), few(&valve.per_across, first)];
    let per_sines = few(&valve.per_sine, first);
    let centre = [0, 1, 2].map(|axis| few(&core.centre[axis], first));
    let up = [0, 1, 2].map(|axis| few(&tilt.up[axis], first));
    let normal = [0, 1, 2].map(|axis| few(&tilt.normal[axis], first));
    let (sines, radii) = (few(&tilt.sine, first), few(&core.radius, first));
    let doubts = few(&apart.doubt, first);
    // Copies, so that the loop holds nothing that could stop it.
    let (mut lows, mut highs) = (
        *few(&apart.bounds.low, first),
        *few(&apart.bounds.high, first),
    );
    for lane in 0..FEW {
        let (sin, cos) = (lean[0][lane], lean[1][lane]);
        let radius = radii[lane];
        let [out, along, across] = [centre[0][lane], centre[1][lane], centre[2][lane]];
        let up = [up[0][lane], up[1][lane], up[2][lane]];
        let normal = [normal[0][lane], normal[1][lane], normal[2][lane]];
        // ξ runs along −u, where the shift grows fastest; ζ along m × −u.
        let per_sine = per_sines[lane];
        let rate = sines[lane] * per_sine;
        let at_centre = (sin * along - cos * out) * per_sine;
        let per_tall = per_semi[0][lane] * per_sine;
        let per_wide = per_semi[1][lane];
        let start = [out * per_tall - 1.0, across * per_wide];
        let step = [-up[0] * per_tall, -up[2] * per_wide];
        let side = [
            (up[1] * normal[2] - up[2] * normal[1]) * per_tall,
            (up[0] * normal[1] - up[1] * normal[0]) * per_wide,
        ];
        let square = side[0] * side[0] + side[1] * side[1];
        let per_square = 1.0 / square;
        let offset = [
            start[0] * side[1] - start[1] * side[0],
            step[0] * side[1] - step[1] * side[0],
        ];
        let middle = [
            -(start[0] * side[0] + start[1] * side[1]) * per_square,
            -(step[0] * side[0] + step[1] * side[1]) * per_square,
        ];
        // Where both roots of W are real.
        let limit = square.sqrt();
        let (one, other) = (
            (-limit - offset[0]) / offset[1],
            (limit - offset[0]) / offset[1],
        );
        let is_level = offset[1].abs() * radius < LEVEL * limit;
        let low = if is_level {
            -radius
        } else {
            max(-radius, min(one, other))
        };
        let high = if is_level {
            radius
        } else {
            min(radius, max(one, other))
        };
        let doubt = doubts[lane];
        let shift = shift[lane];
        let wanted = (shift - at_centre) / rate;
        let place = clamp(wanted, low, high);
        let kappa = offset[0] + offset[1] * place;
        let eta = middle[0] + middle[1] * place;
        let disc = root((radius - place) * (radius + place));
        let landed = root(square - kappa * kappa);
        let overlap = disc + landed * per_square - eta.abs();
        let slope = -place / disc
            - kappa * offset[1] * per_square / landed
            - if eta < 0.0 { -middle[1] } else { middle[1] };
        let is_real = square - kappa * kappa > SURE * square;
        let is_met = overlap > SURE * radius && is_real && low <= high && wanted <= high;
        // Beyond the end of W's domain, or falling from there on.
        let end_doubt = doubt
            + if is_level {
                0.0
            } else {
                CHAIN * ROUNDING / offset[1].abs()
            };
        let is_past = wanted > high + end_doubt
            || (overlap < -SURE * radius && slope < -SLOPING && wanted >= low);
        let (best_low, best_high) = (lows[lane], highs[lane]);
        highs[lane] = if is_met {
            min(best_high, -shift)
        } else {
            best_high
        };
        lows[lane] = if is_past {
            max(best_low, -shift)
        } else {
            best_low
        };
    }
    put(&mut apart.bounds.low, first, &lows);
    put(&mut apart.bounds.high, first, &highs);
}

/// Share of W's offset over all of D below which it counts as level.
const LEVEL: f32 = 1e-6;
/// Overlap of D and A in units of ρ, and share of q under W's root, that rounding
/// can neither make nor undo.
const SURE: f32 = 1e-4;
/// Fall of W for each millimetre that rounding cannot make.
const SLOPING: f32 = 1e-2;

/// Steps of Newton's method before the rest is left to `f64`.
const STEPS: usize = 3;
/// The longest step, as the tangent of the angle by which the rim point turns.
const LONGEST_STEP: f32 = 1.0;

/// Narrows the bounds in a few lanes by D's distance from A's rim.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn approach(
    valve: &ValveColumns,
    tilt: &TiltField,
    core: &Core,
    first: usize,
    apart: &mut DepthBounds,
) {
    let lean = [few(&valve.lean[0], first), few(&valve.lean[1], first)];
    let semi = [
        few(&valve.semi_along, first),
        few(&valve.semi_across, first),
    ];
    let centre = [0, 1, 2].map(|axis| few(&core.centre[axis], first));
    let normal = [0, 1, 2].map(|axis| few(&tilt.normal[axis], first));
    let radii = few(&core.radius, first);
    let (mut xs, mut ys) = (*few(&apart.foot[0], first), *few(&apart.foot[1], first));
    for lane in 0..FEW {
        let scale = 1.0 / root(xs[lane] * xs[lane] + ys[lane] * ys[lane]);
        (xs[lane], ys[lane]) = (xs[lane] * scale, ys[lane] * scale);
    }
    let (mut lows, mut highs) = ([f32::NEG_INFINITY; FEW], [f32::INFINITY; FEW]);
    // Lanes go side by side through each step.
    for _ in 0..=STEPS {
        for lane in 0..FEW {
            let (sin, cos) = (lean[0][lane], lean[1][lane]);
            let (a, b) = (semi[0][lane], semi[1][lane]);
            let radius = radii[lane];
            let m = [normal[0][lane], normal[1][lane], normal[2][lane]];
            let (x, y) = (xs[lane], ys[lane]);
            // A's centre from D's.
            let between = [
                a * sin - centre[0][lane],
                a * cos - centre[1][lane],
                -centre[2][lane],
            ];
            let point = [
                between[0] + a * sin * x,
                between[1] + a * cos * x,
                between[2] + b * y,
            ];
            let height = m[0] * point[0] + m[1] * point[1] + m[2] * point[2];
            let flat = [
                point[0] - m[0] * height,
                point[1] - m[1] * height,
                point[2] - m[2] * height,
            ];
            let from_axis = root(flat[0] * flat[0] + flat[1] * flat[1] + flat[2] * flat[2]);
            let is_beyond = from_axis > radius;
            let curvature = if is_beyond { 1.0 / from_axis } else { 0.0 };
            let beyond = if is_beyond { from_axis - radius } else { 0.0 };
            let outward = [
                flat[0] * curvature,
                flat[1] * curvature,
                flat[2] * curvature,
            ];
            let away = [
                m[0] * height + outward[0] * beyond,
                m[1] * height + outward[1] * beyond,
                m[2] * height + outward[2] * beyond,
            ];
            let distance = root(height * height + beyond * beyond);
            let slope_x = a * (sin * away[0] + cos * away[1]) / distance;
            let slope_y = b * away[2] / distance;
            let steep = root(slope_x * slope_x + slope_y * slope_y);
            let excess = max(slope_x * x + slope_y * y + steep, 0.0);
            highs[lane] = min(highs[lane], distance);
            lows[lane] = max(lows[lane], distance - excess);
            // Newton's step along the rim, z' = Y cos φ − X sin φ.
            let velocity = [-a * sin * y, -a * cos * y, b * x];
            let inward = [
                between[0] - point[0],
                between[1] - point[1],
                between[2] - point[2],
            ];
            let climb = dot(m, velocity);
            let spread = dot(outward, velocity);
            let level = dot(velocity, velocity) - climb * climb;
            let bend = dot(outward, inward) + curvature * (level - spread * spread);
            let rise = height * climb + beyond * spread;
            let curve = climb * climb + height * dot(m, inward) + spread * spread + beyond * bend;
            let newton = clamp(-rise / curve, -LONGEST_STEP, LONGEST_STEP);
            let downhill = if rise > 0.0 {
                -LONGEST_STEP
            } else {
                LONGEST_STEP
            };
            let step = if curve > 0.0 { newton } else { downhill };
            let shrink = 1.0 / (1.0 + step * step).sqrt();
            xs[lane] = (x - step * y) * shrink;
            ys[lane] = (y + step * x) * shrink;
        }
    }
    let (mut best_lows, mut best_highs) = (
        *few(&apart.bounds.low, first),
        *few(&apart.bounds.high, first),
    );
    for lane in 0..FEW {
        // The distance bounds c₀ from above always, from below where D has not
        // passed.
        let best_low = best_lows[lane];
        best_highs[lane] = min(best_highs[lane], highs[lane]);
        best_lows[lane] = if best_low >= 0.0 {
            max(best_low, lows[lane])
        } else {
            best_low
        };
    }
    put(&mut apart.bounds.low, first, &best_lows);
    put(&mut apart.bounds.high, first, &best_highs);
}

#[inline(always)]
fn dot(p: [f32; 3], q: [f32; 3]) -> f32 {
    p[0] * q[0] + p[1] * q[1] + p[2] * q[2]
}

/// From how far the plates stand apart to the clearance.
#[multiversion(targets("x86_64+avx2", "x86_64+avx"))]
pub(super) fn settle(apart: &DepthBounds, valve: &ValveColumns, half: f32, bounds: &mut Enclosure) {
    for lane in 0..LANES {
        let off = half + valve.sag[lane];
        bounds.low[lane] = apart.bounds.low[lane] - off - apart.doubt[lane];
        bounds.high[lane] = apart.bounds.high[lane] - off + apart.doubt[lane];
    }
}
