use crate::in_range::{Outside, Span};
use measurement::{BeatsPerMin, MlPerMinM2, Ratio, Years};

/// The sex by which the formula for oxygen uptake tells two groups apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sex {
    /// Female.
    Female,
    /// Male.
    Male,
}

/// An oxygen uptake that was not measured, and the published error of its formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AssumedUptake {
    /// The uptake by the formula.
    pub formula: MlPerMinM2,
    /// Mean of the published ratio of the formula to the truth.
    pub over_truth: Ratio,
    /// Standard deviation of that ratio.
    pub over_truth_sd: Ratio,
    /// The age, where it lies outside that of the formula's patients.
    pub outside: Option<Outside>,
}

/// Why no oxygen uptake is assumed.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum UptakeRefused {
    /// The formula was made over 3 years of age.
    #[error(
        "no oxygen uptake assumed at {:.2} years: under 3 years the formula gave 53 ± 52 % too \
         much (Rutledge 2010); measure it",
        .0.value()
    )]
    UnderThree(Years),
    /// No age above 0: the formula takes its logarithm.
    #[error("no oxygen uptake assumed without an age above 0")]
    NoAge,
}

static AGES: Span = Span {
    input: "age",
    unit: "years",
    least: 3.0,
    most: f64::INFINITY,
    source: "LaFarge and Miettinen 1970",
};

/// Oxygen uptake by LaFarge and Miettinen from 3 years of age on.
///
/// 138.1 − k ln(age) + 0.378 × heart rate, k 11.49 in males and 17.04 in
/// females: Cardiovasc Res 1970;4:23-30, doi 10.1093/cvr/4.1.23 (from memory).
/// In ventilated children it gave 11 ± 21 % too much, under 3 years 53 ± 52 %:
/// Rutledge, Am Heart J 2010;160:109-114.
pub fn assumed_uptake(
    sex: Sex,
    age: Years,
    rate: BeatsPerMin,
) -> Result<AssumedUptake, UptakeRefused> {
    let assumed = uptake_at_any_age(sex, age, rate)?;
    match assumed.outside {
        None => Ok(assumed),
        Some(_) => Err(UptakeRefused::UnderThree(age)),
    }
}

/// Oxygen uptake by the same formula at any age above 0, under 3 years marked, and with
/// the doubt published for that age.
fn uptake_at_any_age(
    sex: Sex,
    age: Years,
    rate: BeatsPerMin,
) -> Result<AssumedUptake, UptakeRefused> {
    if age <= Years(0.0) {
        return Err(UptakeRefused::NoAge);
    }
    let fall = match sex {
        Sex::Male => 11.49,
        Sex::Female => 17.04,
    };
    let uptake = 138.1 - fall * libm::log(age.value()) + 0.378 * rate.value();
    let outside = AGES.outside(age.value());
    let [over, sd] = if outside.is_some() {
        [1.53, 0.52]
    } else {
        [1.11, 0.21]
    };
    Ok(AssumedUptake {
        formula: MlPerMinM2(uptake),
        over_truth: Ratio(over),
        over_truth_sd: Ratio(sd),
        outside,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATE: BeatsPerMin = BeatsPerMin(140.0);

    #[test]
    fn an_infant_is_refused_and_the_published_error_is_larger() {
        let age = Years(0.5);
        let refused = assumed_uptake(Sex::Male, age, RATE);
        assert_eq!(refused, Err(UptakeRefused::UnderThree(age)));
        let insisted = uptake_at_any_age(Sex::Male, age, RATE).unwrap();
        assert!(insisted.outside.is_some());
        assert_eq!(insisted.over_truth, Ratio(1.53));
    }

    #[test]
    fn three_years_and_more_are_answered_with_less_doubt() {
        let assumed = assumed_uptake(Sex::Female, Years(3.0), RATE).unwrap();
        assert_eq!(assumed.outside, None);
        assert_eq!(assumed.over_truth_sd, Ratio(0.21));
    }

    #[test]
    fn no_age_no_uptake() {
        for age in [Years(0.0), Years(-1.0)] {
            let refused = uptake_at_any_age(Sex::Male, age, RATE);
            assert_eq!(refused, Err(UptakeRefused::NoAge));
        }
    }
}
