use crate::{Corrected, Fused, Method, Modality, Phase, Reading, ReadingId, Side, fuse};
use std::collections::BTreeMap;

/// What readings must share to be like: only like readings are fused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct GroupKey {
    /// On which side of the wall.
    pub side: Side,
    /// When in the cycle.
    pub phase: Phase,
    /// Between what.
    pub method: Method,
}

/// Groups of like readings that a house rule accepts at one place of its list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GroupPattern {
    /// Sides; empty: any.
    pub sides: Vec<Side>,
    /// Phases; empty: any.
    pub phases: Vec<Phase>,
    /// Methods; empty: any.
    pub methods: Vec<Method>,
}

impl GroupPattern {
    /// Whether a group of this key is accepted.
    pub fn accepts(&self, key: &GroupKey) -> bool {
        fn any_or_among<T: PartialEq>(accepted: &[T], one: &T) -> bool {
            accepted.is_empty() || accepted.contains(one)
        }
        any_or_among(&self.sides, &key.side)
            && any_or_among(&self.phases, &key.phase)
            && any_or_among(&self.methods, &key.method)
    }
}

/// Which of several unlike groups serves, where one pattern accepts them all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choose {
    /// The one with the largest value.
    Largest,
    /// The one with the smallest value.
    Smallest,
}

/// The house rule by which a quantity takes its value from unlike readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preference {
    /// Patterns, the preferred first; the first that accepts any group serves.
    pub patterns: Vec<GroupPattern>,
    /// Which of the groups it accepts.
    pub choose: Choose,
}

/// One fused reading's part in the value.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// The image it was read on.
    pub image: Option<String>,
    /// How it was taken.
    pub modality: Modality,
    /// Its weight in the fusion.
    pub weight: f64,
    /// Its standard deviation before the fusion.
    pub sd: f64,
}

/// The group of like readings that serves for a quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct Selection {
    /// What its readings share.
    pub key: GroupKey,
    /// Its value.
    pub fused: Fused,
    /// Its readings.
    pub used: Vec<ReadingId>,
    /// Their parts, in the same order.
    pub terms: Vec<Term>,
    /// Place of the pattern in the rule's list: 0 the preferred one, more where
    /// a fallback serves.
    pub place: usize,
    /// The unlike groups left out, to be shown as disagreement.
    pub others: Vec<(GroupKey, Fused)>,
}

impl Selection {
    /// Share of each modality in the value: how far its scale error moves it.
    pub fn scale_shares(&self) -> Vec<(Modality, f64)> {
        let mut shares = BTreeMap::new();
        for term in &self.terms {
            *shares.entry(term.modality).or_insert(0.0) += term.weight;
        }
        shares.into_iter().collect()
    }
}

/// The readings of one quantity in groups of like ones, each fused. Readings set
/// aside are left out.
pub fn like_groups(readings: &[Corrected], dispute_limit: f64) -> Vec<(GroupKey, Fused)> {
    groups(readings, dispute_limit)
        .into_iter()
        .map(|group| (group.key, group.fused))
        .collect()
}

/// The group that a house rule takes for a quantity, from the readings of that
/// quantity; readings set aside are left out.
///
/// `None` where no pattern accepts any group: [`like_groups`] then says what was
/// read and not used. Of groups with the same value the first key serves.
pub fn select<'a>(
    readings: &'a [Corrected<'a>],
    preference: &Preference,
    dispute_limit: f64,
) -> Option<Selection> {
    let mut groups = groups(readings, dispute_limit);
    let (place, chosen) = preference
        .patterns
        .iter()
        .enumerate()
        .find_map(|(place, pattern)| Some((place, choose(&groups, pattern, preference.choose)?)))?;
    let group = groups.remove(chosen);
    Some(Selection {
        key: group.key,
        used: group
            .readings
            .iter()
            .map(|reading| reading.reading.id.clone())
            .collect(),
        terms: group
            .readings
            .iter()
            .zip(&group.fused.weights)
            .map(|(reading, &weight)| Term {
                image: reading.reading.image.clone(),
                modality: reading.reading.modality,
                weight,
                sd: reading.sd,
            })
            .collect(),
        fused: group.fused,
        place,
        others: groups
            .into_iter()
            .map(|group| (group.key, group.fused))
            .collect(),
    })
}

struct Group<'a> {
    key: GroupKey,
    readings: Vec<Corrected<'a>>,
    fused: Fused,
}

fn groups<'a>(readings: &[Corrected<'a>], dispute_limit: f64) -> Vec<Group<'a>> {
    let mut alike: BTreeMap<GroupKey, Vec<Corrected<'a>>> = BTreeMap::new();
    for corrected in readings
        .iter()
        .filter(|corrected| corrected.reading.set_aside.is_none())
    {
        let &Reading {
            side,
            phase,
            method,
            ..
        } = corrected.reading;
        alike
            .entry(GroupKey {
                side,
                phase,
                method,
            })
            .or_default()
            .push(*corrected);
    }
    alike
        .into_iter()
        .filter_map(|(key, readings)| {
            let fused = fuse(&readings, dispute_limit)?;
            Some(Group {
                key,
                readings,
                fused,
            })
        })
        .collect()
}

/// Place of the accepted group with the largest or smallest value.
fn choose(groups: &[Group], pattern: &GroupPattern, choose: Choose) -> Option<usize> {
    groups
        .iter()
        .enumerate()
        .filter(|(_, group)| pattern.accepts(&group.key))
        .min_by(|(_, a), (_, b)| {
            let rising = a.fused.value.total_cmp(&b.fused.value);
            match choose {
                Choose::Largest => rising.reverse(),
                Choose::Smallest => rising,
            }
        })
        .map(|(place, _)| place)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fusion::tests::reading;

    fn edge(name: &str, value: f64, phase: Phase) -> Reading {
        Reading {
            value,
            phase,
            ..reading(name)
        }
    }

    fn corrected(readings: &[Reading]) -> Vec<Corrected<'_>> {
        readings
            .iter()
            .map(|reading| Corrected {
                reading,
                value: reading.value,
                sd: 0.5,
            })
            .collect()
    }

    fn edge_to_edge_then_anything() -> Preference {
        Preference {
            patterns: vec![
                GroupPattern {
                    methods: vec![Method::EdgeToEdge],
                    ..GroupPattern::default()
                },
                GroupPattern::default(),
            ],
            choose: Choose::Largest,
        }
    }

    #[test]
    fn unlike_readings_are_never_fused() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            edge("b", 4.0, Phase::EndSystole),
        ];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(selection.used, [ReadingId("a".into())]);
        assert_eq!(selection.fused.value, 5.0);
        assert_eq!(selection.place, 0);
        assert_eq!(selection.others.len(), 1);
        assert_eq!(selection.others[0].0.phase, Phase::EndSystole);
    }

    #[test]
    fn the_smallest_where_the_rule_says_so() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            edge("b", 4.0, Phase::EndSystole),
        ];
        let rule = Preference {
            choose: Choose::Smallest,
            ..edge_to_edge_then_anything()
        };
        let selection = select(&corrected(&readings), &rule, 2.0).unwrap();
        assert_eq!(selection.used, [ReadingId("b".into())]);
    }

    #[test]
    fn a_fallback_serves_and_says_so() {
        let readings = [Reading {
            method: Method::ColourJet,
            ..edge("a", 5.0, Phase::Systole)
        }];
        let rule = edge_to_edge_then_anything();
        assert_eq!(select(&corrected(&readings), &rule, 2.0).unwrap().place, 1);
    }

    #[test]
    fn nothing_serves_where_no_pattern_accepts_and_the_groups_say_what_was_read() {
        let readings = [Reading {
            method: Method::ColourJet,
            ..edge("a", 5.0, Phase::Systole)
        }];
        let mut rule = edge_to_edge_then_anything();
        rule.patterns.truncate(1);
        let corrected = corrected(&readings);
        assert_eq!(select(&corrected, &rule, 2.0), None);
        assert_eq!(like_groups(&corrected, 2.0)[0].0.method, Method::ColourJet);
    }

    #[test]
    fn readings_set_aside_are_left_out() {
        let aside = Reading {
            set_aside: Some("oblique cut".into()),
            ..edge("a", 9.0, Phase::EndDiastole)
        };
        let readings = [aside, edge("b", 5.0, Phase::EndDiastole)];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(selection.fused.value, 5.0);
        assert_eq!(selection.fused.dispute, None);
    }

    #[test]
    fn modalities_share_the_scale_by_weight() {
        let readings = [
            edge("a", 5.0, Phase::EndDiastole),
            Reading {
                modality: Modality::Angiography,
                ..edge("b", 5.0, Phase::EndDiastole)
            },
            edge("c", 5.0, Phase::EndDiastole),
            edge("d", 5.0, Phase::EndDiastole),
        ];
        let selection = select(&corrected(&readings), &edge_to_edge_then_anything(), 2.0).unwrap();
        assert_eq!(
            selection.scale_shares(),
            [
                (Modality::TransthoracicEcho, 0.75),
                (Modality::Angiography, 0.25)
            ]
        );
    }
}
