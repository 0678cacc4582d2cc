/// Converts a value to a whole number of a range; `None` where it is outside the range or
/// not whole. Unlike a cast it never rounds or truncates.
pub fn whole<T: Copy + Into<f64>>(range: impl IntoIterator<Item = T>, value: f64) -> Option<T> {
    let is_it = |whole: &T| (*whole).into() == value;
    range.into_iter().find(is_it)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_number_of_the_range_is_found() {
        assert_eq!(whole(1..=8_u8, 3.0), Some(3));
        for value in [0.0, 9.0, 2.5, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(whole(1..=8_u8, value), None, "{value}");
        }
    }
}
