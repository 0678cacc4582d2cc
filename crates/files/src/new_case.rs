//! The text of a new case, with comments for someone who edits it by hand.

use crate::Word;
use crate::exceptions::exception_fields;
use crate::facts::{choices, fact_fields};
use crate::procedure::{
    before_fields, criterion_fields, follow_up_fields, room_fields, trial_fields, used_fields,
};
use crate::reading_text::reading_fields;
use crate::ron_text::{Field, INDENT, Style, quoted, record};
use measurement::{Method, Modality, Phase, Quantity, Side, Structure};
use sizing::trial::{Procedure, Used};
use sizing::{Answer, Case, Fact, Neighbour};
use std::fmt::Write;

/// The text of a case that no file holds yet. It reads as just that case, if a
/// file may say it.
pub fn new_case(case: &Case) -> String {
    let mut text = String::new();
    // Writing to a string does not fail.
    let _ = write(&mut text, case);
    text
}

fn write(text: &mut String, case: &Case) -> std::fmt::Result {
    text.push_str(HEAD);
    writeln!(
        text,
        "(\n    format: 2,\n    title: {},",
        quoted(&case.title)
    )?;
    if let Some(lesson) = &case.lesson {
        writeln!(text, "    lesson: {},", quoted(lesson))?;
    }
    for (field, word, words) in [
        ("site", case.site.word(), words(case.site)),
        ("edge", case.edge.word(), words(case.edge)),
        ("access", case.route.word(), words(case.route)),
    ] {
        write!(text, "\n{words}    {field}: {word},\n")?;
    }
    readings(text, case)?;
    neighbours(text, case)?;
    facts(text, case)?;
    let findings = case.findings.iter();
    let findings = findings.map(|(finding, answer)| (finding.name(), finding.label(), *answer));
    answers(
        text,
        "findings",
        "Of the child and the examination",
        findings,
    )?;
    let exclusions = case.exclusions.iter();
    let exclusions = exclusions.map(|(id, answer)| (id.as_str(), "", *answer));
    answers(
        text,
        "exclusions",
        "What stops every device, as your centre's rules ask it",
        exclusions,
    )?;
    exceptions(text, case)?;
    procedure(text, &case.procedure)?;
    text.push_str(")\n");
    Ok(())
}

const HEAD: &str = "\
// A case for rimwise. Lengths in millimetres, angles in degrees, clockwise seen from
// the left ventricle with the reference valve's hinge at 0.
//
// Edit it by hand as you like: comments, order and layout stay when the program
// writes to it.
";

/// Comments with the words that a field may have.
fn words<T: Word>(_: T) -> String {
    comment(&format!("One of {}.", list(T::WORDS)), INDENT)
}

fn list<T>(words: &[(&'static str, T)]) -> String {
    words
        .iter()
        .map(|(word, _)| *word)
        .collect::<Vec<_>>()
        .join(", ")
}

/// Columns of a comment, its indentation included.
const WIDTH: usize = 88;

/// A sentence as comment lines.
fn comment(sentence: &str, indent: &str) -> String {
    let mut lines = String::new();
    let mut column = usize::MAX;
    for word in sentence.split(' ') {
        if column.saturating_add(1 + word.len()) > WIDTH {
            lines.push_str(if lines.is_empty() { "" } else { "\n" });
            lines.push_str(indent);
            lines.push_str("//");
            column = indent.len() + 2;
        }
        lines.extend([" ", word]);
        column += 1 + word.len();
    }
    lines.push('\n');
    lines
}

fn readings(text: &mut String, case: &Case) -> std::fmt::Result {
    text.push('\n');
    for sentence in [
        "id: the reading's lasting name. of: what was measured. sd: its standard deviation; left \
         out, the house rules' for how it was taken stands. side, phase and method are left \
         out where they do not apply. image: readings of one image share an edge. set_aside: \
         why a reading is not used.",
        &format!("by: {}.", list(Modality::WORDS)),
        &format!("side: {}.", list(Side::WORDS)),
        &format!("phase: {}.", list(Phase::WORDS)),
        &format!("method: {}.", list(Method::WORDS)),
    ] {
        text.push_str(&comment(sentence, INDENT));
    }
    text.push_str("    readings: [\n");
    let mut above = None;
    for reading in &case.readings {
        let heading = heading(reading.quantity);
        if above != Some(heading) {
            text.push_str(if above.is_some() { "\n" } else { "" });
            text.push_str(&comment(heading, "        "));
            above = Some(heading);
        }
        writeln!(
            text,
            "        {},",
            record(&reading_fields(reading), &Style::ROW)
        )?;
    }
    text.push_str("    ],\n");
    Ok(())
}

/// The comment above readings of one kind.
fn heading(quantity: Quantity) -> &'static str {
    match quantity.info().structure {
        Structure::Patient => "The child.",
        Structure::Defect | Structure::LeftOpening | Structure::RightOpening | Structure::Wall => {
            "The defect and its wall."
        }
        Structure::Valve(_) => "The valves beside the defect.",
        Structure::LeftOutflow | Structure::RightOutflow => "The outflow tracts.",
        Structure::LeftVentricle | Structure::RightVentricle => "The ventricles.",
        Structure::Vein | Structure::Artery => "The way in.",
        _ => "The circulation.",
    }
}

fn neighbours(text: &mut String, case: &Case) -> std::fmt::Result {
    let known = comment(
        &format!(
            "What is out of reach of any disc, of {}.",
            list(Neighbour::WORDS)
        ),
        INDENT,
    );
    let absent: Vec<&str> = case.absent.iter().map(|absent| absent.word()).collect();
    write!(
        text,
        "\n{known}    out_of_reach: [{}],\n",
        absent.join(", ")
    )
}

fn facts(text: &mut String, case: &Case) -> std::fmt::Result {
    text.push('\n');
    text.push_str(&comment(
        "Facts that a limit or a verdict depends on.",
        INDENT,
    ));
    for fact in Fact::ALL {
        let known = format!("{}: {}.", fact.name(), choices(fact));
        text.push_str(&comment(&known, INDENT));
    }
    text.push_str("    facts: (\n");
    for (name, value) in fact_fields(&case.facts) {
        if let Some(value) = value {
            writeln!(text, "        {name}: {value},")?;
        }
    }
    text.push_str("    ),\n");
    Ok(())
}

/// A map of answers, each with its meaning behind it where its name does not say it.
fn answers<'a>(
    text: &mut String,
    map: &str,
    about: &str,
    answers: impl Iterator<Item = (&'a str, &'a str, Answer)>,
) -> std::fmt::Result {
    let about = comment(&format!("{about}, each {}.", list(Answer::WORDS)), INDENT);
    write!(text, "\n{about}    {map}: {{\n")?;
    for (key, meaning, answer) in answers {
        let meaning = if meaning.is_empty() {
            String::new()
        } else {
            format!(" // {meaning}")
        };
        writeln!(text, "        {}: {},{meaning}", quoted(key), answer.word())?;
    }
    text.push_str("    },\n");
    Ok(())
}

fn exceptions(text: &mut String, case: &Case) -> std::fmt::Result {
    text.push('\n');
    text.push_str(&comment(
        "Rules of the house overridden for this case alone: what counts instead, `()` for no \
         limit, and why. rule: its name, which the form on the rules page says.",
        INDENT,
    ));
    if case.exceptions.is_empty() {
        text.push_str("    exceptions: [],\n");
        return Ok(());
    }
    text.push_str("    exceptions: [\n");
    for exception in &case.exceptions {
        let written = record(&exception_fields(exception), &Style::ROW);
        writeln!(text, "        {written},")?;
    }
    text.push_str("    ],\n");
    Ok(())
}

/// Criteria, trials and the rest, where there are any.
fn procedure(text: &mut String, procedure: &Procedure) -> std::fmt::Result {
    if let Some(id) = &procedure.case_id {
        write!(text, "\n    case_id: {},\n", quoted(id))?;
    }
    let row = |fields: Vec<Field>| record(&fields, &Style::ROW);
    let before = procedure.before.iter().map(|one| row(before_fields(one)));
    list_of(
        text,
        "What was there before any device was opened.",
        "before",
        before,
    )?;
    if let Some(digest) = &procedure.planned_on {
        write!(text, "\n    planned_on: {},\n", quoted(digest))?;
    }
    let criteria = procedure
        .criteria
        .iter()
        .map(|one| row(criterion_fields(one)));
    let about = "Release criteria as written before; from the first trial on a change keeps \
                 what was there and its reason.";
    list_of(text, about, "criteria", criteria)?;
    let trials = procedure.trials.iter().map(|one| row(trial_fields(one)));
    let about = "Every size that was opened, with what was seen; minutes after puncture.";
    list_of(text, about, "trials", trials)?;
    if procedure.used != Used::default() {
        let used = row(used_fields(&procedure.used));
        write!(text, "\n    used: {used},\n")?;
    }
    let days = procedure
        .follow_up
        .iter()
        .map(|one| row(follow_up_fields(one)));
    list_of(
        text,
        "What was seen later; days after the procedure.",
        "follow_up",
        days,
    )?;
    let room = procedure.room.iter().map(|one| row(room_fields(one)));
    list_of(text, "The boxes of the room.", "room", room)
}

/// A list, an item to a line; an empty one is left out.
fn list_of(
    text: &mut String,
    about: &str,
    list: &str,
    items: impl Iterator<Item = String>,
) -> std::fmt::Result {
    let mut items = items.peekable();
    if items.peek().is_none() {
        return Ok(());
    }
    write!(text, "\n{}    {list}: [\n", comment(about, INDENT))?;
    for item in items {
        writeln!(text, "        {item},")?;
    }
    text.push_str("    ],\n");
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{parse_case, shipped};

    #[test]
    fn every_scenario_written_anew_says_the_same() {
        for (name, text) in shipped::SCENARIOS {
            let case = parse_case(name, text).unwrap().into_value();
            let written = new_case(&case);
            let read = parse_case(name, &written);
            assert_eq!(read.unwrap().value(), &case, "{written}");
        }
    }

    #[test]
    fn a_case_of_nothing_says_what_may_be_said() {
        let (name, text) = shipped::SCENARIOS[0];
        let mut case = parse_case(name, text).unwrap().into_value();
        (case.lesson, case.title) = (None, "New */ \" \u{202e} case\n".into());
        case.readings.clear();
        case.findings.clear();
        case.exclusions.clear();
        case.absent.clear();
        let written = new_case(&case);
        assert_eq!(parse_case("x", &written).unwrap().value(), &case);
        assert!(written.contains("// One of soft, stiff.\n    edge: soft,\n"));
        assert!(
            written.lines().all(|line| line.chars().count() <= WIDTH),
            "{written}"
        );
    }
}
