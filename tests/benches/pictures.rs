//! How long pictures take to paint: beside the milliseconds, the share of what a
//! picture may cost, and of a reference loop of the same run.
//!
//! `cargo bench -p outside --bench pictures`

#![expect(
    clippy::expect_used,
    reason = "a bench that cannot run has nothing to say"
)]

use geometry::Face;
use measurement::Valve;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use raster::{Blocks, CellSize, Depth, Glyphs, PixelSize, cells, glyph_cells, paint, png, sixel};
use scene::View;
use scene::plate::{self, Bay, Column, Orientation, Plate};
use scene::stroke::PageGround;
use sizing::{Candidate, Setting, Turn};
use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

const RUNS: usize = 30;

/// What a bay of 42 by 15 cells may take, and a plate of 640 pixels, seconds.
const BAY_BUDGET: f64 = 1e-3;
const PLATE_BUDGET: f64 = 20e-3;

fn main() {
    let case = Arc::new(scenario("outlet-infant"));
    let setting = Setting::new(case, Arc::new(shipped_rules()));
    let catalogue = shipped_catalogue();
    let shape = catalogue.shapes.first().expect("a shape");
    let size = shape.sizes.first().expect("a size");
    let candidate = Candidate::assess(&setting, (0, shape, size), Turn::Best, None);
    let reference = best(|| {
        let squares = (0..100_000_u32).map(|n| f64::from(n).sqrt());
        black_box(squares.sum::<f64>());
    });
    let tell = |what: &str, seconds: f64, budget: f64| {
        println!(
            "{what:32} {:7.2} ms  {:4.0} % of its budget  {:6.1} reference loops",
            1e3 * seconds,
            100.0 * seconds / budget,
            seconds / reference
        );
    };
    println!("best of {RUNS} runs; reference: 100,000 square roots, one after another\n");
    let view = View::Section(Valve::Aortic);
    let bay = Bay::of(&setting, &candidate, view, Orientation::RightVentricleLeft).expect("a bay");
    for [columns, rows] in [[42, 15], [90, 31]] {
        let room = plate::Cells {
            columns,
            rows,
            height: 2.0,
        };
        let budget = BAY_BUDGET * f64::from(columns) * f64::from(rows) / (42.0 * 15.0);
        let drawing = bay.draw(&bay.bounds(), room);
        let size = CellSize { columns, rows };
        let drawn = best(|| {
            black_box(bay.draw(&bay.bounds(), room));
        });
        tell(
            &format!("strokes of a bay, {columns} x {rows}"),
            drawn,
            budget,
        );
        for blocks in Blocks::ALL {
            for depth in [Depth::TrueColour, Depth::Indexed] {
                let painted = best(|| {
                    black_box(
                        cells(&drawing, size, PageGround::Dark, blocks, depth).expect("cells"),
                    );
                });
                tell(&format!("  {blocks:?}, {depth:?}"), painted, budget);
            }
        }
        let dots = best(|| {
            black_box(glyph_cells(&drawing, size, Glyphs::Braille).expect("cells"));
        });
        tell("  braille", dots, budget);
    }
    let plate = Plate {
        title: "A plate",
        notes: &[],
        setting: &setting,
        columns: vec![Column {
            name: "first",
            reason: None,
            candidate: &candidate,
        }],
        views: vec![view, View::FaceOn(Face::Left)],
        orientation: Orientation::RightVentricleLeft,
        width: Plate::WIDTH,
    };
    let drawing = plate.draw();
    let size = PixelSize::of_width(&drawing, 640).expect("a size");
    let painted = best(|| {
        black_box(paint(&drawing, size, PageGround::Dark).expect("pixels"));
    });
    tell("plate at 640 pixels, braid, grain", painted, PLATE_BUDGET);
    let pixels = paint(&drawing, size, PageGround::Dark).expect("pixels");
    let sixels = best(|| {
        black_box(sixel(&pixels, PageGround::Dark));
    });
    tell("  as sixels", sixels, PLATE_BUDGET);
    let file = best(|| {
        black_box(png(&pixels, "", "").expect("a file"));
    });
    tell("  as PNG", file, PLATE_BUDGET);
    println!(
        "  {} kB of sixels, {} kB of PNG",
        sixel(&pixels, PageGround::Dark).len() / 1000,
        png(&pixels, "", "").expect("a file").len() / 1000
    );
}

/// The shortest of a number of runs, in seconds.
fn best(mut work: impl FnMut()) -> f64 {
    let runs = (0..RUNS).map(|_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64()
    });
    runs.fold(f64::INFINITY, f64::min)
}
