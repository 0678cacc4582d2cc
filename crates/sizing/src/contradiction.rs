use measurement::Quantity;

/// Two things said of a case that cannot both be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// A short name, the same in every run.
    pub id: String,
    /// The contradiction in plain words, with its numbers.
    pub says: String,
    /// The quantities that contradict each other or the site; empty: a fact that
    /// every verdict rests on.
    pub on: Vec<Quantity>,
    /// Whether no defect can have such a geometry.
    pub is_impossible: bool,
}

impl Contradiction {
    /// Whether what needs some quantities rests on it.
    pub(crate) fn bears_on(&self, needs: &[Quantity]) -> bool {
        self.on.is_empty() || self.on.iter().any(|one| needs.contains(one))
    }

    /// What kind of contradiction it is, in a few words.
    pub fn label(&self) -> &'static str {
        match self.id.as_str() {
            "outside_wide_bounds" => "a value outside its wide bounds",
            "typed_twice" => "one reading typed twice",
            "axes_crossed" => "a shorter axis over the longer one",
            "opening_under_defect" => "an opening narrower than the defect",
            "near_out_of_reach" => "a valve out of reach that was measured near",
            "prolapse_denied" => "a prolapse that is denied",
            _ => "site against measurement",
        }
    }
}
