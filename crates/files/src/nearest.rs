/// The longest word that is compared, in bytes: a longer one is no misspelling.
const LONGEST: usize = 64;

/// The known word that is most similar to a misspelt one, if any is similar.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > LONGEST {
        return None;
    }
    let (edits, best) = known.into_iter().map(|one| (edits(word, one), one)).min()?;
    // A third of the letters wrong is still a slip, more is another word.
    (edits <= best.chars().count().div_ceil(3)).then_some(best)
}

/// Letters to change, leave out, put in or swap with the next to turn one word
/// into another (optimal string alignment).
fn edits(one: &str, other: &str) -> usize {
    let one: Vec<char> = one.chars().collect();
    let other: Vec<char> = other.chars().collect();
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=other.len()).collect();
    for i in 1..=one.len() {
        let mut row = vec![i];
        for j in 1..=other.len() {
            let change = last[j - 1] + usize::from(one[i - 1] != other[j - 1]);
            let mut least = change.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1] {
                least = least.min(before_last[j - 2] + 1);
            }
            row.push(least);
        }
        before_last = std::mem::replace(&mut last, row);
    }
    last[other.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_recognised_and_another_word_is_not() {
        let known = ["value", "unit", "side", "phase"];
        assert_eq!(nearest("vlaue", known), Some("value"));
        assert_eq!(nearest("valeu", known), Some("value"));
        assert_eq!(nearest("fase", known), Some("phase"));
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("", known), None);
        assert_eq!(nearest("x", []), None);
    }

    #[test]
    fn edits_are_counted_as_published() {
        // Levenshtein's textbook pair, from memory.
        assert_eq!(edits("kitten", "sitting"), 3);
        assert_eq!(edits("ca", "ac"), 1);
    }
}
