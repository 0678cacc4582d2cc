use crate::key::{Key, NoSuchKey};
use crate::page::Focus;
use std::collections::BTreeMap;

/// Which key does what in which panel.
#[derive(Clone, Debug)]
pub struct KeyMap {
    bindings: Vec<Binding>,
}

/// A command by its id, with its keys.
#[derive(Clone, Debug)]
pub struct Binding {
    /// The id of the command.
    pub id: &'static str,
    /// What it is called and does, in words.
    pub text: String,
    /// The panels in which its keys count; empty: everywhere.
    pub panels: &'static [Focus],
    /// Its keys, the first the one that is shown.
    pub keys: Vec<Key>,
}

impl Binding {
    fn counts_in(&self, panel: Focus) -> bool {
        self.panels.is_empty() || self.panels.contains(&panel)
    }

    /// Whether two commands count in one panel.
    fn meets(&self, other: &Self) -> bool {
        let both = |&panel: &Focus| self.counts_in(panel) && other.counts_in(panel);
        Focus::ALL.iter().any(both)
    }
}

/// What of a text of keys could not be followed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KeyMapError {
    /// The text is no map of names to lists of keys.
    #[error("{0}; expected a map such as {{ \"undo\": [\"u\", \"ctrl-z\"] }}")]
    NotAMap(String),
    /// A name that no command has.
    #[error("no command is called \"{0}\": `?` in the program lists them all")]
    NoSuchCommand(String),
    /// A text that names no key.
    #[error("the keys of \"{command}\": {error}")]
    NoSuchKey {
        /// The command's id.
        command: &'static str,
        /// What is wrong with the key.
        error: NoSuchKey,
    },
    /// One key for two commands in the same panel.
    #[error("`{key}` is the key of both \"{one}\" and \"{other}\": give one of them another")]
    Twice {
        /// The key.
        key: Key,
        /// The first command's id.
        one: &'static str,
        /// The other command's id.
        other: &'static str,
    },
    /// A key with Alt, which a terminal's own replies look like.
    #[error(
        "`{key}` of \"{command}\": a terminal's own replies look like keys with Alt; give it another"
    )]
    WithAlt {
        /// The key.
        key: Key,
        /// The command's id.
        command: &'static str,
    },
    /// The command that ends the program was left without a key.
    #[error("\"leave\" needs a key")]
    NoWayOut,
}

impl KeyMap {
    /// A key map of commands with keys of their own.
    pub(crate) const fn new(bindings: Vec<Binding>) -> Self {
        Self { bindings }
    }

    /// It with the commands of a RON text on other keys, a map of command ids to
    /// lists of keys, and what of the text could not be followed. What it does not
    /// name stays as it is, but a key that it gives is no other command's in the same
    /// panel.
    #[must_use]
    pub fn with_changes(mut self, text: &str) -> (Self, Vec<KeyMapError>) {
        let changes: BTreeMap<String, Vec<String>> = match ron::from_str(text) {
            Ok(changes) => changes,
            Err(error) => return (self, vec![KeyMapError::NotAMap(error.to_string())]),
        };
        let mut errors = Vec::new();
        let mut changed: Vec<usize> = Vec::new();
        for (id, keys) in changes {
            let renamed = RENAMED.iter().find(|(old, _)| *old == id);
            let now = renamed.map_or(id.as_str(), |(_, now)| now);
            let Some(index) = self.bindings.iter().position(|one| one.id == now) else {
                errors.push(KeyMapError::NoSuchCommand(id));
                continue;
            };
            let mut wanted = Vec::new();
            for key in keys {
                match self.wanted(index, &key, &changed) {
                    Ok(key) => wanted.push(key),
                    Err(error) => errors.push(error),
                }
            }
            if self.bindings[index].id == LEAVE && wanted.is_empty() {
                errors.push(KeyMapError::NoWayOut);
                continue;
            }
            self.bindings[index].keys = wanted;
            changed.push(index);
        }
        errors.extend(self.give_way(&changed));
        (self, errors)
    }

    /// A key that a text gives to a command, unless it is none, or that of another
    /// command the text names.
    fn wanted(&self, index: usize, key: &str, changed: &[usize]) -> Result<Key, KeyMapError> {
        let binding = &self.bindings[index];
        let command = binding.id;
        let key: Key = key
            .parse()
            .map_err(|error| KeyMapError::NoSuchKey { command, error })?;
        if key.alt {
            return Err(KeyMapError::WithAlt { key, command });
        }
        let mut others = changed.iter().map(|&index| &self.bindings[index]);
        match others.find(|other| binding.meets(other) && other.keys.contains(&key)) {
            Some(other) => Err(KeyMapError::Twice {
                key,
                one: other.id,
                other: command,
            }),
            None => Ok(key),
        }
    }

    /// Takes the keys of changed commands from all others; the one that ends the
    /// program keeps its own, and they go without.
    fn give_way(&mut self, changed: &[usize]) -> Option<KeyMapError> {
        let mut kept = None;
        for &index in changed {
            let binding = self.bindings[index].clone();
            for other in (0..self.bindings.len()).filter(|other| !changed.contains(other)) {
                let other = &mut self.bindings[other];
                if !binding.meets(other) {
                    continue;
                }
                let mut left = other.keys.clone();
                left.retain(|key| !binding.keys.contains(key));
                if other.id == LEAVE && left.is_empty() {
                    let last = other.keys.clone();
                    self.bindings[index].keys.retain(|key| !last.contains(key));
                    kept = Some(KeyMapError::NoWayOut);
                } else {
                    other.keys = left;
                }
            }
        }
        kept
    }

    /// The id of the command of a key in a panel.
    pub fn command(&self, key: Key, panel: Focus) -> Option<&'static str> {
        let mut bindings = self.bindings.iter();
        let found = bindings.find(|one| one.counts_in(panel) && one.keys.contains(&key));
        found.map(|one| one.id)
    }

    /// The keys of a command by its id, the first the one that is shown.
    pub fn keys(&self, id: &str) -> &[Key] {
        let binding = self.bindings.iter().find(|one| one.id == id);
        binding.map_or(&[], |one| &one.keys)
    }

    /// Every command with its keys, in the order in which they are shown.
    pub(crate) fn bindings(&self) -> &[Binding] {
        &self.bindings
    }
}

/// The command that ends the program: it always has a key.
pub(crate) const LEAVE: &str = "leave";

/// Names that commands had once, each with the one it has now.
const RENAMED: [(&str, &str); 2] = [
    ("no_such_neighbour", "out_of_reach"),
    ("put_aside", "out_of_stock"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::Command;

    fn says(text: &str) -> String {
        let (_, errors) = KeyMap::default().with_changes(text);
        let said: Vec<String> = errors.iter().map(ToString::to_string).collect();
        said.join("; ")
    }

    /// The command of a key in a panel after a change that can be followed.
    fn command(text: &str, key: &str, focus: Focus) -> Option<&'static str> {
        let (map, errors) = KeyMap::default().with_changes(text);
        assert_eq!(errors, [], "{text}");
        map.command(key.parse().unwrap(), focus)
    }

    #[test]
    fn every_default_key_is_a_key_and_stands_once() {
        let map = KeyMap::default();
        for (index, one) in map.bindings.iter().enumerate() {
            let written: Vec<String> = one.keys.iter().map(Key::to_string).collect();
            assert_eq!(written, Command::named(one.id).unwrap().keys, "{one:?}");
            for other in &map.bindings[index + 1..] {
                let twice = one.keys.iter().find(|key| other.keys.contains(key));
                assert!(twice.is_none() || !one.meets(other), "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn no_key_with_alt_is_bound_or_can_be() {
        let map = KeyMap::default();
        let mut keys = map.bindings().iter().flat_map(|one| &one.keys);
        assert!(keys.all(|key| !key.alt));
        assert!(says(r#"{ "undo": ["f5", "alt-x"] }"#).starts_with("`alt-x` of \"undo\": "));
    }

    #[test]
    fn a_change_replaces_the_keys_of_what_it_names_and_of_nothing_else() {
        let text = r#"{ "undo": ["f5", "ctrl-z"] }"#;
        assert_eq!(command(text, "f5", Focus::Bays), Some("undo"));
        assert_eq!(command(text, "u", Focus::Bays), None);
        assert_eq!(command(text, "U", Focus::Bays), Some("redo"));
    }

    #[test]
    fn one_key_may_do_different_things_in_different_panels() {
        assert_eq!(command("{}", "right", Focus::Readings), Some("more"));
        assert_eq!(command("{}", "right", Focus::Bays), Some("next_bay"));
        assert_eq!(command("{}", "right", Focus::Ranking), None);
    }

    #[test]
    fn a_key_of_the_users_is_no_other_commands() {
        let text = r#"{ "redo": ["u"] }"#;
        assert_eq!(command(text, "u", Focus::Bays), Some("redo"));
        assert_eq!(command(text, "ctrl-z", Focus::Bays), Some("undo"));
    }

    #[test]
    fn a_name_that_a_command_had_once_is_read() {
        for (old, now) in RENAMED {
            let (map, errors) =
                KeyMap::default().with_changes(&format!(r#"{{ "{old}": ["f9"] }}"#));
            assert_eq!(errors, [], "{old}");
            let key = "f9".parse().unwrap();
            let found = Focus::ALL.iter().find_map(|&focus| map.command(key, focus));
            assert_eq!(found, Some(now));
        }
    }

    #[test]
    fn a_file_of_keys_of_0_1_is_followed_whole() {
        let text = include_str!("../../../tests/tests/files/old/settings/keys.ron");
        let (map, errors) = KeyMap::default().with_changes(text);
        assert_eq!(errors, []);
        let old: BTreeMap<String, Vec<String>> = ron::from_str(text).unwrap();
        assert_eq!(old.len(), 78);
        for (name, keys) in old {
            let renamed = RENAMED.iter().find(|(old, _)| *old == name);
            let now = Command::named(renamed.map_or(&*name, |(_, now)| now)).unwrap();
            // The user's key is that command's wherever it counts, whatever else has
            // come to have it since.
            for key in keys {
                let counts = Focus::ALL.iter().filter(|&&focus| now.counts_in(focus));
                for &focus in counts {
                    let found = map.command(key.parse().unwrap(), focus);
                    assert_eq!(found, Some(now.id), "{key} {focus:?}");
                }
            }
        }
    }

    #[test]
    fn what_cannot_be_is_said_and_the_rest_is_followed() {
        assert_eq!(
            says(r#"{ "redo": ["f5"], "undo": ["f5"] }"#),
            "`f5` is the key of both \"redo\" and \"undo\": give one of them another"
        );
        assert_eq!(says(r#"{ "leave": [] }"#), "\"leave\" needs a key");
        assert!(says(r#"{ "undoo": ["u"] }"#).starts_with("no command is called \"undoo\""));
        assert!(
            says(r#"{ "undo": ["ctrl"] }"#).starts_with("the keys of \"undo\": `ctrl` is no key")
        );
        assert!(says("undo: u").contains("expected a map"));
        let (map, _) =
            KeyMap::default().with_changes(r#"{ "undoo": ["u"], "undo": ["f5", "ctrl"] }"#);
        let found = map.command("f5".parse().unwrap(), Focus::Bays);
        assert_eq!(found, Some("undo"));
        // Whatever a text says, there is a way out.
        let quit = KeyMap::default();
        let keys: Vec<String> = quit
            .keys(LEAVE)
            .iter()
            .map(|key| format!("\"{key}\""))
            .collect();
        let (map, _) =
            KeyMap::default().with_changes(&format!("{{ \"undo\": [{}] }}", keys.join(", ")));
        assert!(!map.keys(LEAVE).is_empty());
    }
}
