use super::Splice;
use crate::document::Step;
use crate::ron_text::Style;
use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

/// A list whose items have names, by which they are told apart.
pub(super) struct Named<T> {
    /// The name of an item.
    pub(super) name: fn(&T) -> Cow<'_, str>,
    /// The text of an item.
    pub(super) write: fn(&T, &Style) -> String,
}

impl<T> Named<T> {
    /// Makes a list say what is wanted: items that went are taken out, new ones
    /// put in, and those that stay handed on with their path to be changed.
    ///
    /// An item that changed its place among the others takes along the text it was
    /// written with, and every comment in it.
    pub(super) fn sync(
        &self,
        splice: &mut Splice,
        list: &[Step],
        was: &[T],
        wanted: &[T],
        mut change: impl FnMut(&mut Splice, &[Step], &T, &T),
    ) {
        let stays = self.stays(was, wanted);
        let is_wanted: HashSet<_> = wanted.iter().map(|item| (self.name)(item)).collect();
        let mut moved = HashMap::new();
        for index in (0..was.len()).rev().filter(|&index| !stays[index]) {
            let name = (self.name)(&was[index]);
            if is_wanted.contains(&name)
                && let Some(node) = splice.node(list).and_then(|list| list.inner.get(index))
            {
                let text = splice.text[node.span.clone()].to_owned();
                moved.insert(name, (&was[index], text));
            }
            splice.remove(list, index);
        }
        let mut left = was
            .iter()
            .zip(stays)
            .filter_map(|(item, stays)| stays.then_some(item))
            .peekable();
        for (place, item) in wanted.iter().enumerate() {
            let name = (self.name)(item);
            let was = if let Some(was) = left.next_if(|was| (self.name)(was) == name) {
                was
            } else if let Some((was, text)) = moved.remove(&name) {
                splice.insert(list, place, &text);
                was
            } else {
                let style = splice.style_at(list, place);
                splice.insert(list, place, &(self.write)(item, &style));
                continue;
            };
            let path: Vec<Step> = list.iter().copied().chain([Step::Item(place)]).collect();
            change(splice, &path, was, item);
        }
    }

    /// Which items stay where they are: of those that are wanted as many as stand
    /// in the wanted order (the longest increasing run, by patience sorting).
    fn stays(&self, was: &[T], wanted: &[T]) -> Vec<bool> {
        let places: HashMap<Cow<'_, str>, usize> = wanted
            .iter()
            .enumerate()
            .map(|(place, item)| ((self.name)(item), place))
            .collect();
        let mut before = vec![None; was.len()];
        // For each length of a run the item that ends it earliest, and its place.
        let mut ends: Vec<(usize, usize)> = Vec::new();
        for (index, item) in was.iter().enumerate() {
            let Some(&place) = places.get(&(self.name)(item)) else {
                continue;
            };
            let shorter = ends.partition_point(|&(end, _)| end < place);
            before[index] = shorter.checked_sub(1).map(|last| ends[last].1);
            if shorter == ends.len() {
                ends.push((place, index));
            } else {
                ends[shorter] = (place, index);
            }
        }
        let mut stays = vec![false; was.len()];
        let mut next = ends.last().map(|&(_, index)| index);
        while let Some(index) = next {
            stays[index] = true;
            next = before[index];
        }
        stays
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_many_stay_as_can() {
        let words = Named::<&str> {
            name: |word| Cow::Borrowed(word),
            write: |word, _| (*word).to_owned(),
        };
        let stays = |was: &str, wanted: &str| {
            let split = |text: &'static str| text.split(' ').collect::<Vec<_>>();
            let (was, wanted) = (was.to_owned().leak(), wanted.to_owned().leak());
            words.stays(&split(was), &split(wanted))
        };
        assert_eq!(stays("a b c d", "b c d a"), [false, true, true, true]);
        assert_eq!(stays("a b c d", "d a b c"), [true, true, true, false]);
        assert_eq!(stays("a b c", "a x c"), [true, false, true]);
        assert_eq!(stays("a b", "x"), [false, false]);
    }
}
