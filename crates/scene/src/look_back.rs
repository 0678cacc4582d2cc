//! A look-back as one picture for the wall: chances against what was seen, and how far
//! readings were out.

mod answers;
mod page;
mod readings;
mod reliability;

use crate::stroke::Drawing;
use page::LookBackStrokes;
use sizing::look_back::{HOW_IT_COUNTS, LookBack};
use std::fmt::Write as _;

/// A4 across, mm.
const WIDTH: f64 = 297.0;
const HEIGHT: f64 = 210.0;
/// What stays free at the edges of the page, mm.
const EDGE: f64 = 14.0;
/// Where the panels begin, mm.
const RIGHT_PANEL: f64 = 136.0;
const PANELS: f64 = 52.0;
const LOWER_PANEL: f64 = 157.0;
/// Sizes of letters, mm.
const TITLE: f64 = 8.0;
const HEADING: f64 = 4.6;
const TEXT: f64 = 3.4;
const SMALL: f64 = 2.8;

/// The picture of a look-back, A4 across, with a caution in one line at its foot.
pub fn drawing(found: &LookBack, caution: &str) -> Drawing {
    let mut page = LookBackStrokes::default();
    page.bold(EDGE, 20.0, TITLE, "What we expected, and what we saw");
    for (place, sentence) in found.headline().iter().enumerate() {
        page.word(EDGE, 29.5 + 5.4 * place as f64, HEADING, sentence);
    }
    reliability::draw(&mut page, found.all.as_ref());
    answers::draw(&mut page, &found.answers);
    readings::draw(&mut page, &found.readings);
    let counts = format!("{}. {}", found.counts(), HOW_IT_COUNTS[0]);
    page.word(EDGE, HEIGHT - 9.0, SMALL, &counts);
    page.word(EDGE, HEIGHT - 5.0, SMALL, caution);
    Drawing {
        width: WIDTH,
        height: HEIGHT,
        title: "Look-back: what was foretold and what was seen".to_owned(),
        alternative_text: spoken(found),
        strokes: page.strokes,
    }
}

/// All of it in sentences.
fn spoken(found: &LookBack) -> String {
    let mut says = format!("{}. {}", found.counts(), found.headline().join(" "));
    // Writing to a string does not fail.
    for row in found.answers.iter().chain(&found.all) {
        let verdict = if row.is_judged() {
            format!(
                "foretold in {:.0} %, seen in {}",
                100.0 * row.pairs.foretold,
                row.seen()
            )
        } else {
            "too few to judge".to_owned()
        };
        let _ = write!(says, " {}, {}: {verdict}.", row.label(), row.pairs.pairs);
    }
    for row in &found.readings {
        let _ = write!(says, " {}, {}: {}.", row.of.label(), row.pairs, row.says());
    }
    says
}
