use super::DimensionStep;
use crate::{Shape, Size};
use geometry::Mm;

/// By how much a waist changes where the catalogue has no next one, in millimetres.
const WAIST_STEP: Mm = 0.5;

/// By how much the radius of each disc changes, in millimetres.
const DISC_STEP: Mm = 0.5;

/// By how much the length changes where the catalogue has no next one, in millimetres.
const LENGTH_STEP: Mm = 1.0;

/// The least waist and the least length that a form may have, in millimetres.
const LEAST: Mm = 1.0;

/// The neighbour of a size, and whether the catalogue has it; `None` where no form is
/// left.
pub(super) fn of(shape: &Shape, size: &Size, way: DimensionStep) -> Option<(Size, bool)> {
    match way {
        DimensionStep::AsItIs => {
            let is_made = shape.sizes.iter().any(|one| one.label == size.label);
            Some((size.clone(), is_made))
        }
        DimensionStep::WiderWaist => waist(shape, size, 1.0),
        DimensionStep::NarrowerWaist => waist(shape, size, -1.0),
        DimensionStep::Longer => length(shape, size, 1.0),
        DimensionStep::Shorter => length(shape, size, -1.0),
        DimensionStep::WiderDisc => disc(size, DISC_STEP),
        DimensionStep::NarrowerDisc => disc(size, -DISC_STEP),
    }
}

/// The nearest of the catalogue's sizes by a distance that must be above zero.
fn nearest(shape: &Shape, apart: impl Fn(&Size) -> Option<Mm>) -> Option<Size> {
    let sizes = shape
        .sizes
        .iter()
        .filter_map(|one| Some((apart(one)?, one)));
    let ahead = sizes.filter(|(apart, _)| *apart > 0.0);
    let nearest = ahead.min_by(|(one, _), (other, _)| one.total_cmp(other));
    nearest.map(|(_, size)| size.clone())
}

/// The next waist of the same length; where the catalogue has none, half a millimetre
/// wider or narrower with the same overhang.
fn waist(shape: &Shape, size: &Size, way: Mm) -> Option<(Size, bool)> {
    let own = size.occluder.waist;
    let next = nearest(shape, |one| {
        let other = one.occluder.waist;
        let is_as_long = other.length.total_cmp(&own.length).is_eq();
        is_as_long.then_some(way * (other.diameter - own.diameter))
    });
    if let Some(next) = next {
        return Some((next, true));
    }
    let mut made = size.clone();
    made.occluder.waist.diameter += way * WAIST_STEP;
    for disc in made.occluder.discs.iter_mut().flatten() {
        disc.radius += 0.5 * way * WAIST_STEP;
    }
    is_form(&made).then(|| (labelled(made), false))
}

/// The next length of the same waist; where the catalogue has none, a millimetre longer
/// or shorter.
fn length(shape: &Shape, size: &Size, way: Mm) -> Option<(Size, bool)> {
    let own = size.occluder.waist;
    let next = nearest(shape, |one| {
        let other = one.occluder.waist;
        let is_as_wide = other.diameter.total_cmp(&own.diameter).is_eq();
        is_as_wide.then_some(way * (other.length - own.length))
    });
    if let Some(next) = next {
        return Some((next, true));
    }
    let mut made = size.clone();
    made.occluder.waist.length += way * LENGTH_STEP;
    is_form(&made).then(|| (labelled(made), false))
}

/// Both discs wider or narrower, on the same waist.
fn disc(size: &Size, by: Mm) -> Option<(Size, bool)> {
    let mut made = size.clone();
    let mut discs = 0;
    for disc in made.occluder.discs.iter_mut().flatten() {
        disc.radius += by;
        discs += 1;
    }
    if discs == 0 || !is_form(&made) {
        return None;
    }
    let by = if by > 0.0 { "wider" } else { "narrower" };
    made.label = format!("{} with discs 1 mm {by}", made.label);
    Some((made, false))
}

/// Whether every disc still covers the waist, and there is a waist at all.
fn is_form(size: &Size) -> bool {
    let waist = size.occluder.waist;
    let mut discs = size.occluder.discs.iter().flatten();
    let covers = discs.all(|disc| disc.radius >= 0.5 * waist.diameter + disc.offset.length());
    covers && waist.diameter >= LEAST && waist.length >= LEAST
}

fn labelled(mut size: Size) -> Size {
    let waist = size.occluder.waist;
    size.label = format!("{}x{}", waist.diameter, waist.length);
    size
}
