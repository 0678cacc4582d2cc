use crate::edit::Edit;
use crate::errand::Errand;
use crate::rules_change::RulesChange;
use sizing::growth::Body;

/// What a layer asks the session to do once it closes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Task {
    /// The document is changed; a step to undo.
    Edit(Edit),
    /// Something is done with files.
    Errand(Errand),
    /// The file is asked for in which the case is saved.
    AskPath {
        /// Whether the program ends once it is saved.
        leaves: bool,
    },
    /// It is so many minutes since puncture now.
    Minute(f64),
    /// It is so many days after the procedure.
    Day(u32),
    /// The child is to be shown grown.
    Grown(Body),
    /// A person is asked about a change of your centre's rules.
    AskRules(Box<RulesChange>),
    /// The program ends.
    Leave,
}
