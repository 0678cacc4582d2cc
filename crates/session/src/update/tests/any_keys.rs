use super::glance::opened;
use crate::fixture::assess;
use crate::{Command, Edit, Focus, Key, Session};
use proptest::prelude::*;
use std::sync::LazyLock;

/// One opened session, cloned for each sequence.
static OPENED: LazyLock<Session> = LazyLock::new(|| opened("aortic.rim 1.5"));

/// Every key of every command, and some that text is made of.
static KEYS: LazyLock<Vec<Key>> = LazyLock::new(|| {
    let of_commands = Command::all().flat_map(|command| command.keys);
    let others = [
        "enter",
        "esc",
        "backspace",
        "enter",
        ".",
        "5",
        "1",
        "x",
        "space",
        "tab",
        "tab",
        "f9",
    ];
    let all = of_commands
        .chain(&others)
        .filter(|key| !["q", "ctrl-c"].contains(key));
    all.map(|key| key.parse().unwrap()).collect()
});

fn keys() -> impl Strategy<Value = Vec<Key>> {
    prop::collection::vec(prop::sample::select(KEYS.as_slice()), 0..120)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn any_keys_can_be_undone_and_redone(keys in keys()) {
        let first = OPENED.clone();
        let mut session = first.clone();
        for (count, &key) in keys.iter().enumerate() {
            session.key(key);
            // Results come in at odd moments.
            if count % 40 == 39 {
                assess(&mut session);
            }
            prop_assert!(session.row().is_some());
            prop_assert!(session.view().selected[Focus::Bays] == 0 || session.view().selected[Focus::Bays] < session.document().bays().len());
        }
        let last = session.clone();
        let undo = Command::named("undo").unwrap();
        let redo = Command::named("redo").unwrap();
        // What was undone at the end is done again first, so that all is done.
        while session.history().last_undone().is_some() {
            session.command(redo);
        }
        let all_done = session.clone();
        while !session.history().is_empty() {
            session.command(undo);
            prop_assert!(matches!(session.status(), Some(crate::Status::Undone(_))));
        }
        prop_assert_eq!(session.document(), first.document());
        while session.history().last_undone().is_some() {
            session.command(redo);
        }
        prop_assert_eq!(session.document(), all_done.document());
        while session.history().len() > last.history().len() {
            session.command(undo);
        }
        prop_assert_eq!(session.document(), last.document());
    }

    #[test]
    fn every_edit_and_its_inverse_leave_nothing(keys in keys()) {
        let mut session = OPENED.clone();
        for key in keys {
            session.key(key);
            for command in Command::all() {
                let change = (command.change)(&session);
                let Ok(crate::Change::Edit(edit) | crate::Change::Nudge(edit)) = change else { continue };
                let before = session.document().clone();
                let mut after = before.clone();
                match edit.apply(&mut after) {
                    Ok(inverse) => {
                        let again: Edit = inverse.apply(&mut after).unwrap();
                        prop_assert_eq!(&again, &edit);
                    }
                    Err(_) => prop_assert!(edit.check(&before).is_err()),
                }
                prop_assert_eq!(&after, &before);
            }
        }
    }

    #[test]
    fn any_text_typed_or_pasted_is_taken_or_refused(text in ".{0,40}") {
        for opens in ["enter", "d", "s", "a", "/", "?"] {
            let mut session = OPENED.clone();
            session.key(opens.parse().unwrap());
            session.paste(&text);
            session.key("enter".parse().unwrap());
            let value = session.document().case().readings.iter().map(|one| one.value);
            prop_assert!(value.into_iter().all(f64::is_finite));
        }
    }
}
