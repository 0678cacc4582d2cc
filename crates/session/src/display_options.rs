use geometry::Face;
use measurement::Valve;
use sizing::{Candidate, Verdict};

/// What of the result is shown; nothing of it changes a result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DisplayOptions {
    /// Which candidates the ranked list shows.
    pub filter: Filter,
    /// The face that is drawn face-on.
    pub face: Face,
    /// The valve through whose hinge the section is drawn.
    pub valve: Valve,
}

impl Default for DisplayOptions {
    /// Everything, seen from the left, cut through the reference valve.
    fn default() -> Self {
        Self {
            filter: Filter::default(),
            face: Face::Left,
            valve: Valve::Aortic,
        }
    }
}

/// Which candidates the ranked list shows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Those whose `shape/size` or plain name holds every word of this text; empty: all.
    pub text: String,
    /// Those of this verdict; `None`: all.
    pub verdict: Option<Verdict>,
}

impl Filter {
    /// Whether everything is shown.
    pub const fn is_none(&self) -> bool {
        self.text.is_empty() && self.verdict.is_none()
    }

    /// Whether it shows a candidate.
    pub fn shows(&self, candidate: &Candidate) -> bool {
        let is_of_verdict = |verdict| candidate.judged.verdict == verdict;
        self.verdict.is_none_or(is_of_verdict) && self.names(candidate)
    }

    /// Whether every word of the text stands in the names of a candidate, in letters of
    /// either case.
    fn names(&self, candidate: &Candidate) -> bool {
        // Every frame asks this of every size: without a text no name is put together.
        if self.text.trim().is_empty() {
            return true;
        }
        let text = self.text.to_lowercase();
        let all = format!("{} {}", candidate.name(), candidate.shape_name).to_lowercase();
        text.split_whitespace().all(|word| all.contains(word))
    }
}
