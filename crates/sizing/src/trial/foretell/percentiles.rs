use crate::procedure::{PERCENTILES, share_under};

/// How many times the room of a value is halved: to 1/4,096 of it.
const HALVINGS: u32 = 12;

/// 5, 10 … 95 % of a value from 0 to `room`, where `under` is the probability of a value
/// at or under one: the least value that reaches each, to 1/4,096 of the room, and 0
/// where 0 does.
pub(super) fn of(under: impl Fn(f64) -> f64, room: f64) -> [f64; PERCENTILES] {
    let at_zero = under(0.0);
    let mut least = 0.0;
    std::array::from_fn(|index| {
        let share = share_under(index);
        if at_zero >= share {
            return 0.0;
        }
        let (mut low, mut high) = (least, room);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if under(middle) >= share {
                high = middle;
            } else {
                low = middle;
            }
        }
        least = low;
        high
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::normal;

    #[test]
    fn percentiles_of_a_normal_law_are_its_quantiles() {
        let found = of(|seen| normal::probability((seen - 5.0) / 1.5), 20.0);
        for (index, value) in found.iter().enumerate() {
            let exact = 5.0 + 1.5 * normal::quantile(share_under(index));
            assert!(
                (value - exact).abs() < 20.0 / 4096.0,
                "{index}: {value} {exact}"
            );
        }
    }

    #[test]
    fn what_lies_at_zero_has_percentiles_there() {
        let found = of(|seen| 0.32 + 0.68 * seen / 10.0, 10.0);
        assert_eq!(found[..6], [0.0; 6]);
        assert!(found[6] > 0.0 && found.is_sorted());
    }
}
