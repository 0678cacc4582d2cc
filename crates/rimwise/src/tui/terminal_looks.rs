use files::{KeptLooks, LooksWords};
use session::{Looks, Palette};

/// The looks of this terminal as they are kept from one run to the next.
#[derive(Debug)]
pub(crate) struct TerminalLooks {
    file: KeptLooks,
    terminal: String,
    words: LooksWords,
    shown: Looks,
}

impl TerminalLooks {
    /// What was chosen in a terminal before.
    pub(crate) fn read(file: KeptLooks, terminal: String) -> Self {
        let words = file.of(&terminal);
        Self {
            file,
            terminal,
            words,
            shown: Looks::default(),
        }
    }

    /// What was chosen, in words.
    pub(crate) fn words(&self) -> LooksWords {
        self.words.clone()
    }

    /// The looks with which the program begins: nobody chose them in this run.
    pub(super) const fn beginning_with(mut self, looks: Looks) -> Self {
        self.shown = looks;
        self
    }

    /// Keeps what the operator has changed. Where it cannot be written it is chosen
    /// anew with the next run.
    pub(super) fn keep(&mut self, looks: Looks) {
        let before = std::mem::replace(&mut self.shown, looks);
        let mut words = self.words.clone();
        if looks.pictures != before.pictures {
            words.pictures = Some(looks.pictures.word().to_owned());
        }
        if looks.palette != before.palette {
            let mut palettes = Palette::ALL.iter();
            let found = palettes.find(|(_, palette)| *palette == looks.palette);
            words.colours = found.map(|(word, _)| (*word).to_owned());
        }
        if looks.section_left != before.section_left {
            words.section_left = Some(looks.section_left.word().to_owned());
        }
        if words != self.words {
            let _ = self.file.note(&self.terminal, &words);
            self.words = words;
        }
    }
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use super::*;
    use files::Disk;
    use session::Pictures;

    #[test]
    fn what_is_changed_is_kept_and_nothing_else() {
        let folder = std::env::temp_dir().join(format!("rimwise-looks-{}", std::process::id()));
        let file = || KeptLooks::new(Disk::default(), folder.join("looks.ron"));
        let begin = Looks {
            palette: Palette::Mono,
            ..Looks::default()
        };
        let mut kept = TerminalLooks::read(file(), "xterm".to_owned()).beginning_with(begin);
        kept.keep(begin);
        assert_eq!(file().of("xterm"), LooksWords::default());
        let pictures = Pictures::Ascii;
        kept.keep(Looks { pictures, ..begin });
        let words = TerminalLooks::read(file(), "xterm".to_owned()).words();
        let _ = std::fs::remove_dir_all(&folder);
        assert_eq!(words.pictures.as_deref(), Some("ascii"));
        assert_eq!(words.colours, None, "NO_COLOR is no choice");
    }
}
