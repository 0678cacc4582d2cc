//! What is asked before a proposed row is put into your centre's rules.

use crate::edit::Edit;
use crate::model::Model;
use crate::overlay::Task;
use crate::refused::Refused;
use crate::rules_change::RulesChange;
use crate::rules_home::RulesHome;
use files::{ProposedRows, visible};
use sizing::HouseRules;
use sizing::look_back::ReadingRow;
use std::sync::Arc;

/// The question, with what the rules say now and what they would say; Err: why the row
/// cannot be put in.
pub(super) fn question(
    row: &ReadingRow,
    rows: &ProposedRows,
    model: &Model,
) -> Result<Task, Refused> {
    let document = model.document();
    if let Some(earlier) = rows.earlier(document.rules()) {
        return Err(Refused::LookedBackBefore(earlier.source.clone()));
    }
    let file = document.rules_file().ok_or(Refused::NoRulesFile)?;
    let home = match &model.rules_home {
        RulesHome::Nowhere => return Err(Refused::NoRulesFile),
        RulesHome::File(path) => {
            let file = visible(&path.display().to_string()).into_owned();
            vec![format!(
                "written into {file}; the rest of it stays as it is"
            )]
        }
        RulesHome::New(path) => {
            let file = visible(&path.display().to_string()).into_owned();
            vec![
                "the rules in use came with the program and stay as they are".to_owned(),
                format!("a copy of them with this row is written as {file}"),
                "from then on give that file with --rules".to_owned(),
            ]
        }
    };
    let changed = file.with_proposed(rows);
    let changed = changed.map_err(|error| Refused::RulesNotChanged(error.to_string()))?;
    let label = row.of.label();
    let mut about = vec![
        format!("now: {}", now(rows, document.rules())),
        format!("then: {}", then(rows)),
        row.says(),
    ];
    about.extend(home);
    Ok(Task::AskRules(Box::new(RulesChange {
        asks: format!("Put into your centre's rules? {label}, n {}", row.pairs),
        about,
        edit: Edit::Rules {
            file: Arc::new(changed),
            called: format!("your centre's rules: {label}, {}", then(rows)),
        },
    })))
}

/// What the rules would say of such readings.
pub(super) fn then(rows: &ProposedRows) -> String {
    let taken_off = taken_off(rows.bias.too_large_by);
    match &rows.doubt {
        Some(doubt) => format!("{taken_off}, {}", sd(doubt.sd, 0.0)),
        None => taken_off,
    }
}

/// What the rules say of such readings now.
fn now(rows: &ProposedRows, rules: &HouseRules) -> String {
    let (of, by) = (&rows.bias.of, &rows.bias.modalities);
    let is_of = |all: &[measurement::Quantity]| of.iter().any(|one| all.contains(one));
    let takes =
        |all: &[measurement::Modality]| all.is_empty() || by.iter().any(|one| all.contains(one));
    let biases = rules.biases.iter();
    let biases: Vec<f64> = biases
        .filter(|row| is_of(&row.of) && takes(&row.modalities))
        .map(|row| row.too_large_by)
        .collect();
    let taken_off = if biases.is_empty() {
        "nothing taken off".to_owned()
    } else {
        taken_off(biases.iter().sum())
    };
    let mut doubts = rules.doubts.iter();
    let is_first = |row: &&sizing::house_rules::DoubtRow| {
        (row.of.is_empty() || is_of(&row.of)) && takes(&row.modalities)
    };
    let unit = of.first().map(|one| one.unit());
    let doubt = doubts.find(|row| Some(row.unit) == unit && is_first(row));
    match doubt.filter(|_| rows.doubt.is_some()) {
        Some(doubt) => format!("{taken_off}, {}", sd(doubt.sd, doubt.share)),
        None => taken_off,
    }
}

fn taken_off(too_large_by: f64) -> String {
    if too_large_by < 0.0 {
        format!("{:.2} mm added", -too_large_by)
    } else {
        format!("{too_large_by:.2} mm taken off")
    }
}

fn sd(sd: f64, share: f64) -> String {
    let share = if share > 0.0 {
        format!(" or {:.0} % of the value", 100.0 * share)
    } else {
        String::new()
    };
    format!("SD {sd:.2} mm{share} where a reading has none")
}
