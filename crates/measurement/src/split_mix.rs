/// Output number `number`, from 0, of splitmix64 with a seed (Steele, Lea and Flood,
/// OOPSLA 2014).
pub(crate) const fn split_mix(seed: u64, number: u64) -> u64 {
    const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;
    let mut mixed = seed.wrapping_add(GOLDEN.wrapping_mul(number.wrapping_add(1)));
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    mixed ^ (mixed >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first outputs with seed 1234567 in the test of other libraries (from memory).
    #[test]
    fn first_outputs_are_the_published_ones() {
        let first = [0, 1, 2].map(|number| split_mix(1_234_567, number));
        let published = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
        ];
        assert_eq!(first, published);
    }
}
