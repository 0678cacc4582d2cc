//! Shapes and sizes as catalogues write them.

use crate::ron_text::{Field, INDENT, Style, number, quoted, record};
use geometry::{Disc, Radians, degrees};
use sizing::{Shape, Size};

/// The fields of a shape, in the order of a file that is written anew.
pub(crate) const SHAPE_FIELDS: [&str; 7] = [
    "id",
    "name",
    "about",
    "conformability",
    "braid_angle_deg",
    "sizes",
    "series",
];

/// The fields of a disc, in the order of a file that is written anew.
pub(crate) const DISC_FIELDS: [&str; 4] = [
    "diameter",
    "thickness",
    "offset_toward_12",
    "offset_toward_3",
];

/// The fields of a size, in the order of a file that is written anew.
pub(crate) const SIZE_FIELDS: [&str; 7] = [
    "label",
    "waist",
    "length",
    "left",
    "right",
    "sheath_fr",
    "sheath_outer_mm",
];

/// A shape's fields but for its sizes.
pub(crate) fn shape_head(shape: &Shape) -> Vec<Field> {
    let stuff = shape.sizes.first().map(|size| &size.occluder);
    let values = [
        Some(quoted(&shape.id)),
        Some(quoted(&shape.name)),
        Some(quoted(&shape.about)),
        stuff.map(|occluder| number(occluder.conformability)),
        stuff.map(|occluder| number(in_degrees(occluder.braid_angle))),
    ];
    SHAPE_FIELDS.into_iter().zip(values).collect()
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
        .map(|disc| disc.as_ref().map(disc_record));
    let values = [
        Some(quoted(&size.label)),
        Some(number(waist.diameter)),
        Some(number(waist.length)),
        left,
        right,
        Some(number(size.sheath.french)),
        size.sheath.outer_diameter.map(number),
    ];
    SIZE_FIELDS.into_iter().zip(values).collect()
}

/// A disc's fields; an offset of nothing is left out.
pub(crate) fn disc_fields(disc: &Disc) -> [Field; 4] {
    let unless_zero = |offset: f64| (offset != 0.0).then(|| number(offset));
    [
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
    /// Decimals that a file written by hand may have.
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
