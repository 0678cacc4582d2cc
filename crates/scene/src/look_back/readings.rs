use super::page::{LookBackStrokes, THICK, THIN};
use super::{EDGE, HEADING, LOWER_PANEL, SMALL, TEXT};
use crate::stroke::{Anchor, Role};
use measurement::Unit;
use sizing::look_back::ReadingRow;

/// Where the axis runs, mm, and how many millimetres of the heart it shows to a side.
const FROM: f64 = EDGE + 88.0;
const TO: f64 = EDGE + 172.0;
const MOST_OUT: u8 = 3;
/// Where the count ends, mm.
const COUNT: f64 = TO + 12.0;
/// The height of a row, and the most rows.
const ROW: f64 = 6.6;
const MOST: usize = 4;

/// How far readings were from what was seen.
pub(super) fn draw(page: &mut LookBackStrokes, rows: &[ReadingRow]) {
    page.bold(EDGE, LOWER_PANEL, HEADING, "How far out were our readings?");
    let mut sorted: Vec<&ReadingRow> = rows
        .iter()
        .filter(|row| row.of.unit() == Unit::Mm)
        .collect();
    if sorted.is_empty() {
        let says = "No reading could be compared with what was seen.";
        page.word(EDGE, LOWER_PANEL + 8.0, TEXT, says);
        return;
    }
    // What is proposed first, then those with most to say.
    sorted.sort_by_key(|row| (row.proposed.is_none(), std::cmp::Reverse(row.pairs)));
    let shown = sorted.len().min(MOST);
    let top = LOWER_PANEL + 5.0;
    let bottom = top + ROW * shown as f64;
    let reach = f64::from(MOST_OUT);
    let x = |out: f64| FROM + (TO - FROM) * (out.clamp(-reach, reach) + reach) / (2.0 * reach);
    for out in 0..=2 * MOST_OUT {
        let out = f64::from(out) - reach;
        let (role, width) = if out == 0.0 {
            (Role::Outline, 2.0 * THIN)
        } else {
            (Role::Dimension, 0.5 * THIN)
        };
        page.line(role, width, (x(out), top), (x(out), bottom));
        let text = format!("{out:+.0}").replace("+0", "0").replace('-', "−");
        page.words((x(out), bottom + 4.2), TEXT, &text, Anchor::Middle);
    }
    page.words(
        (x(-reach), top - 1.6),
        SMALL,
        "read too small",
        Anchor::Start,
    );
    page.words(
        (x(reach), top - 1.6),
        SMALL,
        "read too large, mm",
        Anchor::End,
    );
    page.words((COUNT, top - 1.6), TEXT, "n", Anchor::End);
    for (place, row) in sorted.iter().take(MOST).enumerate() {
        let y = top + ROW * (place as f64 + 0.5);
        page.words_after(EDGE, (FROM - 3.0, y + 1.2), TEXT, &row.of.label());
        page.words((COUNT, y + 1.2), TEXT, &row.pairs.to_string(), Anchor::End);
        let says = match (&row.agreement, row.proposed) {
            (None, _) => row.says(),
            (Some(_), Some(proposed)) => format!(
                "proposed: take {:.1} mm {} the reading",
                proposed.too_large_by.abs(),
                if proposed.too_large_by > 0.0 {
                    "off"
                } else {
                    "onto"
                }
            ),
            (Some(_), None) => "no bias found".to_owned(),
        };
        page.word(COUNT + 5.0, y + 1.2, TEXT, &says);
        let Some(found) = &row.agreement else {
            continue;
        };
        let [from, to] = found.limits.map(x);
        page.line(Role::Outline, 2.0 * THIN, (from, y), (to, y));
        for end in [from, to] {
            page.line(Role::Outline, 2.0 * THIN, (end, y - 1.1), (end, y + 1.1));
        }
        let [low, high] = found.mean_interval.map(x);
        page.line(Role::Plate, THICK, (low, y), (high, y));
        page.disc(Role::Plate, (x(found.mean), y), 1.5);
    }
    let says =
        "Dot and bar: the mean, 95 of 100 times. Thin line: where 95 of 100 single readings lie.";
    page.word(FROM, bottom + 9.0, SMALL, says);
}
