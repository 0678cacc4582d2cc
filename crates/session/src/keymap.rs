use crate::key::{Key, NoSuchKey};
use crate::{Command, Focus};
use std::collections::BTreeMap;

/// Which key does what in which panel.
#[derive(Clone, Debug)]
pub struct KeyMap {
    keys: Vec<(&'static Command, Vec<Key>)>,
}

/// Why a key map was refused.
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

impl Default for KeyMap {
    /// Every command on its own keys.
    fn default() -> Self {
        let keys = |command: &Command| command.keys.iter().filter_map(|key| key.parse().ok());
        Self {
            keys: Command::all()
                .map(|command| (command, keys(command).collect()))
                .collect(),
        }
    }
}

impl KeyMap {
    /// The default with the commands of a RON text on other keys: a map of
    /// command names to lists of keys. What it does not name stays as it is.
    pub fn with_changes(text: &str) -> Result<Self, KeyMapError> {
        let changes: BTreeMap<String, Vec<String>> =
            ron::from_str(text).map_err(|error| KeyMapError::NotAMap(error.to_string()))?;
        let mut map = Self::default();
        for (id, keys) in changes {
            let command = Command::named(&id).ok_or(KeyMapError::NoSuchCommand(id))?;
            let keys = keys
                .iter()
                .map(|key| key.parse())
                .collect::<Result<Vec<Key>, NoSuchKey>>()
                .map_err(|error| KeyMapError::NoSuchKey {
                    command: command.id,
                    error,
                })?;
            map.keys
                .iter_mut()
                .filter(|(one, _)| *one == command)
                .for_each(|(_, old)| {
                    old.clone_from(&keys);
                });
        }
        map.check()?;
        Ok(map)
    }

    /// The command of a key in a panel.
    pub fn command(&self, key: Key, focus: Focus) -> Option<&'static Command> {
        self.keys
            .iter()
            .find(|(command, keys)| command.counts_in(focus) && keys.contains(&key))
            .map(|&(command, _)| command)
    }

    /// The keys of a command, the first the one that is shown.
    pub fn keys(&self, command: &Command) -> &[Key] {
        self.keys
            .iter()
            .find(|(one, _)| *one == command)
            .map_or(&[], |(_, keys)| keys)
    }

    fn check(&self) -> Result<(), KeyMapError> {
        for (place, (one, keys)) in self.keys.iter().enumerate() {
            if let Some(&key) = keys.iter().find(|key| key.alt) {
                return Err(KeyMapError::WithAlt {
                    key,
                    command: one.id,
                });
            }
            for (other, others) in &self.keys[place + 1..] {
                let meet = Focus::ALL
                    .iter()
                    .any(|&focus| one.counts_in(focus) && other.counts_in(focus));
                let twice = keys.iter().find(|key| meet && others.contains(key));
                if let Some(&key) = twice {
                    return Err(KeyMapError::Twice {
                        key,
                        one: one.id,
                        other: other.id,
                    });
                }
            }
            if one.id == "leave" && keys.is_empty() {
                return Err(KeyMapError::NoWayOut);
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn says(text: &str) -> String {
        KeyMap::with_changes(text).unwrap_err().to_string()
    }

    #[test]
    fn every_default_key_is_a_key_and_stands_once() {
        let map = KeyMap::default();
        assert_eq!(map.check(), Ok(()));
        for command in Command::all() {
            let written: Vec<String> = map.keys(command).iter().map(Key::to_string).collect();
            assert_eq!(written, command.keys, "{command:?}");
        }
    }

    #[test]
    fn no_key_with_alt_is_bound_or_can_be() {
        let map = KeyMap::default();
        let mut keys = Command::all().flat_map(|command| map.keys(command));
        assert!(keys.all(|key| !key.alt));
        assert!(says(r#"{ "undo": ["f5", "alt-x"] }"#).starts_with("`alt-x` of \"undo\": "));
    }

    #[test]
    fn a_change_replaces_the_keys_of_what_it_names_and_of_nothing_else() {
        let map = KeyMap::with_changes(r#"{ "undo": ["f5", "ctrl-z"] }"#).unwrap();
        let command = |key: &str| {
            map.command(key.parse().unwrap(), Focus::Bays)
                .map(|it| it.id)
        };
        assert_eq!(command("f5"), Some("undo"));
        assert_eq!(command("u"), None);
        assert_eq!(command("U"), Some("redo"));
    }

    #[test]
    fn one_key_may_do_different_things_in_different_panels() {
        let map = KeyMap::default();
        let right = "right".parse().unwrap();
        assert_eq!(map.command(right, Focus::Readings).unwrap().id, "more");
        assert_eq!(map.command(right, Focus::Bays).unwrap().id, "next_bay");
        assert_eq!(map.command(right, Focus::Ranking), None);
    }

    #[test]
    fn what_cannot_be_is_refused_with_its_reason() {
        assert_eq!(
            says(r#"{ "redo": ["u"] }"#),
            "`u` is the key of both \"undo\" and \"redo\": give one of them another"
        );
        assert!(says(r#"{ "pin": ["tab"] }"#).contains("\"next_panel\""));
        assert_eq!(says(r#"{ "leave": [] }"#), "\"leave\" needs a key");
        assert!(says(r#"{ "undoo": ["u"] }"#).starts_with("no command is called \"undoo\""));
        assert!(
            says(r#"{ "undo": ["ctrl"] }"#).starts_with("the keys of \"undo\": `ctrl` is no key")
        );
        assert!(says("undo: u").contains("expected a map"));
    }
}
