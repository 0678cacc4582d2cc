use crate::Mm;
use std::f64::consts::{PI, TAU};

/// The outflow tract of one side, across the flow, at the defect.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutflowTract {
    /// Diameter D_n, from the septal wall into the cavity.
    pub depth: Mm,
    /// Diameter D_v, along the wall.
    pub width: Mm,
}

impl OutflowTract {
    /// Radius ρ_t = ½√(D_n D_v) of the circle of the same area, which stands for the
    /// tract. A reduced model: its form across the flow is left
    /// out.
    pub fn effective_radius(&self) -> Mm {
        0.5 * (self.depth * self.width).max(0.0).sqrt()
    }

    /// Share f of the tract that a disc leaves open, 0 to 1.
    ///
    /// A disc of the given `radius` R fills a `layer` g + t deep on the septal
    /// wall. As cloth (`conformability` κ = 1) it lies along the round wall; a
    /// stiff one (κ = 0) spans it as a chord and closes the space behind as well,
    /// of which `dead_space_factor` counts: a septal wall is flatter than a
    /// circle. Between the two, the areas mix. A tract of no size is closed.
    pub fn open_share(
        &self,
        radius: Mm,
        layer: Mm,
        conformability: f64,
        dead_space_factor: f64,
    ) -> f64 {
        let tract = self.effective_radius();
        if tract == 0.0 {
            return 0.0;
        }
        let layer = layer.clamp(0.0, 2.0 * tract);
        let chord = radius.clamp(0.0, tract);
        let cloth = cloth_area(tract, radius.max(0.0), layer);
        let stiff =
            dead_space_factor * dead_space_area(tract, chord) + slab_area(tract, chord, layer);
        let taken = conformability * cloth + (1.0 - conformability) * stiff;
        (1.0 - taken / (PI * tract * tract)).clamp(0.0, 1.0)
    }
}

/// Area A_c, mm², that a disc takes which lies as cloth along the wall of a round
/// tract: a sector of the ring `layer` deep, 2R long at the wall, at most all
/// round.
fn cloth_area(tract: Mm, radius: Mm, layer: Mm) -> f64 {
    let inner = tract - layer.min(tract);
    let angle = (2.0 * radius / tract).min(TAU);
    0.5 * (tract - inner) * (tract + inner) * angle
}

/// Area A_dead, mm², of the segment that a chord 2b long cuts off behind itself.
fn dead_space_area(tract: Mm, half_chord: Mm) -> f64 {
    let from_centre = chord_distance(tract, half_chord);
    tract * tract * libm::asin(half_chord / tract) - half_chord * from_centre
}

/// The part inside a round tract, mm², of a rectangle as wide as the chord 2b it
/// stands on, `layer` high.
///
/// Its corners leave the circle where they come to the far chord of the same
/// length; above that the circle's own width is the narrower.
fn slab_area(tract: Mm, half_chord: Mm, layer: Mm) -> f64 {
    let from_centre = chord_distance(tract, half_chord);
    let straight = 2.0 * half_chord * layer.min(2.0 * from_centre);
    let top = (layer - from_centre).clamp(from_centre, tract);
    straight + 2.0 * (half_width_integral(tract, top) - half_width_integral(tract, from_centre))
}

/// Distance √(ρ² − b²) of a circle's centre from its chord 2b long.
fn chord_distance(tract: Mm, half_chord: Mm) -> Mm {
    ((tract - half_chord) * (tract + half_chord)).sqrt()
}

/// Area ∫₀ˣ √(ρ² − ξ²) dξ under half a circle, for 0 ≤ x ≤ ρ, mm².
fn half_width_integral(tract: Mm, x: Mm) -> f64 {
    0.5 * (x * chord_distance(tract, x) + tract * tract * libm::asin(x / tract))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TRACT: OutflowTract = OutflowTract {
        depth: 8.0,
        width: 18.0,
    };

    fn near(got: f64, want: f64) -> bool {
        (got - want).abs() < 1e-14
    }

    #[test]
    fn the_circle_has_the_area_of_the_tract() {
        assert_eq!(TRACT.effective_radius(), 6.0);
    }

    #[test]
    fn cloth_takes_a_sector_of_a_ring() {
        // ½ (36 − 25) · 8/6 = 22/3 of 36π.
        assert!(near(
            TRACT.open_share(4.0, 1.0, 1.0, 1.0),
            1.0 - 22.0 / 3.0 / (36.0 * PI)
        ));
        // All round, the ring: 36 − 25 of 36.
        assert!(near(TRACT.open_share(40.0, 1.0, 1.0, 1.0), 25.0 / 36.0));
    }

    #[test]
    fn a_stiff_disc_as_wide_as_the_tract_closes_its_near_half() {
        assert!(near(TRACT.open_share(6.0, 0.0, 0.0, 1.0), 0.5));
        assert!(near(TRACT.open_share(9.0, 0.0, 0.0, 0.0), 1.0));
        assert!(near(TRACT.open_share(6.0, 12.0, 0.0, 1.0), 0.0));
    }

    #[test]
    fn no_disc_takes_nothing_and_no_tract_leaves_nothing() {
        assert_eq!(TRACT.open_share(0.0, 3.0, 0.5, 1.0), 1.0);
        let none = OutflowTract {
            depth: 0.0,
            width: 18.0,
        };
        assert_eq!(none.open_share(3.0, 1.0, 0.5, 1.0), 0.0);
    }

    proptest! {
        #[test]
        fn more_disc_never_opens_the_tract(
            radius in 0.0..12.0_f64, layer in 0.0..14.0_f64, more in 0.0..3.0_f64,
            conformability in 0.0..=1.0_f64, factor in 0.0..=1.0_f64,
        ) {
            let share = |radius, layer| TRACT.open_share(radius, layer, conformability, factor);
            let open = share(radius, layer);
            prop_assert!((0.0..=1.0).contains(&open));
            prop_assert!(share(radius, layer + more) <= open + 1e-14);
            // Only with all the dead space counted: a wider chord sits farther out.
            let full = |radius| TRACT.open_share(radius, layer, conformability, 1.0);
            prop_assert!(full(radius + more) <= full(radius) + 1e-14);
        }

        #[test]
        fn the_share_does_not_know_the_scale(
            radius in 0.0..12.0_f64, layer in 0.0..14.0_f64, scale in 0.1..10.0_f64,
            conformability in 0.0..=1.0_f64,
        ) {
            let grown = OutflowTract { depth: scale * TRACT.depth, width: scale * TRACT.width };
            let open = TRACT.open_share(radius, layer, conformability, 0.7);
            let same = grown.open_share(scale * radius, scale * layer, conformability, 0.7);
            prop_assert!((same - open).abs() < 1e-12);
        }
    }
}
