use super::*;
use proptest::prelude::*;
use std::f64::consts::TAU;

/// How far along a ray from the middle of an opening it leaves what `is_within` holds, by
/// halving; what it holds is met in one stretch that ends after `from`.
fn leaves(from: f64, is_within: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (from, from + 1e3);
    for _ in 0..120 {
        let between = 0.5 * (low + high);
        if is_within(between) {
            low = between;
        } else {
            high = between;
        }
    }
    low
}

/// How near the ray along `outward` comes to a place.
fn ray_passes(centre: Vec2, outward: Vec2) -> f64 {
    (centre - outward * centre.dot(outward).max(0.0)).length()
}

/// The lip by its definition: from where the ray leaves the opening to where it leaves
/// the disc; beside a disc that it misses, R − |σ| − max ρ.
fn by_definition(edge: &Ellipse, radius: f64, centre: Vec2, outward: Vec2) -> f64 {
    if centre.length() > radius && ray_passes(centre, outward) > radius {
        return radius - centre.length() - edge.semi_major;
    }
    let in_opening = |way: f64| {
        let point = outward * way;
        let (u, v) = (point.u / edge.semi_major, point.v / edge.semi_minor);
        u * u + v * v <= 1.0
    };
    let in_disc = |way: f64| (outward * way - centre).length() <= radius;
    // From the middle of the chord on: before it the ray may be outside still.
    leaves(centre.dot(outward), in_disc) - leaves(0.0, in_opening)
}

/// The least lip over arcs, on a grid of azimuths and then about each of its dips.
fn by_grid(edge: &Ellipse, radius: f64, centre: Vec2, arcs: &ArcSet) -> f64 {
    const STEPS: u32 = 720;
    let pair = EdgeAndDisc::new(edge, radius);
    let mut least = f64::INFINITY;
    for arc in arcs.arcs() {
        let start = arc.start - edge.rotation;
        let step = arc.width / f64::from(STEPS);
        let value = |place: f64| {
            let place = place.clamp(0.0, f64::from(STEPS));
            pair.lip(centre, radial(start + place * step)).value
        };
        for place in (0..=STEPS).map(f64::from) {
            let here = value(place);
            if here > value(place - 1.0) || here > value(place + 1.0) {
                continue;
            }
            let (mut best, mut wide) = (place, 1.0);
            while wide > 1e-9 {
                for off in -20..=20 {
                    let near = best + wide * f64::from(off) * 0.05;
                    if value(near) < value(best) {
                        best = near;
                    }
                }
                wide *= 0.25;
            }
            least = least.min(value(best));
        }
    }
    least
}

fn edges() -> impl Strategy<Value = Ellipse> {
    (0.5..5.0_f64, 0.05..=1.0_f64, -4.0..4.0_f64).prop_map(|(a, ratio, rotation)| Ellipse {
        semi_major: a,
        semi_minor: ratio * a,
        rotation,
    })
}

fn places(most: f64) -> impl Strategy<Value = Vec2> {
    (0.0..most, 0.0..TAU).prop_map(|(out, azimuth)| radial(azimuth) * out)
}

/// The radius of a disc, and its centre up to two radii from the opening's middle.
fn discs() -> impl Strategy<Value = (f64, Vec2)> {
    (0.2..6.0_f64, places(2.0)).prop_map(|(radius, centre)| (radius, centre * radius))
}

/// Arcs about one hinge or two, of any width up to a whole turn.
fn arcs() -> impl Strategy<Value = ArcSet> {
    (prop::collection::vec(-7.0..7.0_f64, 1..=2), 0.01..3.3_f64)
        .prop_map(|(hinges, half)| ArcSet::about(&hinges, half))
}

proptest! {
    #[test]
    fn a_lip_is_from_the_openings_edge_to_the_discs(
        edge in edges(), (radius, centre) in discs(), azimuth in 0.0..TAU,
    ) {
        let outward = radial(azimuth);
        let lip = EdgeAndDisc::new(&edge, radius).lip(centre, outward).value;
        let expected = by_definition(&edge, radius, centre, outward);
        // Where the ray just touches the disc it is one or the other.
        prop_assume!((ray_passes(centre, outward) - radius).abs() > 1e-6);
        prop_assert!((lip - expected).abs() < 1e-9, "{lip} {expected}");
    }

    /// The gradient, by moving the disc a little.
    #[test]
    fn a_lip_changes_by_its_gradient(
        edge in edges(), (radius, centre) in discs(),
        azimuth in 0.0..TAU, way in 0.0..TAU,
    ) {
        const STEP: f64 = 1e-6;
        let (outward, way) = (radial(azimuth), radial(way));
        prop_assume!((ray_passes(centre, outward) - radius).abs() > 0.05 * radius);
        prop_assume!(centre.length() > 1e-3);
        let pair = EdgeAndDisc::new(&edge, radius);
        let value = |off: f64| pair.lip(centre + way * off, outward).value;
        let change = (value(STEP) - value(-STEP)) / (2.0 * STEP);
        let gradient = pair.lip(centre, outward).gradient.dot(way);
        prop_assert!((change - gradient).abs() < 1e-4 * (1.0 + gradient.abs()), "{change} {gradient}");
    }

    #[test]
    fn a_ray_misses_what_it_passes_at_more_than_the_radius(
        (radius, centre) in discs(), azimuth in 0.0..TAU, set in arcs(),
        edge in edges(),
    ) {
        const STEPS: u32 = 720;
        let pair = EdgeAndDisc::new(&edge, radius);
        let outward = radial(azimuth);
        let passes = ray_passes(centre, outward);
        let covered = centre.length() <= radius;
        prop_assume!((passes - radius).abs() > 1e-9);
        prop_assert_eq!(pair.misses(centre, outward), !covered && passes > radius);
        // The ray turns by at most a step between two of the grid.
        let (mut farthest, mut step) = (0.0_f64, 0.0_f64);
        for arc in set.arcs() {
            step = step.max(arc.width / f64::from(STEPS));
            for share in 0..=STEPS {
                let azimuth = arc.start + arc.width * f64::from(share) / f64::from(STEPS);
                farthest = farthest.max(ray_passes(centre, radial(azimuth - edge.rotation)));
            }
        }
        let is_missed = pair.misses_some(centre, &set);
        prop_assert!(is_missed || covered || farthest <= radius + 1e-9);
        prop_assert!(!is_missed || !covered && farthest + centre.length() * step > radius);
    }

    #[test]
    fn the_least_over_arcs_is_that_of_a_grid(
        edge in edges(), radius in 0.2..6.0_f64, centre in places(5.0), set in arcs(),
        is_centred in prop::bool::weighted(0.2),
    ) {
        let centre = if is_centred { Vec2::ZERO } else { centre };
        let least = EdgeAndDisc::new(&edge, radius).least(centre, &set, Accuracy::DEFAULT);
        let least = least.expect("an arc").value;
        let tried = by_grid(&edge, radius, centre, &set);
        prop_assert!(least <= tried + 1e-6, "{least} {tried}");
        // A grid may pass by a ray that just misses the disc.
        let beside = radius - centre.length() - edge.semi_major;
        let may_be_beside = centre.length() > radius && least == beside;
        prop_assert!((least - tried).abs() < 1e-6 || may_be_beside, "{least} {tried}");
    }
}

/// A triangle of places of the disc's centre, and a value near what is least there.
fn triangles() -> impl Strategy<Value = (Vec2, [Vec2; 3])> {
    (places(5.0), prop::array::uniform3(places(1.0)))
        .prop_map(|(middle, corners)| (middle, corners.map(|corner| middle + corner)))
}

proptest! {
    /// What is said to be no less is no less anywhere in the triangle.
    #[test]
    fn no_disc_of_a_triangle_has_less_than_is_proved(
        edge in edges(), radius in 0.2..6.0_f64, (_, corners) in triangles(), set in arcs(),
        shares in prop::array::uniform3(0.0..1.0_f64), below in 0.0..2.0_f64,
    ) {
        let pair = EdgeAndDisc::new(&edge, radius);
        let least = |centre| pair.least(centre, &set, Accuracy::DEFAULT).expect("an arc").value;
        let value = least(corners[0]).min(least(corners[2])) - below;
        if pair.is_no_less(value, corners, &set, Accuracy::DEFAULT) {
            let [a, b, c] = shares;
            let inside = (corners[0] * a + corners[1] * b + corners[2] * c) * (1.0 / (a + b + c));
            prop_assert!(least(inside) >= value - 1e-6, "{} {value}", least(inside));
        }
    }

    /// A bound that holds by its rule is found to hold, so that a proof comes to its end:
    /// that of the corner between where all rays meet the discs, of the farthest beside
    /// where one does not.
    #[test]
    fn a_bound_that_holds_is_found_to_hold(
        edge in edges(), radius in 0.2..6.0_f64, (_, corners) in triangles(), set in arcs(),
        off in -1.0..1.0_f64,
    ) {
        prop_assume!(off.abs() > 1e-5);
        let pair = EdgeAndDisc::new(&edge, radius);
        let bound = if corners.iter().any(|&corner| pair.misses_some(corner, &set)) {
            let farthest = corners.iter().map(|corner| corner.length()).fold(0.0, f64::max);
            radius - farthest - edge.semi_major
        } else {
            pair.least(corners[1], &set, Accuracy::DEFAULT).expect("an arc").value
        };
        let holds = pair.is_no_less(bound - off, corners, &set, Accuracy::DEFAULT);
        prop_assert_eq!(holds, off > 0.0, "{}", bound);
    }
}
