//! Whatever is pressed, what is on the screen survives.

use super::*;
use crate::{Command, Home, Key};
use proptest::prelude::*;

/// Every key of every command but those that ask for paths, leave or stop, and
/// some that text is made of.
fn keys() -> impl Strategy<Value = Vec<Key>> {
    let commands =
        Command::all().filter(|it| !["leave", "open", "save_as", "suspend"].contains(&it.id));
    let keys = commands.flat_map(|command| command.keys.iter().copied());
    let more = [
        "enter", "enter", "esc", "7", "2", ".", "x", "right", "left", "down",
    ];
    let keys: Vec<Key> = keys.chain(more).map(|key| key.parse().unwrap()).collect();
    prop::collection::vec(prop::sample::select(keys), 0..40)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn nothing_that_was_confirmed_is_lost(keys in keys(), of_file in any::<bool>()) {
        let desk = Desk::new("any-keys");
        let start = |of_file: bool| {
            let mut window = Window(infant(), Keeper::default().with_folder(&desk.0.join("state")), Vec::new());
            if of_file {
                window.1.open(&mut window.0, &desk.case()).unwrap();
            }
            window.1.offer_unfiled(&mut window.0);
            window
        };
        let mut window = start(of_file);
        let save = Command::named("save").unwrap();
        for key in keys {
            // Where a case in no file is saved is asked, and typed at random.
            let is_in_file = matches!(window.0.document().home(), Home::File(_));
            if !is_in_file && save.keys.contains(&key.to_string().as_str()) {
                continue;
            }
            window.0.key(key);
            window.tend();
            window.1.watch(&mut window.0, Instant::now());
        }
        let was = window.0.document().clone();
        let is_in_file = matches!(was.home(), Home::File(_));
        let is_unsaved = window.0.is_unsaved();
        // Nothing of it is tidied up in a crash, and the locks are the system's.
        drop(window);

        let mut window = start(is_in_file);
        if is_unsaved {
            prop_assert!(!window.0.overlays().is_empty(), "nothing is offered");
            window.press("r");
        }
        if is_unsaved || is_in_file {
            // Not `assert_eq`: two whole cases say little.
            prop_assert!(window.0.document().case() == was.case(), "it is otherwise");
        }
    }
}
