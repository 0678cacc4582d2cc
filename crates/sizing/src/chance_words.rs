//! A chance as people read it.

use crate::Candidate;

/// A chance in whole per cent, and on which side of a limit it lies where rounding
/// would hide that.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Rounded {
    /// Under one in a hundred.
    NextToNone,
    /// Over ninety-nine in a hundred.
    NextToAll,
    /// It rounds to this limit and lies under it.
    Under(u8),
    /// It rounds to this limit and lies on or over it.
    From(u8),
    /// Any other.
    Whole(u8),
}

impl Rounded {
    /// A chance among limits of chances.
    fn of(chance: f64, limits: &[f64]) -> Self {
        let percent = 100.0 * chance;
        if percent < 1.0 {
            return Self::NextToNone;
        }
        if percent > 99.0 {
            return Self::NextToAll;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 1 and 99"
        )]
        let whole = percent.round() as u8;
        let is_beside = |limit: &&f64| (100.0 * **limit).round() == percent.round();
        match limits.iter().find(is_beside) {
            Some(&limit) if chance < limit => Self::Under(whole),
            Some(_) => Self::From(whole),
            None => Self::Whole(whole),
        }
    }
}

impl Candidate {
    /// The chance that every geometric limit holds, as whole per cent; `at most` where
    /// a check that has a limit was not assessed. One that rounds to a limit of the
    /// rules says on which side of it it lies: `< 90 %`, `≥ 90 %`. `None` without
    /// simulated variations, where the case is not rated and where it is excluded: no
    /// geometry counts there.
    pub fn chance_in_per_cent(&self) -> Option<String> {
        let rounded = self.rounded()?;
        let is_whole = self.is_chance_whole();
        Some(match rounded {
            Rounded::NextToNone => "< 1 %".to_owned(),
            Rounded::NextToAll if is_whole => "> 99 %".to_owned(),
            Rounded::NextToAll => "at most 100 %".to_owned(),
            Rounded::Under(limit) => format!("< {limit} %"),
            Rounded::From(limit) if is_whole => format!("≥ {limit} %"),
            Rounded::From(percent) | Rounded::Whole(percent) if !is_whole => {
                format!("at most {percent} %")
            }
            Rounded::From(percent) | Rounded::Whole(percent) => format!("{percent} %"),
        })
    }

    /// The same in a hundred variations, for a room: `74 of 100`.
    pub fn chance_in_hundred(&self) -> Option<String> {
        let rounded = self.rounded()?;
        let is_whole = self.is_chance_whole();
        Some(match rounded {
            Rounded::NextToNone => "fewer than 1 of 100".to_owned(),
            Rounded::NextToAll if is_whole => "more than 99 of 100".to_owned(),
            Rounded::NextToAll => "at most 100 of 100".to_owned(),
            Rounded::Under(limit) => format!("fewer than {limit} of 100"),
            Rounded::From(limit) if is_whole => format!("at least {limit} of 100"),
            Rounded::From(count) | Rounded::Whole(count) if !is_whole => {
                format!("at most {count} of 100")
            }
            Rounded::From(count) | Rounded::Whole(count) => format!("{count} of 100"),
        })
    }

    fn rounded(&self) -> Option<Rounded> {
        let chances = self.chances.as_ref().filter(|_| !self.is_case_excluded);
        let chance = chances?.chance.value;
        Some(Rounded::of(chance, &self.chance_limits))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_never_hides_on_which_side_of_a_limit_a_chance_lies() {
        let limits = [0.5, 0.9];
        for (chance, expected) in [
            (0.0, Rounded::NextToNone),
            (0.494, Rounded::Whole(49)),
            (0.4999, Rounded::Under(50)),
            (0.5, Rounded::From(50)),
            (0.511, Rounded::Whole(51)),
            (0.8951, Rounded::Under(90)),
            (0.9, Rounded::From(90)),
            (0.904, Rounded::From(90)),
            (0.93, Rounded::Whole(93)),
            (0.995, Rounded::NextToAll),
        ] {
            assert_eq!(Rounded::of(chance, &limits), expected, "{chance}");
        }
    }
}
