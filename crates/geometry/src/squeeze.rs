use crate::{Defect, Edge, Mm, Radians, Waist};

/// Diameter d_c of a waist in a defect.
///
/// A soft edge is rounded by the waist and keeps its perimeter, so the waist
/// opens to d_fit at most; a stiff edge keeps its form and holds the waist to the
/// minor axis 2b. A waist narrower than that is not squeezed.
pub(crate) fn squeezed_diameter(waist: &Waist, defect: &Defect) -> Mm {
    let widest = match defect.edge {
        Edge::Soft => defect.fit_diameter(),
        Edge::Stiff => 2.0 * defect.narrowest.semi_minor,
    };
    waist.diameter.min(widest)
}

/// Stiffness k_b = (L tan β / w)² of a braid: how much of the diameter that it gives
/// up comes back as length; 0 where its wires run along the axis.
///
/// It is (πn)², with n the turns of one wire over the waist's length.
pub fn braid_stiffness(waist: &Waist, braid_angle: Radians) -> f64 {
    if waist.diameter <= 0.0 {
        return 0.0;
    }
    let slope = waist.length * libm::tan(braid_angle) / waist.diameter;
    slope * slope
}

/// Length L' = √(L² + k_b (w² − d_c²)) of a waist squeezed to `diameter` = d_c.
///
/// L² + (πnD)² is constant for n turns of a wire that does not stretch and ends
/// that do not rotate. A reduced model: the waist stays a cylinder, and friction
/// between the wires is left out.
pub fn squeezed_length(waist: &Waist, braid_angle: Radians, diameter: Mm) -> Mm {
    // w² − d², so written that it keeps its digits where d is near w.
    let given_up = ((waist.diameter - diameter) * (waist.diameter + diameter)).max(0.0);
    let stiffness = braid_stiffness(waist, braid_angle);
    (waist.length * waist.length + stiffness * given_up).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Ellipse, degrees};

    const WAIST: Waist = Waist {
        diameter: 5.0,
        length: 3.0,
    };

    fn defect(a: Mm, b: Mm, edge: Edge) -> Defect {
        let narrowest = Ellipse {
            semi_major: a,
            semi_minor: b,
            rotation: 0.0,
        };
        Defect::straight(narrowest, 4.0, edge)
    }

    #[test]
    fn a_hole_holds_the_waist_to_its_own_size_only() {
        assert_eq!(
            squeezed_diameter(&WAIST, &defect(2.0, 2.0, Edge::Soft)),
            4.0
        );
        assert_eq!(
            squeezed_diameter(&WAIST, &defect(3.0, 3.0, Edge::Soft)),
            5.0
        );
        assert_eq!(
            squeezed_diameter(&WAIST, &defect(4.0, 1.5, Edge::Stiff)),
            3.0
        );
        assert_eq!(
            squeezed_diameter(&WAIST, &defect(4.0, 3.0, Edge::Stiff)),
            5.0
        );
    }

    #[test]
    fn a_braid_at_45_degrees_grows_as_worked_by_hand() {
        // tan 45° = 1: k_b = (3/5)² = 0.36; L'² = 9 + 0.36 (25 − 16) = 12.24.
        let angle = degrees(45.0);
        assert!((braid_stiffness(&WAIST, angle) - 0.36).abs() < 1e-15);
        assert!((squeezed_length(&WAIST, angle, 4.0) - 12.24_f64.sqrt()).abs() < 1e-14);
    }

    #[test]
    fn wires_along_the_axis_and_a_free_waist_keep_the_length() {
        assert_eq!(squeezed_length(&WAIST, 0.0, 2.0), 3.0);
        assert_eq!(squeezed_length(&WAIST, degrees(60.0), 5.0), 3.0);
        assert_eq!(squeezed_length(&WAIST, degrees(60.0), 6.0), 3.0);
        let none = Waist {
            diameter: 0.0,
            length: 3.0,
        };
        assert_eq!(squeezed_length(&none, degrees(60.0), 0.0), 3.0);
    }
}
