use std::ops::Range;

/// The one span in which two texts differ, and its replacement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Patch {
    /// The span that is replaced, in bytes.
    pub(super) gone: Range<usize>,
    /// The replacement.
    pub(super) come: String,
}

impl Patch {
    /// The patch from one text to another: all between their common start and end.
    pub(super) fn between(was: &str, is: &str) -> Self {
        let alike = |pairs: &mut dyn Iterator<Item = (u8, u8)>| {
            pairs.take_while(|(one, other)| one == other).count()
        };
        let mut start = alike(&mut was.bytes().zip(is.bytes()));
        while !was.is_char_boundary(start) {
            start -= 1;
        }
        let (was_rest, is_rest) = (&was[start..], &is[start..]);
        let mut end = alike(&mut was_rest.bytes().rev().zip(is_rest.bytes().rev()));
        while !was.is_char_boundary(was.len() - end) {
            end -= 1;
        }
        Self {
            gone: start..was.len() - end,
            come: is_rest[..is_rest.len() - end].to_owned(),
        }
    }

    /// Applies the patch; returns `false` and leaves the text unchanged where the patch does
    /// not belong to it.
    pub(super) fn apply(&self, text: &mut String) -> bool {
        let is_of_text = text.get(self.gone.clone()).is_some();
        if is_of_text {
            text.replace_range(self.gone.clone(), &self.come);
        }
        is_of_text
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
            let mut text = was.clone();
            prop_assert!(Patch::between(&was, &is).apply(&mut text));
            prop_assert_eq!(text, is);
        }
    }
}
