use super::SheetRequest;
use crate::{Line, Mark, Section, Topic};
use sizing::trial::{Criterion, criteria_of};

/// What is judged before a device is let go, with blanks for what is agreed on.
/// Common practice, no source; no limit is given here.
const TO_BE_AGREED: [&str; 7] = [
    "jet at the edge of the disc: at most ______ mm",
    "aortic and mitral regurgitation: at most ____________",
    "tricuspid and pulmonary regurgitation: at most ____________",
    "peak gradient: left at most ______ mmHg, right at most ______ mmHg",
    "rhythm and PR on 12 leads: ____________",
    "both discs flat and on their sides, the waist in the wall",
    "gentle pull and push: moves with the septum",
];

/// What the room sees to; ticked, never judged. Common practice, no source.
const ROOM: [&str; 8] = [
    "heparin, ACT ____ s at ____ min",
    "snare; sheath 2 Fr larger",
    "pacing",
    "surgeon and theatre",
    "blood",
    "echo in the room",
    "antibiotic by local rule",
    "antiplatelet by local rule",
];

impl SheetRequest<'_> {
    /// Release criteria, the one place on the sheet where they stand: those written in
    /// the case, else those of the centre's rules, else blanks. A row that is the same
    /// for several sizes stands once.
    pub(super) fn criteria(&self) -> Section {
        let heading = "Release criteria, written before the procedure";
        let procedure = &self.setting().case().procedure;
        let mut rows: Vec<Criterion> = Vec::new();
        let mut are_written = true;
        for one in &self.shown {
            let name = one.name();
            let mut criteria: Vec<Criterion> = procedure.criteria_of(&name).cloned().collect();
            if criteria.is_empty() {
                are_written = false;
                criteria = criteria_of(self.setting(), &name, &one.size);
            }
            for criterion in criteria {
                let is_same = |one: &Criterion| {
                    (one.row, one.of, one.bounds) == (criterion.row, criterion.of, criterion.bounds)
                };
                if !rows.iter().any(is_same) {
                    rows.push(criterion);
                }
            }
        }
        let lines: Vec<Line> = alike(&rows)
            .iter()
            .map(|says| Line::marked(Mark::Box, self.in_column(says, 2)))
            .collect();
        if lines.is_empty() {
            let lines = TO_BE_AGREED.map(|one| Line::marked(Mark::Box, one));
            return Section::lines(Topic::Criteria, heading, lines.to_vec())
                .with_note("To be filled in by hand; your centre's rules have none.");
        }
        let note = if are_written {
            "As they are written in the case."
        } else {
            "As your centre's rules have them; not written into the case."
        };
        Section::lines(Topic::Criteria, heading, lines).with_note(note)
    }
}

/// Rows of one kind with the same bounds in one: "regurgitation, aortic and mitral
/// valve: …".
fn alike(rows: &[Criterion]) -> Vec<String> {
    let mut groups: Vec<Vec<&Criterion>> = Vec::new();
    for one in rows {
        let same =
            |group: &&mut Vec<&Criterion>| group[0].row == one.row && group[0].bounds == one.bounds;
        match groups.iter_mut().find(same) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    let says = |group: &Vec<&Criterion>| {
        let first = group[0];
        let bounds = first.bounds.says(first.row);
        let name = match group.as_slice() {
            [_] => first.name(),
            all => {
                let of: Vec<&str> = all
                    .iter()
                    .map(|one| one.of.label().trim_end_matches(" valve"))
                    .collect();
                format!("{} ({})", first.row.label(), of.join(", "))
            }
        };
        format!("{name}: {bounds}")
    };
    groups.iter().map(says).collect()
}

/// Boxes for the room.
pub(super) fn room() -> Section {
    let lines = ROOM.map(|one| Line::marked(Mark::Box, one));
    Section::lines(Topic::Room, "In the room", lines.to_vec())
}
