//! `rimwise compare`: two to four sizes side by side.

use super::args::{Common, CompareArguments};
use super::inputs::{BadInput, Inputs};
use super::report::{changes, side_by_side};
use anyhow::Result;
use sizing::{Candidate, Ranking, is_name_of};
use std::io::Write;
use std::path::Path;

/// Ranks a case and lays the named sizes side by side.
pub(super) fn run(asked: &CompareArguments, out: &mut dyn Write) -> Result<()> {
    if let Some(later) = &asked.with {
        return states(asked, later, out);
    }
    let (ranking, provenance) = Inputs::read(&asked.common)?.rank(&asked.common)?;
    let chosen: Vec<&Candidate> = asked
        .sizes
        .iter()
        .map(|name| find(&ranking, name))
        .collect::<Result<_>>()?;
    side_by_side::write(out, &ranking, &chosen, &provenance)
}

/// Says in what a later state of the case differs from it.
fn states(asked: &CompareArguments, later: &Path, out: &mut dyn Write) -> Result<()> {
    let common = Common {
        case: later.to_owned(),
        ..asked.common.clone()
    };
    let (earlier, from) = Inputs::read(&asked.common)?.rank(&asked.common)?;
    let (later, now) = Inputs::read(&common)?.rank(&common)?;
    changes::write(out, (&earlier, &from), (&later, &now))
}

pub(super) fn find<'a>(ranking: &'a Ranking, name: &str) -> Result<&'a Candidate> {
    let mut all = ranking.candidates.iter();
    let found = all.find(|candidate| is_name_of(name, &candidate.name()));
    found.ok_or_else(|| {
        let shape = name.split('/').next().unwrap_or(name);
        let mut sizes: Vec<String> = ranking
            .candidates
            .iter()
            .filter(|candidate| candidate.shape == shape)
            .map(|candidate| candidate.size.label.clone())
            .collect();
        sizes.sort();
        let known = if sizes.is_empty() {
            let mut shapes: Vec<&str> = ranking
                .candidates
                .iter()
                .map(|candidate| candidate.shape.as_str())
                .collect();
            shapes.sort_unstable();
            shapes.dedup();
            format!("shapes are: {}", shapes.join(", "))
        } else {
            format!("sizes of {shape} are: {}", sizes.join(", "))
        };
        BadInput(format!("no size `{name}` in the catalogue; {known}")).into()
    })
}
