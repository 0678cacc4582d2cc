//! Words stand by rule.

use super::column;
use crate::Extent;
use crate::clip::segment_in;
use crate::plate::lettering::{corners, is_dark, is_over, is_solid, stretches, touch, word_box};
use crate::plate::{Bay, Cells, OUTSIDE_CUT_MARK, Orientation, Plate};
use crate::sample;
use crate::stroke::{Drawing, Ink, PageGround};
use crate::svg::svg;
use crate::{NearestToValve, Part, View};
use geometry::Face;
use sizing::{Candidate, Setting, Turn};
use std::sync::Arc;

/// How far a box may reach over another before they are told to touch, mm.
const SLACK: f64 = 0.01;

fn plate(candidate: &sample::Candidate, assessed: &Candidate, columns: usize) -> Drawing {
    let plate = Plate {
        title: "A case of 3.6 kg",
        notes: &["made from a sample"],
        setting: &candidate.setting,
        columns: vec![column(assessed); columns],
        views: vec![View::Section(candidate.valve), View::FaceOn(Face::Left)],
        orientation: Orientation::default(),
        width: Plate::WIDTH,
    };
    plate.draw()
}

/// Asserts that no words lie on a device, over dark ink, over other words or off the
/// page.
fn check(drawing: &Drawing) {
    let boxes: Vec<(Extent, &str)> = drawing
        .strokes
        .iter()
        .filter_map(|stroke| match &stroke.ink {
            Ink::Word(word) => Some((word_box(word).grown(-SLACK), word.text.as_str())),
            _ => None,
        })
        .collect();
    assert!(boxes.len() > 10);
    for (index, (room, text)) in boxes.iter().enumerate() {
        let is_on_page = room.least.x > 0.0
            && room.least.y > 0.0
            && room.most.x < drawing.width
            && room.most.y < drawing.height;
        assert!(is_on_page, "{text}: {room:?}");
        for (other, other_text) in &boxes[..index] {
            assert!(!touch(room, other), "{text} over {other_text}");
        }
        for stroke in &drawing.strokes {
            let is_over = match &stroke.ink {
                Ink::Line { path, .. } if is_dark(stroke.role) => stretches(path)
                    .into_iter()
                    .any(|ends| segment_in(room, ends).is_some()),
                Ink::Fill(path) if is_solid(stroke.role) => is_over(room, &corners(path)),
                _ => false,
            };
            assert!(!is_over, "{text} {room:?} over {stroke:?}");
        }
    }
}

#[test]
fn no_words_lie_on_the_device_or_over_an_edge() {
    for candidate in sample::candidates(60) {
        let assessed = candidate.assessed();
        for columns in [1, 2] {
            check(&plate(&candidate, &assessed, columns));
        }
    }
}

#[test]
fn the_same_plate_is_the_same_bytes() {
    let candidate = &sample::candidates(1)[0];
    let assessed = candidate.assessed();
    for ground in PageGround::ALL {
        let [one, other] = [(); 2].map(|()| svg(&plate(candidate, &assessed, 2), ground));
        assert!(one == other && !one.contains("NaN") && !one.contains("inf"));
    }
}

#[test]
fn every_letter_of_a_plate_has_a_glyph() {
    for candidate in sample::candidates(20) {
        let assessed = candidate.assessed();
        for text in plate(&candidate, &assessed, 2).words() {
            for weight in typeface::Weight::ALL {
                assert_eq!(typeface::missing_glyphs(text, weight), [], "{text}");
            }
        }
    }
}

#[test]
fn words_of_a_bay_stand_in_cells() {
    let cells = Cells {
        columns: 42,
        rows: 15,
        height: 2.0,
    };
    for candidate in sample::candidates(60) {
        let assessed = candidate.assessed();
        for view in [View::Section(candidate.valve), View::FaceOn(Face::Right)] {
            let orientation = Orientation::default();
            let bay = Bay::of(&candidate.setting, &assessed, view, orientation);
            let bay = bay.expect("all is read");
            for window in std::iter::once(bay.bounds()).chain(bay.corner()) {
                let drawing = bay.draw(&window, cells);
                assert_eq!((drawing.width, drawing.height), (42.0, 30.0));
                for stroke in &drawing.strokes {
                    let Ink::Word(word) = &stroke.ink else {
                        continue;
                    };
                    let letters = word.text.chars().map(|_| 1.0).sum::<f64>();
                    assert_eq!(word.at.x, word.at.x.round());
                    assert!(word.at.x >= 0.0 && word.at.x + letters <= 42.0, "{word:?}");
                }
            }
        }
    }
}

/// A bay is looked at for its clearance: it has the number, and never lets it be taken
/// for a length in the cut where it is none.
#[test]
fn every_bay_has_the_number_of_its_clearance() {
    for candidate in sample::candidates(120) {
        let assessed = candidate.assessed();
        let sample::Candidate {
            setting,
            size,
            turn,
            valve,
        } = &candidate;
        let (view, orientation) = (View::Section(*valve), Orientation::default());
        let bay = Bay::of(setting, &assessed, view, orientation);
        let bay = bay.expect("all is read");
        let Some(nearest) = NearestToValve::of(setting, size, *turn, *valve) else {
            continue;
        };
        let corner = bay.corner().expect("a valve is in it");
        for (columns, rows, window) in [
            (22, 10, corner),
            (28, 8, corner),
            (42, 15, bay.bounds()),
            (60, 30, bay.bounds()),
        ] {
            let cells = Cells {
                columns,
                rows,
                height: 2.0,
            };
            let drawing = bay.draw(&window, cells);
            let words = drawing
                .strokes
                .iter()
                .filter_map(|stroke| match &stroke.ink {
                    Ink::Word(word) if stroke.part == Part::Clearance(*valve) => Some(&word.text),
                    _ => None,
                });
            let words: Vec<&String> = words.collect();
            let [text] = words[..] else {
                panic!("{} of {columns} × {rows}: {words:?}", size.label);
            };
            assert!(text.contains(" mm"), "{text}");
            assert_eq!(
                text.ends_with(OUTSIDE_CUT_MARK),
                !nearest.is_in_cut,
                "{text}"
            );
        }
    }
}

/// Beside "right ventricle" an "LV" would be read as something else than a ventricle.
#[test]
fn both_ventricles_are_named_in_one_form() {
    let mut forms = [0, 0];
    for candidate in sample::candidates(120) {
        let assessed = candidate.assessed();
        let view = View::Section(candidate.valve);
        for orientation in super::ORIENTATIONS {
            let bay = Bay::of(&candidate.setting, &assessed, view, orientation);
            let bay = bay.expect("all is read");
            let bays = [(22, 10), (28, 8), (34, 12), (42, 15), (60, 30)].map(|(columns, rows)| {
                let height = 2.0;
                let cells = Cells {
                    columns,
                    rows,
                    height,
                };
                bay.draw(&bay.bounds(), cells)
            });
            let plate = plate(&candidate, &assessed, 2);
            let whole = bay.draw_whole(&bay.bounds(), [160.0, 100.0]);
            for drawing in bays.iter().chain([&plate, &whole]) {
                let words: Vec<&str> = drawing.words().collect();
                let count = |name: &str| words.iter().filter(|word| **word == name).count();
                let in_words = ["left ventricle", "right ventricle"].map(count);
                let by_initials = ["LV", "RV"].map(count);
                let has_both_forms = in_words != [0, 0] && by_initials != [0, 0];
                assert!(!has_both_forms, "{words:?}");
                assert_eq!(in_words[0], in_words[1], "{words:?}");
                forms[0] += in_words[0];
                forms[1] += by_initials[0];
            }
        }
    }
    assert!(forms[0] > 100 && forms[1] > 100, "{forms:?}");
}

#[test]
fn a_bay_without_room_is_drawn_all_the_same() {
    let candidate = &sample::candidates(1)[0];
    let assessed = candidate.assessed();
    let view = View::Section(candidate.valve);
    let bay = Bay::of(&candidate.setting, &assessed, view, Orientation::default());
    let bay = bay.expect("all is read");
    for columns in [0, 1, 3] {
        for rows in [0, 1, 2] {
            let cells = Cells {
                columns,
                rows,
                height: 2.0,
            };
            for stroke in bay.draw(&bay.bounds(), cells).strokes {
                if let Ink::Fill(path) | Ink::Line { path, .. } = &stroke.ink {
                    let points = corners(path);
                    assert!(points.iter().all(|at| at.x.is_finite() && at.y.is_finite()));
                }
            }
        }
    }
}

#[test]
fn the_plates_of_every_scenario_keep_the_rules() {
    let (name, text) = files::shipped::SHAPES;
    let catalogue = files::parse_catalogue(name, text)
        .expect("shipped")
        .into_value();
    let (name, text) = files::shipped::HOUSE_RULES;
    let rules = files::parse_house_rules(name, text)
        .expect("shipped")
        .into_value();
    let rules = Arc::new(rules);
    for (name, text) in files::shipped::SCENARIOS {
        let case = files::parse_case(name, text).expect("shipped").into_value();
        let setting = Setting::new(Arc::new(case), Arc::clone(&rules));
        // The middle size of each shape: with one disc and two, offset and not.
        let candidates: Vec<Candidate> = catalogue
            .shapes
            .iter()
            .map(|shape| {
                let size = (0, shape, &shape.sizes[shape.sizes.len() / 2]);
                Candidate::assess(&setting, size, Turn::Best, None)
            })
            .collect();
        for pair in candidates.chunks(2) {
            for orientation in super::ORIENTATIONS {
                let plate = Plate {
                    title: &setting.case().title,
                    notes: &[],
                    setting: &setting,
                    columns: pair.iter().map(column).collect(),
                    views: View::all(&setting),
                    orientation,
                    width: Plate::WIDTH,
                };
                check(&plate.draw());
            }
        }
    }
}
