//! In what two states of a case differ, 80 columns wide.

use super::head_and_foot::{footing, opening};
use crate::cli::args::WIDTH;
use crate::text::paragraph;
use anyhow::Result;
use files::visible;
use paper::Provenance;
use sizing::{Changes, Ranking};
use std::io::Write;

/// Writes what differs in a later state, each state with what it was made from.
pub(crate) fn write(
    out: &mut dyn Write,
    (earlier, from): (&Ranking, &Provenance),
    (later, now): (&Ranking, &Provenance),
) -> Result<()> {
    opening(out, later.setting.case())?;
    let changes = Changes::between(earlier, later);
    let digest = Provenance::brief_digest;
    let counted = changes.counted();
    let says = format!(
        "Differs in {counted}. Earlier state: inputs {}. Later state: inputs {}.",
        digest(from),
        digest(now)
    );
    write!(out, "{}", paragraph("", &says, WIDTH))?;
    let headlines = [("Earlier: ", earlier), ("Later: ", later)];
    for (when, ranking) in headlines {
        write!(
            out,
            "{}",
            paragraph(when, &visible(&ranking.headline()), WIDTH)
        )?;
    }
    let sections = [
        ("Readings", &changes.readings),
        ("Answers", &changes.answers),
        ("Exceptions from your centre's rules", &changes.exceptions),
        ("Verdicts", &changes.verdicts),
    ];
    for (title, lines) in sections {
        if lines.is_empty() {
            continue;
        }
        writeln!(out, "\n{title}")?;
        for line in lines {
            write!(out, "{}", paragraph("- ", &visible(line), WIDTH))?;
        }
    }
    writeln!(out)?;
    footing(out, now)
}
