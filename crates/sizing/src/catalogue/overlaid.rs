use crate::Catalogue;

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

/// Whether a size, by its name, is not in stock today.
pub fn is_aside(catalogues: &[Catalogue], name: &str) -> bool {
    catalogues.iter().any(|one| one.put_aside.contains(name))
}

/// What is said not to be in stock today and is no size of the catalogues: a
/// slip, or a size that is gone.
pub fn aside_unknown(catalogues: &[Catalogue]) -> Vec<String> {
    let is_known = |name: &str| {
        name.split_once('/').is_some_and(|(id, label)| {
            let mut shapes = catalogues.iter().flat_map(|one| &one.shapes);
            let shape = shapes.find(|shape| shape.id == id);
            shape.is_some_and(|shape| shape.sizes.iter().any(|size| size.label == label))
        })
    };
    let names = catalogues.iter().flat_map(|one| &one.put_aside);
    names.filter(|name| !is_known(name)).cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Shape;
    use std::collections::BTreeSet;

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

    #[test]
    fn a_name_put_aside_that_is_no_size_is_known_to_be_none() {
        let mut all = [catalogue(&[("a", "came")])];
        all[0].put_aside.insert("a/5x3".into());
        assert!(is_aside(&all, "a/5x3") && !is_aside(&all, "a/4x3"));
        assert_eq!(aside_unknown(&all), ["a/5x3"]);
    }
}
