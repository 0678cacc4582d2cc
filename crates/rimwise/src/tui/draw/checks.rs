//! The checks of a candidate: glyph, word, value, margin, chance; then what is
//! broken, in sentences.

use crate::alike::are_alike;
use crate::text::wrapped;
use crate::told::{self, told_before};
use crate::tui::theme::Theme;
use files::visible;
use ratatui::text::{Line, Span};
use sizing::{Candidate, Outcome, State};
use unicode_width::UnicodeWidthStr;

/// The least columns of a name beside a chance.
const NAME: usize = 13;
/// Columns of the value.
const VALUE: usize = 7;
/// Columns of the margin bar: as many on either side of the limit.
const BAR: usize = 5;
/// Columns of the chance.
const CHANCE: usize = 5;

/// The checks, the gravest first, and the sentences of those that are not ok, in
/// a room of so many lines; where one says that AV block is likelier it is never the
/// one that is cut. Checks that hold, and in which it is like all that stand
/// beside it, are dimmed and marked `=`: they tell nothing apart.
pub(super) fn lines(
    candidate: &Candidate,
    beside: &[&Candidate],
    theme: Theme,
    width: u16,
    room: usize,
) -> Vec<Line<'static>> {
    let outcomes = told::in_order_of_harm(candidate);
    let mut said: Vec<Line> = Vec::new();
    for outcome in outcomes.iter().filter(|outcome| outcome.state != State::Ok) {
        // What has no room is not laid out.
        if said.len() >= room {
            break;
        }
        let aside = outcome
            .aside
            .map_or_else(String::new, |aside| format!(" ({aside})"));
        let says = format!(
            "{} {}{aside}",
            told::state_glyph(outcome.state),
            outcome.says
        );
        for line in wrapped(&visible(&says), usize::from(width)) {
            said.push(Line::styled(line, theme.state(outcome.state)));
        }
    }
    // Sentences take what the table leaves, but at least half where they need it.
    let table = room.saturating_sub(said.len()).max(room.div_ceil(2));
    let shown = first_of(&outcomes, candidate, table);
    let rows = shown.len();
    let mut lines: Vec<Line> = shown
        .into_iter()
        .map(|outcome| {
            let asked = (outcome.check, outcome.of);
            let is_alike = outcome.state == State::Ok && are_alike(beside, asked);
            row(outcome, is_alike, theme, usize::from(width))
        })
        .collect();
    lines.extend(said);
    if lines.len() > room {
        lines.truncate(room.saturating_sub(1).max(rows));
        lines.push(Line::styled("…", theme.dim()));
        lines.truncate(room);
    }
    lines
}

/// So many of the outcomes in their order; where AV block is likelier that is never
/// among those that are cut.
fn first_of<'a>(
    outcomes: &[&'a Outcome],
    candidate: &'a Candidate,
    room: usize,
) -> Vec<&'a Outcome> {
    let mut shown: Vec<&Outcome> = outcomes.iter().copied().take(room).collect();
    if let (Some(av_block), Some(last)) = (told::av_block(candidate), shown.last_mut())
        && told_before(last, av_block).is_lt()
        // Nor is it told in place of the only broken limit.
        && (room > 1 || last.state != State::Stop)
    {
        *last = av_block;
    }
    shown
}

/// The gravest of a candidate in so many lines, each a phrase: broken limits, then
/// warnings, in the order of harm, then what holds by least. Where one says that AV
/// block is likelier it is never the one that is cut. From so much room on that every
/// check has a line, all of them as a table.
pub(super) fn gravest(
    candidate: &Candidate,
    beside: &[&Candidate],
    theme: Theme,
    width: u16,
    room: usize,
) -> Vec<Line<'static>> {
    if room > candidate.outcomes.len() {
        return lines(candidate, beside, theme, width, room);
    }
    let outcomes = told::in_order_of_harm(candidate);
    let broken = outcomes.iter().filter(|one| one.state != State::Ok).count();
    let shown = first_of(&outcomes, candidate, room);
    let more = broken.saturating_sub(shown.len());
    let count = shown.len();
    let told = shown.into_iter().enumerate();
    told.map(|(index, outcome)| {
        let more = match more {
            more @ 1.. if index + 1 == count => format!("  +{more}"),
            _ => String::new(),
        };
        let glyph = told::state_glyph(outcome.state);
        let columns = usize::from(width).saturating_sub(glyph.width() + more.width() + 1);
        let text = format!("{glyph} {}{more}", told::phrase(outcome, columns));
        Line::styled(text, theme.state(outcome.state))
    })
    .collect()
}

fn row(outcome: &Outcome, is_alike: bool, theme: Theme, width: usize) -> Line<'static> {
    let has_chance = width >= 2 + NAME + VALUE + CHANCE;
    let has_bar = width > 2 + NAME + VALUE + CHANCE + BAR;
    let value = told::value(outcome).unwrap_or_else(|| "–".to_owned());
    // A value hard by its limit is written with more decimals.
    let value = format!("{:>VALUE$}", format!(" {value}"));
    let behind =
        value.width() + if has_chance { CHANCE } else { 0 } + if has_bar { BAR + 1 } else { 0 };
    let (mark, style) = if is_alike {
        ("=", theme.dim())
    } else {
        (" ", theme.state(outcome.state))
    };
    let glyph = told::state_glyph(outcome.state);
    let lead = outcome.title.split_once(", ");
    let lead = lead.map_or(0, |(lead, _)| lead.width());
    // The first words of a warning are whole before anything else has room.
    let first = if width < glyph.width() + mark.width() + lead + behind && mark == " " {
        glyph.to_owned()
    } else {
        format!("{glyph}{mark}")
    };
    let name = told::name(outcome, width.saturating_sub(first.width() + behind));
    let mut spans = vec![
        Span::styled(first, style),
        Span::styled(name, style),
        Span::styled(value, style),
    ];
    if has_bar {
        spans.push(Span::styled(format!(" {}", bar(outcome)), style));
    }
    if has_chance {
        let chance = outcome.chance.map(|it| whole_per_cent(100.0 * it.value));
        spans.push(Span::styled(
            format!("{:>CHANCE$}", chance.unwrap_or_default()),
            theme.dim(),
        ));
    }
    Line::from(spans)
}

/// A chance in per cent in four columns: next to none and next to all are bounds.
fn whole_per_cent(value: f64) -> String {
    match value {
        value if value < 1.0 => "<1%".to_owned(),
        value if value > 99.0 => ">99%".to_owned(),
        value => format!("{value:.0}%"),
    }
}

/// The margin to the nearer limit, right of the bar where it holds and left of
/// it where it is broken; a half of the bar is one unit of the check's scale.
fn bar(outcome: &Outcome) -> String {
    let margin = outcome.margin_stop().or_else(|| outcome.margin_caution());
    let Some(margin) = margin else {
        return " ".repeat(BAR);
    };
    let half = BAR / 2;
    let share = (margin / outcome.scale).clamp(-1.0, 1.0);
    let filled = (1..=half)
        .filter(|&cell| share.abs() * half as f64 + 0.5 >= cell as f64)
        .count();
    let (full, empty) = ("■".repeat(filled), " ".repeat(half - filled));
    let blank = " ".repeat(half);
    if share < 0.0 {
        format!("{empty}{full}│{blank}")
    } else {
        format!("{blank}│{full}{empty}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sizing::house_rules::Band;
    use sizing::{Harm, Subject};

    fn outcome(value: f64) -> Outcome {
        Outcome {
            rotation: None,
            check: "clearance",
            title: "clearance",
            short: "clearance",
            below: Some("contact"),
            harm: Harm::AorticOrMitralValve,
            of: Subject::Shape,
            unit: measurement::Unit::Mm,
            scale: 1.0,
            state: State::Ok,
            value: Some(value),
            stop: Band {
                low: Some(0.0),
                high: None,
            },
            caution: Band::NONE,
            chance: None,
            missing: Vec::new(),
            says: String::new(),
            aside: None,
        }
    }

    #[test]
    fn the_bar_grows_right_of_the_limit_and_left_where_it_is_broken() {
        assert_eq!(bar(&outcome(5.0)), "  │■■");
        assert_eq!(bar(&outcome(0.34)), "  │■ ");
        assert_eq!(bar(&outcome(0.0)), "  │  ");
        assert_eq!(bar(&outcome(-0.6)), " ■│  ");
    }
}
