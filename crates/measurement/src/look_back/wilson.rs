use crate::normal;

/// The probability below the upper end of a 95 % interval.
pub(super) const TWO_SIDED: f64 = 0.975;

/// Wilson's 95 % interval of the share `yes` of `all` (Wilson, Journal of
/// the American Statistical Association 1927;22:209, from memory). `[0, 1]` where `all` is 0.
pub fn wilson(yes: usize, all: usize) -> [f64; 2] {
    if all == 0 {
        return [0.0, 1.0];
    }
    let (count, z) = (all as f64, normal::quantile(TWO_SIDED));
    let share = yes as f64 / count;
    let z2 = z * z / count;
    let middle = share + 0.5 * z2;
    let half = z * (share * (1.0 - share) / count + 0.25 * z2 / count).sqrt();
    let low = ((middle - half) / (1.0 + z2)).max(0.0);
    let high = ((middle + half) / (1.0 + z2)).min(1.0);
    // At the ends the sums leave a last digit of rounding.
    [
        if yes == 0 { 0.0 } else { low },
        if yes == all { 1.0 } else { high },
    ]
}
