use super::{Shelf, ShelfRow};
use geometry::{Occluder, PerFace, Waist};
use sizing::{Catalogue, Shape, Sheath, Size};
use std::collections::BTreeSet;

fn shape(id: &str, waists: &[f64]) -> Shape {
    let size = |&waist: &f64| Size {
        label: format!("{waist}"),
        occluder: Occluder::new(
            Waist {
                diameter: waist,
                length: 3.0,
            },
            PerFace::new(None, None),
        ),
        sheath: Sheath {
            french: 4.0,
            outer_diameter: None,
        },
    };
    Shape {
        id: id.into(),
        name: id.into(),
        about: String::new(),
        sizes: waists.iter().map(size).collect(),
    }
}

fn catalogue(shapes: Vec<Shape>, aside: &[&str]) -> Catalogue {
    Catalogue {
        title: "a shelf".into(),
        shapes,
        put_aside: aside.iter().map(|&name| name.to_owned()).collect(),
    }
}

/// Places 0 to 2, none, 3 and 4, and in a second catalogue 5.
fn shelf() -> Shelf {
    let first = vec![
        shape("even", &[4.0, 6.0, 8.0]),
        shape("empty", &[]),
        shape("offset", &[5.0, 9.0]),
    ];
    Shelf::new(vec![
        catalogue(first, &["even/6"]),
        catalogue(vec![shape("barrel", &[7.0])], &[]),
    ])
}

#[test]
fn a_place_and_a_name_are_of_one_size() {
    let shelf = shelf();
    let names = [
        "even/4", "even/6", "even/8", "offset/5", "offset/9", "barrel/7",
    ];
    assert_eq!(shelf.names().collect::<Vec<_>>(), names);
    for (place, name) in names.into_iter().enumerate() {
        assert_eq!(shelf.place(name), Some(place));
        assert_eq!(shelf.name(place).as_deref(), Some(name));
    }
    assert_eq!(shelf.name(names.len()), None);
    for name in ["even/5", "none/4", "even", "empty/"] {
        assert_eq!(shelf.place(name), None, "{name}");
    }
}

#[test]
fn rows_hold_every_shape_and_under_it_its_sizes() {
    let head = |id: &str| ShelfRow::Shape(id.into());
    let expected = [
        head("even"),
        ShelfRow::Size(0),
        ShelfRow::Size(1),
        ShelfRow::Size(2),
        head("empty"),
        head("offset"),
        ShelfRow::Size(3),
        ShelfRow::Size(4),
        head("barrel"),
        ShelfRow::Size(5),
    ];
    assert_eq!(shelf().rows(), expected);
}

#[test]
fn the_next_size_is_of_the_same_shape() {
    let shelf = shelf();
    let beside = |place| (shelf.beside(place, false), shelf.beside(place, true));
    assert_eq!(beside(0), (None, Some(1)));
    assert_eq!(beside(1), (Some(0), Some(2)));
    assert_eq!(beside(2), (Some(1), None));
    assert_eq!(beside(3), (None, Some(4)));
    assert_eq!(beside(6), (None, None));
}

#[test]
fn the_next_shape_gives_the_waist_that_is_nearest_and_the_first_of_two() {
    let shelf = shelf();
    let beside = |place| {
        (
            shelf.in_shape_beside(place, false),
            shelf.in_shape_beside(place, true),
        )
    };
    assert_eq!(beside(0), (None, Some(3)));
    assert_eq!(beside(2), (None, Some(4)), "the empty shape is passed over");
    // 5 is as near to 4 as to 6.
    assert_eq!(beside(3), (Some(0), Some(5)));
    assert_eq!(beside(4), (Some(2), Some(5)));
    assert_eq!(beside(5), (Some(3), None));
}

#[test]
fn what_is_not_in_stock_is_told_by_its_name_until_it_is_laid_over() {
    let shelf = shelf();
    let aside = |shelf: &Shelf| {
        let names = shelf.names().collect::<Vec<_>>();
        names
            .into_iter()
            .filter(|name| shelf.is_aside(name))
            .collect::<BTreeSet<_>>()
    };
    assert_eq!(aside(&shelf), BTreeSet::from(["even/6".to_owned()]));
    let own = catalogue(vec![shape("even", &[6.0])], &["barrel/7"]);
    let own = shelf.with_own(own);
    assert!(!own.is(&shelf) && own.is(&own.clone()));
    assert_eq!(
        own.names().filter(|name| name.starts_with("even")).count(),
        1
    );
    assert!(own.is_aside("barrel/7"));
}
