/// Most parts that a cell has.
pub(super) const MOST_PARTS: usize = 8;

/// The parts of a cell in two groups, each to be shown in the mean of its colours:
/// bit by bit which parts are ink. The split is the one of least squared error; the
/// last part is never ink, and none is where all have one colour.
///
/// With equal parts the error is what the sums leave: Σ|c|² is fixed, and a group of
/// n parts with sum S takes |S|²/n from it.
pub(super) fn best_split(parts: &[[f32; 3]]) -> u8 {
    let count = parts.len().min(MOST_PARTS);
    let total = sum(parts);
    let mut best = (0, square(total) / to_single(count));
    // Rounding must not split what is of one colour.
    let least_gain = 1e-4 * best.1 + 1e-3;
    best.1 += least_gain;
    for ink in 1..1_u16 << count.saturating_sub(1) {
        let mut inked = [0.0; 3];
        for (index, part) in parts.iter().enumerate() {
            if ink >> index & 1 == 1 {
                inked = plus(inked, *part);
            }
        }
        let number = ink.count_ones() as usize;
        let rest = [0, 1, 2].map(|channel| total[channel] - inked[channel]);
        let kept = square(inked) / to_single(number) + square(rest) / to_single(count - number);
        if kept > best.1 {
            best = (ink, kept);
        }
    }
    #[expect(clippy::cast_possible_truncation, reason = "under 2 to the power 7")]
    let ink = best.0 as u8;
    ink
}

fn plus(one: [f32; 3], other: [f32; 3]) -> [f32; 3] {
    [0, 1, 2].map(|channel| one[channel] + other[channel])
}

fn sum(parts: &[[f32; 3]]) -> [f32; 3] {
    parts.iter().fold([0.0; 3], |all, one| plus(all, *one))
}

fn square(colour: [f32; 3]) -> f32 {
    colour.iter().map(|channel| channel * channel).sum()
}

/// The parts whose bit in `group` is as `wanted`.
pub(super) fn side<P: Copy>(parts: &[P], group: u8, wanted: bool) -> impl Iterator<Item = P> {
    let parts = parts.iter().enumerate();
    let of_side = parts.filter(move |(index, _)| (group >> index & 1 == 1) == wanted);
    of_side.map(|(_, part)| *part)
}

/// The mean of some parts.
pub(super) fn mean(parts: impl Iterator<Item = [f32; 3]>) -> [f32; 3] {
    let (mut all, mut count) = ([0.0; 3], 0_usize);
    for part in parts {
        all = plus(all, part);
        count += 1;
    }
    all.map(|channel| channel / to_single(count.max(1)))
}

#[expect(clippy::cast_precision_loss, reason = "a handful")]
const fn to_single(count: usize) -> f32 {
    count as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHITE: [f32; 3] = [255.0; 3];
    const BLACK: [f32; 3] = [0.0; 3];
    const RED: [f32; 3] = [255.0, 0.0, 0.0];

    #[test]
    fn one_colour_is_not_split() {
        for colour in [WHITE, BLACK, RED, [13.4, 77.7, 201.3]] {
            for count in [4, 6, 8] {
                assert_eq!(best_split(&vec![colour; count]), 0);
            }
        }
    }

    #[test]
    fn two_colours_are_told_apart_exactly() {
        let parts = [WHITE, BLACK, WHITE, BLACK];
        let ink = best_split(&parts);
        assert_eq!(ink, 0b0101);
        assert_eq!(mean(side(&parts, ink, true)), WHITE);
        assert_eq!(mean(side(&parts, ink, false)), BLACK);
    }

    /// The split leaves no more error than any other, by plain sums.
    #[test]
    fn no_split_is_better() {
        let parts = [
            RED,
            [250.0, 10.0, 0.0],
            WHITE,
            [30.0, 30.0, 60.0],
            BLACK,
            WHITE,
        ];
        let error = |ink: u8| -> f32 {
            let means = [false, true].map(|wanted| mean(side(&parts, ink, wanted)));
            let each = parts.iter().enumerate().map(|(index, part)| {
                let mean = means[usize::from(ink >> index & 1)];
                square([0, 1, 2].map(|channel| part[channel] - mean[channel]))
            });
            each.sum()
        };
        let best = error(best_split(&parts));
        for ink in 0..64 {
            assert!(best <= error(ink) * 1.001 + 0.5, "{ink:b}");
        }
    }
}
