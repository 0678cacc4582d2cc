use super::Edit;
use crate::{Document, Refused};
use measurement::{Quantity, Reading, ReadingId};
use sizing::resolve::neighbour_of;

pub(super) fn known<'a>(document: &'a Document, id: &ReadingId) -> Result<&'a Reading, Refused> {
    document.reading(id).ok_or_else(|| no_such(id))
}

pub(super) fn find<'a>(
    document: &'a mut Document,
    id: &ReadingId,
) -> Result<&'a mut Reading, Refused> {
    let mut readings = document.case_mut().readings.iter_mut();
    readings
        .find(|reading| reading.id == *id)
        .ok_or_else(|| no_such(id))
}

fn no_such(id: &ReadingId) -> Refused {
    Refused::NoSuchReading(id.clone())
}

pub(super) fn insert(document: &mut Document, place: usize, reading: &Reading) -> Edit {
    document.case_mut().readings.insert(place, reading.clone());
    Edit::Remove(reading.id.clone())
}

pub(super) fn remove(document: &mut Document, id: &ReadingId) -> Result<Edit, Refused> {
    let mut readings = document.case.readings.iter();
    let place = readings
        .position(|reading| reading.id == *id)
        .ok_or_else(|| no_such(id))?;
    Ok(Edit::Insert(
        place,
        document.case_mut().readings.remove(place),
    ))
}

fn check_range(quantity: Quantity, value: f64) -> Result<(), Refused> {
    let info = quantity.info();
    if (info.least..=info.most).contains(&value) {
        Ok(())
    } else {
        Err(Refused::OutOfRange(quantity))
    }
}

fn check_sd_of(quantity: Quantity, sd: Option<f64>) -> Result<(), Refused> {
    let info = quantity.info();
    let most = info.most - info.least;
    if sd.is_none_or(|sd| sd > 0.0 && sd <= most) {
        Ok(())
    } else {
        Err(Refused::SdOutOfRange(quantity))
    }
}

pub(super) fn check_replace(document: &Document, reading: &Reading) -> Result<(), Refused> {
    let known = known(document, &reading.id)?;
    if known.quantity != reading.quantity {
        return Err(Refused::AnotherQuantity(known.quantity));
    }
    check_range(reading.quantity, reading.value)?;
    check_sd_of(reading.quantity, reading.sd)?;
    match &reading.set_aside {
        same if *same == known.set_aside => Ok(()),
        Some(why) if why.trim().is_empty() => Err(Refused::ReasonExpected),
        Some(_) => Ok(()),
        None => check_is_there(document, reading),
    }
}

pub(super) fn check_insert(
    document: &Document,
    place: usize,
    reading: &Reading,
) -> Result<(), Refused> {
    if document.reading(&reading.id).is_some() {
        return Err(Refused::ReadingExists(reading.id.clone()));
    }
    if place > document.case.readings.len() {
        return Err(Refused::NoSuchIndex);
    }
    check_range(reading.quantity, reading.value)?;
    check_sd_of(reading.quantity, reading.sd)?;
    if reading.set_aside.is_some() {
        Ok(())
    } else {
        check_is_there(document, reading)
    }
}

/// What is said not to be there has no reading in use.
fn check_is_there(document: &Document, reading: &Reading) -> Result<(), Refused> {
    let neighbour = neighbour_of(reading.quantity.info().structure);
    match neighbour.filter(|&neighbour| document.case.is_absent(neighbour)) {
        Some(neighbour) => Err(Refused::NeighbourAbsent(neighbour)),
        None => Ok(()),
    }
}
