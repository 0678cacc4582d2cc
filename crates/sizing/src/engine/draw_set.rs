/// A set of draws, counted through the blocks in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DrawSet {
    words: Vec<u64>,
    len: usize,
}

impl DrawSet {
    /// None of a number of draws.
    pub fn none(draws: usize) -> Self {
        Self {
            words: vec![0; draws.div_ceil(Self::WORD)],
            len: draws,
        }
    }

    /// The draws for which something holds.
    pub fn of(draws: usize, holds: impl Fn(usize) -> bool) -> Self {
        let mut set = Self::none(draws);
        for draw in (0..draws).filter(|&draw| holds(draw)) {
            set.insert(draw);
        }
        set
    }

    /// Adds a draw; one beyond the last is no draw.
    pub fn insert(&mut self, draw: usize) {
        if draw < self.len {
            self.words[draw / Self::WORD] |= 1 << (draw % Self::WORD);
        }
    }

    /// Adds draws counted by bit from `first`, which is a multiple of 64 or shares
    /// its word with none of them.
    pub(super) fn insert_all(&mut self, first: usize, bits: u64) {
        let (word, shift) = (first / Self::WORD, first % Self::WORD);
        if let Some(word) = self.words.get_mut(word) {
            *word |= bits << shift;
        }
    }

    /// Its draws by bit from `first` on, as far as the word of that goes.
    pub(super) fn lanes(&self, first: usize) -> u64 {
        let word = self.words.get(first / Self::WORD).copied();
        word.unwrap_or(0) >> (first % Self::WORD)
    }

    /// Adds the draws of another set of the same draws.
    pub(crate) fn insert_set(&mut self, other: &Self) {
        for (mine, others) in self.words.iter_mut().zip(&other.words) {
            *mine |= others;
        }
    }

    /// Its draws by bit, 64 to a word.
    pub(crate) fn words(&self) -> &[u64] {
        &self.words
    }

    /// Whether a draw is in the set.
    pub fn contains(&self, draw: usize) -> bool {
        self.words
            .get(draw / Self::WORD)
            .is_some_and(|word| word >> (draw % Self::WORD) & 1 == 1)
    }

    /// Of how many draws it is a set.
    pub const fn draws(&self) -> usize {
        self.len
    }

    /// How many draws are in it.
    pub fn count(&self) -> usize {
        self.words
            .iter()
            .map(|word| word.count_ones() as usize)
            .sum()
    }

    /// Whether every draw in it is in another of the same draws as well.
    pub(crate) fn is_within(&self, other: &Self) -> bool {
        self.words
            .iter()
            .zip(&other.words)
            .all(|(mine, others)| mine & !others == 0)
    }

    const WORD: usize = u64::BITS as usize;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_put_in_is_in() {
        let set = DrawSet::of(130, |draw| draw % 3 == 0);
        assert_eq!(set.draws(), 130);
        assert_eq!(set.count(), 44);
        assert!((0..130).all(|draw| set.contains(draw) == (draw % 3 == 0)));
        assert!(!set.contains(130) && !set.contains(1000));
        let fewer = DrawSet::of(130, |draw| draw % 6 == 0);
        assert!(fewer.is_within(&set) && !set.is_within(&fewer) && set.is_within(&set));
    }
}
