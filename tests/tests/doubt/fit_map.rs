//! The fit map against its own cells, and its sentence against the map.

#![expect(clippy::expect_used, reason = "what fails here fails a test")]

use geometry::Mm;
use outside::sample::{scenario, shipped_catalogue, shipped_rules};
use sizing::engine::{Counter, Engine, Plain, Question};
use sizing::fit_map::{
    Axis, EvenShape, FitMap, Refinement, Room, WouldFit, best_length, marks, nearest_form,
};
use sizing::house_rules::Parameter;
use sizing::rows;
use sizing::{Draws, Setting, Work};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// Few: these tests are about form, and the reference engine is slow.
const DRAWS: usize = 64;
const COLUMNS: usize = 20;
const ROWS: usize = 16;
/// From one length to the next that the sentence may name.
const LENGTH_STEP: Mm = 0.5;

static NEVER: AtomicBool = AtomicBool::new(false);

fn work(threads: usize) -> Work<'static> {
    Work {
        threads,
        cancel: &NEVER,
    }
}

struct Mapped {
    setting: Setting,
    counter: Box<dyn Counter>,
}

impl Mapped {
    fn of(name: &str) -> Self {
        let setting = Setting::new(Arc::new(scenario(name)), Arc::new(shipped_rules()));
        let draws = Draws::new(&setting, DRAWS, 1).expect("draws");
        let counter = Plain.prepare(draws);
        Self { setting, counter }
    }

    fn form(&self) -> EvenShape {
        let form = nearest_form(&self.setting, &[shipped_catalogue()]).expect("a form");
        let best = best_length(&self.setting, &form, &*self.counter, &work(2)).expect("a length");
        form.at_length(best.length)
    }

    fn refinement(&self, form: EvenShape) -> Refinement<'_> {
        Refinement::new(
            &self.setting,
            &*self.counter,
            form,
            Axis::of_waists(&self.setting, COLUMNS),
            Axis::of_overhangs(ROWS),
        )
    }

    fn whole(&self, form: EvenShape) -> Arc<FitMap> {
        self.refinement(form)
            .whole(&work(2))
            .expect("not cancelled")
    }
}

/// The least chance of a block of a map.
fn least(map: &FitMap, columns: (usize, usize), rows: (usize, usize)) -> f64 {
    let mut least = f64::INFINITY;
    for column in columns.0..=columns.1 {
        for row in rows.0..=rows.1 {
            least = least.min(map.chance(column, row).expect("counted"));
        }
    }
    least
}

/// Everything the sentence says of a room, against maps of every length it names.
fn check_room(mapped: &Mapped, map: &FitMap, room: &Room, name: &str) {
    let (columns, rows) = (room.columns, room.rows);
    assert!(least(map, columns, rows) >= room.chance, "{name}");
    assert_eq!(room.waists.0, map.waists.value(columns.0));
    assert_eq!(room.waists.1, map.waists.value(columns.1));
    assert_eq!(room.overhangs.0, map.overhangs.value(rows.0));
    assert_eq!(room.overhangs.1, map.overhangs.value(rows.1));
    // One cell further out on any side holds no more, or is off the map.
    let wider = [
        (columns.0.checked_sub(1)).map(|from| ((from, columns.1), rows)),
        Some(((columns.0, columns.1 + 1), rows)).filter(|_| columns.1 + 1 < map.waists.count),
        (rows.0.checked_sub(1)).map(|from| (columns, (from, rows.1))),
        Some((columns, (rows.0, rows.1 + 1))).filter(|_| rows.1 + 1 < map.overhangs.count),
    ];
    for (columns, rows) in wider.into_iter().flatten() {
        assert!(
            least(map, columns, rows) < room.chance,
            "{name}: room for more"
        );
    }
    // Every length it names, and one step further.
    let at = |length: Mm| least(&mapped.whole(map.form.at_length(length)), columns, rows);
    let mut length = room.lengths.0;
    while length <= room.lengths.1 {
        assert!(at(length) >= room.chance, "{name}: length {length}");
        length += LENGTH_STEP;
    }
    let most = 8.0 * LENGTH_STEP;
    let shorter = room.lengths.0 - LENGTH_STEP;
    if shorter >= 1.0 && map.form.length - shorter <= most {
        assert!(at(shorter) < room.chance, "{name}: shorter holds");
    }
    let longer = room.lengths.1 + LENGTH_STEP;
    if longer - map.form.length <= most {
        assert!(at(longer) < room.chance, "{name}: longer holds");
    }
}

/// The stop broken most outside a room, counted anew.
fn broken_most_outside(map: &FitMap, room: &Room) -> Option<String> {
    let mut sums = vec![0.0; map.stops.len()];
    for column in 0..map.waists.count {
        for row in 0..map.overhangs.count {
            let inside = (room.columns.0..=room.columns.1).contains(&column)
                && (room.rows.0..=room.rows.1).contains(&row);
            if !inside {
                let cell = map.cell(column, row).expect("counted");
                for (sum, share) in sums.iter_mut().zip(&cell.broken) {
                    *sum += share;
                }
            }
        }
    }
    let most = sums.iter().copied().fold(0.0, f64::max);
    let place = sums.iter().position(|sum| *sum == most && most > 0.0)?;
    Some(map.stops[place].name())
}

#[test]
fn the_sentence_holds_on_the_map() {
    let mut rooms = 0;
    for name in [
        "outlet-infant",
        "mid-muscular",
        "nothing-fits",
        "thick-wall",
    ] {
        let mapped = Mapped::of(name);
        let mut refinement = mapped.refinement(mapped.form());
        let map = refinement.whole(&work(2)).expect("not cancelled");
        let says: WouldFit = refinement.would_fit(&work(2)).expect("not cancelled");
        let sentence = says.says();
        if let Some(room) = &says.room {
            rooms += 1;
            check_room(&mapped, &map, room, name);
            let stop = broken_most_outside(&map, room).expect("something stops");
            assert!(sentence.contains(&stop), "{sentence}, not {stop}");
            assert_eq!(says.stop.map(|stop| stop.name()), Some(stop));
            continue;
        }
        let least = mapped.setting.parameter(Parameter::ChanceDoesNotFit);
        for column in 0..COLUMNS {
            for row in 0..ROWS {
                let chance = map.chance(column, row).expect("counted");
                assert!(chance < least && chance <= says.nearest.chance, "{name}");
            }
        }
        assert!(sentence.starts_with("Nothing"), "{sentence}");
    }
    assert!(rooms >= 2);
}

/// A cell is what the engine says of a size of that form, and a coarse level gives
/// the same cells as the whole.
#[test]
fn a_cell_is_the_chance_of_its_size_at_every_level() {
    let mapped = Mapped::of("outlet-infant");
    let mut refinement = mapped.refinement(mapped.form());
    let mut levels = Vec::new();
    while !refinement.is_whole() {
        levels.push(refinement.refine(&work(1)).expect("not cancelled"));
    }
    let strides: Vec<usize> = levels.iter().map(|map| map.stride).collect();
    assert_eq!(strides, [8, 4, 2, 1]);
    let whole = levels.last().expect("a level");
    for (column, row) in [(0, 0), (3, 5), (8, 8), (19, 15)] {
        let size = whole
            .form
            .size(whole.waists.value(column), whole.overhangs.value(row));
        let question = Question {
            setting: &mapped.setting,
            size: &size,
            turn: 0.0,
            rows: &rows(&mapped.setting, &size.occluder),
        };
        let counts = mapped.counter.count(&question);
        let chance = counts.no_stop.chance(DRAWS as f64);
        assert_eq!(
            whole.cell(column, row).map(|cell| cell.chance),
            Some(chance)
        );
        for map in &levels {
            let on_grid = |index: usize| index - index % map.stride;
            assert_eq!(
                map.chance(column, row),
                whole.chance(on_grid(column), on_grid(row))
            );
        }
    }
}

#[test]
fn threads_change_nothing_and_a_cancelled_map_is_none() {
    let mapped = Mapped::of("outlet-infant");
    let form = mapped.form();
    let of = |threads| {
        let mut refinement = mapped.refinement(form.clone());
        let map = refinement.whole(&work(threads)).expect("not cancelled");
        (map, refinement.would_fit(&work(threads)))
    };
    assert_eq!(of(1), of(2));
    let always = AtomicBool::new(true);
    let cancelled = Work {
        threads: 2,
        cancel: &always,
    };
    assert_eq!(mapped.refinement(form.clone()).refine(&cancelled), None);
}

/// A coordinate in cells; one that sums of decimals moved off a cell is put back.
fn on_axis(cells: f64) -> f64 {
    const LOST: f64 = 1e-9;
    if (cells - cells.round()).abs() < LOST {
        cells.round()
    } else {
        cells
    }
}

/// A line of a chance passes between a cell that has it and a neighbour that has
/// it not, and every such pair has one point of a line between.
#[test]
fn lines_part_what_holds_from_what_does_not() {
    let mapped = Mapped::of("outlet-infant");
    let map = mapped.whole(mapped.form());
    for chance in [0.5, 0.9] {
        let lines = map.lines(chance);
        let at = |column: usize, row: usize| map.chance(column, row).expect("counted");
        let mut points = 0;
        for (waist, overhang) in lines.iter().flatten() {
            let column = on_axis((waist - map.waists.first) / map.waists.step);
            let row = on_axis((overhang - map.overhangs.first) / map.overhangs.step);
            let cell = |round: fn(f64) -> f64| {
                let index = |cells: f64, count: usize| {
                    (0..count)
                        .find(|&index| index as f64 == round(cells))
                        .expect("on the map")
                };
                at(index(column, COLUMNS), index(row, ROWS))
            };
            let ends = [cell(f64::floor), cell(f64::ceil)];
            let over = ends.map(|here| here >= chance);
            assert!(over[0] != over[1] || ends.contains(&chance), "{ends:?}");
        }
        for line in &lines {
            let closed = line.first() == line.last();
            points += line.len() - usize::from(closed);
        }
        let mut pairs = 0;
        for column in 0..COLUMNS {
            for row in 0..ROWS {
                let here = at(column, row) >= chance;
                pairs +=
                    usize::from(column + 1 < COLUMNS && (at(column + 1, row) >= chance) != here);
                pairs += usize::from(row + 1 < ROWS && (at(column, row + 1) >= chance) != here);
            }
        }
        assert_eq!(points, pairs);
    }
}

#[test]
fn marks_are_the_sizes_with_two_discs() {
    let mapped = Mapped::of("outlet-infant");
    let form = mapped.form();
    let catalogue = shipped_catalogue();
    let with_discs = catalogue
        .shapes
        .iter()
        .flat_map(|shape| &shape.sizes)
        .filter(|size| size.occluder.discs.iter().all(Option::is_some))
        .count();
    let marks = marks(&[catalogue], &form);
    assert_eq!(marks.len(), with_discs);
    assert!(marks.iter().any(|mark| mark.is_near));
    assert!(
        marks
            .iter()
            .all(|mark| !mark.is_near || !mark.name.starts_with("offset"))
    );
}
