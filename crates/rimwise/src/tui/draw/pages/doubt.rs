//! How sure the answer is, and what would change it.

mod table;

use super::{List, Seen, said};
use crate::text::fitted;
use crate::told;
use crate::tui::draw::lines;
use crate::tui::draw::readings::modality;
use crate::tui::theme::Theme;
use files::visible;
use measurement::{Quantity, ReadingId};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use session::{Doubt, Focus, Session};
use sizing::{Candidate, Outcome, State};

/// Draws the page.
pub(in crate::tui::draw) fn draw(
    frame: &mut Frame,
    session: &Session,
    theme: Theme,
    area: Rect,
    seen: &mut Seen,
) {
    let doubted = session.results().doubted();
    let is_stale =
        session.shows_stale() || doubted.is_some_and(|it| session.shows_as_before(it.generation));
    let beside = lines::of_before(is_stale, "");
    let area = lines::headed(frame, "Doubt", beside, true, theme, area);
    let list = list(session, theme, area.width);
    let selected = session.view().selected[Focus::Doubt];
    let on = (area, Focus::Doubt);
    list.draw(frame, selected, (is_stale, theme), on, seen);
}

/// What the page says, line by line.
pub(in crate::tui::draw) fn list(session: &Session, theme: Theme, width: u16) -> List {
    let mut list = List::default();
    let selected = session.view().selected[Focus::Doubt];
    let Some(candidate) = session.candidate() else {
        list.say(said("assessing the catalogue …", theme.dim(), width));
        return list;
    };
    list.say(how_sure(session, candidate, theme, width));
    list.say(measure_next(session, theme, width));
    let doubts = session.doubts();
    let mut heading = "";
    for doubt in &doubts {
        let its = title(doubt);
        if its != heading {
            list.say(headed(session, its, theme, width));
            if its == DECISIVE {
                list.say(columns(theme, width));
            }
            heading = its;
        }
        let is_selected = list.entries.len() == selected;
        list.entry(entry(session, doubt, theme, width), selected, theme);
        if is_selected {
            list.say(in_full(session, doubt, theme, width));
        }
    }
    list.say(without_end(session, theme, width));
    list.say(of_model(session, theme, width));
    list.say(contributions(candidate, theme, width));
    let is_known = session
        .results()
        .doubted()
        .is_some_and(|it| it.place == candidate.place);
    if !is_known {
        list.say(said(
            "working out where the verdict changes …",
            theme.dim(),
            width,
        ));
    } else if session.results().doubted().is_some_and(|it| !it.is_last) {
        let text = "working out what to measure next …";
        list.say(said(text, theme.dim(), width));
    }
    list
}

/// The candidate, its chance with its error, and with whom it is tied.
fn how_sure(
    session: &Session,
    candidate: &Candidate,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let verdict = candidate.judged.verdict;
    let chances = candidate.chances.filter(|_| !candidate.is_case_excluded);
    let chance = chances.map_or_else(
        || {
            if candidate.is_case_excluded {
                "no chance is given, because the case is excluded"
            } else if candidate.is_case_rated {
                "chances follow"
            } else {
                "no chance is given, because the case is not rated"
            }
            .to_owned()
        },
        |it| {
            let warning = 100.0 * it.chance_no_caution.value;
            format!(
                "inside limits (geometry only) {}; without any warning {warning:.0} %",
                told::chance(candidate)
            )
        },
    );
    let glyph = told::verdict_glyph(verdict);
    let text = format!(
        "{glyph} {}, {}: {chance}. {}",
        sizing::device_name(&candidate.name()),
        verdict.word(),
        tied(session, candidate)
    );
    said(&text, theme.verdict(verdict), width)
}

/// Those that the draws cannot tell from a candidate.
fn tied(session: &Session, candidate: &Candidate) -> String {
    let Some(assessed) = session.results().assessed() else {
        return String::new();
    };
    let ranking = &assessed.ranking;
    let all = || ranking.candidates.iter().zip(&ranking.groups);
    let group = all().find(|(one, _)| one.place == candidate.place);
    let Some((_, group)) = group else {
        return String::new();
    };
    let others: Vec<String> = all()
        .filter(|(one, its)| *its == group && one.place != candidate.place)
        .map(|(one, _)| sizing::device_name(&one.name()))
        .collect();
    match others.len() {
        0 => "No other size is tied with it.".to_owned(),
        count => {
            const NAMED: usize = 4;
            let more = if count > NAMED {
                format!(" and {} more", count - NAMED)
            } else {
                String::new()
            };
            let named = others.into_iter().take(NAMED).collect::<Vec<_>>();
            format!("Tied by chance with {}{more}.", named.join(", "))
        }
    }
}

/// What to measure next, and how sure the choice is.
fn measure_next(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let doubted = session.results().doubted();
    let worth = doubted.and_then(|it| it.worth.as_ref());
    worth.map_or_else(Vec::new, |worth| {
        let mut lines = said(&worth.says(), theme.strong(), width);
        lines.extend(said(&worth.says_not_best(), theme.text(), width));
        lines
    })
}

/// What changes nothing, whatever its value.
fn without_end(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let doubted = session.results().doubted();
    let readings = doubted.into_iter().flat_map(|it| &it.break_evens.readings);
    let others = readings.filter(|one| one.ends().next().is_none()).count();
    let Some(doubted) = doubted.filter(|_| others > 0) else {
        return Vec::new();
    };
    // Where no reading has an end, no list above has said what is held.
    let mut lines = Vec::new();
    if others == doubted.break_evens.readings.len() {
        lines = headed(session, DECISIVE, theme, width);
    }
    let text = match others {
        1 => "One other reading cannot change the verdict on its own.".to_owned(),
        _ => format!("None of {others} other readings can change the verdict on its own."),
    };
    lines.extend(said(&text, theme.dim(), width));
    lines
}

/// What of the model itself would change the verdict.
fn of_model(session: &Session, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let doubted = session.results().doubted();
    let says = doubted.map_or_else(Vec::new, |it| it.break_evens.model_says());
    if says.is_empty() {
        return Vec::new();
    }
    let mut lines = said(
        "The model itself, which no reading settles",
        theme.strong(),
        width,
    );
    let each = says.iter();
    lines.extend(each.flat_map(|text| said(&format!("  {text}"), theme.text(), width)));
    lines
}

/// The least share of the draws that is shown: what rounds to nothing is not.
const LEAST_SHOWN: f64 = 0.005;

/// Which stop costs how much of the chance.
fn contributions(candidate: &Candidate, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let mut stops: Vec<(&Outcome, f64)> = candidate
        .outcomes
        .iter()
        .filter_map(|outcome| Some((outcome, 1.0 - outcome.chance?.value)))
        .filter(|(_, broken)| *broken >= LEAST_SHOWN)
        .collect();
    stops.sort_by(|one, other| other.1.total_cmp(&one.1));
    let unknown: Vec<String> = candidate
        .outcomes
        .iter()
        .filter(|outcome| outcome.state == State::NotAssessed && !outcome.stop.is_none())
        .map(told::check)
        .collect();
    let mut lines = vec![Line::styled(
        fitted(
            "What costs most, as the share of simulated variations in which the limit is broken",
            usize::from(width),
        ),
        theme.strong(),
    )];
    if stops.is_empty() {
        lines.push(Line::styled(
            "  no limit is broken in 1 % of them or more",
            theme.dim(),
        ));
    }
    if !stops.is_empty() {
        // Over the bars, and as wide as they are.
        let before = 2 + name(width) + " 100 %  ".len();
        let scale = format!("{}0              100 %", " ".repeat(before));
        lines.push(Line::styled(
            fitted(&scale, usize::from(width)),
            theme.dim(),
        ));
    }
    for (outcome, broken) in stops {
        const BAR: f64 = 20.0;
        let filled = (1..=20)
            .filter(|&cell| broken * BAR + 0.5 >= f64::from(cell))
            .count();
        lines.push(Line::styled(
            fitted(
                &format!(
                    "  {} {:>3.0} %  {}{}",
                    fitted(&told::check(outcome), name(width)),
                    100.0 * broken,
                    "■".repeat(filled),
                    "·".repeat(20 - filled)
                ),
                usize::from(width),
            ),
            theme.text(),
        ));
    }
    if !unknown.is_empty() {
        let text = format!(
            "? not assessed, so the chance is an upper bound: {}",
            unknown.join(", ")
        );
        lines.extend(said(&text, theme.state(State::Caution), width));
    }
    lines
}

const fn title(doubt: &Doubt) -> &'static str {
    match doubt {
        Doubt::Disputed(..) => "The two readings furthest apart",
        Doubt::SetAside(..) => "Set aside",
        Doubt::Decisive(_) => DECISIVE,
    }
}

/// A heading, with what goes before its entries.
fn headed(session: &Session, title: &'static str, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let mut lines = vec![Line::styled(title, theme.strong())];
    let doubted = session.results().doubted();
    if let Some(doubted) = doubted.filter(|_| title == DECISIVE) {
        lines.extend(said(&doubted.break_evens.held_says(), theme.text(), width));
    }
    lines
}

/// What stands in the columns of the table, and their heads.
fn columns(theme: Theme, width: u16) -> Vec<Line<'static>> {
    let legend = "likely: that the value lies there; gain: what measuring it exactly would add to \
                  the best choice";
    let mut lines = said(legend, theme.dim(), width);
    let heads = table::head(width).into_iter();
    lines.extend(heads.map(|head| Line::styled(head, theme.dim())));
    lines
}

/// The heading of the readings that decide.
const DECISIVE: &str = "Which reading decides";

fn entry(session: &Session, doubt: &Doubt, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let doubted = session.results().doubted();
    match doubt {
        Doubt::Disputed(id, quantity) => reading(session, id, *quantity, "≠", theme, width),
        Doubt::SetAside(id, quantity) => reading(session, id, *quantity, "×", theme, width),
        Doubt::Decisive(quantity) => {
            doubted.map_or_else(Vec::new, |it| table::row(it, *quantity, theme, width))
        }
    }
}

/// The selected reading's break-even as a sentence.
fn in_full(session: &Session, doubt: &Doubt, theme: Theme, width: u16) -> Vec<Line<'static>> {
    let doubted = session.results().doubted();
    let found = doubted.and_then(|it| {
        let mut readings = it.break_evens.readings.iter();
        let one = readings.find(|one| *doubt == Doubt::Decisive(one.quantity))?;
        one.ends().next()?;
        Some(it.break_evens.says(one))
    });
    found.map_or_else(Vec::new, |text| {
        said(&format!("  {text}."), theme.dim(), width)
    })
}

/// Columns of a name before figures.
fn name(width: u16) -> usize {
    usize::from(width) * 2 / 5
}

/// A reading: value, how and when it was taken, and why it was set aside.
fn reading(
    session: &Session,
    id: &ReadingId,
    quantity: Quantity,
    mark: &str,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let Some(reading) = session.document().reading(id) else {
        return Vec::new();
    };
    let sd = reading.sd.map_or_else(String::new, |sd| format!(" ± {sd}"));
    let why = reading
        .set_aside
        .as_ref()
        .map_or_else(String::new, |why| format!(": {why}"));
    let text = format!(
        "{mark} {quantity} {}{sd} {} ({}, {} {}){why}",
        reading.value,
        quantity.unit().symbol(),
        id.0,
        modality(reading.modality),
        reading.phase.label(),
    );
    let style = if reading.set_aside.is_some() {
        theme.dim()
    } else {
        theme.state(State::Caution)
    };
    said(&visible(&text), style, width)
}
