//! What an edit of a case can have moved.

use crate::outcome::Outcome;
use crate::resolve::Basis;
use crate::{Case, Row, Setting};
use measurement::Quantity;

/// The quantities that stand otherwise in one setting than in another, where nothing else
/// that a row looks at differs.
#[derive(Clone, Debug)]
pub(crate) struct Moved {
    /// By the index of the quantity.
    is_moved: Vec<bool>,
}

impl Moved {
    /// What lies between two settings; `None` where more than readings differs, so that
    /// anything may have moved.
    pub(crate) fn between(before: &Setting, now: &Setting) -> Option<Self> {
        let is_alike = is_alike_but_for_readings(before.case(), now.case())
            && (std::ptr::eq(before.rules(), now.rules()) || before.rules() == now.rules())
            && before.rotated().is_empty() == now.rotated().is_empty()
            && !before.is_weighed()
            && !now.is_weighed();
        is_alike.then(|| {
            let is_moved = Quantity::all().map(|quantity| {
                let index = quantity.index();
                before.resolved()[index] != now.resolved()[index]
                    || !before.joint().is_alike(now.joint(), quantity)
            });
            Self {
                is_moved: is_moved.collect(),
            }
        })
    }

    /// Whether the answer that a row had in the setting before still stands.
    pub(crate) fn leaves(&self, setting: &Setting, row: &Row, before: &Outcome) -> bool {
        let is_same_question = before.check == row.id()
            && before.of == row.of
            && (before.stop, before.caution) == (row.stop, row.caution);
        let was_assessed = before.value.is_some();
        let mut needs = row.needs.iter();
        is_same_question
            && was_assessed
            && row.is_assessed()
            && !needs.any(|&quantity| self.has_moved(setting, quantity))
    }

    /// Whether a quantity, or the one whose value it takes, has moved.
    fn has_moved(&self, setting: &Setting, quantity: Quantity) -> bool {
        self.is_moved[quantity.index()]
            || matches!(setting.basis(quantity), Basis::Follows(other) if self.has_moved(setting, *other))
    }
}

/// Whether two cases ask the same of every size but for what was read in them. What bears
/// on verdicts alone is judged anew for every case.
fn is_alike_but_for_readings(one: &Case, other: &Case) -> bool {
    let Case {
        title: _,
        lesson: _,
        site,
        edge,
        route,
        readings: _,
        absent,
        facts,
        findings: _,
        exclusions: _,
        exceptions: _,
        procedure: _,
    } = one;
    (site, edge, route) == (&other.site, &other.edge, &other.route)
        && (absent, facts) == (&other.absent, &other.facts)
}
