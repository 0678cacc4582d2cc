//! How far words run.

/// Widths of printable ASCII from the space on, in thousandths of the em, of the
/// common sans-serif metrics that Liberation Sans shares (from memory).
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278,
    278, // space–/
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0–?
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @–O
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P–_
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // `–o
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, // p–~
];

/// What any other letter takes at most, as a rule.
const OTHER: u16 = 834;

/// How much wider bold letters run.
const BOLD: f64 = 1.07;

/// The advance of words, in ems.
pub(crate) fn advance(text: &str, is_bold: bool) -> f64 {
    let width = |letter: char| {
        let place = u32::from(letter).checked_sub(u32::from(' '));
        let width = place.and_then(|place| WIDTHS.get(usize::try_from(place).ok()?));
        f64::from(width.copied().unwrap_or(match letter {
            '±' | '×' | '−' | '·' => 584,
            _ => OTHER,
        }))
    };
    let ems = text.chars().map(width).sum::<f64>() / 1000.0;
    if is_bold { BOLD * ems } else { ems }
}
