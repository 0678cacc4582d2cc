//! Drawings that no heart gives: numbers that are none, far away, or very many.

use proptest::prelude::*;
use raster::{Blocks, CellSize, Depth, Glyphs, PixelSize, cells, glyph_cells, paint, sixel};
use scene::stroke::{Anchor, Dash, Drawing, Ink, PageGround, Path, PathStep, Role, Stroke, Word};
use scene::{Part, Point};

/// Lengths of every kind that a float can be.
fn length() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -50.0..150.0,
        1 => prop::num::f64::ANY,
        1 => Just(0.0),
        1 => Just(1e9),
        1 => Just(1e-9),
    ]
}

fn point() -> impl Strategy<Value = Point> {
    (length(), length()).prop_map(|(x, y)| Point::new(x, y))
}

fn path() -> impl Strategy<Value = Path> {
    let step = prop_oneof![
        point().prop_map(PathStep::Move),
        point().prop_map(PathStep::Line),
        (point(), point(), point()).prop_map(|(a, b, c)| PathStep::Cubic(a, b, c)),
        Just(PathStep::Close),
    ];
    prop::collection::vec(step, 0..12).prop_map(Path)
}

fn ink() -> impl Strategy<Value = Ink> {
    let dash = prop::option::of((length(), length()).prop_map(|(on, off)| Dash { on, off }));
    prop_oneof![
        path().prop_map(Ink::Fill),
        (path(), length(), dash).prop_map(|(path, width, dash)| Ink::Line { path, width, dash }),
        (point(), ".{0,12}", length(), 0..3_usize).prop_map(|(at, text, size, anchor)| {
            Ink::Word(Word {
                at,
                text,
                size,
                anchor: [Anchor::Start, Anchor::Middle, Anchor::End][anchor],
                is_bold: true,
                has_halo: true,
            })
        }),
    ]
}

fn drawing() -> impl Strategy<Value = Drawing> {
    let stroke = (0..Role::ALL.len(), ink()).prop_map(|(role, ink)| Stroke {
        part: Part::Wall,
        role: Role::ALL[role],
        ink,
    });
    (length(), length(), prop::collection::vec(stroke, 0..8)).prop_map(
        |(width, height, strokes)| Drawing {
            width,
            height,
            title: String::new(),
            alternative_text: String::new(),
            strokes,
        },
    )
}

proptest! {
    /// Whatever is drawn, there is a picture of the size asked for or an error, and
    /// each of its glyphs takes one cell.
    #[test]
    fn there_is_a_picture_or_an_error(
        drawing in drawing(),
        columns in 0..50_u16,
        rows in 0..20_u16,
        kind in 0..3_usize,
    ) {
        let size = CellSize { columns, rows };
        let count = usize::from(columns) * usize::from(rows);
        for depth in [Depth::TrueColour, Depth::Indexed] {
            if let Ok(cells) = cells(&drawing, size, PageGround::Dark, Blocks::ALL[kind], depth) {
                prop_assert_eq!(cells.cells.len(), count);
                prop_assert!(cells.cells.iter().all(|cell| !cell.glyph.is_control()));
            }
        }
        for glyphs in [Glyphs::Braille, Glyphs::Ascii] {
            if let Ok(cells) = glyph_cells(&drawing, size, glyphs) {
                prop_assert_eq!(cells.cells.len(), count);
                prop_assert!(cells.cells.iter().all(|cell| !cell.glyph.is_control()));
            }
        }
        if let Ok(size) = PixelSize::new(u32::from(columns), u32::from(rows))
            && let Ok(pixels) = paint(&drawing, size, PageGround::Light)
        {
            prop_assert_eq!(pixels.colours().len(), count);
            prop_assert!(sixel(&pixels, PageGround::Light).is_ascii());
        }
    }
}

/// A closed piece that begins at what is no number is left out: the stroker would
/// never come to its end.
#[test]
fn a_piece_that_begins_nowhere_is_left_out() {
    let nowhere = Point::new(f64::NAN, 1.0);
    let steps = vec![
        PathStep::Move(nowhere),
        PathStep::Line(Point::new(5.0, 5.0)),
        PathStep::Line(Point::new(7.0, 3.0)),
        PathStep::Close,
    ];
    let drawing = Drawing {
        width: 10.0,
        height: 10.0,
        title: String::new(),
        alternative_text: String::new(),
        strokes: vec![Stroke {
            part: Part::Wall,
            role: Role::Outline,
            ink: Ink::Line {
                path: Path(steps),
                width: 1.0,
                dash: None,
            },
        }],
    };
    let size = PixelSize::new(20, 20).expect("a size");
    let pixels = paint(&drawing, size, PageGround::Dark).expect("a picture");
    let ground = pixels.colour(0, 0);
    assert!(pixels.colours().all(|one| Some(one) == ground));
}
