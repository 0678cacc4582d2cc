use crate::Session;
use crate::command::Command;
use crate::command::go_to_quantity;
use crate::key::Key;
use crate::keymap::LEAVE;
use crate::overlay::{Next, Outcome, Overlay};
use crate::{Change, Page, Refused};

impl Session {
    /// Does what a key asks for: of the topmost layer, or else of the panel.
    pub(crate) fn key(&mut self, key: Key) {
        self.model.status = None;
        let command = self.keymap().command(key, self.view().focus);
        // A way out that prints nothing works from everywhere.
        let leaves = key.printed().is_none() && command == Some(LEAVE);
        if leaves || !self.layer(key) {
            match command {
                Some(id) => self.run(id),
                None => self.refuse_key(key),
            }
        }
        self.lead_guide();
    }

    /// Does the command with an id.
    pub(super) fn run(&mut self, id: &str) {
        if let Some(command) = Command::named(id) {
            self.command(command);
        }
    }

    /// Takes a pasted text: into a field, and nowhere else.
    pub(crate) fn paste(&mut self, text: &str) {
        let top = self.overlays.last_mut();
        if let Some(layer) = top.and_then(Overlay::layer_mut) {
            layer.paste(text);
        }
    }

    /// Offers a key to the topmost layer; `false` where it passes it on.
    fn layer(&mut self, key: Key) -> bool {
        let Some(mut top) = self.overlays.pop() else {
            return false;
        };
        let layer = top.layer_mut();
        match layer.map_or(Outcome::Pass, |layer| layer.key(key, &self.model)) {
            Outcome::Stay => self.overlays.push(top),
            Outcome::Also(task) => {
                self.overlays.push(top);
                self.accept_or_say(Ok(task.into()));
            }
            Outcome::MapAt(waist, overhang) => {
                self.overlays.clear();
                self.select_page(Page::FitMap);
                self.model.view.cell = None;
                self.model.view.map_at = Some((waist, overhang));
            }
            Outcome::Pass => {
                self.overlays.push(top);
                return false;
            }
            Outcome::Close => {}
            Outcome::Run(id) => self.run(id),
            Outcome::GoTo(quantity) => {
                let change = go_to_quantity(self, quantity);
                self.accept_or_say(change);
            }
            Outcome::Select(place) => self.select_candidate(place),
            Outcome::Answer(task) => self.accept_or_say(Ok(task.into())),
            Outcome::Do(task, next) => match self.accept(Ok(task.into())) {
                Ok(()) => self.go_on(next),
                Err(refused) => {
                    if let Some(layer) = top.layer_mut() {
                        layer.refuse(refused.to_string());
                    }
                    self.overlays.push(top);
                }
            },
            Outcome::Guide(step) => {
                self.overlays.push(top);
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
        self.model.status = self.perform(change?)?;
        Ok(())
    }

    /// Makes a change and says what was done, or why it was not.
    pub(super) fn accept_or_say(&mut self, change: Result<Change, Refused>) {
        if let Err(refused) = self.accept(change) {
            let says = self.with_keys(&refused.to_string());
            self.warn(says);
        }
    }

    fn refuse_key(&mut self, key: Key) {
        self.model.history.close();
        let list = self.key_of("commands");
        self.warn(Refused::NoCommand { key, list }.to_string());
    }
}
