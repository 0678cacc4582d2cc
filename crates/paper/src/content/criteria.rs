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
    "heparin, ACT ______ s at ______ min",
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
        let (mut lines, mut are_written) = (Vec::new(), true);
        for one in &self.shown {
            let name = one.name();
            let mut criteria: Vec<Criterion> = procedure.criteria_of(&name).cloned().collect();
            if criteria.is_empty() {
                are_written = false;
                criteria = criteria_of(self.setting(), &name, &one.size);
            }
            for criterion in criteria {
                let says = format!(
                    "{}: {}",
                    criterion.name(),
                    criterion.bounds.says(criterion.row)
                );
                let line = Line::marked(Mark::Box, self.in_column(&says, 2));
                if !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
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

/// Boxes for the room.
pub(super) fn room() -> Section {
    let lines = ROOM.map(|one| Line::marked(Mark::Box, one));
    Section::lines(Topic::Room, "In the room", lines.to_vec())
}
