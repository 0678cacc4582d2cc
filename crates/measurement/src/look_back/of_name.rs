use crate::split_mix::split_mix;

/// A number from 0 to under 1 that depends on a name and a number alone, and so is the
/// same in every run. It places a value within a range where only the range is known.
pub fn uniform_of_name(name: &str, number: u64) -> f64 {
    let bytes = name.bytes().map(u64::from);
    let hash = bytes.fold(number, |hash, byte| split_mix(hash ^ byte, 0));
    (hash >> 11) as f64 / (1_u64 << 53) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_spread_evenly() {
        let mut tenths = [0_u32; 10];
        for case in 0..10_000 {
            let number = uniform_of_name(&format!("case-{case}"), 3);
            assert!((0.0..1.0).contains(&number));
            let tenth = tenths
                .iter()
                .enumerate()
                .rposition(|(at, _)| number * 10.0 >= at as f64);
            tenths[tenth.unwrap()] += 1;
        }
        assert!(
            tenths.iter().all(|count| (900..1100).contains(count)),
            "{tenths:?}"
        );
    }
}
