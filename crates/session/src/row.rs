use crate::Document;
use measurement::{Finding, Quantity, ReadingId};
use sizing::resolve::neighbour_of;
use sizing::{Fact, Neighbour};

/// One line of the list of readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Row {
    /// A reading, used or set aside.
    Reading(ReadingId, Quantity),
    /// A quantity nobody read: assumed, following another, or missing.
    Unread(Quantity),
    /// A neighbour said not to be there.
    Absent(Neighbour),
    /// A fact that limits or verdicts depend on.
    Fact(Fact),
    /// An exclusion of the house rules, by its id.
    Exclusion(String),
    /// A finding, for the work-up.
    Finding(Finding),
}

impl Row {
    /// The quantity it is about.
    pub const fn quantity(&self) -> Option<Quantity> {
        match self {
            Self::Reading(_, quantity) | Self::Unread(quantity) => Some(*quantity),
            _ => None,
        }
    }

    /// The neighbour it is about.
    pub fn neighbour(&self) -> Option<Neighbour> {
        match self {
            Self::Absent(neighbour) => Some(*neighbour),
            _ => self
                .quantity()
                .and_then(|quantity| neighbour_of(quantity.info().structure)),
        }
    }
}

/// Every line of the list: quantities in the order in which they are asked, then
/// facts, findings, exclusions.
pub(crate) fn rows(document: &Document) -> Vec<Row> {
    let case = document.case();
    let mut rows = Vec::new();
    for quantity in Quantity::all() {
        let read = case
            .readings
            .iter()
            .filter(|reading| reading.quantity == quantity);
        let before = rows.len();
        rows.extend(read.map(|reading| Row::Reading(reading.id.clone(), quantity)));
        let info = quantity.info();
        let is_asked = info.sites.is_empty() || info.sites.contains(&case.site);
        match neighbour_of(info.structure).filter(|&neighbour| case.is_absent(neighbour)) {
            Some(neighbour) if !rows.contains(&Row::Absent(neighbour)) => {
                rows.push(Row::Absent(neighbour));
            }
            None if is_asked && rows.len() == before => rows.push(Row::Unread(quantity)),
            _ => {}
        }
    }
    rows.extend(
        Fact::ALL
            .into_iter()
            .filter(|fact| fact.is_asked(case))
            .map(Row::Fact),
    );
    rows.extend(Finding::asked().map(Row::Finding));
    let exclusions = document.rules().exclusions_for(case.site);
    rows.extend(exclusions.map(|exclusion| Row::Exclusion(exclusion.id.clone())));
    rows
}

/// Where a selection stands after the rows changed: on the same row, else on
/// one about the same thing, else where it stood.
pub(crate) fn kept(rows: &[Row], was: &Row, place: usize) -> usize {
    let find = |is: &dyn Fn(&Row) -> bool| rows.iter().position(is);
    find(&|row| row == was)
        .or_else(|| find(&|row| row.quantity().is_some() && row.quantity() == was.quantity()))
        .or_else(|| find(&|row| row.neighbour().is_some() && row.neighbour() == was.neighbour()))
        .unwrap_or_else(|| place.min(rows.len().saturating_sub(1)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn every_quantity_has_a_row_and_an_absent_neighbour_only_one() {
        let rows = rows(fixture::infant().document());
        for quantity in Quantity::all() {
            let of = rows
                .iter()
                .filter(|row| row.quantity() == Some(quantity))
                .count();
            let absent = quantity.address().starts_with("mitral.");
            assert_eq!(of == 0, absent, "{quantity}");
        }
        let mitral = Neighbour::Valve(measurement::Valve::Mitral);
        assert_eq!(
            rows.iter()
                .filter(|row| row.neighbour() == Some(mitral))
                .count(),
            1
        );
        assert!(!rows.contains(&Row::Fact(Fact::MitralChordae)));
    }
}
