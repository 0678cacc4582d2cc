//! One row of the page: what is asked on the left, what was seen on the right.

use super::later;
use crate::text::fitted;
use crate::tui::theme::Theme;
use files::visible;
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use session::{Session, TrialRow};
use sizing::trial::{Criterion, CriterionState, ObservationKind, Procedure, Trial};
use sizing::{State, Subject, device_name};
use unicode_width::UnicodeWidthStr;

/// The heading over a row; `None`: it has none.
pub(super) fn heading(session: &Session, row: &TrialRow) -> Option<&'static str> {
    let procedure = &session.document().case().procedure;
    let is_criterion = |what, of| criterion(procedure, what, of).is_some();
    Some(match row {
        TrialRow::Minute | TrialRow::Observer | TrialRow::Day => return None,
        TrialRow::Later(..) if !later::is_due(session, row) => "Not due on this day",
        TrialRow::Later(..) => "Due on this day of the schedule",
        TrialRow::Visit(_) => "Your centre's schedule, days after the procedure",
        TrialRow::Grown => "Growth",
        TrialRow::Criteria(_) => "Release criteria of pinned sizes",
        TrialRow::Written(..) => "Criteria, one by one",
        TrialRow::Before(..) => "What was there before",
        TrialRow::Used(_) => "Used so far, not judged",
        TrialRow::Room(_) => "In the room, not judged",
        TrialRow::Open(_) => "Open on its cable",
        TrialRow::Conflict(_) => "Readings and observation contradict each other",
        TrialRow::Observation(what, of) if is_criterion(*what, *of) => {
            "Release criteria, written before"
        }
        TrialRow::Observation(..) => "Seen beside the criteria",
        TrialRow::Condition(_) => "How it hangs and lies",
        TrialRow::CameOfIt => "What came of it",
    })
}

/// Whether a row is two lines high.
pub(super) const fn is_tall(row: &TrialRow) -> bool {
    matches!(
        row,
        TrialRow::Observation(..) | TrialRow::Criteria(_) | TrialRow::Open(_) | TrialRow::Later(..)
    )
}

/// What is looked at, with its subject.
pub(super) fn name(what: ObservationKind, of: Subject) -> String {
    what.name_of(of)
}

/// A row, line by line.
pub(super) fn lines(
    session: &Session,
    row: &TrialRow,
    theme: Theme,
    width: u16,
) -> Vec<Line<'static>> {
    let told = told(session, row, theme);
    let width = usize::from(width);
    let left = width * 11 / 20;
    let right = width.saturating_sub(left + 1);
    let is_offered = session.is_offered(row);
    let mut lines = vec![two(
        (&told.name, theme.strong()),
        (
            &told.seen,
            if is_offered {
                theme.state(State::Caution)
            } else {
                theme.text()
            },
        ),
        (left, right),
    )];
    if is_tall(row) {
        lines.push(two(
            (&told.about, theme.dim()),
            (&told.state.0, told.state.1),
            (left, right),
        ));
    }
    lines
}

fn two(
    (left, left_style): (&str, Style),
    (right, right_style): (&str, Style),
    (left_room, right_room): (usize, usize),
) -> Line<'static> {
    let (left, right) = (visible(left), visible(right));
    // A long name takes what a short answer leaves.
    let all = left_room + right_room;
    let left_room = left_room.max(left.width().min(all.saturating_sub(right.width())));
    let right_room = all - left_room;
    if right.is_empty() {
        let all = fitted(&left, left_room + right_room + 1);
        return Line::styled(all, left_style);
    }
    Line::from(vec![
        Span::styled(fitted(&left, left_room), left_style),
        Span::raw(" "),
        Span::styled(fitted(&right, right_room), right_style),
    ])
}

/// What a row says.
struct RowText {
    name: String,
    seen: String,
    about: String,
    state: (String, Style),
}

fn told(session: &Session, row: &TrialRow, theme: Theme) -> RowText {
    let procedure = &session.document().case().procedure;
    let pick = session.picked(row);
    let offered = session.is_offered(row);
    let says = pick.map(|pick| pick.says(row)).unwrap_or_default();
    let seen = if offered {
        format!("‹ {says} ›")
    } else {
        says
    };
    let plain = |name: String, seen: String| RowText {
        name,
        seen,
        about: String::new(),
        state: (String::new(), theme.text()),
    };
    match row {
        TrialRow::Minute => plain(
            "Puncture".to_owned(),
            session.minute().map_or_else(
                || match procedure.least_minute() {
                    0.0 => session.with_keys("[seen_now]: now"),
                    least => session.with_keys(&format!("{least:.0} passed; [details]: now")),
                },
                |now| format!("minute {now:.0}"),
            ),
        ),
        TrialRow::Criteria(size) => criteria(session, size, theme),
        TrialRow::Written(size, what, of) => {
            let mut written = procedure.criteria_of(size);
            let one = written.find(|one| one.row == *what && one.of == *of);
            let bounds = one.map(|one| one.bounds.says(*what)).unwrap_or_default();
            plain(format!("{size}: {}", name(*what, *of)), bounds)
        }
        TrialRow::Before(what, of) => {
            let seen = if seen.is_empty() {
                "nobody looked".to_owned()
            } else {
                seen
            };
            plain(name(*what, *of), seen)
        }
        TrialRow::Used(kind) => {
            let amount = procedure.used.get(*kind);
            let amount =
                amount.map_or_else(|| "–".to_owned(), |it| format!("{it} {}", kind.unit()));
            plain(kind.label().to_owned(), amount)
        }
        TrialRow::Room(what) => {
            let note = procedure.ticked(*what);
            let mark = if note.is_some() { "✓" } else { "·" };
            let mut seen = Vec::new();
            if let Some(note) = note {
                seen.extend(note.value.map(|value| format!("{value} {}", what.unit())));
                seen.extend(note.min.map(|min| format!("minute {min:.0}")));
            }
            plain(format!("{mark} {}", what.label()), seen.join(", "))
        }
        TrialRow::Open(size) => open(session, size, theme),
        TrialRow::Conflict(id) => plain(conflict(session, id), String::new()),
        TrialRow::Observer => {
            let view = procedure.open().and_then(|open| open.view.clone());
            let by = if seen.is_empty() {
                "nobody said".to_owned()
            } else {
                seen
            };
            let view = view.map_or_else(String::new, |view| format!(", {view}"));
            plain("Seen by".to_owned(), format!("{by}{view}"))
        }
        TrialRow::Observation(what, of) => observation(session, (*what, *of), seen, theme),
        TrialRow::Day => plain("Day after the procedure".to_owned(), later::day(session)),
        TrialRow::Later(what, of) => {
            let of_row = later::row(session, (*what, *of), offered);
            RowText {
                name: name(*what, *of),
                seen: if seen.is_empty() { of_row.seen } else { seen },
                about: of_row.how,
                state: (of_row.state, theme.dim()),
            }
        }
        TrialRow::Visit(day) => plain(format!("day {day}"), later::visit(session, *day)),
        TrialRow::Grown => plain(
            "The device in the grown child".to_owned(),
            later::grown(session),
        ),
        TrialRow::Condition(condition) => plain(condition.label().to_owned(), seen),
        TrialRow::CameOfIt => {
            let seen = if seen.is_empty() {
                "open".to_owned()
            } else {
                seen
            };
            plain("What came of it".to_owned(), seen)
        }
    }
}

fn criteria(session: &Session, size: &str, theme: Theme) -> RowText {
    let procedure = &session.document().case().procedure;
    let written: Vec<&Criterion> = procedure.criteria_of(size).collect();
    let count = written.len();
    let late = written.iter().any(|one| one.after_opening);
    let changed = written.iter().filter(|one| !one.changes.is_empty()).count();
    let seen = match count {
        0 => "not written".to_owned(),
        count => format!("{count} rows written"),
    };
    let about = if procedure.is_locked() {
        "locked: a change needs a reason, which stays"
    } else if count == 0 {
        "[write_criteria] writes your centre's criteria into the case"
    } else {
        "locked once a device is opened; [change_criterion] changes a row"
    };
    let state = match (late, changed) {
        (true, _) => "written after opening".to_owned(),
        (false, 0) => String::new(),
        (false, changed) => format!("{changed} changed since, with reasons"),
    };
    RowText {
        name: device_name(size),
        seen,
        about: session.with_keys(about),
        state: (state, theme.state(State::Caution)),
    }
}

fn open(session: &Session, size: &str, theme: Theme) -> RowText {
    let procedure = &session.document().case().procedure;
    let times = procedure
        .trials
        .iter()
        .filter(|trial| trial.size == size)
        .count();
    let has_criteria = procedure.criteria_of(size).next().is_some();
    let about = if has_criteria {
        "criteria are written"
    } else {
        "no criteria: [write_criteria] writes them"
    };
    let assessed = session.results().assessed();
    let found = assessed.and_then(|it| it.ranking.find(size));
    let verdict = found.map(|it| it.judged.verdict);
    RowText {
        name: device_name(size),
        seen: match times {
            0 => session.with_keys("[seen_now] opens it"),
            1 => "opened once before".to_owned(),
            times => format!("opened {times} times before"),
        },
        about: session.with_keys(about),
        state: verdict.map_or_else(
            || (String::new(), theme.text()),
            |verdict| (verdict.word().to_owned(), theme.verdict(verdict)),
        ),
    }
}

fn observation(
    session: &Session,
    (what, of): (ObservationKind, Subject),
    seen: String,
    theme: Theme,
) -> RowText {
    let procedure = &session.document().case().procedure;
    let trial = procedure.open();
    let found = trial.and_then(|_| criterion(procedure, what, of));
    let offered = session.is_offered(&TrialRow::Observation(what, of));
    let last = trial.and_then(|trial| {
        let mut all = trial.seen.iter().rev();
        all.find(|one| one.what == what && one.of == of)
    });
    let not_looked = CriterionState::NotLookedAt.word();
    let aside = last.and_then(|one| one.set_aside.clone());
    let before = procedure.before(what, of);
    let seen = match (seen.is_empty(), &aside, before) {
        (true, Some(_), _) => "set aside".to_owned(),
        (true, None, _) => not_looked.to_owned(),
        (false, _, Some(before)) if !offered => format!("{seen} (before: {})", before.says(what)),
        _ => seen,
    };
    let state = if offered {
        (session.with_keys("[seen_now] confirms"), theme.dim())
    } else if let Some(why) = aside {
        (format!("set aside: {why}"), theme.state(State::Caution))
    } else {
        match (found, trial) {
            (Some(found), Some(trial)) => state(found.state(procedure, trial), theme),
            _ => (
                weighed(session, last.map(|one| one.id.as_str())),
                theme.dim(),
            ),
        }
    };
    let about = found.map_or_else(
        || "weighs the simulated variations alone".to_owned(),
        |found| {
            let late = if found.after_opening {
                "; written after opening"
            } else {
                ""
            };
            format!("{}{late}", found.bounds.says_inside(what))
        },
    );
    RowText {
        name: name(what, of),
        seen,
        about,
        state,
    }
}

fn state(state: CriterionState, theme: Theme) -> (String, Style) {
    let style = match state {
        CriterionState::NotLookedAt => theme.dim(),
        CriterionState::Inside => theme.text(),
        CriterionState::Between => theme.state(State::Caution),
        CriterionState::Beyond => theme.state(State::Stop),
    };
    (state.word().to_owned(), style)
}

/// Whether an observation counts, or why not, once that is known.
fn weighed(session: &Session, id: Option<&str>) -> String {
    let outcome = || {
        let weighing = session.results().assessed()?.weighing.as_ref()?;
        let mut all = weighing.trials.iter().flat_map(|trial| &trial.seen);
        all.find(|one| Some(one.id.as_str()) == id)
    };
    match outcome().map(|one| &one.counted) {
        Some(Err(why)) => why.says(),
        Some(Ok(_)) => "weighs the simulated variations".to_owned(),
        None => String::new(),
    }
}

/// What contradicts the readings, and what a person can do about it.
fn conflict(session: &Session, id: &str) -> String {
    let weighing = session
        .results()
        .assessed()
        .and_then(|it| it.weighing.as_ref());
    let mut all = weighing
        .into_iter()
        .flat_map(|weighing| weighing.conflicts());
    let found = all.find(|(_, seen, _)| *seen == id);
    let says = found.map_or_else(String::new, |(_, _, expected)| expected.what.clone());
    let remedy = "[seen_now] sets it aside with a reason, or set a reading aside ([plan_page])";
    format!("{says}: {}", session.with_keys(remedy))
}

/// The criterion of the open size on something that is seen.
fn criterion(procedure: &Procedure, what: ObservationKind, of: Subject) -> Option<&Criterion> {
    let open: &Trial = procedure.open()?;
    let mut all = procedure.criteria_of(&open.size);
    all.find(|one| one.row == what && one.of == of)
}
