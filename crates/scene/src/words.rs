//! Numbers on pictures, which say once that they are millimetres.

use geometry::{Face, Mm, Radians, clock_hour};

/// A length to a tenth; a rounded zero has no sign.
pub(crate) fn tenths(length: Mm) -> String {
    format!("{:.1}", rounded(length))
}

/// A number to a tenth, without one that is 0: `5`, `4.7`.
pub(crate) fn short(value: f64) -> String {
    rounded(value).to_string()
}

/// The place of an azimuth on the clock: `12 o'clock`, `1.3 o'clock`.
pub(crate) fn o_clock(azimuth: Radians) -> String {
    let hour = rounded(clock_hour(azimuth));
    format!("{} o'clock", if hour == 0.0 { 12.0 } else { hour })
}

/// The word for a side.
pub(crate) const fn side(face: Face) -> &'static str {
    match face {
        Face::Left => "left",
        Face::Right => "right",
    }
}

fn rounded(value: f64) -> f64 {
    let tenths = (10.0 * value).round();
    if tenths == 0.0 { 0.0 } else { tenths / 10.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::degrees;

    #[test]
    fn a_rounded_zero_has_no_sign() {
        assert_eq!(tenths(-0.04), "0.0");
        assert_eq!(tenths(-1.26), "-1.3");
    }

    #[test]
    fn the_clock_starts_at_twelve() {
        assert_eq!(o_clock(0.0), "12 o'clock");
        assert_eq!(o_clock(degrees(359.9)), "12 o'clock");
        assert_eq!(o_clock(degrees(0.9)), "12 o'clock");
        assert_eq!(o_clock(degrees(40.0)), "1.3 o'clock");
    }
}
