use super::page::{LookBackStrokes, THICK, THIN};
use super::{HEADING, PANELS, RIGHT_PANEL, SMALL, TEXT};
use crate::stroke::{Anchor, Role};
use sizing::look_back::AnswerRow;

/// Where the axis runs, mm.
const FROM: f64 = RIGHT_PANEL + 68.0;
const TO: f64 = RIGHT_PANEL + 134.0;
/// Where the count ends, mm.
const COUNT: f64 = TO + 12.0;
/// The height of a row, and the most rows.
const ROW: f64 = 6.6;
const MOST: usize = 12;

/// Each thing by itself: expected and seen on one axis.
pub(super) fn draw(page: &mut LookBackStrokes, rows: &[AnswerRow]) {
    page.bold(RIGHT_PANEL, PANELS, HEADING, "Each thing by itself");
    let key = PANELS - 1.0;
    page.ring(Role::Outline, (FROM + 2.0, key), 1.3);
    page.word(FROM + 5.0, key + 1.1, TEXT, "expected");
    page.line(Role::Plate, THICK, (FROM + 26.0, key), (FROM + 34.0, key));
    page.disc(Role::Plate, (FROM + 30.0, key), 1.3);
    page.word(FROM + 37.0, key + 1.1, TEXT, "seen (95 of 100)");
    // Those with most to say first.
    let mut sorted: Vec<&AnswerRow> = rows.iter().collect();
    sorted.sort_by_key(|row| std::cmp::Reverse(row.pairs.pairs));
    let shown = sorted.len().min(MOST);
    let top = PANELS + 6.0;
    let bottom = top + ROW * shown as f64 + 1.0;
    let x = |share: f64| FROM + (TO - FROM) * share;
    for fourth in 0..=4_u8 {
        let share = f64::from(fourth) / 4.0;
        page.line(
            Role::Dimension,
            0.5 * THIN,
            (x(share), top),
            (x(share), bottom),
        );
        let text = format!("{:.0}", 100.0 * share);
        page.words((x(share), bottom + 4.0), TEXT, &text, Anchor::Middle);
    }
    page.words((x(0.5), bottom + 8.6), TEXT, "of 100", Anchor::Middle);
    page.words((COUNT, top - 1.0), TEXT, "n", Anchor::End);
    for (place, row) in sorted.iter().take(MOST).enumerate() {
        let y = top + ROW * (place as f64 + 0.6);
        page.words_after(RIGHT_PANEL, (FROM - 3.0, y + 1.2), TEXT, &row.label());
        page.words(
            (COUNT, y + 1.2),
            TEXT,
            &row.pairs.pairs.to_string(),
            Anchor::End,
        );
        if !row.is_judged() {
            page.word(x(0.0) + 2.0, y + 1.1, SMALL, "too few to judge");
            continue;
        }
        let [low, high] = row.pairs.interval;
        page.line(Role::Plate, THICK, (x(low), y), (x(high), y));
        let share = row.pairs.seen as f64 / row.pairs.pairs as f64;
        page.ring(Role::Outline, (x(row.pairs.foretold), y), 1.9);
        page.disc(Role::Plate, (x(share), y), 1.2);
    }
    let hidden = rows.len() - shown;
    let says = match (rows.is_empty(), hidden) {
        (true, _) => "Nothing that was foretold was seen.".to_owned(),
        (false, 0) => String::new(),
        (false, some) => format!("{some} more stand in the text."),
    };
    page.word(RIGHT_PANEL, bottom + 13.0, SMALL, &says);
}
