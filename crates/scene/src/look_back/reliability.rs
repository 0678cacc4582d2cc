use super::page::{LookBackStrokes, THICK, THIN};
use super::{EDGE, HEADING, PANELS, SMALL, TEXT};
use crate::stroke::{Anchor, Role};
use sizing::look_back::AnswerRow;

/// The side of the square and its upper left corner, mm.
const SIDE: f64 = 72.0;
const LEFT: f64 = EDGE + 18.0;
const TOP: f64 = PANELS + 8.0;
/// Fifths of the axes are lettered.
const FIFTHS: u8 = 5;

/// Like chances together, against how often it was so.
pub(super) fn draw(page: &mut LookBackStrokes, all: Option<&AnswerRow>) {
    page.bold(EDGE, PANELS, HEADING, "Were our chances right?");
    let (right, bottom) = (LEFT + SIDE, TOP + SIDE);
    let at = |said: f64, was: f64| (LEFT + SIDE * said, bottom - SIDE * was);
    for fifth in 0..=FIFTHS {
        let share = f64::from(fifth) / f64::from(FIFTHS);
        let (x, y) = at(share, share);
        page.line(Role::Dimension, 0.5 * THIN, (x, TOP), (x, bottom));
        page.line(Role::Dimension, 0.5 * THIN, (LEFT, y), (right, y));
        let text = format!("{:.0}", 100.0 * share);
        page.words((x, bottom + 4.4), TEXT, &text, Anchor::Middle);
        page.words((LEFT - 2.0, y + 1.2), TEXT, &text, Anchor::End);
    }
    let said = "expected, of 100";
    page.words(
        (LEFT + 0.5 * SIDE, bottom + 9.4),
        TEXT,
        said,
        Anchor::Middle,
    );
    page.words(
        (LEFT - 2.0, TOP - 2.6),
        TEXT,
        "seen, of 100",
        Anchor::Middle,
    );
    let bins = all.map_or(&[][..], |row| &row.reliability);
    if bins.is_empty() {
        let count = all.map_or(0, |row| row.pairs.pairs);
        let says = format!("{count} answers: too few for this picture (under 100)");
        page.words(
            (LEFT + 0.5 * SIDE, TOP + 0.5 * SIDE),
            TEXT,
            &says,
            Anchor::Middle,
        );
        return;
    }
    page.dashed(Role::Outline, 2.0 * THIN, at(0.0, 0.0), at(1.0, 1.0));
    for bin in bins {
        let (x, low) = at(bin.foretold, bin.interval[0]);
        let (_, high) = at(bin.foretold, bin.interval[1]);
        page.line(Role::Plate, THICK, (x, low), (x, high));
        let share = bin.seen as f64 / bin.pairs as f64;
        page.disc(Role::Plate, at(bin.foretold, share), 1.5);
    }
    let count: usize = bins.iter().map(|bin| bin.pairs).sum();
    let says = format!(
        "On the dashed line the chances were right. A bar holds the truth 95 of 100 times. \
         {count} answers."
    );
    page.word(EDGE, bottom + 14.0, SMALL, &says);
}
