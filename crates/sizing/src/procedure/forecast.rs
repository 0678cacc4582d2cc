use super::ObservationKind;
use crate::Subject;

/// The forecasts that are frozen with a trial: what was expected of it, for follow-up
/// and look-back to be held against.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Forecasts {
    /// By the trials before it alone, when it was opened.
    pub opened: Option<Forecast>,
    /// By all that was seen until it closed, as the device lies.
    pub closed: Option<Forecast>,
}

/// What was expected of one size at one time.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// The effective number of simulated variations behind it.
    pub effective: f64,
    /// The chance that no limit is broken by the readings alone, before any trial; only
    /// at opening.
    pub inside_before: Option<f64>,
    /// The chance that no limit is broken: of a fresh opening, or as the device lies.
    pub inside: f64,
    /// The chance of each assessed check that its limit holds.
    pub limits: Vec<LimitForecast>,
    /// What would be seen, for each thing that can be looked at.
    pub seen: Vec<SeenForecast>,
}

/// The chance that one check's limit holds.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitForecast {
    /// The check's id, as in output.
    pub check: String,
    /// Its subject.
    pub of: Subject,
    /// The geometry chance that its limit holds.
    pub chance: f64,
}

/// What would be seen of one thing, by the law of its observation with your centre's
/// standard deviation.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenForecast {
    /// What is looked at.
    pub what: ObservationKind,
    /// Its subject.
    pub of: Subject,
    /// The chance of a yes, or of a value over `over`; `None`: nothing of it is asked as
    /// yes or no.
    pub yes: Option<f64>,
    /// The limit over which a value counts as yes, in its unit.
    pub over: Option<f64>,
    /// What is foretold of its value; `None` of an answer.
    pub value: Option<ValueForecast>,
}

/// What is foretold of a value, in the unit of its kind.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueForecast {
    /// What the readings alone give, to be compared with what is seen: for a distance and
    /// a gradient the mean of the modelled value over simulated variations, for the waist
    /// the perimeter-derived diameter of the defect as measured. Only at opening.
    pub by_readings: Option<f64>,
    /// The most it can be seen as, where the device has one: the width of the waist.
    pub at_most: Option<f64>,
    /// The chance that it is seen as 0.
    pub at_zero: f64,
    /// 5, 10 … 95 % of what would be seen, in ascending order.
    pub percentiles: [f64; PERCENTILES],
}

/// How many percentiles a forecast of a value has: 5, 10 … 95 %.
pub const PERCENTILES: usize = 19;

/// The share of what would be seen that lies at or under a percentile, by its index.
pub fn share_under(index: usize) -> f64 {
    (index + 1) as f64 / (PERCENTILES + 1) as f64
}

impl Forecast {
    /// What is foretold of one thing that can be looked at.
    pub fn of(&self, what: ObservationKind, of: Subject) -> Option<&SeenForecast> {
        let mut all = self.seen.iter();
        all.find(|one| one.what == what && one.of == of)
    }
}

impl Forecasts {
    /// Whether nothing was foretold.
    pub const fn is_empty(&self) -> bool {
        self.opened.is_none() && self.closed.is_none()
    }
}

impl ValueForecast {
    /// Among how many twentieths of what would be seen a value lies, from 0 to 19; a
    /// value on a percentile counts above it.
    pub fn twentieth(&self, seen: f64) -> usize {
        let mut all = self.percentiles.iter();
        all.position(|&one| seen < one).unwrap_or(PERCENTILES)
    }
}
