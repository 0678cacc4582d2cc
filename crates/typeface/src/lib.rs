//! The faces that the program carries with it: how wide words are, and their
//! outlines.
//!
//! Two weights of one sans face, a subset of Latin, Greek and the signs that the
//! program writes (`faces/subset.py` says which). A character without a glyph is
//! painted as an empty box and told to the caller, never left blank.
//! Words are set letter by letter, without kerning or ligatures.
//!
//! # Example
//!
//! Digits are equally wide, so that columns of numbers line up:
//!
//! ```
//! use typeface::{Weight, missing_glyphs, width};
//!
//! assert_eq!(width("111", Weight::Regular), width("888", Weight::Regular));
//! assert_eq!(missing_glyphs("5 mm 心", Weight::Regular), ['心']);
//! ```

mod embedding;
mod outline;
mod weight;

pub use embedding::Embedding;
pub use outline::{Outline, OutlineStep, outline};
pub use weight::{CAP_HEIGHT, Weight};

/// The width of words, in em. A character without a glyph counts as wide as the
/// box that stands for it.
pub fn width(text: &str, weight: Weight) -> f64 {
    text.chars().map(|letter| weight.advance(letter)).sum()
}

/// The characters of a text that have no glyph, each once, in order of appearance.
pub fn missing_glyphs(text: &str, weight: Weight) -> Vec<char> {
    let mut missing = Vec::new();
    for letter in text.chars() {
        if weight.glyph(letter).is_none() && !missing.contains(&letter) {
            missing.push(letter);
        }
    }
    missing
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How far letters reach below the baseline, em.
    const DESCENT: f64 = 0.22;

    /// What the program writes on pictures.
    const WRITTEN: &str =
        "±≤≥≠×°·–—→←↑↓…−²³½µ√≈∞′″‹›“”‘’• 0123456789 ABCXYZ abcxyz äöüßéèçñ σρθ %!?()[]:;,./+-=<>~";

    #[test]
    fn what_the_program_writes_has_glyphs() {
        for weight in Weight::ALL {
            assert_eq!(missing_glyphs(WRITTEN, weight), []);
        }
    }

    #[test]
    fn a_missing_glyph_is_told_and_drawn() {
        for weight in Weight::ALL {
            assert_eq!(missing_glyphs("✓ 心✓", weight), ['✓', '心']);
            let box_alone = outline("✓", weight);
            assert!(!box_alone.steps.is_empty());
            assert_eq!(box_alone.missing, ['✓']);
            assert!(width("✓", weight) > 0.0);
        }
    }

    /// 1000 units of Helvetica's widths (Adobe Font Metrics, from memory: A 667,
    /// zero 556, period 278), to which the face is metrically equal.
    #[test]
    fn widths_are_those_of_the_face() {
        for (text, em) in [("A", 0.667), ("0", 0.556), (".", 0.278), ("A0.", 1.501)] {
            let got = width(text, Weight::Regular);
            assert!((got - em).abs() < 1.5e-3, "{text}: {got}");
        }
        assert!(width("rim overlap", Weight::Bold) > width("rim overlap", Weight::Regular));
        assert_eq!(width("", Weight::Regular), 0.0);
    }

    #[test]
    fn an_outline_is_as_wide_as_its_words_and_closed() {
        let Outline { steps, width, .. } = outline("Hinge 0.5 mm", Weight::Regular);
        assert_eq!(width, super::width("Hinge 0.5 mm", Weight::Regular));
        let count =
            |wanted: fn(&OutlineStep) -> bool| steps.iter().filter(|one| wanted(one)).count();
        let moves = count(|step| matches!(step, OutlineStep::Move(..)));
        assert_eq!(moves, count(|step| matches!(step, OutlineStep::Close)));
        let ends = steps.iter().filter_map(OutlineStep::end);
        for [x, y] in ends {
            assert!((-0.05..=width + 0.05).contains(&x), "{x}");
            assert!((-DESCENT..=1.0).contains(&y), "{y}");
        }
    }

    #[test]
    fn a_capital_stands_as_high_as_is_said() {
        let highest = outline("H", Weight::Regular)
            .steps
            .iter()
            .filter_map(OutlineStep::end)
            .fold(0.0, |most: f64, [_, y]| most.max(y));
        assert!((highest - CAP_HEIGHT).abs() < 0.01, "{highest}");
    }
}
