use super::Reach;
use measurement::{Answer, Finding, Findings, Quantity};

/// An open question: what must be measured or asked, and what that would settle.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The id of the question, the same in every run.
    pub id: String,
    /// What must be measured or asked.
    pub what: String,
    /// The question it settles.
    pub settles: String,
    /// The cases of which it is asked.
    pub reach: Reach,
    /// The quantities, any of which answers the question.
    pub read: Vec<Quantity>,
    /// The findings, any of which answers the question, whatever the answer.
    pub asked: Vec<Finding>,
    /// The source of the question.
    pub source: String,
}

impl Question {
    /// Whether the question is open: nothing that answers it was measured or asked.
    pub(crate) fn is_open(&self, is_read: impl Fn(Quantity) -> bool, findings: &Findings) -> bool {
        let answered = |finding| {
            findings
                .get(finding)
                .is_some_and(|answer| *answer != Answer::Unknown)
        };
        !(self.read.iter().any(|&quantity| is_read(quantity)) || self.asked.iter().any(answered))
    }
}
