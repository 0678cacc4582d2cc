use std::ops::Range;

/// The one place where a text becomes another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Patch {
    /// What goes, in bytes.
    pub(super) gone: Range<usize>,
    /// What comes in its place.
    pub(super) come: String,
}

impl Patch {
    /// From one text to another: all between what both begin and end with.
    pub(super) fn between(was: &str, is: &str) -> Self {
        let alike = |pairs: &mut dyn Iterator<Item = (char, char)>| -> usize {
            pairs
                .take_while(|(one, other)| one == other)
                .map(|(one, _)| one.len_utf8())
                .sum()
        };
        let start = alike(&mut was.chars().zip(is.chars()));
        let (was_rest, is_rest) = (&was[start..], &is[start..]);
        let end = alike(&mut was_rest.chars().rev().zip(is_rest.chars().rev()));
        Self {
            gone: start..was.len() - end,
            come: is_rest[..is_rest.len() - end].to_owned(),
        }
    }

    /// The other text; `None` where this is no patch of the first.
    pub(super) fn applied(&self, was: &str) -> Option<String> {
        let before = was.get(..self.gone.start)?;
        let after = was.get(self.gone.end..)?;
        (self.gone.start <= self.gone.end).then(|| [before, &self.come, after].concat())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn it_is_no_larger_than_the_change() {
        let patch = Patch::between("value: 2.4, sd: 0.5", "value: 1.9, sd: 0.5");
        assert_eq!(patch.gone, 7..10);
        assert_eq!(patch.come, "1.9");
        let patch = Patch::between("aaa", "aa");
        assert_eq!((patch.gone, patch.come.as_str()), (2..3, ""));
    }

    proptest! {
        #[test]
        fn it_leads_from_one_to_the_other(was in "[aäb]{0,8}", is in "[aäb]{0,8}") {
            prop_assert_eq!(Patch::between(&was, &is).applied(&was), Some(is));
        }
    }
}
