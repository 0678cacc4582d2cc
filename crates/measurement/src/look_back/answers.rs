use super::wilson;
use crate::split_mix::split_mix;

/// A foretold chance of a yes, and whether a yes was seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ForetoldPair {
    /// The foretold chance, 0 to 1.
    pub chance: f64,
    /// Whether a yes was seen.
    pub seen: bool,
}

impl ForetoldPair {
    /// The squared difference of the chance from 1 for a yes, 0 for a no.
    fn squared(self) -> f64 {
        let apart = self.chance - f64::from(u8::from(self.seen));
        apart * apart
    }
}

/// Brier's score: the mean squared difference of each chance from 1 for a yes and 0 for a
/// no, 0 the best; `None` without pairs (Brier, Monthly Weather Review 1950;78:1, from memory).
pub fn brier(pairs: &[ForetoldPair]) -> Option<f64> {
    let sum: f64 = pairs.iter().map(|pair| pair.squared()).sum();
    (!pairs.is_empty()).then(|| sum / pairs.len() as f64)
}

/// The number of resamples for an interval of Brier's score.
const RESAMPLES: usize = 2000;

/// The 95 % interval of Brier's score over the pairs of all cases: the 2.5 and 97.5 % of
/// 2,000 resamples of whole cases, drawn by splitmix64 from a seed. `None` where there is
/// no pair. Pairs of one case stay together, for they are not independent.
pub fn brier_interval(cases: &[Vec<ForetoldPair>], seed: u64) -> Option<[f64; 2]> {
    let sums: Vec<(f64, usize)> = cases
        .iter()
        .filter(|pairs| !pairs.is_empty())
        .map(|pairs| (pairs.iter().map(|pair| pair.squared()).sum(), pairs.len()))
        .collect();
    if sums.is_empty() {
        return None;
    }
    let mut scores: Vec<f64> = (0..RESAMPLES)
        .map(|resample| {
            let (mut sum, mut pairs) = (0.0, 0);
            for draw in 0..sums.len() {
                let number = (resample * sums.len() + draw) as u64;
                let (squares, count) = sums[below(split_mix(seed, number), sums.len())];
                sum += squares;
                pairs += count;
            }
            sum / pairs as f64
        })
        .collect();
    scores.sort_by(f64::total_cmp);
    let cut = RESAMPLES / 40;
    Some([scores[cut - 1], scores[RESAMPLES - cut]])
}

/// A whole number under `end` from 64 random bits.
fn below(bits: u64, end: usize) -> usize {
    let product = u128::from(bits) * end as u128;
    usize::try_from(product >> u64::BITS).unwrap_or(0)
}

/// Spiegelhalter's Z of independent pairs: beyond ±1.96 the chances do not match what was
/// seen (Spiegelhalter, Statistics in Medicine 1986;5:421, doi
/// 10.1002/sim.4780050506; formula from memory):
/// Σ(y − p)(1 − 2p) / √Σ(1 − 2p)² p (1 − p). `None` where its variance is 0.
pub fn spiegelhalter_z(pairs: &[ForetoldPair]) -> Option<f64> {
    let (mut sum, mut variance) = (0.0, 0.0);
    for &ForetoldPair { chance, seen } in pairs {
        let lean = 1.0 - 2.0 * chance;
        sum += (f64::from(u8::from(seen)) - chance) * lean;
        variance += lean * lean * chance * (1.0 - chance);
    }
    (variance > 0.0).then(|| sum / variance.sqrt())
}

/// A bin of pairs with similar chances, and the share in which a yes was seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bin {
    /// The number of pairs.
    pub pairs: usize,
    /// The mean chance foretold.
    pub foretold: f64,
    /// The number of pairs in which a yes was seen.
    pub seen: usize,
    /// Wilson's 95 % interval of the share of yes.
    pub interval: [f64; 2],
}

impl Bin {
    /// The bin of some pairs; `None` without pairs.
    pub fn of(pairs: &[ForetoldPair]) -> Option<Self> {
        if pairs.is_empty() {
            return None;
        }
        let seen = pairs.iter().filter(|pair| pair.seen).count();
        let sum: f64 = pairs.iter().map(|pair| pair.chance).sum();
        Some(Self {
            pairs: pairs.len(),
            foretold: sum / pairs.len() as f64,
            seen,
            interval: wilson(seen, pairs.len()),
        })
    }
}

/// The fewest pairs that are shown in bins.
const FEWEST: usize = 100;
/// The most bins, and the fewest pairs of each.
const BINS: usize = 10;

/// Pairs in min(10, n/10) bins of equal count, by rising chance; empty of fewer than 100.
pub fn reliability(pairs: &[ForetoldPair]) -> Vec<Bin> {
    if pairs.len() < FEWEST {
        return Vec::new();
    }
    let mut sorted = pairs.to_vec();
    sorted.sort_by(|one, other| one.chance.total_cmp(&other.chance));
    let bins = BINS.min(pairs.len() / BINS);
    let edge = |bin: usize| bin * sorted.len() / bins;
    (0..bins)
        .filter_map(|bin| Bin::of(&sorted[edge(bin)..edge(bin + 1)]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pairs(count: usize, chance: f64, seen: usize) -> Vec<ForetoldPair> {
        (0..count)
            .map(|index| ForetoldPair {
                chance,
                seen: index < seen,
            })
            .collect()
    }

    #[test]
    fn sure_and_right_has_no_z() {
        let mut sure = pairs(20, 1.0, 20);
        sure.extend(pairs(20, 0.0, 0));
        sure.extend(pairs(4, 0.5, 2));
        assert_eq!(spiegelhalter_z(&sure), None);
        assert_eq!(brier(&sure), Some(1.0 / 44.0));
        assert_eq!((brier(&[]), brier_interval(&[], 1)), (None, None));
    }

    #[test]
    fn bins_are_of_equal_count_from_a_hundred_pairs_on() {
        assert_eq!(reliability(&pairs(99, 0.3, 10)), []);
        let mut many = pairs(80, 0.2, 16);
        many.extend(pairs(45, 0.7, 30));
        let bins = reliability(&many);
        assert_eq!(bins.len(), 10);
        assert!(bins.iter().all(|bin| (12..=13).contains(&bin.pairs)));
        assert_eq!(bins.iter().map(|bin| bin.pairs).sum::<usize>(), 125);
        assert_eq!(bins.iter().map(|bin| bin.seen).sum::<usize>(), 46);
        assert!(bins.is_sorted_by(|one, other| one.foretold < other.foretold + 1e-12));
    }

    #[test]
    fn an_interval_holds_its_score_and_narrows_with_cases() {
        let cases = |count: usize| -> Vec<Vec<ForetoldPair>> {
            (0..count)
                .map(|case| pairs(2, 0.3, usize::from(case % 3 == 0)))
                .collect()
        };
        let width = |count: usize| {
            let score = brier(&cases(count).concat()).unwrap();
            let [low, high] = brier_interval(&cases(count), 7).unwrap();
            assert!(low < score && score < high);
            assert_eq!(brier_interval(&cases(count), 7), Some([low, high]));
            high - low
        };
        assert!(width(300) < 0.5 * width(60));
    }
}
