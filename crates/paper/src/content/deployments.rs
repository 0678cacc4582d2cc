use super::SheetRequest;
use crate::{Line, Mark, Section, Topic};
use sizing::Subject;
use sizing::trial::{Criterion, CriterionState, Observation, Trial, follow_up_says};

/// How criteria stand, the gravest first: what nobody looked at is not inside.
const STATES: [(CriterionState, Mark); 4] = [
    (CriterionState::Beyond, Mark::Beyond),
    (CriterionState::Between, Mark::Warning),
    (CriterionState::NotLookedAt, Mark::NotKnown),
    (CriterionState::Inside, Mark::Ok),
];

impl SheetRequest<'_> {
    /// What was opened, what was seen then and later; `None` before the first
    /// deployment. The latest comes first: where there is no room the oldest goes, and
    /// what of the latest is beyond its criteria stays.
    pub(super) fn deployments(&self) -> Option<Section> {
        let procedure = &self.setting().case().procedure;
        let mut lines = Vec::new();
        for says in follow_up_says(self.setting()) {
            lines.push(Line::plain(self.in_column(&says, 4)));
        }
        for one in procedure.follow_up.iter().rev() {
            let says = format!("{} days after: {}", one.day, seen(&one.seen));
            lines.push(Line::plain(self.in_column(&says, 3)));
        }
        for (index, trial) in procedure.trials.iter().enumerate().rev() {
            lines.extend(self.deployment(index, trial));
        }
        lines.extend(self.of_cohorts());
        let section = Section::lines(Topic::Deployments, "Deployments and what was seen", lines);
        let note = "The latest first, against the criteria written before.";
        (!section.is_empty()).then(|| section.with_note(note))
    }

    /// What was published of later years with a device, once one was released. It stands
    /// last, and so is the first to go where there is no room: the sources are in the
    /// rules, on the panel and on the command line.
    fn of_cohorts(&self) -> Option<Line> {
        let setting = self.setting();
        setting.case().procedure.released()?;
        let facts: Vec<&str> = setting
            .late()
            .iter()
            .map(|fact| fact.says.as_str())
            .collect();
        let says = format!(
            "Later, of cohorts and not of this child: {}",
            facts.join(" ")
        );
        (!facts.is_empty()).then(|| Line::plain(self.in_column(&says, 8)))
    }

    fn deployment(&self, index: usize, trial: &Trial) -> Vec<Line> {
        let procedure = &self.setting().case().procedure;
        let head = format!("Deployment {}: {}", index + 1, trial.says());
        let is_latest = index + 1 == procedure.trials.len();
        let head = Line::plain(self.in_column(&head, 3));
        // However much was seen since, which device lies there is said.
        let mut lines = vec![if is_latest { head.kept() } else { head }];
        for (state, mark) in STATES {
            let rows = procedure.criteria_of(&trial.size);
            let of_state = rows.filter(|one| one.state(procedure, trial) == state);
            let names: Vec<String> = of_state.map(Criterion::name).collect();
            if !names.is_empty() {
                let says = format!("{}: {}", super::sentence(state.word()), names.join("; "));
                let line = Line::marked(mark, self.in_column(&says, 3));
                let is_gravest = is_latest && state == CriterionState::Beyond;
                lines.push(if is_gravest { line.kept() } else { line });
            }
        }
        if !trial.seen.is_empty() {
            let says = format!("Seen: {}", seen(&trial.seen));
            lines.push(Line::plain(self.in_column(&says, 4)));
        }
        lines
    }
}

/// What was seen, in one line; what was set aside is said to be.
fn seen(all: &[Observation]) -> String {
    let says = all.iter().map(|one| {
        let of = match one.of {
            Subject::Shape => String::new(),
            of => format!(", {}", of.label()),
        };
        let aside = if one.set_aside.is_some() {
            " (set aside)"
        } else {
            ""
        };
        format!(
            "{}{of}: {}{aside}",
            one.what.label(),
            one.seen.says(one.what)
        )
    });
    says.collect::<Vec<_>>().join("; ")
}
