use crate::Session;
use crate::key::{Key, KeyCode};
use crate::model::Status;
use crate::overlay::{After, Guide, GuideStep, Overlay, ReadingForm, closing};
use crate::{Change, Focus, Page};

impl Session {
    /// Opens the guide over the page.
    pub(super) fn guide(&mut self) {
        let guide = Guide::new(self);
        self.overlays.push(Overlay::Guide(guide));
    }

    /// Does what the topmost layer, the guide, made of a key.
    pub(super) fn guide_step(&mut self, step: GuideStep, key: Key) {
        match step {
            GuideStep::Stay | GuideStep::Pass => {}
            GuideStep::Close => self.close_guide(key.code == KeyCode::Enter),
            GuideStep::Answer(edit, after) => {
                let before = Guide::remarks(self);
                let told = self.accept(Ok(Change::Edit(edit)));
                self.with_guide(|guide, session| match told {
                    Ok(()) => guide.answered(session, &before, after),
                    Err(refused) => guide.error = Some(refused.to_string()),
                });
            }
            GuideStep::Undo => self.accept_or_say(Ok(Change::Undo)),
            GuideStep::Form {
                reading,
                is_new,
                value,
            } => {
                let form = ReadingForm::new(*reading, is_new, &value);
                self.overlays.push(Overlay::Reading(form));
            }
        }
    }

    /// Closes the guide and says how far the case has come; the list takes keys
    /// where it is to be seen.
    fn close_guide(&mut self, is_to_list: bool) {
        if let Some(Overlay::Guide(guide)) = self.overlays.pop() {
            self.model.status = Some(Status::Done(closing(&guide, self)));
        }
        self.fill_waiting_bays();
        if is_to_list && self.model.view.focus.page() == Page::Plan {
            self.model.view.focus = Focus::Ranking;
        }
    }

    /// Whether the guide lies over the page, topmost or under others.
    pub(super) fn is_guided(&self) -> bool {
        let is_guide = |layer: &Overlay| matches!(layer, Overlay::Guide(_));
        self.overlays.iter().any(is_guide)
    }

    /// The reading of a form over the guide was taken: it goes on.
    pub(super) fn guide_on(&mut self) {
        self.with_guide(|guide, session| guide.answered(session, &[], After::Next));
    }

    /// Brings the guide in line with the case, where something else changed it.
    pub(super) fn lead_guide(&mut self) {
        let row = self.row().cloned();
        self.with_guide(|guide, session| {
            if !guide.is_of(&session.document.case) {
                guide.follow(session, row.as_ref());
            }
        });
    }

    /// Does something with the guide, where it is the topmost layer.
    fn with_guide(&mut self, act: impl FnOnce(&mut Guide, &Self)) {
        if !matches!(self.overlays.last(), Some(Overlay::Guide(_))) {
            return;
        }
        if let Some(Overlay::Guide(mut guide)) = self.overlays.pop() {
            act(&mut guide, self);
            self.overlays.push(Overlay::Guide(guide));
        }
    }
}
