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
        let section = Section::lines(Topic::Deployments, "Deployments and what was seen", lines);
        let note = "The latest first, against the criteria written before.";
        (!section.is_empty()).then(|| section.with_note(note))
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
