use crate::Session;
use crate::effect::Effect;
use crate::errand::Errand;
use crate::overlay::{Choice, Overlay, Question, Task};
use crate::row::{kept, rows};
use crate::rules_change::RulesChange;
use crate::rules_home::RulesHome;
use crate::{Change, Edit, Focus};
use files::HouseRulesFile;
use std::path::PathBuf;
use std::sync::Arc;

impl Session {
    /// The session with the file that its rules came from, and where they are kept.
    #[must_use]
    pub fn with_rules_file(mut self, file: Arc<HouseRulesFile>, home: RulesHome) -> Self {
        self.model.document.rules = Arc::new(file.value().clone());
        self.model.document.rules_file = Some(file);
        self.model.rules_home = home;
        self.make_ready();
        self
    }

    /// Asks about a change of your centre's rules.
    pub(super) fn ask_rules(&mut self, asked: RulesChange) {
        let yes = Choice {
            key: 'y',
            does: "put it in; undo takes it back",
            task: Task::Edit(asked.edit),
        };
        let mut question = Question::new(asked.asks, vec![yes]);
        question.about = asked.about;
        question.wait = Some("leave the rules as they are");
        self.overlays.push(Overlay::Question(question));
    }

    /// Puts your centre's rules, as they were read again, in place of these; undo brings
    /// these back.
    pub(super) fn exchange_rules(&mut self, file: Arc<HouseRulesFile>, called: String) {
        match self.perform(Change::Edit(Edit::Rules { file, called })) {
            Ok(Some(status)) => self.model.status = Some(status),
            Ok(None) => {}
            Err(refused) => self.warn(refused.to_string()),
        }
    }

    /// Notes that your centre's rules are in this file now.
    pub(super) fn rules_are_kept(&mut self, path: PathBuf) {
        self.model.rules_home = RulesHome::File(path);
    }

    /// Brings what depends on the rules in line with them, and has them kept.
    pub(super) fn follow_rules(&mut self) {
        let keep = Errand::KeepRules { anew: false };
        self.outbox.push(Effect::File(keep));
        self.make_ready_at_once();
        self.model.results.outdate();
        let rows = rows(&self.model.document);
        let was = self.row().cloned();
        let row = &mut self.model.view.selected[Focus::Readings];
        *row = was.map_or(0, |was| kept(&rows, &was, *row));
        self.model.rows = rows;
    }
}
