//! The text of shapes and sizes in a catalogue.

use crate::ron_text::{Field, INDENT, Style, number, quoted, record};
use geometry::{Disc, Radians, degrees};
use sizing::{Shape, Size};

/// A shape's fields but for its sizes.
pub(crate) fn shape_head(shape: &Shape) -> Vec<Field> {
    let stuff = shape.sizes.first().map(|size| &size.occluder);
    vec![
        ("id", Some(quoted(&shape.id))),
        ("name", Some(quoted(&shape.name))),
        ("about", Some(quoted(&shape.about))),
        (
            "conformability",
            stuff.map(|occluder| number(occluder.conformability)),
        ),
        (
            "braid_angle_deg",
            stuff.map(|occluder| number(in_degrees(occluder.braid_angle))),
        ),
    ]
}

/// A shape with every size in a row of its own.
pub(crate) fn shape_record(shape: &Shape, style: &Style) -> String {
    let Style {
        indent, line_break, ..
    } = style;
    let inner = format!("{indent}{INDENT}");
    let rows: Vec<String> = shape
        .sizes
        .iter()
        .map(|size| {
            let size = record(&size_fields(size), &Style::ROW);
            format!("{line_break}{inner}{INDENT}{size},")
        })
        .collect();
    let mut fields = shape_head(shape);
    fields.push((
        "sizes",
        Some(format!("[{}{line_break}{inner}]", rows.concat())),
    ));
    let spread = Style {
        is_spread: true,
        ..style.clone()
    };
    record(&fields, &spread)
}

/// A size's fields; what it does not have is left out.
pub(crate) fn size_fields(size: &Size) -> Vec<Field> {
    let waist = &size.occluder.waist;
    let [left, right] = size
        .occluder
        .discs
        .map(|disc| disc.as_ref().map(disc_record))
        .into_both();
    vec![
        ("label", Some(quoted(&size.label))),
        ("waist", Some(number(waist.diameter))),
        ("length", Some(number(waist.length))),
        ("left", left),
        ("right", right),
        ("sheath_fr", Some(number(size.sheath.french))),
        ("sheath_outer_mm", size.sheath.outer_diameter.map(number)),
    ]
}

/// A disc's fields; an offset of nothing is left out.
pub(crate) fn disc_fields(disc: &Disc) -> Vec<Field> {
    let unless_zero = |offset: f64| (offset != 0.0).then(|| number(offset));
    vec![
        ("diameter", Some(number(2.0 * disc.radius))),
        ("thickness", Some(number(disc.thickness))),
        ("offset_toward_12", unless_zero(disc.offset.u)),
        ("offset_toward_3", unless_zero(disc.offset.v)),
    ]
}

fn disc_record(disc: &Disc) -> String {
    record(&disc_fields(disc), &Style::ROW)
}

/// The shortest number of degrees that is read as just this angle, if a rounded
/// one is; the nearest number otherwise.
fn in_degrees(angle: Radians) -> f64 {
    /// The most decimals that a number written by hand has.
    const DECIMALS: i32 = 12;
    let exact = angle.to_degrees();
    let rounded = |decimals: i32| {
        let scale = 10_f64.powi(decimals);
        (exact * scale).round() / scale
    };
    (0..=DECIMALS)
        .map(rounded)
        .chain([exact, exact.next_up(), exact.next_down()])
        .find(|&candidate| degrees(candidate) == angle)
        .unwrap_or(exact)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn degrees_are_found_again(tenths in 0..800_u32, whole in 0.0..80.0_f64) {
            let written = f64::from(tenths) / 10.0;
            prop_assert_eq!(in_degrees(degrees(written)), written);
            prop_assert_eq!(degrees(in_degrees(degrees(whole))), degrees(whole));
        }
    }
}
