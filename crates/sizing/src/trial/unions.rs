use crate::engine::{DrawSet, SetWeights};

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

/// The pair of the largest union, the first of them. What is in neither of a pair is
/// summed only as far as it stays under that of the best so far, and that of the best
/// alone with its best partner is known from the start.
fn best_pair(holds: &[&DrawSet], alone: &[u64], weights: &SetWeights) -> Option<([usize; 2], u64)> {
    let (best_alone, _) = largest(alone.iter().copied().enumerate())?;
    let partners = (0..holds.len()).filter(|&other| other != best_alone);
    let beside = partners.map(|other| weights.of_either(holds[best_alone], holds[other]));
    let mut least = weights.all() - beside.max()?;
    let mut best = None;
    for first in 0..holds.len() {
        for second in first + 1..holds.len() {
            let neither = weights.of_neither(holds[first], holds[second], least);
            if let Some(neither) = neither
                && (best.is_none() || neither < least)
            {
                (best, least) = (Some([first, second]), neither);
            }
        }
    }
    best.map(|pair| (pair, weights.all() - least))
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
    let alone = [better, other].map(|set| weights.of(set));
    dominates_by(better, other, alone, weights)
}

/// The same where the weight of each alone is known.
pub(super) fn dominates_by(
    better: &DrawSet,
    other: &DrawSet,
    [of_better, of_other]: [u64; 2],
    weights: &SetWeights,
) -> bool {
    // What the better holds alone is what the other does, and what it weighs more.
    let telling = |others: u64| {
        let betters = (of_better + others).checked_sub(of_other);
        betters.is_some_and(|betters| weights.share(betters) >= TELLING)
    };
    let most = weights.part(AS_GOOD_AS_NONE);
    // Most pairs are told apart by what they weigh, and most others by few draws.
    if !telling(most) {
        return false;
    }
    let words = other.words().iter().zip(better.words());
    let others = weights.at_most(words.map(|(other, better)| other & !better), most);
    others.is_some_and(telling)
}

#[cfg(test)]
mod tests {
    use super::*;
    use measurement::Weights;
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
