/// The longest word that is compared, in bytes: a longer one is no misspelling.
const LONGEST: usize = 64;

/// The known word that is most similar to a misspelt one, if any is similar.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.len() > LONGEST {
        return None;
    }
    let distance = |one| (strsim::osa_distance(word, one), one);
    let (edits, best) = known.into_iter().map(distance).min()?;
    // A third of the letters wrong is still a slip, more is another word.
    (edits <= best.chars().count().div_ceil(3)).then_some(best)
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
    fn two_letters_swapped_are_one_slip() {
        // Two edits would be more than a third of these two letters.
        assert_eq!(nearest("ac", ["ca"]), Some("ca"));
    }
}
