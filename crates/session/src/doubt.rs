use crate::worker::DoubtResult;
use measurement::{Quantity, ReadingId};
use sizing::Setting;

/// One line of the doubts that can be selected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// One of the two readings furthest apart of a quantity in dispute.
    Disputed(ReadingId, Quantity),
    /// A reading set aside.
    SetAside(ReadingId, Quantity),
    /// A quantity that could change the verdict, or that is worth measuring again.
    Decisive(Quantity),
}

impl Doubt {
    /// The quantity it is about.
    pub const fn quantity(&self) -> Quantity {
        match self {
            Self::Disputed(_, quantity)
            | Self::SetAside(_, quantity)
            | Self::Decisive(quantity) => *quantity,
        }
    }

    /// The reading it is about, where it is about one.
    pub const fn reading(&self) -> Option<&ReadingId> {
        match self {
            Self::Disputed(id, _) | Self::SetAside(id, _) => Some(id),
            Self::Decisive(_) => None,
        }
    }
}

/// Every line: readings in dispute, readings set aside, and the quantities that
/// decide: those with a break-even, the likeliest first, then those that only bring a
/// gain.
pub(crate) fn doubts(setting: &Setting, doubted: Option<&DoubtResult>) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    for disputed in setting.disputed() {
        let dispute = disputed
            .selection()
            .and_then(|it| it.fused.dispute.as_ref());
        for id in dispute.into_iter().flat_map(|it| [&it.first, &it.second]) {
            doubts.push(Doubt::Disputed(id.clone(), disputed.quantity));
        }
    }
    let readings = &setting.case().readings;
    let set_aside = readings.iter().filter(|one| one.set_aside.is_some());
    doubts.extend(set_aside.map(|one| Doubt::SetAside(one.id.clone(), one.quantity)));
    if let Some(doubted) = doubted {
        // What has no end on either side changes nothing.
        let readings = doubted.break_evens.readings.iter();
        let readings = readings.filter(|one| one.ends().next().is_some());
        let mut decisive: Vec<Quantity> = readings.map(|one| one.quantity).collect();
        let gains = doubted.worth.iter().flat_map(|worth| &worth.gains);
        // What brings no more than its error brings nothing.
        let gains = gains.filter(|gain| gain.chance.value > gain.chance.error);
        let gains = gains.map(|gain| gain.quantity);
        let others: Vec<Quantity> = gains.filter(|one| !decisive.contains(one)).collect();
        decisive.extend(others);
        doubts.extend(decisive.into_iter().map(Doubt::Decisive));
    }
    doubts
}
