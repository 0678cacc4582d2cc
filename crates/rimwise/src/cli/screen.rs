//! How the screen looks and which keys it has, as the call and the user ask.

use super::args::ScreenArguments;
use super::folders;
use super::inputs::BadInput;
use crate::tui::TerminalLooks;
use crate::{ascii, environment};
use anyhow::Result;
use files::{Disk, KeptLooks, LooksWords, Source};
use session::{KeyMap, Looks, Palette, Pictures, SectionLeft};
use std::path::PathBuf;

/// The looks that a call asks for; what it does not say is as it was chosen in this
/// terminal before, or goes by what the environment proves.
pub(super) fn looks(asked: &ScreenArguments, kept: &LooksWords) -> Looks {
    let shows = environment::shows(|name| std::env::var(name).ok());
    let palette = || match shows.palette {
        Palette::Mono => None,
        _ => word(&Palette::ALL, kept.colours.as_deref()),
    };
    let pictures = || word(&Pictures::ALL, kept.pictures.as_deref());
    Looks {
        palette: word(&Palette::ALL, asked.theme.as_deref())
            .or_else(palette)
            .unwrap_or(shows.palette),
        pictures: if ascii::is_asked_for() {
            Pictures::Ascii
        } else {
            asked.pictures.or_else(pictures).unwrap_or(shows.pictures)
        },
        has_true_colour: shows.has_true_colour,
        section_left: word(&SectionLeft::ALL, kept.section_left.as_deref()).unwrap_or_default(),
        is_presented: asked.present,
        mouse_is_free: asked.no_mouse,
    }
}

/// The looks that are kept for this terminal, in the directory for settings.
pub(super) fn kept_looks() -> Option<TerminalLooks> {
    let path = folders::settings()?.join("looks.ron");
    let of = |name| std::env::var(name).unwrap_or_default();
    let terminal = format!("{} {}", of("TERM"), of("TERM_PROGRAM"));
    let file = KeptLooks::new(Disk::default(), path);
    Some(TerminalLooks::read(file, terminal.trim().to_owned()))
}

/// What a word of a list stands for.
fn word<T: Copy>(all: &[(&str, T)], word: Option<&str>) -> Option<T> {
    all.iter()
        .find(|(one, _)| Some(*one) == word)
        .map(|(_, it)| *it)
}

/// The key map of a file, or of the user's own, or else the usual one, and what of a
/// file could not be followed: no file of keys keeps the program from opening.
pub(super) fn keymap(asked: &ScreenArguments) -> Result<(KeyMap, Option<String>)> {
    // Whatever stands there: what is no file is told rather than passed over.
    let own = own_keys().filter(|path| path.exists());
    let Some(path) = asked.keys.clone().or(own) else {
        return Ok((KeyMap::default(), None));
    };
    let file = Source::read(&path, KEYS_CAP).map_err(|error| BadInput(error.to_string()))?;
    let (map, errors) = KeyMap::default().with_changes(file.text());
    let said: Vec<String> = errors.iter().map(ToString::to_string).collect();
    let said = (!said.is_empty()).then(|| {
        let text = format!("{}: {}", path.display(), said.join("; "));
        files::visible(&text).into_owned()
    });
    Ok((map, said))
}

/// Largest file of keys that is read, in bytes.
const KEYS_CAP: u64 = 64 * 1024;

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
            pictures: Some(Pictures::Ascii),
            ..ScreenArguments::default()
        };
        let looks = looks(&asked, &LooksWords::default());
        assert_eq!(
            (looks.palette, looks.pictures),
            (Palette::HighContrast, Pictures::Ascii)
        );
    }

    #[test]
    fn what_was_chosen_before_counts_until_a_call_says_otherwise() {
        let kept = LooksWords {
            pictures: Some("octants".to_owned()),
            colours: Some("no such word".to_owned()),
            section_left: Some("left ventricle".to_owned()),
        };
        let chosen = looks(&ScreenArguments::default(), &kept);
        // A test may run where there are plain letters alone.
        let pictures = [Pictures::Octants, Pictures::Ascii];
        assert!(pictures.contains(&chosen.pictures));
        assert_eq!(chosen.section_left, SectionLeft::LeftVentricle);
        let asked = ScreenArguments {
            pictures: Some(Pictures::Ascii),
            ..ScreenArguments::default()
        };
        assert_eq!(looks(&asked, &kept).pictures, Pictures::Ascii);
    }

    #[test]
    fn what_of_a_file_of_keys_cannot_be_followed_is_said_with_the_file() {
        let path = std::env::temp_dir().join(format!("rimwise-keys-{}.ron", std::process::id()));
        std::fs::write(&path, r#"{ "redo": ["f5"], "undo": ["f5"] }"#).unwrap();
        let asked = ScreenArguments {
            keys: Some(path.clone()),
            ..ScreenArguments::default()
        };
        let (map, error) = keymap(&asked).unwrap();
        let error = error.unwrap();
        assert_eq!(map.keys("redo").len(), 1);
        std::fs::remove_file(&path).unwrap();
        assert!(error.starts_with(&path.display().to_string()), "{error}");
        assert!(
            error.contains("`f5` is the key of both \"redo\" and \"undo\""),
            "{error}"
        );
    }
}
