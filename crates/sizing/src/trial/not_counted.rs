use crate::words;
use measurement::Quantity;

/// Why an observation does not weigh the draws; it stays, and its criterion may well
/// count.
#[derive(Clone, Debug, PartialEq)]
pub enum NotCounted {
    /// It was set aside, for a reason.
    SetAside(String),
    /// Nobody could tell.
    CannotTell,
    /// It says nothing of geometry.
    SaysNothing,
    /// A wire or a taut cable tilts the disc.
    Pulled,
    /// The device does not lie where the model lays it.
    OtherSeat,
    /// It slipped: nothing lies that could be looked at.
    Slipped,
    /// Another look at the same thing counts.
    Twice,
    /// The device has no disc there.
    NoDisc,
    /// What it stands on was not measured.
    Unread(Vec<Quantity>),
    /// The rules have no law for it.
    NoLaw,
}

impl NotCounted {
    /// It in words, as the end of a sentence.
    pub fn says(&self) -> String {
        match self {
            Self::SetAside(why) => format!("set aside: {why}"),
            Self::CannotTell => "nobody could tell".to_owned(),
            Self::SaysNothing => "says nothing of geometry".to_owned(),
            Self::Pulled => "not weighed: a wire or a taut cable tilts the disc".to_owned(),
            Self::OtherSeat => "not weighed: it does not lie as modelled".to_owned(),
            Self::Slipped => "not weighed: it slipped".to_owned(),
            Self::Twice => "not counted twice".to_owned(),
            Self::NoDisc => "not weighed: the device has no disc there".to_owned(),
            Self::Unread(missing) => {
                let labels: Vec<&str> = missing.iter().map(|one| one.label()).collect();
                format!("not weighed: not measured: {}", words::list(&labels))
            }
            Self::NoLaw => "not weighed: your centre's rules have no law for it".to_owned(),
        }
    }
}
