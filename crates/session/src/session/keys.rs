use super::Session;
use crate::key::Key;
use crate::overlay::{Next, Outcome, Overlay};
use crate::{Change, Refused};

impl Session {
    /// Does what a key asks for: of the topmost layer, or else of the panel.
    pub(crate) fn key(&mut self, key: Key) {
        self.status = None;
        let command = self.keymap.command(key, self.view.focus);
        // A way out that prints nothing works from everywhere.
        let leaves = key.printed().is_none() && command.is_some_and(|it| it.id == "leave");
        if leaves || !self.layer(key) {
            match command {
                Some(command) => self.command(command),
                None => self.refuse_key(key),
            }
        }
        self.lead_guide();
    }

    /// Takes a pasted text: into a field, and nowhere else.
    pub(crate) fn paste(&mut self, text: &str) {
        let top = self.view.overlays.last_mut();
        if let Some(layer) = top.and_then(Overlay::layer_mut) {
            layer.paste(text);
        }
    }

    /// Offers a key to the topmost layer; `false` where it passes it on.
    fn layer(&mut self, key: Key) -> bool {
        let Some(mut top) = self.view.overlays.pop() else {
            return false;
        };
        let layer = top.layer_mut();
        match layer.map_or(Outcome::Pass, |layer| layer.key(key, self)) {
            Outcome::Stay => self.view.overlays.push(top),
            Outcome::Pass => {
                self.view.overlays.push(top);
                return false;
            }
            Outcome::Close => {}
            Outcome::Run(command) => self.command(command),
            Outcome::Answer(change) => self.accept_or_say(Ok(change)),
            Outcome::Do(change, next) => match self.accept(Ok(change)) {
                Ok(()) => self.go_on(next),
                Err(refused) => {
                    if let Some(layer) = top.layer_mut() {
                        layer.refuse(refused.to_string());
                    }
                    self.view.overlays.push(top);
                }
            },
            Outcome::Guide(step) => {
                self.view.overlays.push(top);
                self.guide_step(step, key);
            }
        }
        true
    }

    fn go_on(&mut self, next: Next) {
        match next {
            Next::Page => {}
            Next::Guide => self.guide(),
            Next::Question => self.guide_on(),
        }
    }

    /// Makes the change that a field asks for.
    pub(super) fn accept(&mut self, change: Result<Change, Refused>) -> Result<(), Refused> {
        self.status = self.perform(change?)?;
        Ok(())
    }

    /// Makes a change and says what was done, or why it was not.
    pub(super) fn accept_or_say(&mut self, change: Result<Change, Refused>) {
        if let Err(refused) = self.accept(change) {
            self.warn(refused.to_string());
        }
    }

    fn refuse_key(&mut self, key: Key) {
        self.history.close();
        let list = self.key_of("commands");
        self.warn(Refused::NoCommand { key, list }.to_string());
    }
}
