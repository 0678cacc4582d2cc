/// How many of the first of an ordered list share a group with the first of all.
pub(super) fn first_group<T>(ordered: &[T], share: impl Fn(&T, &T) -> bool) -> usize {
    let Some(first) = ordered.first() else {
        return 0;
    };
    let others = ordered.iter().skip(1);
    1 + others.take_while(|other| share(first, other)).count()
}
