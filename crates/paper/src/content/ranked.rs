use super::SheetRequest;
use crate::{Line, Mark, Section, TableRow, Topic};
use sizing::{Candidate, Verdict};

/// How many of the list are told, besides the sizes drawn.
const FIRST: usize = 7;

impl SheetRequest<'_> {
    /// The first of the list and every size that is drawn.
    pub(super) fn ranked(&self) -> Section {
        let heading = "Ranked";
        let candidates = &self.ranking.candidates;
        let is_drawn = |one: &Candidate| self.shown.iter().any(|shown| shown.place == one.place);
        let rows: Vec<TableRow> = candidates
            .iter()
            .enumerate()
            .filter(|(index, one)| *index < FIRST || is_drawn(one))
            .map(|(index, one)| self.row(index + 1, one, is_drawn(one)))
            .collect();
        if rows.is_empty() {
            return Section::lines(Topic::Ranked, heading, vec![Line::plain("No size.")]);
        }
        let left_out = candidates.len() - rows.len();
        let heads = [
            "",
            "device (waist × length, mm)",
            "verdict",
            "inside limits (geometry only)",
        ];
        let mut section = Section::table(Topic::Ranked, heading, &heads, rows);
        section.left_out = left_out;
        section
    }

    fn row(&self, rank: usize, one: &Candidate, is_drawn: bool) -> TableRow {
        let name = self.device(one);
        let device = if one.size.occluder.is_offset() {
            format!("{name}, rotation {:.0}°", one.turn.to_degrees())
        } else {
            name
        };
        let device = if one.is_on_shelf {
            device
        } else {
            format!("{device}, not in stock today")
        };
        let chance = one.chance_in_per_cent();
        let chance = chance.unwrap_or_else(|| "–".to_owned());
        TableRow {
            cells: vec![
                Line::plain(rank.to_string()),
                Line::plain(device),
                Line::marked(mark(one.judged.verdict), one.judged.verdict.word()),
                Line::plain(chance),
            ],
            is_kept: is_drawn,
        }
    }
}

/// The mark of a verdict.
const fn mark(verdict: Verdict) -> Mark {
    match verdict {
        Verdict::Fits => Mark::Ok,
        Verdict::Borderline => Mark::Warning,
        Verdict::DoesNotFit => Mark::Beyond,
        Verdict::NotRated => Mark::NotKnown,
    }
}
