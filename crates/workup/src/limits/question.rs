use super::Reach;
use measurement::{Answer, Finding, Findings, Quantity};

/// Something to be measured or asked, and what it would settle.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// A short name, the same in every run.
    pub id: String,
    /// What is to be measured or asked.
    pub what: String,
    /// The question it settles.
    pub settles: String,
    /// The cases it is asked of.
    pub reach: Reach,
    /// Readings, one of which answers it.
    pub read: Vec<Quantity>,
    /// Findings, one of which answers it, whatever the answer is.
    pub asked: Vec<Finding>,
    /// Where it comes from.
    pub source: String,
}

impl Question {
    /// Whether it is open: nothing that answers it was read or answered.
    pub(crate) fn is_open(&self, is_read: impl Fn(Quantity) -> bool, findings: &Findings) -> bool {
        let answered = |finding| {
            findings
                .get(finding)
                .is_some_and(|answer| *answer != Answer::Unknown)
        };
        !(self.read.iter().any(|&quantity| is_read(quantity)) || self.asked.iter().any(answered))
    }
}
