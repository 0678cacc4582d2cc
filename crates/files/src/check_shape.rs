use crate::{Diagnostic, new_catalogue, parse_catalogue};
use sizing::{Catalogue, Shape};
use std::collections::BTreeSet;

/// Checks a shape that no file holds yet by the limits of files: the shape as a catalogue
/// would have it, or the faults of a catalogue with this shape alone.
pub fn check_shape(shape: &Shape) -> Result<Shape, Vec<Diagnostic>> {
    let catalogue = Catalogue {
        title: "a shape".to_owned(),
        shapes: vec![shape.clone()],
        put_aside: BTreeSet::new(),
    };
    let mut read = parse_catalogue("the shape", &new_catalogue(&catalogue))?.into_value();
    Ok(read.shapes.pop().unwrap_or_else(|| shape.clone()))
}
