use super::{Ask, Guide};
use crate::fact::choices;
use crate::hint::{Hint, hints};
use crate::overlay::confirmation;
use sizing::Fact;
use sizing::resolve::neighbour_of;

impl Guide {
    /// The keys that do something now.
    pub(super) fn hints(&self) -> Vec<Hint> {
        if self.asks.is_some() {
            confirmation::footer()
        } else if self.editor.is_empty() {
            of_guide(self.ask())
        } else {
            hints(&[("enter", "accept"), ("esc", "drop it"), ("ctrl-u", "clear")])
        }
    }
}

fn of_guide(ask: &Ask) -> Vec<Hint> {
    let ends = [("up", "back"), ("esc", "close")];
    let own: &[(&str, &'static str)] = match ask {
        Ask::Quantity(quantity) if neighbour_of(quantity.info().structure).is_some() => &[
            ("enter", "accept or skip"),
            ("n", "out of reach"),
            ("e", "how"),
            ("u", "undo"),
        ],
        Ask::Quantity(_) => &[
            ("enter", "accept or skip"),
            ("e", "how measured"),
            ("u", "undo"),
        ],
        Ask::Absent(_) => &[("enter", "go on"), ("n", "it is in reach"), ("u", "undo")],
        Ask::Fact(fact) => return of_fact(*fact, &ends),
        Ask::Exclusion(_) | Ask::Finding(_) => &[
            ("y", "yes"),
            ("n", "no"),
            ("?", "not known"),
            ("enter", "go on"),
            ("u", "undo"),
        ],
        Ask::List => &[("enter", "see the list"), ("down", "optional")],
    };
    hints(&[own, &ends].concat())
}

/// The answers to a question after a fact.
fn of_fact(fact: Fact, ends: &[(&str, &'static str)]) -> Vec<Hint> {
    let common = [("enter", "go on"), ("ctrl-z", "undo")];
    if fact == Fact::Holes {
        let own = [("1-9", "how many"), ("u", "not known")];
        return hints(&[&own[..], &common, ends].concat());
    }
    let own = choices(fact).into_iter().map(|choice| Hint {
        key: choice.key.to_string(),
        does: choice.says,
    });
    own.chain(hints(&[&common[..], ends].concat())).collect()
}
