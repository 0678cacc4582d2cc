use crate::edit::Edit;

/// A change of your centre's rules that a person is asked about before it is made.
#[derive(Clone, Debug, PartialEq)]
pub struct RulesChange {
    /// What is asked.
    pub asks: String,
    /// What the rules say now, what they would say, and where it is written.
    pub about: Vec<String>,
    /// What is done where the answer is yes.
    pub(crate) edit: Edit,
}
