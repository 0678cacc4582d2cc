//! What the keeper asks the operator.

use crate::errand::{Errand, Save, SheetFile};
use crate::keeper_error::KeeperError;
use crate::overlay::{Choice, Question, Task};
use files::{Ground, Recovery, StoreError, parse_case, visible};
use std::path::Path;

/// What was found in a journal: restored or dropped, nothing goes on before.
pub(super) fn recovery(found: &Recovery, is_there: bool) -> Question {
    let ground = match found.ground {
        _ if !is_there => " The file is no longer there: saving makes it anew.",
        Ground::Theirs => "",
        Ground::Other => " The file was changed since: restoring and saving would undo that.",
    };
    Question {
        asks: format!(
            "{} made and not saved before the program ended.{ground}",
            changes(found)
        ),
        about: found.changes.clone(),
        choices: restore_or_drop(),
        // Where nothing is open yet, the demonstration is.
        wait: (!is_there).then_some("later"),
        refused: String::new(),
    }
}

/// What was kept of a case in no file.
pub(super) fn unfiled(found: &Recovery) -> Question {
    let case = parse_case("", &found.text).map(files::CaseFile::into_value);
    let case = case.map_or_else(
        |_| "a case".to_owned(),
        |case| {
            let readings = match case.readings.len() {
                1 => "1 reading".to_owned(),
                count => format!("{count} readings"),
            };
            format!("“{}” with {readings}", visible(&case.title))
        },
    );
    Question {
        asks: format!(
            "Not saved before the program ended, and in no file yet: {case}. {} made.",
            changes(found)
        ),
        about: found.changes.clone(),
        choices: restore_or_drop(),
        wait: Some("later"),
        refused: String::new(),
    }
}

fn changes(found: &Recovery) -> String {
    match found.changes.len() {
        1 => "1 change was".to_owned(),
        count => format!("{count} changes were"),
    }
}

fn restore_or_drop() -> Vec<Choice> {
    vec![
        choice('r', "restore", Errand::Restore),
        choice('d', "drop for good", Errand::Discard),
    ]
}

/// What to do where the open file was changed, or taken away, by something else.
pub(super) fn changed(path: &Path, is_there: bool) -> Question {
    let file = visible(&path.display().to_string()).into_owned();
    if is_there {
        let reload = choice('r', "reload, undo brings yours back", Errand::Reload);
        let mut question = Question::new(format!("{file} was changed on disk."), vec![reload]);
        question.wait = Some("keep yours; saving asks again");
        return question;
    }
    let mut question = Question::new(format!("{file} is no longer there."), Vec::new());
    question.wait = Some("keep yours; saving asks again");
    question
}

/// What is done about a file that is not as it was left; `None` where no answer
/// helps.
pub(super) fn otherwise(error: &KeeperError, save: &Save) -> Option<Question> {
    let over = Errand::Save(Save {
        over: true,
        ..save.clone()
    });
    let over = choice('o', "write over it", over);
    let KeeperError::Store(store) = error else {
        return None;
    };
    let choices = match store {
        StoreError::Changed { .. } => {
            vec![
                choice('r', "reload, undo brings yours back", Errand::Reload),
                over,
            ]
        }
        StoreError::Gone { .. } => vec![Choice {
            does: "save all the same",
            ..over
        }],
        StoreError::Exists { .. } => vec![over],
        _ => return None,
    };
    Some(Question::new(error.to_string(), choices))
}

/// Whether a sheet is written over what is there; `None` where that is no question.
pub(super) fn over_sheet(error: &KeeperError, asked: &SheetFile) -> Option<Question> {
    let KeeperError::Store(StoreError::Exists { .. }) = error else {
        return None;
    };
    let over = Errand::Sheet(SheetFile {
        over: true,
        ..asked.clone()
    });
    let file = visible(&asked.to.display().to_string()).into_owned();
    let over = choice('o', "write over it", over);
    Some(Question::new(
        format!("{file} is there already."),
        vec![over],
    ))
}

/// What is done about the user's own catalogue where it is not as it was left;
/// `None` where no answer helps.
pub(super) fn shelf_otherwise(error: &KeeperError) -> Option<Question> {
    let over = choice('o', "write yours over it", Errand::KeepShelf { over: true });
    let read = choice('r', "read it, undo brings yours back", Errand::ReadShelf);
    let KeeperError::Store(store) = error else {
        return None;
    };
    let choices = match store {
        StoreError::Changed { .. } | StoreError::Exists { .. } => vec![read, over],
        StoreError::Gone { .. } => vec![Choice {
            does: "write it anew",
            ..over
        }],
        _ => return None,
    };
    let mut question = Question::new(error.to_string(), choices);
    question.wait = Some("keep yours here alone");
    Some(question)
}

/// What is done about your centre's rules where their file is not as it was left; what
/// others wrote is not written over. `None` where no answer helps.
pub(super) fn rules_otherwise(error: &KeeperError) -> Option<Question> {
    let KeeperError::Store(store) = error else {
        return None;
    };
    let choices = match store {
        StoreError::Changed { .. } | StoreError::Exists { .. } => {
            vec![choice(
                'r',
                "read it, undo brings yours back",
                Errand::ReadRules,
            )]
        }
        StoreError::Gone { .. } => {
            vec![choice(
                'o',
                "write it anew",
                Errand::KeepRules { anew: true },
            )]
        }
        _ => return None,
    };
    let mut question = Question::new(error.to_string(), choices);
    question.wait = Some("keep yours here alone");
    Some(question)
}

const fn choice(key: char, does: &'static str, errand: Errand) -> Choice {
    Choice {
        key,
        does,
        task: Task::Errand(errand),
    }
}
