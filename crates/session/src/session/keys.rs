use super::{Session, Status};
use crate::effect::Effect;
use crate::key::Key;
use crate::overlay::{Answered, CaseLine, Confirmation, Overlay, Taken};
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
        match self.view.overlays.last_mut() {
            Some(Overlay::Field(field)) => field.paste(text),
            Some(Overlay::Commands(list)) => {
                let mut editor = list.editor.clone();
                editor.paste(text);
                list.type_in(editor);
            }
            Some(Overlay::Open(list)) => {
                let mut editor = list.editor.clone();
                editor.paste(text);
                list.type_in(editor);
            }
            Some(Overlay::Case(form)) => {
                if form.line == CaseLine::Title {
                    form.title.paste(text);
                    form.error = None;
                }
            }
            Some(Overlay::Reading(form)) => form.paste(text),
            Some(Overlay::Shelf(form)) => form.typed.paste(text),
            Some(Overlay::Exception(form)) => form.typed.paste(text),
            Some(Overlay::Guide(guide)) => guide.paste(text),
            Some(Overlay::Drawing | Overlay::TestCard | Overlay::Question(_)) | None => {}
        }
    }

    /// Offers a key to the topmost layer; `false` where it passes it on.
    fn layer(&mut self, key: Key) -> bool {
        let page = self.view.rooms.overlay;
        let taken = match self.view.overlays.last_mut() {
            None | Some(Overlay::Drawing | Overlay::TestCard) => return false,
            Some(Overlay::Field(field)) => field.key(key),
            Some(Overlay::Commands(list)) => list.key(key, page, &self.keymap),
            Some(Overlay::Open(list)) => list.key(key, page),
            Some(Overlay::Case(form)) => form.key(key),
            Some(Overlay::Reading(form)) => form.key(key),
            Some(Overlay::Exception(form)) => form.typed.key(key),
            Some(Overlay::Shelf(form)) => form.typed.key(key),
            Some(Overlay::Guide(_)) => return self.guide_key(key),
            Some(Overlay::Question(question)) => match question.key(key) {
                Answered::With(change) => {
                    self.view.overlays.pop();
                    self.status = self
                        .perform(change)
                        .unwrap_or_else(|refused| Some(Status::Refused(refused)));
                    return true;
                }
                Answered::NotNow => Taken::Close,
                Answered::NotYet => Taken::Yes,
            },
        };
        match taken {
            Taken::Yes => {}
            Taken::Close => drop(self.view.overlays.pop()),
            Taken::Commit => self.commit(),
        }
        true
    }

    /// Does what the topmost layer stands for. A field that is refused stays
    /// open and says why.
    fn commit(&mut self) {
        match self.view.overlays.pop() {
            None
            | Some(
                Overlay::Drawing | Overlay::TestCard | Overlay::Question(_) | Overlay::Guide(_),
            ) => {}
            Some(Overlay::Commands(list)) => {
                if let Some(command) = list.command(&self.keymap) {
                    self.command(command);
                }
            }
            Some(Overlay::Open(list)) => {
                self.outbox.extend(list.chosen().map(Effect::File));
            }
            Some(Overlay::Field(mut field)) => {
                let asked = field.asks.take();
                let read = || field.prompt.read(&field.editor.text(), self);
                let (change, asks) = self.confirmed(asked, read);
                if asks.is_some() {
                    field.asks = asks;
                    self.view.overlays.push(Overlay::Field(field));
                    return;
                }
                self.accept_or_show(change, |error| {
                    field.error = Some(error);
                    Overlay::Field(field)
                });
            }
            Some(Overlay::Case(mut form)) => {
                let edit = form.read().map(Change::Edit);
                match self.accept(edit) {
                    Ok(()) => self.guide(),
                    Err(refused) => {
                        form.error = Some(refused.to_string());
                        self.view.overlays.push(Overlay::Case(form));
                    }
                }
            }
            Some(Overlay::Reading(mut form)) => {
                let asked = form.asks.take();
                let read = || form.read(self).map(Change::Edit);
                let (change, asks) = self.confirmed(asked, read);
                if asks.is_some() {
                    form.asks = asks;
                    self.view.overlays.push(Overlay::Reading(form));
                    return;
                }
                match self.accept(change) {
                    Ok(()) => self.guide_on(),
                    Err(refused) => {
                        form.error = Some(refused.to_string());
                        self.view.overlays.push(Overlay::Reading(form));
                    }
                }
            }
            Some(Overlay::Shelf(mut form)) => {
                let edit = form.read(self).map(Change::Edit);
                self.accept_or_show(edit, |error| {
                    form.typed.error = Some(error);
                    Overlay::Shelf(form)
                });
            }
            Some(Overlay::Exception(mut form)) => {
                let edit = form.read(self).map(Change::Edit);
                self.accept_or_show(edit, |error| {
                    form.typed.error = Some(error);
                    Overlay::Exception(form)
                });
            }
        }
    }

    /// What a question was answered to do; or else what was typed asks for, with the
    /// question that it asks back before it is done.
    fn confirmed(
        &self,
        asked: Option<Confirmation>,
        read: impl FnOnce() -> Result<Change, Refused>,
    ) -> (Result<Change, Refused>, Option<Confirmation>) {
        if let Some(asked) = asked {
            return (Ok(Change::Edit(asked.edit)), None);
        }
        let change = read();
        let asks = match &change {
            Ok(Change::Edit(edit)) => Confirmation::of(edit, self),
            _ => None,
        };
        (change, asks)
    }

    /// Makes a change, or shows the layer that asked for it again with what is wrong.
    fn accept_or_show(
        &mut self,
        change: Result<Change, Refused>,
        again: impl FnOnce(String) -> Overlay,
    ) {
        if let Err(refused) = self.accept(change) {
            self.view.overlays.push(again(refused.to_string()));
        }
    }

    /// Makes the change that a field asks for.
    pub(super) fn accept(&mut self, change: Result<Change, Refused>) -> Result<(), Refused> {
        self.status = self.perform(change?)?;
        Ok(())
    }

    fn refuse_key(&mut self, key: Key) {
        self.history.close();
        let list = match self.key_of("commands") {
            none if none.is_empty() => none,
            list => format!("; {list} lists every key"),
        };
        let why = format!("{key} does nothing here{list}");
        self.status = Some(Status::Refused(Refused::new(why)));
    }
}
