use crate::engine::DrawSet;
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

    /// The weight of the draws that are in the first set and not in the other.
    pub fn of_first_alone(&self, one: &DrawSet, other: &DrawSet) -> u64 {
        let words = one.words().iter().zip(other.words());
        self.of_words(words.map(|(one, other)| one & !other))
    }

    /// A weight as a share of all; 0 where there is none.
    pub fn share(&self, weight: u64) -> f64 {
        if self.all == 0 {
            return 0.0;
        }
        weight as f64 / self.all as f64
    }

    fn of_words(&self, words: impl Iterator<Item = u64>) -> u64 {
        let groups = self.sums.chunks(u64::BITS as usize / GROUP);
        groups
            .zip(words)
            .map(|(rows, word)| {
                let rows = rows.iter().enumerate();
                rows.map(|(place, row)| row[(word >> (GROUP * place) & 15) as usize])
                    .sum::<u64>()
            })
            .sum()
    }
}

/// What opening one, two or three more sizes would reach if every size lay alike: the
/// sizes by their index, and the share of the draws in which at least one of them is
/// inside its limits.
///
/// A fresh seat at each opening usually adds to that of two and three, so none of these
/// is the most that could be reached. Opening the same size again is not counted.
#[derive(Clone, Debug, PartialEq)]
pub struct Unions {
    /// The best one.
    pub one: (usize, f64),
    /// The best two; `None` where there is one.
    pub two: Option<([usize; 2], f64)>,
    /// The best two with the one that adds most to them.
    pub three: Option<([usize; 3], f64)>,
    /// The share in which none of all the sizes is inside its limits.
    pub none: f64,
}

/// The largest unions of sizes by the draws in which each is inside its limits, in the
/// catalogue's order, which also breaks ties: of one, of two out of all pairs, and of
/// three by adding to the best two. `None` where there is no size.
pub fn unions(holds: &[&DrawSet], weights: &SetWeights) -> Option<Unions> {
    let alone: Vec<u64> = holds.iter().map(|set| weights.of(set)).collect();
    let one = largest(alone.iter().copied().enumerate())?;
    let mut union = holds.first().map(|set| (*set).clone())?;
    for set in holds {
        union.insert_set(set);
    }
    let two = best_pair(holds, &alone, weights);
    let three = two.and_then(|([first, second], _)| {
        let mut pair = holds[first].clone();
        pair.insert_set(holds[second]);
        let others = (0..holds.len()).filter(|&place| place != first && place != second);
        let added = others.map(|place| (place, weights.of_either(&pair, holds[place])));
        largest(added).map(|(third, weight)| ([first, second, third], weight))
    });
    Some(Unions {
        one: (one.0, weights.share(one.1)),
        two: two.map(|(sizes, weight)| (sizes, weights.share(weight))),
        three: three.map(|(sizes, weight)| (sizes, weights.share(weight))),
        none: 1.0 - weights.share(weights.of(&union)),
    })
}

/// The pair of the largest union. A pair that cannot reach the best so far is not
/// looked at.
fn best_pair(holds: &[&DrawSet], alone: &[u64], weights: &SetWeights) -> Option<([usize; 2], u64)> {
    let mut best: Option<([usize; 2], u64)> = None;
    for first in 0..holds.len() {
        for second in first + 1..holds.len() {
            let can_reach = alone[first] + alone[second];
            if best.is_some_and(|(_, most)| can_reach <= most) {
                continue;
            }
            let weight = weights.of_either(holds[first], holds[second]);
            if best.is_none_or(|(_, most)| weight > most) {
                best = Some(([first, second], weight));
            }
        }
    }
    best
}

/// The first of the largest.
fn largest(each: impl Iterator<Item = (usize, u64)>) -> Option<(usize, u64)> {
    each.reduce(|best, one| if one.1 > best.1 { one } else { best })
}

/// The share of the draws that a size may hold alone and still be dominated.
const AS_GOOD_AS_NONE: f64 = 0.01;
/// The share that its better must hold alone.
const TELLING: f64 = 0.05;

/// Whether a size is inside its limits wherever another is, but for a hundredth of the
/// draws, and in a twentieth of them where the other is not.
pub fn dominates(better: &DrawSet, other: &DrawSet, weights: &SetWeights) -> bool {
    let alone = |one, other| weights.share(weights.of_first_alone(one, other));
    alone(other, better) <= AS_GOOD_AS_NONE && alone(better, other) >= TELLING
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of(members: &[bool]) -> DrawSet {
        DrawSet::of(members.len(), |draw| members[draw])
    }

    #[test]
    fn no_size_no_union() {
        let weights = SetWeights::new(&Weights::uniform(8));
        assert_eq!(unions(&[], &weights), None);
        let only = of(&[true, false, true, true, false, false, true, false]);
        let unions = unions(&[&only], &weights).unwrap();
        assert_eq!((unions.one, unions.none), ((0, 0.5), 0.5));
        assert!(unions.two.is_none() && unions.three.is_none());
    }

    #[test]
    fn what_is_tied_goes_by_the_catalogues_order() {
        let weights = SetWeights::new(&Weights::uniform(4));
        let low = of(&[true, true, false, false]);
        let high = of(&[false, false, true, true]);
        let unions = unions(&[&low, &high, &low, &high], &weights).unwrap();
        assert_eq!(unions.one, (0, 0.5));
        assert_eq!(unions.two, Some(([0, 1], 1.0)));
        assert_eq!(unions.three, Some(([0, 1, 2], 1.0)));
        assert!(!dominates(&low, &high, &weights) && !dominates(&low, &low, &weights));
    }

    proptest! {
        /// Any pair, looked at the long way.
        #[test]
        fn no_pair_is_better_than_the_best(
            members in prop::collection::vec(prop::collection::vec(any::<bool>(), 70), 2..9),
            each in prop::collection::vec(0.0..1.0_f64, 70),
        ) {
            prop_assume!(each.iter().any(|weight| *weight > 0.1));
            let weights = Weights::per_draw(each).unwrap();
            let sets: Vec<DrawSet> = members.iter().map(|some| of(some)).collect();
            let holds: Vec<&DrawSet> = sets.iter().collect();
            let table = SetWeights::new(&weights);
            let best = unions(&holds, &table).unwrap().two.unwrap().1;
            let all: f64 = (0..70).map(|draw| weights.of(draw)).sum();
            let mut most = 0.0_f64;
            for one in &sets {
                for other in sets.iter().filter(|other| !std::ptr::eq(*other, one)) {
                    let either = |draw: &usize| one.contains(*draw) || other.contains(*draw);
                    let sum: f64 = (0..70).filter(either).map(|draw| weights.of(draw)).sum();
                    most = most.max(sum / all);
                }
            }
            prop_assert_eq!(best, most);
        }
    }
}
