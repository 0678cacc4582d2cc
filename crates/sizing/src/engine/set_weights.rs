use super::DrawSet;
use measurement::Weights;

/// The weights of draws, made ready to be summed over many sets of them.
///
/// A table of sums for each four draws: a set of 4,096 is a thousand look-ups. Weights
/// are whole numbers, so that sums are exact in any order.
#[derive(Clone, Debug)]
pub struct SetWeights {
    /// By group of four draws and by which of them are in a set.
    sums: Vec<[u64; 16]>,
    all: u64,
}

/// Draws that share a row of the table.
const GROUP: usize = 4;

impl SetWeights {
    /// Those of some weights.
    pub fn new(weights: &Weights) -> Self {
        let groups = weights.draws().div_ceil(GROUP);
        let sums = (0..groups).map(|group| {
            let mut row = [0; 16];
            for (members, sum) in row.iter_mut().enumerate() {
                *sum = (0..GROUP)
                    .filter(|place| members >> place & 1 == 1)
                    .map(|place| weights.whole(group * GROUP + place))
                    .sum();
            }
            row
        });
        let sums: Vec<[u64; 16]> = sums.collect();
        Self {
            all: sums.iter().map(|row| row[15]).sum(),
            sums,
        }
    }

    /// The weight of the draws that are in a set.
    pub fn of(&self, set: &DrawSet) -> u64 {
        self.of_words(set.words().iter().copied())
    }

    /// The weight of the draws that are in either set.
    pub fn of_either(&self, one: &DrawSet, other: &DrawSet) -> u64 {
        let words = one.words().iter().zip(other.words());
        self.of_words(words.map(|(one, other)| one | other))
    }

    /// The largest weight whose share of all is no more than a share under 1.
    pub(crate) fn part(&self, share: f64) -> u64 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "at least 0 and under 2^53"
        )]
        let part = (share * self.all as f64) as u64;
        // Rounding may leave the product a hair to either side.
        let near = [part + 1, part, part.saturating_sub(1)];
        near.into_iter()
            .find(|&weight| self.share(weight) <= share)
            .unwrap_or(0)
    }

    /// A weight as a share of all; 0 where there is none.
    pub fn share(&self, weight: u64) -> f64 {
        if self.all == 0 {
            return 0.0;
        }
        weight as f64 / self.all as f64
    }

    /// The weight of the draws that are in neither set, as far as it does not pass a
    /// bound; `None` where it does.
    pub(crate) fn of_neither(&self, one: &DrawSet, other: &DrawSet, most: u64) -> Option<u64> {
        let words = one.words().iter().zip(other.words());
        self.at_most(words.map(|(one, other)| !(one | other)), most)
    }

    /// The sum over words of draws, given up as soon as it passes a bound.
    pub(crate) fn at_most(&self, words: impl Iterator<Item = u64>, most: u64) -> Option<u64> {
        let groups = self.sums.chunks(u64::BITS as usize / GROUP);
        let mut sum = 0;
        for (rows, word) in groups.zip(words) {
            sum += of_word(rows, word);
            if sum > most {
                return None;
            }
        }
        Some(sum)
    }

    /// The weight of all draws.
    pub(crate) const fn all(&self) -> u64 {
        self.all
    }

    fn of_words(&self, words: impl Iterator<Item = u64>) -> u64 {
        let groups = self.sums.chunks(u64::BITS as usize / GROUP);
        groups
            .zip(words)
            .map(|(rows, word)| of_word(rows, word))
            .sum()
    }
}

/// The weight of the draws of one word of a set, by the rows of its groups.
fn of_word(rows: &[[u64; 16]], word: u64) -> u64 {
    let rows = rows.iter().enumerate();
    rows.map(|(place, row)| row[(word >> (GROUP * place) & 15) as usize])
        .sum()
}
