use crate::Catalogue;
use std::collections::BTreeSet;

/// Catalogues laid over each other: a shape of a later one stands in place of one
/// with its id in an earlier one, where that stood.
pub fn overlaid(catalogues: Vec<Catalogue>) -> Vec<Catalogue> {
    let mut laid: Vec<Catalogue> = Vec::with_capacity(catalogues.len());
    for mut catalogue in catalogues {
        catalogue.shapes = catalogue
            .shapes
            .into_iter()
            .filter_map(|shape| {
                let mut under = laid.iter_mut().flat_map(|one| &mut one.shapes);
                match under.find(|one| one.id == shape.id) {
                    Some(one) => {
                        *one = shape;
                        None
                    }
                    None => Some(shape),
                }
            })
            .collect();
        laid.push(catalogue);
    }
    laid
}

/// The names, `shape/size`, of what is not on the shelf today.
pub fn put_aside(catalogues: &[Catalogue]) -> BTreeSet<&str> {
    let names = catalogues.iter().flat_map(|one| &one.put_aside);
    names.map(String::as_str).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;

    fn catalogue(shapes: &[(&str, &str)]) -> Catalogue {
        Catalogue {
            title: String::new(),
            shapes: shapes
                .iter()
                .map(|(id, about)| Shape {
                    id: (*id).into(),
                    name: String::new(),
                    about: (*about).into(),
                    sizes: Vec::new(),
                })
                .collect(),
            put_aside: BTreeSet::new(),
        }
    }

    #[test]
    fn a_later_shape_stands_in_place_of_an_earlier_one() {
        let all = overlaid(vec![
            catalogue(&[("a", "came"), ("b", "came"), ("d", "came")]),
            catalogue(&[("b", "mine"), ("c", "mine")]),
        ]);
        let shapes: Vec<(&str, &str)> = all
            .iter()
            .flat_map(|one| &one.shapes)
            .map(|shape| (&*shape.id, &*shape.about))
            .collect();
        assert_eq!(
            shapes,
            [("a", "came"), ("b", "mine"), ("d", "came"), ("c", "mine")]
        );
    }
}
