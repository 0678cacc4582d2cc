use crate::{Diagnostic, new_catalogue, parse_catalogue};
use sizing::{Catalogue, Shape};
use std::collections::BTreeSet;

/// A shape that no file holds yet, as a catalogue would have it, or what would be
/// wrong with a catalogue of it alone: the limits are those of files.
pub fn check_shape(shape: &Shape) -> Result<Shape, Vec<Diagnostic>> {
    let catalogue = Catalogue {
        title: "a shape".to_owned(),
        shapes: vec![shape.clone()],
        put_aside: BTreeSet::new(),
    };
    let mut read = parse_catalogue("the shape", &new_catalogue(&catalogue))?.into_value();
    Ok(read.shapes.pop().unwrap_or_else(|| shape.clone()))
}
