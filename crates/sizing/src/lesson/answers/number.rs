use super::{find, shown};
use crate::lesson::nudge;
use crate::lesson::outcome::outcome_of;
use crate::lesson::question::{Choices, NoAnswer, Question, Right};
use crate::{Ranking, Subject, device_name, words};
use measurement::{ReadingId, Unit};

/// The value of a check; a share is asked for in per cent.
pub(super) fn value(
    ranking: &Ranking,
    (check, of): (&str, Subject),
    size: &str,
    within: f64,
) -> Result<Question, NoAnswer> {
    let outcome = outcome_of(find(ranking, size)?, check, of)?;
    let value = outcome.value.ok_or_else(|| NoAnswer::NotAssessed {
        check: check.to_owned(),
        of: of.label(),
    })?;
    let below = outcome.below.map_or_else(String::new, |below| {
        format!("; a number under 0 means {below}")
    });
    let of = match of {
        Subject::Shape => String::new(),
        of => format!(", {of},"),
    };
    let (scale, unit) = match outcome.unit {
        Unit::Share => (100.0, "%"),
        unit => (1.0, unit.symbol()),
    };
    Ok(Question {
        asks: format!(
            "{}{of} of {}{below}.",
            words::capital(outcome.title),
            device_name(size)
        ),
        choices: Choices::Number(unit),
        right: Right::Near {
            value: scale * value,
            within,
        },
        answer: words::capital(&shown(outcome)),
        why: words::capital(&format!("{}.", outcome.says_with_limit())),
        shows: size.to_owned(),
    })
}

/// The chance that a size is inside every limit, in per cent.
pub(super) fn likely(ranking: &Ranking, size: &str, within: f64) -> Result<Question, NoAnswer> {
    let candidate = find(ranking, size)?;
    let chances = candidate.chances.as_ref().ok_or(NoAnswer::NoChance)?;
    let [least, most] = candidate.chance_limits.map(words::percent);
    Ok(Question {
        asks: format!(
            "In how many of 100 simulated variations of the readings is {} inside every limit?",
            device_name(size)
        ),
        choices: Choices::Number("%"),
        right: Right::Chance {
            value: 100.0 * chances.chance.value,
            within,
        },
        answer: words::percent(chances.chance.value),
        why: format!(
            "Under {least} a size does not fit, and under {most} it is borderline, however well \
             it stands as measured."
        ),
        shows: size.to_owned(),
    })
}

/// The value of a reading at which a check comes inside its limit.
pub(super) fn nudge_until(
    ranking: &Ranking,
    id: &ReadingId,
    (check, of): (&str, Subject),
    size: &str,
    within: f64,
) -> Result<Question, NoAnswer> {
    let candidate = find(ranking, size)?;
    let outcome = outcome_of(candidate, check, of)?;
    let edge = nudge::edge(&ranking.setting, candidate, (check, of), id)?;
    let mut readings = ranking.setting.case().readings.iter();
    let read = readings.find(|one| one.id == *id);
    let read = read.ok_or_else(|| NoAnswer::NoReading(id.0.clone()))?;
    let quantity = read.quantity;
    Ok(Question {
        asks: format!(
            "The {} was measured as {}. At which value would {} come inside the limit of “{}” \
             ({of})?",
            quantity.label(),
            words::amount(quantity, read.value),
            device_name(size),
            outcome.title,
        ),
        choices: Choices::Number(quantity.unit().symbol()),
        right: Right::Near {
            value: edge,
            within,
        },
        answer: words::amount(quantity, edge),
        why: words::capital(&format!("as measured: {}.", outcome.says_with_limit())),
        shows: size.to_owned(),
    })
}
