//! What was foretold of a trial, for programs.

use serde::Serialize;
use sizing::trial::{Forecast, Forecasts, SeenForecast};

#[derive(Serialize)]
pub(super) struct ForecastJson<'a> {
    opened: Option<One<'a>>,
    closed: Option<One<'a>>,
}

#[derive(Serialize)]
struct One<'a> {
    ess: f64,
    inside_before: Option<f64>,
    inside: f64,
    limits: Vec<Limit<'a>>,
    seen: Vec<SeenJson>,
}

#[derive(Serialize)]
struct Limit<'a> {
    check: &'a str,
    of: &'static str,
    chance: f64,
}

#[derive(Serialize)]
struct SeenJson {
    what: &'static str,
    of: &'static str,
    yes: Option<f64>,
    over: Option<f64>,
    by_readings: Option<f64>,
    at_most: Option<f64>,
    at_zero: Option<f64>,
    percentiles: Option<Vec<f64>>,
}

impl<'a> ForecastJson<'a> {
    pub(super) fn of(forecasts: &'a Forecasts) -> Self {
        Self {
            opened: forecasts.opened.as_ref().map(One::of),
            closed: forecasts.closed.as_ref().map(One::of),
        }
    }
}

impl<'a> One<'a> {
    fn of(forecast: &'a Forecast) -> Self {
        let limits = forecast.limits.iter();
        Self {
            ess: forecast.effective,
            inside_before: forecast.inside_before,
            inside: forecast.inside,
            limits: limits
                .map(|limit| Limit {
                    check: &limit.check,
                    of: limit.of.name(),
                    chance: limit.chance,
                })
                .collect(),
            seen: forecast.seen.iter().map(SeenJson::of).collect(),
        }
    }
}

impl SeenJson {
    fn of(seen: &SeenForecast) -> Self {
        let value = seen.value.as_ref();
        Self {
            what: seen.what.name(),
            of: seen.of.name(),
            yes: seen.yes,
            over: seen.over,
            by_readings: value.and_then(|it| it.by_readings),
            at_most: value.and_then(|it| it.at_most),
            at_zero: value.map(|it| it.at_zero),
            percentiles: value.map(|it| it.percentiles.to_vec()),
        }
    }
}
