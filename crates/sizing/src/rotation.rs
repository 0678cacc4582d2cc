//! The rotations of the defect that are looked at where it was not measured.

/// Degrees between the rotations that are looked at first; half a turn is all.
pub(crate) const STEP: u16 = 15;

/// The rotations that are looked at first, in degrees.
pub(crate) fn grid() -> impl Iterator<Item = f64> {
    (0..180 / STEP).map(|step| f64::from(step * STEP) - 90.0)
}

/// The same rotation of an ellipse from 0° to under 180°, so that it bears no sign.
pub(crate) fn within_half_a_turn(degrees: f64) -> f64 {
    const HALF: f64 = 180.0;
    degrees - HALF * (degrees / HALF).floor()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rotation_is_told_within_half_a_turn() {
        assert_eq!(within_half_a_turn(95.0), 95.0);
        assert_eq!(within_half_a_turn(180.0), 0.0);
        assert_eq!(within_half_a_turn(-100.0), 80.0);
        assert_eq!(within_half_a_turn(30.0), 30.0);
        assert_eq!(grid().count(), 12);
    }
}
