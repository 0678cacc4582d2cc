//! The readings that decide, as one table: where the verdict changes, how likely
//! that is, and what measuring again would gain.

use crate::text::{fitted, fitted_at_end};
use crate::tui::theme::Theme;
use measurement::Quantity;
use ratatui::text::Line;
use session::DoubtResult;
use sizing::break_even::{BreakEven, Change};
use sizing::worth::Gain;

/// The widths of the columns in characters.
struct Columns {
    reading: usize,
    now: usize,
    changes: usize,
    likely: usize,
    gain: usize,
    /// Cells of the bar behind the gain; 0 where there is no room for it.
    bar: usize,
}

/// Characters of a name beyond which figures would stand too far from it.
const LONGEST_NAME: usize = 46;

/// Cells of a bar that stands for all the doubt there is about the choice.
const WHOLE_BAR: u32 = 10;

/// The ends of the scale over such bars, each over the cell where it lies.
const SCALE: &str = "0    100 %";

/// The column of a bar and its figure, with the space before it.
const BAR: usize = 20;

impl Columns {
    /// Shares out a width: the name takes what the figures leave.
    fn of(width: u16) -> Self {
        const ROOMY: usize = 110;
        let width = usize::from(width);
        let bar = if width < ROOMY { 0 } else { BAR };
        let (now, changes, likely, gain) = (16, 18, 7, 8);
        let figures = now + changes + likely + gain + bar + 5;
        Self {
            reading: width.saturating_sub(figures).min(LONGEST_NAME),
            now,
            changes,
            likely,
            gain,
            bar,
        }
    }

    fn line(&self, [reading, now, changes, likely, gain, bar]: [&str; 6]) -> String {
        let Self {
            reading: name,
            now: value,
            changes: at,
            likely: chance,
            gain: worth,
            bar: cells,
        } = self;
        let bar = if *cells == 0 {
            String::new()
        } else {
            format!("  {}", fitted(bar, cells - 2))
        };
        format!(
            " {} {} {} {} {}{bar}",
            fitted(reading, *name),
            fitted(now, *value),
            fitted(changes, *at),
            fitted_at_end(likely, *chance),
            fitted_at_end(gain, *worth),
        )
    }
}

/// The heads of the columns, and the scale of the bars where there are any.
pub(super) fn head(width: u16) -> Vec<String> {
    let columns = Columns::of(width);
    let heads = ["reading", "now ± 1 SD", "verdict changes", "likely", "gain"];
    let [reading, now, changes, likely, gain] = heads;
    let mut lines = vec![columns.line([reading, now, changes, likely, gain, "share of the doubt"])];
    if columns.bar > 0 {
        lines.push(columns.line(["", "", "", "", "", SCALE]));
    }
    lines
}

/// The lines of one quantity: one, or two where the verdict changes at either end.
pub(super) fn row(
    doubted: &DoubtResult,
    quantity: Quantity,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let columns = Columns::of(width);
    let mut readings = doubted.break_evens.readings.iter();
    let found = readings.find(|one| one.quantity == quantity);
    let worth = doubted.worth.as_ref();
    let gain = worth.and_then(|it| it.gains.iter().find(|one| one.quantity == quantity));
    let now = found.map_or_else(String::new, BreakEven::now_says);
    let (worth, bar) = gain.map_or_else(<(String, String)>::default, gained);
    let ends = found.map_or_else(Vec::new, |one| doubted.break_evens.ends_say(one));
    let chances: Vec<String> = found
        .into_iter()
        .flat_map(BreakEven::ends)
        .map(likely)
        .collect();
    let first = (ends.first(), chances.first());
    let text = |it: Option<&String>| it.cloned().unwrap_or_default();
    let mut lines = vec![columns.line([
        quantity.label(),
        &now,
        &text(first.0),
        &text(first.1),
        &worth,
        &bar,
    ])];
    for (end, chance) in ends.iter().zip(&chances).skip(1) {
        lines.push(columns.line(["", "", end, chance, "", ""]));
    }
    lines
        .into_iter()
        .map(|line| Line::styled(line, theme.text()))
        .collect()
}

/// How likely a value beyond an end is.
fn likely(end: &Change) -> String {
    percent(end.chance).unwrap_or_else(|| "< 1 %".to_owned())
}

/// A share as whole per cent; `None` where it rounds to nothing.
fn percent(share: f64) -> Option<String> {
    let percent = (100.0 * share).round();
    (percent >= 1.0).then(|| format!("{percent:.0} %"))
}

/// What knowing a quantity exactly would bring, and the share of all the doubt about
/// the choice that it would take away, as a bar. A gain that rounds to nothing is
/// none.
fn gained(gain: &Gain) -> (String, String) {
    let Some(percent) = percent(gain.chance.value) else {
        return ("–".to_owned(), String::new());
    };
    let filled = |cell: u32| gain.takes_away * f64::from(WHOLE_BAR) + 0.5 >= f64::from(cell);
    let bar: String = (1..=WHOLE_BAR)
        .map(|cell| if filled(cell) { '■' } else { '·' })
        .collect();
    let share = 100.0 * gain.takes_away;
    (format!("+ {percent}"), format!("{bar} {share:>3.0} %"))
}
