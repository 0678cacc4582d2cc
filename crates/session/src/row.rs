use crate::Document;
use measurement::{Finding, Quantity, ReadingId, ReportGroup};
use sizing::resolve::neighbour_of;
use sizing::{Fact, Neighbour};

/// One line of the list of readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Row {
    /// A quantity with what counts of it: measured, assumed, as another, or missing.
    Quantity(Quantity),
    /// One of its readings, used or set aside, where it stands beneath the quantity.
    Reading(ReadingId, Quantity),
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
            Self::Reading(_, quantity) | Self::Quantity(quantity) => Some(*quantity),
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

    /// The heading it stands under.
    pub fn heading(&self) -> &'static str {
        match self {
            Self::Quantity(quantity) | Self::Reading(_, quantity) => {
                quantity.report_group().title()
            }
            Self::Absent(neighbour) => group_of_neighbour(*neighbour).title(),
            Self::Fact(fact) => group_of_fact(*fact).title(),
            Self::Finding(_) => "Findings, for the work-up",
            Self::Exclusion(_) => "Exclusions: a yes excludes every device",
        }
    }
}

const fn group_of_neighbour(neighbour: Neighbour) -> ReportGroup {
    match neighbour {
        Neighbour::Valve(_) => ReportGroup::RimsAndValves,
        Neighbour::LeftOutflow | Neighbour::RightOutflow => ReportGroup::OutflowTracts,
    }
}

const fn group_of_fact(fact: Fact) -> ReportGroup {
    match fact {
        Fact::Round | Fact::Pouch | Fact::Holes | Fact::BandInTheWay => ReportGroup::Defect,
        Fact::Prolapse
        | Fact::AorticRegurgitation
        | Fact::PulmonaryRegurgitation
        | Fact::MitralChordae
        | Fact::TricuspidChordae => ReportGroup::RimsAndValves,
        Fact::Conduction => ReportGroup::Child,
    }
}

/// Every line of the list: group by group of a report the quantities, each with its
/// readings beneath, and the facts; then findings and exclusions.
pub(crate) fn rows(document: &Document) -> Vec<Row> {
    let case = document.case();
    let mut rows = Vec::new();
    for group in ReportGroup::ALL {
        for quantity in Quantity::all().filter(|one| one.report_group() == group) {
            let info = quantity.info();
            let absent = neighbour_of(info.structure).filter(|&one| case.is_absent(one));
            if let Some(neighbour) = absent
                && !rows.contains(&Row::Absent(neighbour))
            {
                rows.push(Row::Absent(neighbour));
            }
            let is_asked = info.sites.is_empty() || info.sites.contains(&case.site);
            let mut readings = document.readings_of(quantity).peekable();
            if readings.peek().is_some() || (is_asked && absent.is_none()) {
                rows.push(Row::Quantity(quantity));
            }
            if document.sole_reading(quantity).is_none() {
                rows.extend(readings.map(|one| Row::Reading(one.id.clone(), quantity)));
            }
        }
        let mut facts = Fact::ALL.into_iter();
        let is_of_group = |fact: &Fact| group_of_fact(*fact) == group && fact.is_asked(case);
        rows.extend(facts.by_ref().filter(is_of_group).map(Row::Fact));
    }
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
    fn every_quantity_has_one_row_and_an_absent_neighbour_as_well() {
        let rows = rows(fixture::infant().document());
        for quantity in Quantity::all() {
            let is_it = |row: &&Row| **row == Row::Quantity(quantity);
            let absent = quantity.address().starts_with("mitral.");
            let count = rows.iter().filter(is_it).count();
            assert_eq!(count, usize::from(!absent), "{quantity}");
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

    #[test]
    fn no_heading_stands_twice_and_a_report_s_come_first() {
        for (name, text) in files::shipped::SCENARIOS {
            let case = files::parse_case(name, text).unwrap().into_value();
            let rows = rows(fixture::open(case).document());
            let mut headings: Vec<&str> = rows.iter().map(Row::heading).collect();
            headings.dedup();
            let first = headings.iter().take(ReportGroup::ALL.len());
            assert!(
                first.copied().eq(ReportGroup::ALL.map(ReportGroup::title)),
                "{name}"
            );
            assert_eq!(headings.len(), ReportGroup::ALL.len() + 2, "{name}");
        }
    }

    #[test]
    fn readings_stand_beneath_their_quantity_where_it_has_more_than_one_that_counts() {
        let (name, text) = files::shipped::SCENARIOS
            .iter()
            .find(|(name, _)| name.starts_with("disputed-readings"))
            .unwrap();
        let case = files::parse_case(name, text).unwrap().into_value();
        let session = fixture::open(case);
        let document = session.document();
        let several = |one: &Quantity| document.readings_of(*one).count() > 1;
        let quantity = Quantity::all().find(several).unwrap();
        let rows = rows(document);
        let is_it = |row: &&Row| row.quantity() == Some(quantity);
        let of: Vec<&Row> = rows.iter().filter(is_it).collect();
        assert_eq!(of[0], &Row::Quantity(quantity));
        assert!(of.len() > 2, "{of:?}");
        assert!(of[1..].iter().all(|row| matches!(row, Row::Reading(..))));
    }
}
