use std::fmt;

/// What a formula was made for: the range of one of its inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The input: "weight".
    pub input: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Least value, included.
    pub least: f64,
    /// Greatest value, included; infinite where none is known.
    pub most: f64,
    /// Who says so.
    pub source: &'static str,
}

impl Span {
    /// How a value lies outside; `None` within.
    pub fn outside(&'static self, value: f64) -> Option<Outside> {
        let within = self.least <= value && value <= self.most;
        (!within).then_some(Outside { value, span: self })
    }
}

/// An input that lies outside what the formula was made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// The input's value, in the span's unit.
    pub value: f64,
    /// What the formula was made for.
    pub span: &'static Span,
}

impl fmt::Display for Outside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { value, span } = self;
        let Span {
            input,
            unit,
            least,
            most,
            source,
        } = span;
        if most.is_finite() {
            write!(
                f,
                "{input} {value:.3} {unit} is outside {least} to {most} {unit} ({source})"
            )
        } else {
            write!(
                f,
                "{input} {value:.3} {unit} is under {least} {unit} ({source})"
            )
        }
    }
}

/// A result, and which input lay outside what its formula was made for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranged<T> {
    /// The result; outside the range an extrapolation.
    pub value: T,
    /// The first input that lay outside; `None` if all lay within.
    pub outside: Option<Outside>,
}

impl<T> Ranged<T> {
    /// Something worked out from the result, with the same mark.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Ranged<U> {
        Ranged {
            value: change(self.value),
            outside: self.outside,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    static WEIGHT: Span = Span {
        input: "weight",
        unit: "kg",
        least: 2.0,
        most: 122.6,
        source: "a table",
    };
    static AREA: Span = Span {
        input: "area",
        unit: "m²",
        least: 0.7,
        most: f64::INFINITY,
        source: "a paper",
    };

    #[test]
    fn the_ends_belong_to_the_range() {
        assert_eq!(WEIGHT.outside(2.0), None);
        assert_eq!(WEIGHT.outside(122.6), None);
        assert!(WEIGHT.outside(1.999).is_some());
        assert!(WEIGHT.outside(f64::NAN).is_some());
    }

    #[test]
    fn says_how() {
        let light = WEIGHT.outside(1.8).unwrap();
        assert_eq!(
            light.to_string(),
            "weight 1.800 kg is outside 2 to 122.6 kg (a table)"
        );
        let small = AREA.outside(0.21).unwrap();
        assert_eq!(small.to_string(), "area 0.210 m² is under 0.7 m² (a paper)");
    }
}
