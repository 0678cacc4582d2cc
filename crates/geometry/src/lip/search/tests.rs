use super::*;
use crate::radial;
use proptest::prelude::*;
use std::cell::Cell;
use std::f64::consts::{FRAC_PI_8, PI, TAU};

/// A sum of three waves, a_k cos(kθ − φ_k) for k from 1 to 3, and how it was asked.
struct Waves {
    parts: [(f64, f64); 3],
    knows_its_bend: bool,
    looks: Cell<u32>,
    least: Cell<f64>,
    /// The value that the last piece was asked for, less the least seen by then.
    asked_below: Cell<f64>,
}

impl Waves {
    fn new(parts: [(f64, f64); 3]) -> Self {
        Self {
            parts,
            knows_its_bend: true,
            looks: Cell::new(0),
            least: Cell::new(f64::INFINITY),
            asked_below: Cell::new(f64::NAN),
        }
    }

    /// The derivative of an order from 0 to 2 at an angle.
    fn derivative(&self, order: i32, angle: f64) -> f64 {
        let term = |(k, (a, phase)): (f64, (f64, f64))| {
            a * k.powi(order) * (k * angle - phase + 0.5 * PI * f64::from(order)).cos()
        };
        [1.0, 2.0, 3.0].into_iter().zip(self.parts).map(term).sum()
    }

    /// No derivative of an order is larger than this.
    fn bound(&self, order: i32) -> f64 {
        let term = |(k, (a, _)): (f64, (f64, f64))| f64::abs(a) * k.powi(order);
        [1.0, 2.0, 3.0].into_iter().zip(self.parts).map(term).sum()
    }

    /// The least over a stretch, on a grid and then between its neighbours.
    fn least_by_grid(&self, start: f64, width: f64) -> f64 {
        const STEPS: u32 = 2000;
        let at = |step: f64| start + width * step / f64::from(STEPS);
        let value = |step: f64| self.derivative(0, at(step));
        let best = (0..=STEPS)
            .map(f64::from)
            .min_by(|&one, &other| value(one).total_cmp(&value(other)))
            .expect("a grid");
        let (mut low, mut high) = ((best - 1.0).max(0.0), (best + 1.0).min(f64::from(STEPS)));
        for _ in 0..80 {
            let third = (high - low) / 3.0;
            if value(low + third) < value(high - third) {
                high -= third;
            } else {
                low += third;
            }
        }
        value(low).min(value(best))
    }
}

fn angle_of(unit: Vec2) -> f64 {
    libm::atan2(unit.v, unit.u)
}

impl Smooth for Waves {
    fn sample(&self, unit: Vec2) -> Sample {
        self.looks.set(self.looks.get() + 1);
        let angle = angle_of(unit);
        let value = self.derivative(0, angle);
        self.least.set(self.least.get().min(value));
        Sample {
            value,
            slope: self.derivative(1, angle),
            toward: unit,
        }
    }

    fn may_undercut(&self, value: Mm, from: Vec2, to: Vec2) -> bool {
        self.asked_below.set(self.least.get() - value);
        let half = half_tangent(from, to).atan();
        let between = angle_of(middle(from, to));
        self.derivative(0, between) - half * self.bound(1) < value
    }

    fn bend(&self, from: Vec2, to: Vec2) -> Option<Interval> {
        let half = half_tangent(from, to).atan();
        let bend = self.derivative(2, angle_of(middle(from, to)));
        let off = half * self.bound(3);
        self.knows_its_bend
            .then(|| Interval::between(bend - off, bend + off))
    }
}

fn stretch(start: f64, width: f64) -> Stretch {
    Stretch {
        from: radial(start),
        to: radial(start + width),
        wide: width >= PI,
    }
}

fn accuracy(millimetres: Mm) -> Accuracy {
    Accuracy::new(millimetres).expect("a positive number")
}

fn waves() -> impl Strategy<Value = [(f64, f64); 3]> {
    prop::array::uniform3((0.0..2.0_f64, -4.0..4.0_f64))
}

proptest! {
    /// Whatever the number of dips, the least of them is found and lies where it is said.
    #[test]
    fn the_least_over_a_stretch_is_that_of_a_grid(
        parts in waves(), start in -4.0..4.0_f64, width in 0.05..TAU,
        exponent in -9.0..-1.0_f64,
    ) {
        let waves = Waves::new(parts);
        let accuracy = accuracy(10.0_f64.powf(exponent));
        let mut search = DipSearch::new(&waves, accuracy);
        search.walk(&stretch(start, width));
        let (at, least) = search.least().expect("a stretch");
        prop_assert!((waves.derivative(0, angle_of(at)) - least).abs() < 1e-12);
        let tried = waves.least_by_grid(start, width);
        prop_assert!((least - tried).abs() <= 0.5 * accuracy.mm() + 1e-11, "{least} {tried}");
    }

    /// A piece is searched for what is lower than the least so far by half the accuracy:
    /// the other half is for a search around this one.
    #[test]
    fn a_piece_is_asked_for_what_is_worth_a_search(parts in waves(), start in -4.0..4.0_f64) {
        let waves = Waves::new(parts);
        let mut search = DipSearch::new(&waves, accuracy(0.01));
        search.walk(&stretch(start, 3.0));
        prop_assert!((waves.asked_below.get() - 0.005).abs() < 1e-12);
    }

    /// A search for less than a value keeps it unless something is lower by more than
    /// the accuracy, and then finds the least.
    #[test]
    fn less_than_a_value_is_found_where_there_is_any(
        parts in waves(), start in -4.0..4.0_f64, width in 0.05..TAU, off in -1.0..1.0_f64,
    ) {
        prop_assume!(off.abs() > 1e-3);
        let waves = Waves::new(parts);
        let tried = waves.least_by_grid(start, width);
        let mut search = DipSearch::below(&waves, tried + off, accuracy(1e-6));
        search.walk(&stretch(start, width));
        let (_, least) = search.least().expect("at least the value");
        prop_assert!((least - tried - off.min(0.0)).abs() < 1e-6);
    }

    /// The bound is where the tangents at both ends meet, once the arch is taken off.
    #[test]
    fn a_floor_is_the_lowest_point_between_two_tangents(
        values in prop::array::uniform2(-1.0..1.0_f64),
        slopes in prop::array::uniform2(-4.0..4.0_f64),
        down in 0.0..20.0_f64, angle in 0.01..0.39_f64,
    ) {
        let ends = [radial(0.3), radial(0.3 + angle)];
        let end = |index: usize| {
            let sample = Sample { value: values[index], slope: slopes[index], toward: ends[0] };
            (ends[index], sample)
        };
        // The width counts as a little more than it is.
        let width = 2.0 * (0.5 * angle).tan();
        let slope_of_arch = 0.5 * down * width;
        let (falls, rises) = (slopes[0] - slope_of_arch, slopes[1] + slope_of_arch);
        let left = |at: f64| values[0] + falls * at;
        let right = |at: f64| values[1] + rises * (at - width);
        let tried = if falls >= 0.0 {
            values[0]
        } else if rises <= 0.0 {
            values[1]
        } else {
            let (mut low, mut high) = (-1e6, 1e6);
            for _ in 0..100 {
                let between = 0.5 * (low + high);
                if left(between) > right(between) {
                    low = between;
                } else {
                    high = between;
                }
            }
            left(low)
        };
        prop_assume!(tried.abs() < 1e3);
        let floor = floor([end(0), end(1)], down);
        prop_assert!((floor - tried).abs() < 1e-6, "{floor} {tried}");
    }

    /// A function that falls to a kink and rises from it: the lip where a ray from one
    /// place on just misses the disc.
    #[test]
    fn a_kink_is_run_down_however_unlike_its_sides(
        down in -3.0..3.0_f64, up in -3.0..3.0_f64, share in 0.02..0.98_f64,
        exponent in -7.0..-2.0_f64,
    ) {
        let kink = Kink::new([10.0_f64.powf(down), 10.0_f64.powf(up)], share * FRAC_PI_8);
        let accuracy = accuracy(10.0_f64.powf(exponent));
        let mut search = DipSearch::new(&kink, accuracy);
        search.walk(&stretch(0.0, FRAC_PI_8));
        let (_, least) = search.least().expect("a stretch");
        prop_assert!(least <= 0.5 * accuracy.mm() + 1e-12, "{least}");
        prop_assert!(kink.looks.get() <= 2 + STEPS);
    }
}

/// A function of two straight sides, 0 where they meet; its bend is not known.
struct Kink {
    /// How it falls to the kink, and rises from it, for each radian.
    slopes: [f64; 2],
    at: f64,
    looks: Cell<u32>,
}

impl Kink {
    fn new(slopes: [f64; 2], at: f64) -> Self {
        let looks = Cell::new(0);
        Self { slopes, at, looks }
    }
}

impl Smooth for Kink {
    fn sample(&self, unit: Vec2) -> Sample {
        self.looks.set(self.looks.get() + 1);
        let past = angle_of(unit) - self.at;
        let slope = if past < 0.0 {
            -self.slopes[0]
        } else {
            self.slopes[1]
        };
        Sample {
            value: slope * past,
            slope,
            toward: unit,
        }
    }
}

/// What is measured turns round at one place, as the side of a slit does.
struct Turning {
    at: f64,
    looks: Cell<u32>,
}

impl Smooth for Turning {
    fn sample(&self, unit: Vec2) -> Sample {
        self.looks.set(self.looks.get() + 1);
        let is_past = angle_of(unit) > self.at;
        Sample {
            value: 1.0,
            slope: 0.0,
            toward: if is_past { -unit } else { unit },
        }
    }
}

#[test]
fn a_place_where_all_turns_round_is_halved_to_the_last_and_no_further() {
    let looks = Cell::new(0);
    let turning = Turning { at: 0.1234, looks };
    let mut search = DipSearch::new(&turning, Accuracy::DEFAULT);
    search.walk(&stretch(0.0, FRAC_PI_8));
    assert_eq!(turning.looks.get(), 2 + HALVINGS);
    assert_eq!(search.least().map(|(_, least)| least), Some(1.0));
}

/// A function that cannot fall below anything.
struct Level;

impl Smooth for Level {
    fn sample(&self, unit: Vec2) -> Sample {
        Sample {
            value: 2.0 + unit.v,
            slope: unit.u,
            toward: unit,
        }
    }

    fn may_undercut(&self, _: Mm, _: Vec2, _: Vec2) -> bool {
        false
    }
}

#[test]
fn both_ends_count_where_every_piece_is_left() {
    for [start, width] in [[0.3, 4.0], [-0.3, 1.0], [2.0, 4.0]] {
        let mut search = DipSearch::new(&Level, Accuracy::DEFAULT);
        search.walk(&stretch(start, width));
        let (_, least) = search.least().expect("a stretch");
        let ends = [start, start + width].map(|end| 2.0 + f64::sin(end));
        assert!(
            (least - ends[0].min(ends[1])).abs() < 1e-12,
            "{start} {width}"
        );
    }
}

#[test]
fn a_piece_that_bends_down_all_along_has_only_its_ends_looked_at() {
    let hill = Waves::new([(1.0, 0.0), (0.0, 0.0), (0.0, 0.0)]);
    let mut search = DipSearch::new(&hill, accuracy(1e-9));
    search.search(
        [-0.19, 0.18].map(|end| (radial(end), hill.sample(radial(end)))),
        HALVINGS,
    );
    assert_eq!(hill.looks.get(), 2);
}

/// False position with halved weights takes few steps to a nanometre's ten-thousandth in
/// a smooth dip; in a kink a thousand times as steep on one side every other step halves.
#[test]
fn a_dip_is_run_down_in_few_steps() {
    let looks = |between: &dyn Fn(f64) -> u32| {
        let all: Vec<u32> = (0..400)
            .map(|step| between(0.1 * f64::from(step)))
            .collect();
        let mean = f64::from(all.iter().sum::<u32>()) / 400.0;
        (mean, all.into_iter().max().unwrap_or(0))
    };
    let (mean, most) = looks(&|phase| {
        let dip = Waves::new([(1.0, phase), (0.05, 3.0 * phase), (0.0, 0.0)]);
        let mut search = DipSearch::new(&dip, accuracy(1e-10));
        search.walk(&stretch(phase + PI - 0.2, 0.38));
        dip.looks.get()
    });
    assert!(mean < 6.0 && most <= 6, "{mean} {most}");
    let (mean, most) = looks(&|phase| {
        let kink = Kink::new([0.25, 154.0], (0.1 + 0.02 * phase) * FRAC_PI_8);
        DipSearch::new(&kink, Accuracy::DEFAULT).walk(&stretch(0.0, FRAC_PI_8));
        kink.looks.get()
    });
    assert!(mean < 45.0 && most <= 48, "{mean} {most}");
}
