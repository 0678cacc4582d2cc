/// Whether a statement holds of a case: not knowing is an answer of its own.
///
/// Kleene's three-valued logic: what is known to fail decides a conjunction, and
/// what is known to hold a disjunction, whatever else is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Truth {
    /// It holds.
    Met,
    /// It does not hold.
    NotMet,
    /// What it depends on is not known.
    NotKnown,
}

impl Truth {
    /// That all of several hold; of none it is so.
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

    /// That at least one of several holds; of none it is not so.
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
