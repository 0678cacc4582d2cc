use std::fmt;

/// The range of one input for which a formula was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The name of the input, such as "weight".
    pub input: &'static str,
    /// The unit of the input.
    pub unit: &'static str,
    /// Least value, included.
    pub least: f64,
    /// Greatest value, included; infinite where none is known.
    pub most: f64,
    /// The source of the range.
    pub source: &'static str,
}

impl Span {
    /// Marks a value that lies outside; `None` within.
    pub fn outside(&'static self, value: f64) -> Option<Outside> {
        let within = self.least <= value && value <= self.most;
        (!within).then_some(Outside { value, span: self })
    }
}

/// An input that lies outside the range for which a formula was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// The input's value, in the span's unit.
    pub value: f64,
    /// The range it lies outside of.
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

/// A result, marked where an input lay outside the range of its formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranged<T> {
    /// The result; outside the range an extrapolation.
    pub value: T,
    /// The first input that lay outside; `None` if all lay within.
    pub outside: Option<Outside>,
}

impl<T> Ranged<T> {
    /// Applies a function to the result and keeps the mark.
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
