use super::layer::{Layer, Outcome};
use super::task::Task;
use crate::errand::Errand;
use crate::hint::{Hint, hints};
use crate::key::{Key, KeyCode};
use crate::lesson::LessonPlay;
use crate::model::Model;

impl Layer for LessonPlay {
    fn key(&mut self, key: Key, _model: &Model) -> Outcome {
        self.refused.clear();
        match key.code {
            KeyCode::Esc if self.ends_program => return Outcome::Answer(Task::Leave),
            KeyCode::Esc => return Outcome::Close,
            KeyCode::Enter if self.is_open() => self.commit(),
            KeyCode::Enter if self.step().is_none() && self.ends_program => {
                return Outcome::Answer(Task::Leave);
            }
            KeyCode::Enter if self.step().is_none() => return Outcome::Close,
            KeyCode::Enter | KeyCode::PageDown => self.next(),
            KeyCode::PageUp => self.previous(),
            _ if self.takes_number() => drop(self.editor.key(key)),
            KeyCode::Right => self.next(),
            KeyCode::Left => self.previous(),
            KeyCode::Down if self.is_open() => self.move_cursor(true),
            KeyCode::Up if self.is_open() => self.move_cursor(false),
            KeyCode::Char(' ') if self.is_open() => self.choose(self.cursor),
            KeyCode::Char(letter) if self.is_open() => {
                let place = ('a'..='z').position(|one| one == letter.to_ascii_lowercase());
                if let Some(index) = place {
                    self.choose(index);
                }
            }
            _ => {}
        }
        if self.is_to_be_kept() {
            self.is_kept = true;
            return Outcome::Also(Task::Errand(Errand::KeepScore {
                lesson: self.name().to_owned(),
                score: self.score(),
            }));
        }
        Outcome::Stay
    }

    fn paste(&mut self, text: &str) {
        if self.takes_number() {
            self.editor.paste(text);
        }
    }

    fn footer(&self, _model: &Model) -> Vec<Hint> {
        let leave = if self.ends_program { "end" } else { "leave" };
        if self.takes_number() {
            return hints(&[("enter", "commit the answer"), ("esc", leave)]);
        }
        if self.is_open() {
            let mut keys = vec![("enter", "commit the answer"), ("down", "next choice")];
            if self.takes_several() {
                keys.push(("space", "tick"));
            }
            keys.push(("esc", leave));
            return hints(&keys);
        }
        if self.step().is_none() {
            return hints(&[("enter", leave), ("left", "back"), ("esc", leave)]);
        }
        hints(&[("enter", "go on"), ("left", "back"), ("esc", leave)])
    }
}
