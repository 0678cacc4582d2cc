use super::{ChangedCheck, DimensionStep};
use crate::lesson::outcome_of;
use crate::{Candidate, Outcome, State, words};

/// That there is no such neighbour.
pub(super) const fn no_such(way: DimensionStep) -> &'static str {
    match way {
        DimensionStep::NarrowerDisc | DimensionStep::WiderDisc => {
            "There is no such form: it has no disc, or a disc would no longer cover the waist."
        }
        _ => "There is no such form: too little would be left of the waist.",
    }
}

/// What becomes of the limits from a size to its neighbour, in one sentence.
pub(super) fn step(
    way: DimensionStep,
    (own, other): (&Candidate, &Candidate),
    turned: Option<&ChangedCheck>,
) -> String {
    if way == DimensionStep::AsItIs {
        return own_stand(own);
    }
    let Some(turned) = turned else {
        return format!("No limit and no warning turns. {}", nearest(other));
    };
    let find = |of: &Candidate| {
        outcome_of(of, turned.check, turned.of)
            .map_or_else(|_| String::new(), Outcome::says_with_limit)
    };
    let says = words::capital(&find(other));
    if turned.to > turned.from {
        let over = match turned.to {
            State::Stop => "That is over the limit.",
            _ => "That is inside the warning margin.",
        };
        format!("{says}. {over}")
    } else {
        let was = match turned.from {
            State::Stop => "This size is over that limit.",
            _ => "This size is inside that warning margin.",
        };
        format!("{says}. {was}")
    }
}

/// Where the size itself stands: the gravest of what it breaks, or what is nearest.
fn own_stand(own: &Candidate) -> String {
    let of = |state: State| {
        let outcomes = own.outcomes.iter().filter(move |one| one.state == state);
        outcomes.min_by(|one, other| one.by_harm(other))
    };
    match of(State::Stop).or_else(|| of(State::Caution)) {
        Some(gravest) => format!("{}.", words::capital(&gravest.says_with_limit())),
        None => format!("No limit and no warning is reached. {}", nearest(own)),
    }
}

/// The check with the least margin to its limit.
fn nearest(of: &Candidate) -> String {
    let margins = of.outcomes.iter().filter_map(|one| {
        let margin = one.scaled_margin()?;
        (margin >= 0.0).then_some((margin, one))
    });
    let least = margins.min_by(|(one, _), (other, _)| one.total_cmp(other));
    least.map_or_else(String::new, |(_, one)| {
        let margin = one.margin_stop().unwrap_or(0.0);
        let spare = one.margin_amount(margin);
        format!(
            "Nearest is {}, {}, with {spare} to spare.",
            one.title, one.of
        )
    })
}
