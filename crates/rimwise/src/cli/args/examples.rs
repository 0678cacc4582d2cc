//! Calls to begin with: in the help of their command and in the manual. A test runs
//! every one.

use paper::CAUTION;

/// Of `rimwise compare`.
pub(in crate::cli) const COMPARE: &str = "\
rimwise compare outlet-infant even-narrow/5.5x2 offset-left/5x3
rimwise compare monday.ron --with friday.ron";

/// Of `rimwise draw`.
pub(in crate::cli) const DRAW: &str = "\
rimwise draw outlet-infant offset-left/5x3 --out plate.svg
rimwise draw outlet-infant even-narrow/5.5x2 offset-left/5x3 --view aortic --ground dark --out plate.png";

/// Of `rimwise sheet`.
pub(in crate::cli) const SHEET: &str = "\
rimwise sheet outlet-infant
rimwise sheet outlet-infant --out sheet.pdf
rimwise sheet outlet-infant --out sheet.html
rimwise sheet outlet-infant --size offset-left/5x3 --paper letter
rimwise sheet friday.ron --since monday.ron --out sheet.txt
rimwise sheet outlet-infant mid-muscular --out week.pdf";

/// Of `rimwise lesson`.
pub(in crate::cli) const LESSON: &str = "\
rimwise lesson
rimwise lesson wide-disc
rimwise sheet wide-disc --out lesson.pdf";

/// The end of a command's help: its examples and the caution.
pub(super) fn help(examples: &str) -> String {
    let lines: Vec<String> = examples.lines().map(|line| format!("  {line}")).collect();
    format!("Examples:\n{}\n\n{CAUTION}", lines.join("\n"))
}
