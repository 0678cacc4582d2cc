use super::*;
use crate::{Extent, Figure, Importance, Label, Lean, View, sample};
use geometry::Face;
use measurement::Valve;
use std::collections::BTreeSet;

#[test]
fn a_picture_is_one_balanced_document_without_nan() {
    let setting = sample::setting(&sample::outlet());
    for view in View::all(&setting) {
        let Some(scene) = view.draw(&setting, &sample::size(5.0, 6.0, 1.0), 0.3) else {
            continue;
        };
        let text = svg(&scene);
        assert!(text.starts_with("<svg ") && text.ends_with("</svg>\n"));
        assert!(!text.contains("NaN") && !text.contains("inf"));
        assert_eq!(
            text.matches("<text ").count(),
            text.matches("</text>").count()
        );
        let size = format!("{:.3} {:.3}", scene.bounds.width(), scene.bounds.height());
        assert!(text.contains(&size));
    }
}

#[test]
fn words_cannot_become_markup() {
    let bounds = Extent {
        least: Point::new(0.0, 0.0),
        most: Point::new(40.0, 10.0),
    };
    let label = Label {
        at: Point::new(20.0, 5.0),
        text: "<b>&\"\u{1b}".to_owned(),
        lean: Lean::Upon,
        importance: Importance::Name,
    };
    let figures = vec![Figure {
        part: Part::Caption,
        form: Form::Text(label),
    }];
    let text = svg(&Scene { bounds, figures });
    assert!(text.contains("&lt;b&gt;&amp;&quot;\u{fffd}"));
}

#[test]
fn parts_that_meet_are_told_apart_without_colour() {
    let valve = Valve::Aortic;
    let parts = [
        Part::Wall,
        Part::HoleEdge,
        Part::Throat,
        Part::Bundle,
        Part::Tract(Face::Left),
        Part::Plate(valve),
        Part::Cusps(valve),
        Part::Disc(Face::Left),
        Part::DiscBeside(Face::Left),
        Part::Waist,
        Part::Overlap(valve),
    ];
    let looks: BTreeSet<String> = parts
        .iter()
        .map(|&part| look::of(part).to_string())
        .collect();
    assert_eq!(looks.len(), parts.len());
}
