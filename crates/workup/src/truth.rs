/// Whether a statement holds of a case, by Kleene's three-valued logic.
///
/// One that is known to fail decides a conjunction, and one that is known to hold a
/// disjunction, whatever else is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Truth {
    /// The statement holds.
    Met,
    /// The statement does not hold.
    NotMet,
    /// What the statement depends on is not known.
    NotKnown,
}

impl Truth {
    /// The truth of "all of them hold"; `Met` for an empty set.
    pub fn all(each: impl IntoIterator<Item = Self>) -> Self {
        let mut all = Self::Met;
        for one in each {
            match one {
                Self::NotMet => return Self::NotMet,
                Self::NotKnown => all = Self::NotKnown,
                Self::Met => {}
            }
        }
        all
    }

    /// The truth of "at least one of them holds"; `NotMet` for an empty set.
    pub fn any(each: impl IntoIterator<Item = Self>) -> Self {
        let mut any = Self::NotMet;
        for one in each {
            match one {
                Self::Met => return Self::Met,
                Self::NotKnown => any = Self::NotKnown,
                Self::NotMet => {}
            }
        }
        any
    }

    /// The truth of an answer that may be missing.
    pub const fn of(holds: Option<bool>) -> Self {
        match holds {
            Some(true) => Self::Met,
            Some(false) => Self::NotMet,
            None => Self::NotKnown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Truth::{Met, NotKnown, NotMet};
    use super::*;

    #[test]
    fn what_is_known_can_decide_whatever_is_not() {
        assert_eq!(Truth::all([Met, NotKnown]), NotKnown);
        assert_eq!(Truth::all([NotKnown, NotMet]), NotMet);
        assert_eq!(Truth::any([NotMet, NotKnown]), NotKnown);
        assert_eq!(Truth::any([NotKnown, Met]), Met);
        assert_eq!((Truth::all([]), Truth::any([])), (Met, NotMet));
    }
}
