use super::rows::names;
use crate::Subject;
use crate::procedure::ObservationKind;
use measurement::Site;

/// A row of a house's schedule of follow-up: what is looked at after a device was
/// released, and on which days.
#[derive(Clone, Debug, PartialEq)]
pub struct ScheduleRow {
    /// What is looked at.
    pub what: ObservationKind,
    /// Of which subjects; empty: of each that it can be asked of.
    pub of: Vec<Subject>,
    /// The sites; empty: every site.
    pub sites: Vec<Site>,
    /// Only where a jet was seen after the release, or at it.
    pub if_jet: bool,
    /// Days after the procedure, the earlier first.
    pub days: Vec<u32>,
    /// Every so many days after the last of them; `None`: no more.
    pub then_every: Option<u32>,
    /// How it is looked at.
    pub how: String,
    /// Its source.
    pub source: String,
}

impl ScheduleRow {
    /// Whether it is of a site.
    pub fn is_of(&self, site: Site) -> bool {
        names(&self.sites, site)
    }

    /// Its days up to a day, and the first after it.
    pub(crate) fn days_to(&self, day: f64) -> Vec<u32> {
        let mut days = self.days.clone();
        if let (Some(&last), Some(every)) = (self.days.last(), self.then_every.filter(|it| *it > 0))
        {
            let mut next = last;
            while f64::from(next) <= day {
                next = next.saturating_add(every);
                days.push(next);
            }
        }
        let past = days.iter().filter(|&&it| f64::from(it) <= day).count();
        days.truncate(past + 1);
        days
    }

    /// It in words: "days 1, 7, 30, then every 365 days".
    pub fn says(&self) -> String {
        let days: Vec<String> = self.days.iter().map(ToString::to_string).collect();
        let word = if days.len() == 1 { "day" } else { "days" };
        let then = match self.then_every {
            Some(365) => ", then yearly".to_owned(),
            Some(every) => format!(", then every {every} days"),
            None => String::new(),
        };
        let jet = if self.if_jet {
            "; only where a jet was seen"
        } else {
            ""
        };
        format!("{word} {}{then}{jet}", days.join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(days: &[u32], then_every: Option<u32>) -> ScheduleRow {
        ScheduleRow {
            what: ObservationKind::Rhythm,
            of: Vec::new(),
            sites: Vec::new(),
            if_jet: false,
            days: days.to_vec(),
            then_every,
            how: String::new(),
            source: String::new(),
        }
    }

    #[test]
    fn days_go_on_as_the_row_says() {
        let yearly = row(&[1, 7, 365], Some(365));
        assert_eq!(yearly.days_to(0.0), [1]);
        assert_eq!(yearly.days_to(1.0), [1, 7]);
        assert_eq!(yearly.days_to(400.0), [1, 7, 365, 730]);
        assert_eq!(yearly.days_to(730.0), [1, 7, 365, 730, 1095]);
        assert_eq!(row(&[30, 365], None).days_to(1000.0), [30, 365]);
        assert_eq!(yearly.says(), "days 1, 7, 365, then yearly");
    }
}
