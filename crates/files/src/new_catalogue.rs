//! The text of a new catalogue.

use crate::ron_text::{INDENT, Style, quoted};
use crate::size_text::shape_record;
use sizing::Catalogue;

/// The text of a catalogue that no file holds yet, every size in a row of its own.
/// It reads as just that catalogue, if a file may say it.
pub fn new_catalogue(catalogue: &Catalogue) -> String {
    let style = Style {
        indent: INDENT.repeat(2),
        is_spread: true,
        line_break: "\n",
    };
    let shapes: Vec<String> = catalogue
        .shapes
        .iter()
        .map(|shape| format!("        {},\n", shape_record(shape, &style)))
        .collect();
    let title = quoted(&catalogue.title);
    let shapes = match shapes.concat() {
        shapes if shapes.is_empty() => "[]".to_owned(),
        shapes => format!("[\n{shapes}    ]"),
    };
    let aside: Vec<String> = catalogue
        .put_aside
        .iter()
        .map(|name| format!("        {},\n", quoted(name)))
        .collect();
    let aside = match aside.concat() {
        names if names.is_empty() && !catalogue.shapes.is_empty() => String::new(),
        names => {
            format!("\n    // What is not in stock today.\n    out_of_stock: [\n{names}    ],\n")
        }
    };
    format!("{HEAD}(\n    format: 2,\n    title: {title},\n    shapes: {shapes},\n{aside})\n")
}

const HEAD: &str = "\
// Shapes of your own. Lengths in millimetres; a disc's diameter, not its radius.
//
// Leave out `left` or `right` where there is no disc. A disc off the axis has
// `offset_toward_12` (toward the reference valve, negative: away from it) and
// `offset_toward_3` (a quarter turn clockwise of it, seen from the left). `sheath_outer_mm` is the outer
// diameter of the sheath, if you know it. `conformability` is 0 for a stiff disc and
// 1 for one that lies on the wall as cloth; `braid_angle_deg` is the angle of the
// wires from the axis, 0 where the length does not change with the diameter.
//
// Edit it by hand as you like: comments, order and layout stay when the program
// writes to it.
";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_catalogue, shipped};

    #[test]
    fn the_shipped_shapes_written_anew_say_the_same() {
        let (name, text) = shipped::SHAPES;
        let catalogue = parse_catalogue(name, text).unwrap().into_value();
        let written = new_catalogue(&catalogue);
        assert_eq!(parse_catalogue(name, &written).unwrap().value(), &catalogue);
    }
}
