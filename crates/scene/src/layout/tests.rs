use super::*;
use crate::Scene;
use crate::{Importance, View, sample};

fn scenes() -> Vec<Scene> {
    let setting = sample::setting(&sample::outlet());
    let sizes = [
        sample::size(5.0, 6.0, 0.0),
        sample::size(4.5, 5.0, 2.0),
        sample::size(3.0, 2.0, 0.0),
    ];
    let draw = |view: View| sizes.each_ref().map(|size| view.draw(&setting, size, 0.5));
    View::all(&setting)
        .into_iter()
        .flat_map(draw)
        .flatten()
        .collect()
}

fn grid(scene: &Scene, columns_per_mm: f64) -> Grid {
    Grid {
        bounds: scene.bounds,
        columns_per_mm,
        rows_per_mm: 0.5 * columns_per_mm,
    }
}

#[test]
fn no_words_cover_others_or_leave_the_bounds() {
    let scenes = scenes();
    assert!(scenes.len() >= 12);
    for scene in &scenes {
        for columns_per_mm in [0.0, 0.05, 0.5, 1.0, 2.0, 3.0, 7.0] {
            let grid = grid(scene, columns_per_mm);
            let placed = place(&scene.figures, &grid);
            assert_eq!(placed, place(&scene.figures, &grid));
            for (index, one) in placed.iter().enumerate() {
                assert!(one.column >= 0 && one.column + one.width() <= grid.columns());
                assert!((0..grid.rows()).contains(&one.row));
                for other in &placed[..index] {
                    let apart = one.column + one.width() <= other.column
                        || other.column + other.width() <= one.column;
                    assert!(one.row != other.row || apart, "{one:?} {other:?}");
                }
            }
        }
    }
}

#[test]
fn a_screen_of_80_columns_has_room_for_every_length() {
    for scene in &scenes() {
        let grid = grid(scene, 78.0 / scene.bounds.width());
        let placed = place(&scene.figures, &grid);
        for label in scene.figures.iter().filter_map(|one| one.form.label()) {
            let shown = placed.iter().any(|one| one.text == label.text);
            assert!(shown || label.importance < Importance::Length, "{label:?}");
        }
    }
}

#[test]
fn the_less_important_yields() {
    let label = |text: &str, importance| Figure {
        part: Part::Caption,
        form: Form::Text(Label {
            at: Point::new(5.0, 0.5),
            text: text.to_owned(),
            lean: Lean::Upon,
            importance,
        }),
    };
    let figures = vec![
        label("aside", Importance::Aside),
        label("seen from", Importance::Orientation),
    ];
    let bounds = Extent {
        least: Point::new(0.0, 0.0),
        most: Point::new(10.0, 1.0),
    };
    let scene = Scene { bounds, figures };
    let grid = Grid {
        bounds,
        columns_per_mm: 1.0,
        rows_per_mm: 1.0,
    };
    let placed = place(&scene.figures, &grid);
    assert_eq!(placed.len(), 1);
    assert_eq!((placed[0].text, placed[0].row), ("seen from", 0));
}

#[test]
fn the_name_of_a_side_keeps_to_its_side_and_is_short_where_there_is_little_room() {
    let side = |least, most, text: &str, short| Figure {
        part: Part::Caption,
        form: Form::Home(
            Label {
                at: Point::new(0.5 * (least + most), 0.0),
                text: text.to_owned(),
                lean: Lean::Upon,
                importance: Importance::Orientation,
            },
            Home { least, most, short },
        ),
    };
    let scene = Scene {
        bounds: Extent {
            least: Point::new(0.0, 0.0),
            most: Point::new(20.0, 10.0),
        },
        figures: vec![
            side(0.0, 10.0, "left ventricle", "LV"),
            side(10.0, 20.0, "right ventricle", "RV"),
        ],
    };
    for (columns_per_mm, names) in [
        (0.5, ["LV", "RV"]),
        (1.0, ["LV", "RV"]),
        (2.0, ["left ventricle", "right ventricle"]),
    ] {
        let grid = Grid {
            bounds: scene.bounds,
            columns_per_mm,
            rows_per_mm: 1.0,
        };
        let placed = place(&scene.figures, &grid);
        assert_eq!([placed[0].text, placed[1].text], names);
        let middle = grid.columns() / 2;
        assert!(placed[0].column + placed[0].width() <= middle && placed[1].column >= middle);
    }
}
