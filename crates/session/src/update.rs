//! How a session changes.

mod changes;
mod files;
mod guide;
mod keys;
mod look_back;
mod open;
mod pointer;
mod procedure;
mod rules;
mod shelf;

use crate::effect::Effect;
use crate::event::{Event, FileEvent, Target};
use crate::overlay::Overlay;
use crate::session::Session;
use crate::worker::Reply;

impl Session {
    /// Takes what happened and says what is to be done about it. It reads no clock and
    /// no disk and waits for nobody.
    pub fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Clock(now) => self.tick(now),
            Event::Key(key) => self.key(key),
            Event::Paste(text) => self.paste(&text),
            Event::Command(command) => self.command(command),
            Event::Point(target) => self.point(target),
            Event::Wheel(focus, down) => self.wheel(focus, down),
            Event::Nudge(steps) => self.nudge_by(steps),
            Event::Reply(reply) => self.reply(reply),
            Event::LookedBack(result) => self.looked_back(&result),
            Event::Drawn(visible) => self.model.view.visible = visible,
            Event::Working(is_said) => self.model.is_said_to_work = is_said,
            Event::File(event) => self.file(*event),
        }
        self.effects()
    }

    /// What is to be done, the worker asked where what it was asked is out of date.
    pub(crate) fn effects(&mut self) -> Vec<Effect> {
        let request = self.take_request();
        let submit = request.map(|request| Effect::Submit(Box::new(request)));
        self.outbox.extend(submit);
        std::mem::take(&mut self.outbox)
    }

    fn reply(&mut self, reply: Reply) {
        let not_shown = self.receive(reply);
        self.outbox.extend(not_shown.map(Effect::LetGo));
    }

    /// Takes what came of a file.
    pub(crate) fn file(&mut self, event: FileEvent) {
        match event {
            FileEvent::Opened(case, home) => self.replace(case, home),
            FileEvent::Restored(case, home) => drop(self.exchange(case, home, "restored")),
            FileEvent::Reloaded(case) => self.reload(case),
            FileEvent::Agreed => self.agrees_with_file(),
            FileEvent::Saved(home) => self.saved(home),
            FileEvent::Journalled { file, unfiled } => {
                self.model.journalled = file;
                self.model.own_folders.unfiled = unfiled;
            }
            FileEvent::ShelfRead { shapes, called } => self.exchange_own_shapes(shapes, called),
            FileEvent::ShelfWritten(source) => self.own_is_kept(source),
            FileEvent::ShelfKept(is_kept) => self.model.own_folders.shelf = is_kept,
            FileEvent::RulesRead { file, called } => self.exchange_rules(file, called),
            FileEvent::RulesKept(path) => self.rules_are_kept(path),
            FileEvent::Done(what) => self.tell(what),
            FileEvent::AlsoDone(what) => self.tell_also(&what),
            FileEvent::Failed(why) => self.warn(why.to_string()),
            FileEvent::Asked(question) => self.overlays.push(Overlay::Question(question)),
            FileEvent::PathRefused {
                prompt,
                path,
                error,
            } => self.ask_again(prompt, &path, &error),
            FileEvent::Listed(list) => self.overlays.push(Overlay::Open(list)),
            FileEvent::LessonOpened(play) => self.overlays.push(Overlay::Lesson(*play)),
            FileEvent::Ended => self.outbox.push(Effect::Leave),
        }
    }

    fn point(&mut self, target: Target) {
        match target {
            Target::Panel(focus) => self.select_panel(focus),
            Target::Page(page) => self.select_page(page),
            Target::Candidate(index) => self.select_candidate(index),
            Target::Line(focus, line) => self.select_line(focus, line),
            Target::Cell(column, row) => self.select_cell(column, row),
        }
    }
}

#[cfg(test)]
mod tests;
