use crate::Radians;
use std::f64::consts::TAU;

/// An arc of azimuths from its start on toward v, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Azimuth of the start.
    pub start: Radians,
    /// Width, 0 to a whole turn.
    pub width: Radians,
}

impl Arc {
    const WHOLE: Self = Self {
        start: 0.0,
        width: TAU,
    };

    /// Azimuth of the end; may exceed a whole turn.
    pub fn end(&self) -> Radians {
        self.start + self.width
    }

    /// Whether the arc covers all of `other`.
    pub(super) fn covers(&self, other: &Self) -> bool {
        (other.start - self.start).rem_euclid(TAU) + other.width <= self.width
    }
}

/// A set of azimuths: at most two arcs that do not meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArcSet {
    arcs: [Option<Arc>; 2],
}

impl ArcSet {
    /// The set without any azimuth.
    pub(crate) const EMPTY: Self = Self { arcs: [None, None] };

    /// The set of all azimuths.
    pub const WHOLE: Self = Self {
        arcs: [Some(Arc::WHOLE), None],
    };

    /// The azimuths within `half_width` of a hinge. At most two valves stand on
    /// a face: hinges after the second are not looked at.
    pub fn about(hinges: &[Radians], half_width: Radians) -> Self {
        if half_width < 0.0 {
            return Self::EMPTY;
        }
        let width = 2.0 * half_width;
        let arc = |hinge: Radians| Arc {
            start: (hinge - half_width).rem_euclid(TAU),
            width,
        };
        match *hinges {
            [] => Self::EMPTY,
            [hinge] => Self::one(arc(hinge)),
            [first, second, ..] => Self::union(arc(first), arc(second)),
        }
    }

    /// The azimuths not in this set, and the ends of its arcs.
    #[must_use]
    pub fn complement(&self) -> Self {
        let gap = |arc: Arc, next: Arc| {
            let start = arc.end().rem_euclid(TAU);
            Arc {
                start,
                width: (next.start - start).rem_euclid(TAU),
            }
        };
        match self.arcs {
            [None, None] => Self::WHOLE,
            [Some(arc), None] | [None, Some(arc)] if arc.width >= TAU => Self::EMPTY,
            [Some(arc), None] | [None, Some(arc)] => {
                let start = arc.end().rem_euclid(TAU);
                Self {
                    arcs: [
                        Some(Arc {
                            start,
                            width: TAU - arc.width,
                        }),
                        None,
                    ],
                }
            }
            [Some(first), Some(second)] => Self {
                arcs: [Some(gap(first, second)), Some(gap(second, first))],
            },
        }
    }

    /// Whether an azimuth is in the set.
    pub fn contains(&self, azimuth: Radians) -> bool {
        let place = Arc {
            start: azimuth,
            width: 0.0,
        };
        self.arcs().any(|arc| arc.covers(&place))
    }

    /// Its only azimuth; `None` where it has none, or more than one.
    pub(super) fn only(&self) -> Option<Radians> {
        let mut arcs = self.arcs();
        match (arcs.next(), arcs.next()) {
            (Some(arc), None) if arc.width == 0.0 => Some(arc.start),
            _ => None,
        }
    }

    /// The arcs of the set.
    pub fn arcs(&self) -> impl Iterator<Item = Arc> {
        self.arcs.into_iter().flatten()
    }

    fn one(arc: Arc) -> Self {
        if arc.width >= TAU {
            Self::WHOLE
        } else {
            Self {
                arcs: [Some(arc), None],
            }
        }
    }

    /// Both arcs, which are equally wide, as one where they meet.
    fn union(first: Arc, second: Arc) -> Self {
        let width = first.width;
        // From start to start, each way round.
        let ahead = (second.start - first.start).rem_euclid(TAU);
        let behind = TAU - ahead;
        match (ahead <= width, behind <= width) {
            (true, true) => Self::WHOLE,
            (true, false) => Self::one(Arc {
                start: first.start,
                width: ahead + width,
            }),
            (false, true) => Self::one(Arc {
                start: second.start,
                width: behind + width,
            }),
            (false, false) => Self {
                arcs: [Some(first), Some(second)],
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::degrees;
    use proptest::prelude::*;

    fn widths(set: &ArcSet) -> Vec<i64> {
        #[expect(clippy::cast_possible_truncation, reason = "whole degrees below 361")]
        set.arcs()
            .map(|arc| arc.width.to_degrees().round() as i64)
            .collect()
    }

    fn about(hinges: &[f64]) -> ArcSet {
        let hinges: Vec<Radians> = hinges.iter().map(|&hinge| degrees(hinge)).collect();
        ArcSet::about(&hinges, degrees(45.0))
    }

    #[test]
    fn hinges_apart_give_arcs_apart() {
        assert_eq!(widths(&about(&[])), []);
        assert_eq!(widths(&about(&[0.0])), [90]);
        assert_eq!(widths(&about(&[0.0, 180.0])), [90, 90]);
        assert_eq!(widths(&about(&[0.0, 180.0]).complement()), [90, 90]);
        assert_eq!(widths(&about(&[0.0]).complement()), [270]);
    }

    #[test]
    fn arcs_that_meet_are_one() {
        for hinges in [
            [0.0, 60.0],
            [60.0, 0.0],
            [330.0, 30.0],
            [30.0, 330.0],
            [-30.0, 390.0],
        ] {
            assert_eq!(widths(&about(&hinges)), [150]);
            assert_eq!(widths(&about(&hinges).complement()), [210]);
        }
        assert_eq!(widths(&about(&[20.0, 20.0])), [90]);
        let wide = ArcSet::about(&[0.0, degrees(180.0)], degrees(100.0));
        assert_eq!(wide, ArcSet::WHOLE);
        assert_eq!(wide.complement(), ArcSet::EMPTY);
        assert_eq!(ArcSet::EMPTY.complement(), ArcSet::WHOLE);
        assert_eq!(ArcSet::about(&[1.0], 4.0), ArcSet::WHOLE);
        assert_eq!(ArcSet::about(&[1.0], -0.1), ArcSet::EMPTY);
    }

    proptest! {
        #[test]
        fn an_azimuth_is_within_or_without(
            first in -7.0..7.0_f64, second in -7.0..7.0_f64, half in 0.0..3.2_f64,
            azimuth in -7.0..7.0_f64,
        ) {
            let set = ArcSet::about(&[first, second], half);
            let off = |hinge: Radians| {
                let turn = (azimuth - hinge).rem_euclid(TAU);
                turn.min(TAU - turn) - half
            };
            let outside = off(first).min(off(second));
            // Away from the ends, which belong to both.
            prop_assume!(outside.abs() > 1e-9);
            prop_assert_eq!(set.contains(azimuth), outside < 0.0);
            prop_assert_eq!(set.complement().contains(azimuth), outside > 0.0);
        }
    }

    /// An arc has both its ends, and arcs that only touch are one.
    #[test]
    fn ends_belong_to_an_arc() {
        let arc = |start, width| Arc { start, width };
        assert!(arc(1.0, 0.5).covers(&arc(1.0, 0.5)));
        assert!(arc(1.0, 0.5).covers(&arc(1.5, 0.0)));
        assert!(!arc(1.0, 0.5).covers(&arc(1.25, 0.5)));
        for hinges in [[1.0, 2.0], [2.0, 1.0]] {
            let touching = ArcSet::about(&hinges, 0.5);
            let arcs: Vec<Arc> = touching.arcs().collect();
            assert_eq!(arcs, [arc(0.5, 2.0)], "{hinges:?}");
        }
        assert_eq!(ArcSet::about(&[1.0], 0.5 * TAU), ArcSet::WHOLE);
    }

    /// A hinge is where it is, however many turns it was counted with.
    #[test]
    fn a_turn_more_or_less_changes_nothing() {
        for turns in [-2.0, -1.0, 1.0, 3.0] {
            for hinge in [0.2, 2.5, 6.0] {
                let [once, again] = [hinge, hinge + turns * TAU]
                    .map(|hinge| ArcSet::about(&[hinge], 0.4).arcs().next().expect("an arc"));
                assert!((once.start - again.start).abs() < 1e-12, "{hinge} {turns}");
                assert!((0.0..TAU).contains(&again.start));
            }
        }
        // The rest of two arcs begins within a turn as well.
        for gap in ArcSet::about(&[6.1, 3.0], 0.4).complement().arcs() {
            assert!((0.0..TAU).contains(&gap.start), "{gap:?}");
        }
    }
}
