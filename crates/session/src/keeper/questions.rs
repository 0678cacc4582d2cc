//! What the keeper asks the operator.

use crate::Change;
use crate::errand::{Errand, Save};
use crate::overlay::{Choice, Question};
use files::{Ground, Recovery, StoreError};

/// What was found in a journal: restored or dropped, nothing goes on before.
pub(super) fn recovery(found: &Recovery) -> Question {
    let count = match found.changes.len() {
        1 => "1 change was".to_owned(),
        count => format!("{count} changes were"),
    };
    let ground = match found.ground {
        Ground::Theirs => "",
        Ground::Other => " The file was changed since: restoring and saving would undo that.",
    };
    Question {
        asks: format!("{count} made and not saved before the program ended.{ground}"),
        about: found.changes.clone(),
        choices: vec![
            choice('r', "restore", Errand::Restore),
            choice('d', "drop for good", Errand::Discard),
        ],
        can_wait: false,
    }
}

/// What is done about a file that is not as it was left; `None` where no answer
/// helps.
pub(super) fn otherwise(error: &StoreError, save: &Save) -> Option<Question> {
    let over = Errand::Save(Save {
        over: true,
        ..save.clone()
    });
    let over = choice('o', "write over it", over);
    let choices = match error {
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

const fn choice(key: char, does: &'static str, errand: Errand) -> Choice {
    Choice {
        key,
        does,
        change: Change::Errand(errand),
    }
}
