//! The ranking as CSV: one line a size.

use anyhow::Result;
use files::visible;
use geometry::Face;
use sizing::{Ranking, Setting, State};
use std::io::Write;

const HEADER: [&str; 19] = [
    "rank",
    "group",
    "shape",
    "size",
    "rotation_deg",
    "waist_mm",
    "length_mm",
    "left_disc_mm",
    "right_disc_mm",
    "sheath_fr",
    "verdict",
    "chance",
    "chance_error",
    "chance_no_warning",
    "broken",
    "in_stock",
    "exceptions",
    "chance_is_bound",
    "against",
];

/// Writes a ranking as CSV.
pub(crate) fn write(out: &mut dyn Write, ranking: &Ranking) -> Result<()> {
    let mut table = csv::Writer::from_writer(out);
    table.write_record(HEADER)?;
    write_rows(&mut table, None, ranking)
}

/// Writes the head of a table of many cases.
pub(crate) fn write_head_of_many(out: &mut dyn Write) -> Result<()> {
    let mut table = csv::Writer::from_writer(out);
    table.write_record(std::iter::once("case").chain(HEADER))?;
    table.flush()?;
    Ok(())
}

/// Writes the ranking of one of many cases, each line with the name by which the case
/// was given.
pub(crate) fn write_one_of_many(out: &mut dyn Write, file: &str, ranking: &Ranking) -> Result<()> {
    let mut table = csv::Writer::from_writer(out);
    write_rows(&mut table, Some(&visible(file)), ranking)
}

fn write_rows(
    table: &mut csv::Writer<impl Write>,
    file: Option<&str>,
    ranking: &Ranking,
) -> Result<()> {
    let exceptions = excepted(&ranking.setting);
    let against: Vec<&str> = ranking.against.iter().map(|one| one.id.as_str()).collect();
    let against = visible(&against.join("; ")).into_owned();
    for (index, (candidate, group)) in ranking.candidates.iter().zip(&ranking.groups).enumerate() {
        let occluder = &candidate.size.occluder;
        let disc = |face| {
            let disc = occluder.disc(face);
            disc.map_or_else(String::new, |disc| figure(2.0 * disc.radius))
        };
        let chance = |pick: fn(&sizing::Chances) -> f64| {
            candidate
                .chances
                .as_ref()
                .map_or_else(String::new, |it| figure(pick(it)))
        };
        let broken: Vec<String> = candidate
            .outcomes
            .iter()
            .filter(|outcome| outcome.state != State::Ok)
            .map(|outcome| format!("{} {}: {}", outcome.check, outcome.of, outcome.state.word()))
            .collect();
        let fields = [
            (index + 1).to_string(),
            group.to_string(),
            visible(&candidate.shape).into_owned(),
            visible(&candidate.size.label).into_owned(),
            figure(candidate.turn.to_degrees()),
            figure(occluder.waist.diameter),
            figure(occluder.waist.length),
            disc(Face::Left),
            disc(Face::Right),
            figure(candidate.size.sheath.french),
            candidate.judged.verdict.word().to_owned(),
            chance(|it| it.chance.value),
            chance(|it| it.chance.error),
            chance(|it| it.chance_no_caution.value),
            broken.join("; "),
            candidate.is_on_shelf.to_string(),
            exceptions.clone(),
            (candidate.chances.is_some() && !candidate.is_chance_whole()).to_string(),
            against.clone(),
        ];
        table.write_record(file.into_iter().chain(fields.iter().map(String::as_str)))?;
    }
    table.flush()?;
    Ok(())
}

/// What the case excepts from the rules of the house: in each line, for lines are
/// cut out and passed on.
pub(super) fn excepted(setting: &Setting) -> String {
    visible(&setting.exceptions().join("; ")).into_owned()
}

pub(super) fn figure(value: f64) -> String {
    format!("{value:.4}")
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}
