use super::{BreakEven, BreakEvens, BrokenLimit, Change, accuracy};
use crate::{State, words};
use measurement::{ModelError, Quantity, Unit};

impl BreakEvens {
    /// What is held, in a phrase.
    pub fn held_says(&self) -> String {
        match self.held {
            State::Stop => format!(
                "does not fit {}: {} beyond the limit",
                self.as_what(),
                self.broken()
            ),
            State::Caution => format!(
                "borderline {}: {} inside the warning margin",
                self.as_what(),
                self.broken()
            ),
            State::Ok => format!("no limit is broken {}", self.as_what()),
            State::NotAssessed => "not rated".into(),
        }
    }

    /// What the state that is held is of.
    const fn as_what(&self) -> &'static str {
        if self.takes_trials_in {
            "as now believed, trials taken in"
        } else {
            "as measured"
        }
    }

    /// What of the model itself would change the state, a sentence for each end.
    pub fn model_says(&self) -> Vec<String> {
        let each = self.of_model.iter().flat_map(|one| {
            let below = one.below.iter().map(|end| (end, -1.0));
            let above = one.above.iter().map(|end| (end, 1.0));
            below.chain(above).map(|(end, direction)| {
                let at = outward(one.error, end.at, direction);
                let likely = small_percent(end.chance);
                format!(
                    "{} would change the verdict, {likely} likely",
                    one.error.says(at)
                )
            })
        });
        each.collect()
    }

    /// One sentence on a reading.
    pub fn says(&self, of: &BreakEven) -> String {
        let read = if self.takes_trials_in {
            format!("now believed {}", of.now_says())
        } else {
            read(of)
        };
        if of.below.is_none() && of.above.is_none() {
            return format!("no value the {} can have changes that; {read}", of.quantity);
        }
        match self.held {
            State::Stop => format!(
                "would be inside its limits if the {} were {}; {read}; {}",
                of.quantity,
                beyond(of),
                chances(of, |_| String::new()),
            ),
            State::Caution => format!(
                "borderline while the {} is {}; {read}; {}",
                of.quantity,
                within(of),
                chances(of, then)
            ),
            State::Ok | State::NotAssessed => format!(
                "fits while the {} is {}; {read}; {}",
                of.quantity,
                within(of),
                chances(of, then)
            ),
        }
    }

    /// Where the state as measured changes, for a column of a table: one text an end,
    /// the lower one first. `under 1.4 mm`; of what does not fit, where it would no
    /// longer: `2.4 mm or more`.
    pub fn ends_say(&self, of: &BreakEven) -> Vec<String> {
        let unit = unit(of.quantity);
        let is_broken = self.held == State::Stop;
        let say = |end: &Change, is_below: bool| {
            // Rounded so that nothing is promised that does not hold.
            let direction = if is_below == is_broken { -1.0 } else { 1.0 };
            let at = inward(of.quantity, end, direction);
            match (is_broken, is_below) {
                (true, true) => format!("{at}{unit} or less"),
                (true, false) => format!("{at}{unit} or more"),
                (false, true) => format!("under {at}{unit}"),
                (false, false) => format!("over {at}{unit}"),
            }
        };
        let below = of.below.iter().map(|end| say(end, true));
        below
            .chain(of.above.iter().map(|end| say(end, false)))
            .collect()
    }

    /// The sentence on the reading to doubt first; `None` where none changes
    /// anything.
    pub fn says_first(&self) -> Option<String> {
        let first = self.readings.first()?;
        first.ends().next()?;
        Some(self.says(first))
    }

    fn broken(&self) -> String {
        let named: Vec<String> = self.by.iter().map(BrokenLimit::name).collect();
        words::list(&named)
    }
}

impl BreakEven {
    /// Its value with one standard deviation, for a column of a table:
    /// `0.6 ± 0.3 mm`; `~` before a value that nobody measured.
    pub fn now_says(&self) -> String {
        let digits = usize::from(decimals(self.quantity));
        // A doubt that rounds to nothing would read as none.
        let half_a_digit = 0.5 * 0.1_f64.powi(i32::from(decimals(self.quantity)));
        let sd_digits = digits + usize::from(self.sd > 0.0 && self.sd < half_a_digit);
        format!(
            "{}{:.digits$} ± {:.sd_digits$}{}",
            if self.is_assumed { "~" } else { "" },
            self.value + 0.0,
            self.sd,
            unit(self.quantity)
        )
    }
}

impl BrokenLimit {
    /// The check and its subject: `clearance of the aortic valve`.
    pub fn name(&self) -> String {
        match self.of {
            crate::Subject::Shape => self.title.to_owned(),
            of => format!("{} of the {of}", self.title),
        }
    }
}

/// The values at which the state stays, rounded inward.
pub(super) fn within(of: &BreakEven) -> String {
    let low = of.below.as_ref().map(|end| inward(of.quantity, end, 1.0));
    let high = of.above.as_ref().map(|end| inward(of.quantity, end, -1.0));
    let unit = unit(of.quantity);
    match (low, high) {
        (Some(low), Some(high)) => format!("{low} to {high}{unit}"),
        (Some(low), None) => format!("{low}{unit} or more"),
        (None, Some(high)) => format!("{high}{unit} or less"),
        (None, None) => "what it may be".into(),
    }
}

/// The values beyond, rounded outward from the interval.
pub(super) fn beyond(of: &BreakEven) -> String {
    let low = of.below.as_ref().map(|end| inward(of.quantity, end, -1.0));
    let high = of.above.as_ref().map(|end| inward(of.quantity, end, 1.0));
    let unit = unit(of.quantity);
    match (low, high) {
        (Some(low), Some(high)) => format!("{low}{unit} or less, or {high}{unit} or more"),
        (Some(low), None) => format!("{low}{unit} or less"),
        (None, Some(high)) => format!("{high}{unit} or more"),
        (None, None) => "otherwise".into(),
    }
}

/// An end with the decimals its unit is read with, rounded up or down so that
/// nothing is promised that does not hold.
fn inward(quantity: Quantity, end: &Change, direction: f64) -> String {
    let decimals = decimals(quantity);
    let power = 10_f64.powi(i32::from(decimals));
    // What is not told apart does not carry to the next figure.
    let at = (end.at - direction * accuracy(quantity)) * power;
    let rounded = if direction > 0.0 {
        at.ceil()
    } else {
        at.floor()
    };
    // Adding 0 turns −0 into 0.
    format!("{:.*}", usize::from(decimals), rounded / power + 0.0)
}

/// An end of a model error as it is shown, rounded so that it lies beyond.
fn outward(error: ModelError, at: f64, direction: f64) -> f64 {
    let away = |value: f64, steps: f64| {
        let scaled = value * steps;
        let whole = if direction < 0.0 {
            scaled.floor()
        } else {
            scaled.ceil()
        };
        whole / steps
    };
    match error {
        ModelError::GradientLeft | ModelError::GradientRight => {
            libm::log(away(libm::exp(at), 100.0))
        }
        _ => away(at, 10.0),
    }
}

const fn decimals_of(unit: Unit) -> u8 {
    match unit {
        Unit::Degrees | Unit::MmHg => 0,
        Unit::Ratio | Unit::Years | Unit::MPerS => 2,
        _ => 1,
    }
}

fn decimals(quantity: Quantity) -> u8 {
    decimals_of(quantity.unit())
}

fn unit(quantity: Quantity) -> String {
    match quantity.unit() {
        Unit::Ratio => String::new(),
        Unit::Degrees => "°".into(),
        unit => format!(" {}", unit.symbol()),
    }
}

/// `read 2.4 ± 0.5 mm`.
fn read(of: &BreakEven) -> String {
    let digits = usize::from(decimals(of.quantity));
    format!(
        "{} {:.digits$} ± {:.digits$}{}",
        if of.is_assumed { "assumed" } else { "measured" },
        of.value + 0.0,
        of.sd,
        unit(of.quantity)
    )
}

/// What a check breaks in a state.
const fn band(state: State) -> &'static str {
    match state {
        State::Stop => "limit",
        State::Ok | State::Caution | State::NotAssessed => "warning",
    }
}

/// What happens beyond an end.
fn then(change: &Change) -> String {
    let by = change.by.map(|by| (by.name(), by.severity));
    match (by, change.becomes) {
        (Some((name, severity)), becomes) if severity == becomes => {
            format!(" (then {name} breaks its {})", band(becomes))
        }
        (Some((name, severity)), _) => {
            format!(" (then {name} no longer breaks its {})", band(severity))
        }
        (None, _) => String::new(),
    }
}

/// The chance of either side, with what is said of it.
fn chances(of: &BreakEven, then: impl Fn(&Change) -> String) -> String {
    let one = |side: &str, change: &Change| {
        format!("{side}: {}{}", small_percent(change.chance), then(change))
    };
    match (&of.below, &of.above) {
        (Some(below), Some(above)) => format!(
            "chance that it is {}, {}",
            one("less", below),
            one("more", above)
        ),
        (Some(below), None) => format!("chance that it is {}", one("less", below)),
        (None, Some(above)) => format!("chance that it is {}", one("more", above)),
        (None, None) => String::new(),
    }
}

/// A share in per cent: one that rounds to 0 is not said to be none.
fn small_percent(share: f64) -> String {
    const HALF_A_PERCENT: f64 = 0.005;
    if share < HALF_A_PERCENT {
        "under 1 %".into()
    } else {
        words::percent(share)
    }
}
