//! How the screen looks and which keys it has, as the call and the user ask.

use super::args::ScreenArguments;
use super::folders;
use super::inputs::BadInput;
use crate::ascii;
use anyhow::Result;
use files::Source;
use session::{Dots, KeyMap, Looks, Palette};
use std::path::{Path, PathBuf};

/// The looks that a call asks for; without a word, no colours under `NO_COLOR`.
pub(super) fn looks(asked: &ScreenArguments) -> Looks {
    let no_colour = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let word = |all: &[(&'static str, Palette)], word: &str| {
        all.iter().find(|(one, _)| *one == word).map(|(_, it)| *it)
    };
    let usual = if no_colour {
        Palette::Mono
    } else {
        Palette::default()
    };
    let dots = |word: &str| Dots::ALL.into_iter().find(|(one, _)| *one == word);
    Looks {
        palette: asked
            .theme
            .as_deref()
            .and_then(|theme| word(&Palette::ALL, theme))
            .unwrap_or(usual),
        dots: if ascii::is_asked_for() {
            Dots::Ascii
        } else {
            let dots = asked.marker.as_deref().and_then(dots);
            dots.map_or_else(Dots::default, |(_, dots)| dots)
        },
        is_presented: asked.present,
        mouse_is_free: asked.no_mouse,
    }
}

/// The key map of a file, or of the user's own, or else the usual one.
pub(super) fn keymap(asked: &ScreenArguments) -> Result<KeyMap> {
    // Whatever stands there: what is no file is told rather than passed over.
    let own = own_keys().filter(|path| path.exists());
    let Some(path) = asked.keys.clone().or(own) else {
        return Ok(KeyMap::default());
    };
    let file = Source::read(&path, KEYS_CAP).map_err(|error| BadInput(error.to_string()))?;
    KeyMap::with_changes(file.text()).map_err(|error| bad(&path, &error))
}

/// Largest file of keys that is read, in bytes.
const KEYS_CAP: u64 = 64 * 1024;

fn bad(path: &Path, error: &dyn std::fmt::Display) -> anyhow::Error {
    let text = format!("{}: {error}", path.display());
    BadInput(files::visible(&text).into_owned()).into()
}

/// Where a user keeps keys.
fn own_keys() -> Option<PathBuf> {
    Some(folders::settings()?.join("keys.ron"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_a_call_are_looks() {
        let asked = ScreenArguments {
            theme: Some("high-contrast".into()),
            marker: Some("ascii".into()),
            ..ScreenArguments::default()
        };
        let looks = looks(&asked);
        assert_eq!(
            (looks.palette, looks.dots),
            (Palette::HighContrast, Dots::Ascii)
        );
    }

    #[test]
    fn a_key_for_two_commands_is_refused_with_the_file() {
        let path = std::env::temp_dir().join(format!("rimwise-keys-{}.ron", std::process::id()));
        std::fs::write(&path, r#"{ "redo": ["u"] }"#).unwrap();
        let asked = ScreenArguments {
            keys: Some(path.clone()),
            ..ScreenArguments::default()
        };
        let error = keymap(&asked).unwrap_err().to_string();
        std::fs::remove_file(&path).unwrap();
        assert!(error.starts_with(&path.display().to_string()), "{error}");
        assert!(
            error.contains("`u` is the key of both \"undo\" and \"redo\""),
            "{error}"
        );
    }
}
