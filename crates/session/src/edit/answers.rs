use super::Edit;
use crate::{Document, Refused};
use measurement::Finding;
use sizing::resolve::neighbour_of;
use sizing::{Answer, Neighbour};

pub(super) fn absent(document: &mut Document, neighbour: Neighbour, absent: bool) -> Edit {
    let said = &mut document.case_mut().absent;
    let was = if absent {
        !said.insert(neighbour)
    } else {
        said.remove(&neighbour)
    };
    Edit::Absent(neighbour, was)
}

/// What is said not to be there has no reading in use.
pub(super) fn check_absent(
    document: &Document,
    neighbour: Neighbour,
    absent: bool,
) -> Result<(), Refused> {
    let in_use = document.case.readings.iter().filter(|reading| {
        reading.set_aside.is_none()
            && neighbour_of(reading.quantity.info().structure) == Some(neighbour)
    });
    match in_use.count() {
        count @ 1.. if absent => Err(Refused::ReadingsInUse { count, neighbour }),
        _ => Ok(()),
    }
}

pub(super) fn exclusion(document: &mut Document, id: &str, answer: Option<Answer>) -> Edit {
    let answers = &mut document.case_mut().exclusions;
    let was = match answer {
        Some(answer) => answers.insert(id.to_owned(), answer),
        None => answers.remove(id),
    };
    Edit::Exclusion(id.to_owned(), was)
}

pub(super) fn finding(document: &mut Document, of: Finding, answer: Option<Answer>) -> Edit {
    let findings = &mut document.case_mut().findings;
    let was = match answer {
        Some(answer) => findings.insert(of, answer),
        None => findings.remove(&of),
    };
    Edit::Finding(of, was)
}

pub(super) fn check_exclusion(document: &Document, id: &str) -> Result<(), Refused> {
    let mut asked = document.rules.exclusions.iter();
    if asked.any(|exclusion| exclusion.id == id) {
        Ok(())
    } else {
        Err(Refused::NoSuchExclusion(id.to_owned()))
    }
}
