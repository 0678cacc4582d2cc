use super::Band;
use measurement::{Quantity, Site, Unit};

/// The wide bounds of quantities: what a value is held against that may be a slip of
/// the pen. No size is judged by it, and the first row that can be applied to a
/// quantity counts.
#[derive(Clone, Debug, PartialEq)]
pub struct WideBoundRow {
    /// The quantities.
    pub of: Vec<Quantity>,
    /// At these sites; empty: at every site.
    pub sites: Vec<Site>,
    /// Between what.
    pub bound: WideBound,
    /// Its source.
    pub source: String,
}

/// Between what a value has to lie, in the quantity's unit.
#[derive(Clone, Debug, PartialEq)]
pub enum WideBound {
    /// Within so many standard deviations of a published table, where one covers the
    /// child.
    Table(f64),
    /// Within a band at each of several weights in kilograms, the weights rising.
    Weight(Vec<(f64, Band)>),
    /// Within one band at any weight.
    Any(Band),
}

impl WideBoundRow {
    /// The bounds in words: `2 kg 0.6 to 10 mm; 5 kg 0.8 to 14 mm`.
    pub fn says(&self) -> String {
        let unit = match self.of.first().map(|one| one.unit()) {
            None | Some(Unit::Ratio) => String::new(),
            Some(unit) => format!(" {}", unit.symbol()),
        };
        let band = |band: &Band| match (band.low, band.high) {
            (Some(low), Some(high)) => format!("{low} to {high}{unit}"),
            (Some(low), None) => format!("at least {low}{unit}"),
            (None, Some(high)) => format!("at most {high}{unit}"),
            (None, None) => "any".to_owned(),
        };
        match &self.bound {
            WideBound::Table(deviations) => {
                format!("within {deviations} SD of the published table that covers the child")
            }
            WideBound::Weight(bands) => {
                let said: Vec<String> = bands
                    .iter()
                    .map(|(kg, at)| format!("{kg} kg {}", band(at)))
                    .collect();
                said.join("; ")
            }
            WideBound::Any(at) => band(at),
        }
    }
}

impl WideBound {
    /// The band at a weight in kilograms, from bands at rising weights: between two
    /// of them along the logarithm of the weight and, where both ends are above 0,
    /// that of the bound; beyond the first and the last as there.
    pub(crate) fn at_weight(bands: &[(f64, Band)], weight: f64) -> Band {
        let after = bands.iter().position(|(kg, _)| *kg >= weight);
        let (Some((first_kg, first)), Some((next_kg, next))) = (match after {
            Some(0) => (bands.first(), bands.first()),
            Some(index) => (bands.get(index - 1), bands.get(index)),
            None => (bands.last(), bands.last()),
        }) else {
            return Band::NONE;
        };
        if first_kg >= next_kg {
            return *first;
        }
        let share = libm::log(weight / first_kg) / libm::log(next_kg / first_kg);
        let between = |one: Option<f64>, other: Option<f64>| {
            let (one, other) = (one?, other?);
            Some(if one > 0.0 && other > 0.0 {
                libm::exp(libm::log(one) * (1.0 - share) + libm::log(other) * share)
            } else {
                one * (1.0 - share) + other * share
            })
        };
        Band {
            low: between(first.low, next.low),
            high: between(first.high, next.high),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_lies_between_those_of_the_weights_beside_it() {
        let band = |low, high| Band {
            low: Some(low),
            high: Some(high),
        };
        let bands = [(2.0, band(0.0, 4.0)), (8.0, band(2.0, 16.0))];
        let at = |weight| WideBound::at_weight(&bands, weight);
        assert_eq!(at(1.0), band(0.0, 4.0));
        assert_eq!(at(2.0), band(0.0, 4.0));
        assert_eq!(at(80.0), band(2.0, 16.0));
        let between = at(4.0);
        assert!((between.low.unwrap() - 1.0).abs() < 1e-12);
        assert!((between.high.unwrap() - 8.0).abs() < 1e-12);
        assert_eq!(WideBound::at_weight(&[], 4.0), Band::NONE);
    }
}
