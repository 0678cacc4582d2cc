use super::step::GuideStep;
use super::task::Task;
use crate::hint::Hint;
use crate::key::Key;
use crate::model::Model;
use measurement::Quantity;

/// What lies over the panels and takes keys, the topmost first. One is a file with
/// this trait, a variant of [`Overlay`](super::Overlay) and its drawing.
pub(crate) trait Layer {
    /// Takes a key; the model is the one under it.
    fn key(&mut self, key: Key, model: &Model) -> Outcome;

    /// Takes a pasted text, where something is typed.
    fn paste(&mut self, _text: &str) {}

    /// Shows why what it asked for was not done.
    fn refuse(&mut self, _why: String) {}

    /// Whether what is typed into it is somebody's words, such as a title, a reason
    /// or a path.
    fn takes_words(&self) -> bool {
        false
    }

    /// The keys that do something now.
    fn footer(&self, model: &Model) -> Vec<Hint>;
}

/// What a layer makes of a key.
#[derive(Clone, Debug)]
pub(crate) enum Outcome {
    /// It took the key.
    Stay,
    /// It took the key, and this is done as well.
    Also(Task),
    /// It leaves the key to the panel.
    Pass,
    /// It closes.
    Close,
    /// It closes once this is done, and says why where it is refused.
    Do(Task, Next),
    /// It closes, and this is done.
    Answer(Task),
    /// It closes, and the command with this id is done.
    Run(&'static str),
    /// It closes, and this quantity is selected among the readings, its value asked for
    /// where it was not measured.
    GoTo(Quantity),
    /// It closes, and the size at this place on the shelf is selected in the ranked list.
    Select(usize),
    /// It closes, and the fit map is read at this waist and overhang, in millimetres.
    MapAt(f64, f64),
    /// A step of the guide.
    Guide(GuideStep),
}

/// What follows once a layer is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Next {
    /// The page.
    Page,
    /// The guide through a new case.
    Guide,
    /// The next question of the guide that lies under it, if one does.
    Question,
}
