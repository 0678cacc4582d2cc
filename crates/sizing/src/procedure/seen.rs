use super::ObservationKind;
use measurement::{Answer, Regurgitation, Unit};
use std::cmp::Ordering;

/// What was seen, or where a criterion draws its bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seen {
    /// A number in the unit of its kind.
    Value(f64),
    /// A grade.
    Grade(Regurgitation),
    /// A rhythm.
    Rhythm(Rhythm),
    /// Yes or no; unknown: cannot tell.
    Answer(Answer),
}

/// The rhythm with a device open, against that before; the worse ones later.
///
/// A block from a wire or a sheath before any disc was open is no rhythm of a trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Rhythm {
    /// As before.
    AsBefore,
    /// A new right bundle branch block.
    RightBundle,
    /// A new left anterior fascicular block.
    LeftAnteriorFascicle,
    /// Both of these.
    Bifascicular,
    /// A first-degree block, or a PR interval longer by 40 ms.
    FirstDegree,
    /// A junctional rhythm.
    Junctional,
    /// A new complete left bundle branch block.
    LeftBundle,
    /// A second-degree block of type II, even if it passes.
    SecondDegree,
    /// A complete block, even if it passes.
    Complete,
}

impl Rhythm {
    /// Every rhythm, the best first.
    pub const ALL: [Self; 9] = [
        Self::AsBefore,
        Self::RightBundle,
        Self::LeftAnteriorFascicle,
        Self::Bifascicular,
        Self::FirstDegree,
        Self::Junctional,
        Self::LeftBundle,
        Self::SecondDegree,
        Self::Complete,
    ];

    /// The word for it in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AsBefore => "as_before",
            Self::RightBundle => "right_bundle",
            Self::LeftAnteriorFascicle => "left_anterior_fascicle",
            Self::Bifascicular => "bifascicular",
            Self::FirstDegree => "first_degree",
            Self::Junctional => "junctional",
            Self::LeftBundle => "left_bundle",
            Self::SecondDegree => "second_degree",
            Self::Complete => "complete",
        }
    }

    /// Its name in a sentence.
    pub const fn label(self) -> &'static str {
        match self {
            Self::AsBefore => "as before",
            Self::RightBundle => "new right bundle branch block",
            Self::LeftAnteriorFascicle => "new left anterior fascicular block",
            Self::Bifascicular => "new bifascicular block",
            Self::FirstDegree => "first-degree block, or PR longer by 40 ms",
            Self::Junctional => "junctional rhythm",
            Self::LeftBundle => "new left bundle branch block",
            Self::SecondDegree => "second-degree block, type II",
            Self::Complete => "complete block",
        }
    }
}

impl Seen {
    /// Whether it says anything: an answer that cannot be told and an unknown grade do
    /// not.
    pub const fn is_told(self) -> bool {
        !matches!(
            self,
            Self::Answer(Answer::Unknown) | Self::Grade(Regurgitation::Unknown)
        )
    }

    /// How it stands against another of its kind, the worse the greater; `None` where
    /// the two are not of one kind, or one says nothing.
    pub fn against(self, other: Self) -> Option<Ordering> {
        if !self.is_told() || !other.is_told() {
            return None;
        }
        match (self, other) {
            (Self::Value(one), Self::Value(other)) => one.partial_cmp(&other),
            (Self::Grade(one), Self::Grade(other)) => Some(rank(one).cmp(&rank(other))),
            (Self::Rhythm(one), Self::Rhythm(other)) => Some(one.cmp(&other)),
            (Self::Answer(one), Self::Answer(other)) => {
                Some((one == Answer::Yes).cmp(&(other == Answer::Yes)))
            }
            _ => None,
        }
    }

    /// It in words: with its unit, or as a grade or an answer.
    pub fn says(self, kind: ObservationKind) -> String {
        match self {
            Self::Value(value) => {
                let unit = match kind.unit() {
                    Some(Unit::Ratio) | None => "",
                    Some(unit) => unit.symbol(),
                };
                let is_whole = matches!(
                    kind.unit(),
                    Some(Unit::MmHg | Unit::Percent | Unit::Degrees) | None
                );
                let digits = usize::from(!is_whole);
                format!("{value:.digits$} {unit}").trim_end().to_owned()
            }
            Self::Grade(grade) => grade.name().to_owned(),
            Self::Rhythm(rhythm) => rhythm.label().to_owned(),
            Self::Answer(Answer::Unknown) => "cannot tell".to_owned(),
            Self::Answer(answer) => answer.to_string(),
        }
    }
}

/// The place of a grade among all, the best first.
fn rank(grade: Regurgitation) -> usize {
    let mut all = Regurgitation::ALL.into_iter();
    all.position(|one| one == grade).unwrap_or_default()
}
